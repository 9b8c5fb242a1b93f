/** Keeps a loading as a case under a name. */
import { sameName } from '../../../core/names';
import { Button, Field, Input } from '@fluentui/react-components';
import { useState, type FormEvent } from 'react';
import { caseEdits, type CasesSheet } from '../../../project';
import { t } from '../../locale';
import type { BalanceStore } from './balance-store';
import { useStyles } from './styles';

export function SaveCase({
  store,
  casesSheet,
  loads,
}: {
  readonly store: BalanceStore;
  readonly casesSheet: CasesSheet;
  readonly loads: readonly number[];
}) {
  const styles = useStyles();
  const [name, setName] = useState('');
  const known = casesSheet.cases.some((one) => sameName(one.name, name));
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const kept = name.trim();
    if (kept === '') return store.tell('failed', t('Give the case a name first.'));
    const wrong = await store.change(
      t('Save the case {name}', { name: kept }),
      caseEdits(casesSheet, kept, loads),
      known ? t('Replaced the case {name}.', { name: kept }) : t('Saved the case {name}.', { name: kept }),
    );
    if (wrong === undefined) setName('');
  };
  return (
    <form className={styles.choice} onSubmit={(event) => void save(event)} noValidate>
      <Field
        size="small"
        label={t('Save the loads now as a case named')}
        className={styles.grow}
        hint={known ? t('A case has this name. It will be replaced.') : undefined}
      >
        <Input
          size="small"
          className={styles.input}
          value={name}
          autoComplete="off"
          onChange={(_event, { value }) => setName(value)}
        />
      </Field>
      <Button size="small" type="submit">
        {t('Save case')}
      </Button>
    </form>
  );
}
