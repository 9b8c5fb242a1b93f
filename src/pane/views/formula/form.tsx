/** The form of one function, made from its definition alone. */
import { Button, Link, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import { UNIT_SYSTEMS, type Definition, type UnitSystem } from '../../../functions';
import { cellName, rangeName } from '../../../sheet';
import { mark, t, type Marked } from '../../locale';
import { useStore } from '../../shared/store';
import { fieldsOf, foldedFields, takesUnits } from './definitions';
import { Dock } from './dock';
import { Drawing } from './drawing';
import { ArgumentField } from './argument-field';
import type { InsertStore } from './insert-store';
import { Result } from './result';
import { useStyles } from './styles';
import { useStuck } from './use-stuck';

const UNIT_WORDS: Readonly<Record<UnitSystem, Marked>> = { 'in-lb': mark('inch, pound'), 'mm-kg': mark('metric') };

interface Props {
  readonly store: InsertStore;
  readonly definition: Definition;
  readonly helpUrl: ((functionName: string) => string) | undefined;
}

export function Form({ store, definition, helpUrl }: Props) {
  const styles = useStyles();
  const { units, form, status, mend, entries } = useStore(store);
  const body = useRef<HTMLDivElement>(null);
  useEffect(() => body.current?.querySelector<HTMLElement>('input, select')?.focus(), []);

  const stuck = useRef<HTMLDivElement>(null);
  useStuck(body, stuck);

  const { shown, more } = foldedFields(definition);
  const [unfolded, setUnfolded] = useState(more.some(({ name }) => entries[name]));
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && !event.defaultPrevented) store.close();
    if (event.key !== 'F2') return;
    event.preventDefault();
    void store.useSelection();
  };
  return (
    <>
      <div className={styles.bar}>
        <Button
          size="small"
          appearance="subtle"
          className={styles.toList}
          aria-label={t('All functions')}
          title={t('Back to all functions (Esc)')}
          onClick={() => store.close()}
        >
          {t('‹ All')}
        </Button>
        <h2 className={styles.heading}>{definition.name}</h2>
        {takesUnits(definition) && (
          <Select
            size="small"
            className={styles.units}
            aria-label={t('Units')}
            value={units}
            onChange={(_event, { value }) => store.setUnits(value as UnitSystem)}
          >
            {UNIT_SYSTEMS.map((system) => (
              <option key={system} value={system}>
                {t(UNIT_WORDS[system])}
              </option>
            ))}
          </Select>
        )}
      </div>
      <div ref={body} className={styles.body} tabIndex={-1} onKeyDown={onKeyDown}>
        <p className={styles.text}>{definition.summary}</p>
        <div ref={stuck} className={styles.stuck}>
          {form?.figure && <Drawing figure={form.figure} />}
          {status === 'failed' ? (
            <p className={mergeClasses(styles.result, styles.wrong)}>{mend}</p>
          ) : (
            form && <Result key={definition.name} definition={definition} form={form} units={units} />
          )}
          <UseSelection store={store} definition={definition} />
        </div>
        {shown.map((parameter) => (
          <ArgumentField key={parameter.name} store={store} parameter={parameter} />
        ))}
        {more.length > 0 && (
          <Button
            size="small"
            appearance="subtle"
            className={styles.more}
            aria-expanded={unfolded}
            onClick={() => setUnfolded(!unfolded)}
          >
            {unfolded ? t('Fewer') : t('More: {fields}', { fields: more.map(({ name }) => name).join(', ') })}
          </Button>
        )}
        {unfolded &&
          more.map((parameter) => <ArgumentField key={parameter.name} store={store} parameter={parameter} />)}
        <p className={styles.source}>
          {t('From: {source}', { source: definition.source })}
          {helpUrl && (
            <>
              {' · '}
              <Link href={helpUrl(definition.name)} target="_blank" rel="noreferrer" inline>
                {t('About {name}', { name: definition.name })}
              </Link>
            </>
          )}
        </p>
      </div>
      <Dock store={store} />
    </>
  );
}

/** The sheet's selection for the field that is being filled in, and what that field takes. */
function UseSelection({ store, definition }: Pick<Props, 'store' | 'definition'>) {
  const styles = useStyles();
  const { selection, current, units } = useStore(store);
  const field = fieldsOf(definition).find(({ name }) => name === current);
  if (!field) return null;
  return (
    <div className={styles.use}>
      <Button
        size="small"
        className={styles.useButton}
        disabledFocusable={!selection}
        title={t(
          'Use the selection: puts the selected cells of the sheet into the field {field} (F2). F4 in the field fixes them with $.',
          { field: field.name },
        )}
        // The field keeps the focus, and with it the place where typing goes on.
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => void store.useSelection()}
      >
        {selection
          ? t('Use {range} for {field}', {
              range:
                selection.rows * selection.columns === 1
                  ? cellName(selection.row, selection.column)
                  : rangeName(selection),
              field: field.name,
            })
          : t('Use the selection')}
      </Button>
      <span className={styles.limits}>{t('takes {what}', { what: field.takes(units) })}</span>
    </div>
  );
}
