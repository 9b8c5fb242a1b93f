/** Adding an airplane's sheets, or one that it has not got. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import { useState, type FormEvent } from 'react';
import type { Gear } from '../../../core/balance';
import type { UnitSystem } from '../../../core/quantity';
import { GEARS, USUAL_STATIONS, type BalanceModel } from '../../../project';
import { mark, SYSTEMS, t, type Marked } from '../../locale';
import { refusal } from '../../shared/refusal';
import type { BalanceStore } from './balance-store';
import { exampleSheets, missingSheet, type NewSheets, type SheetKind } from './new-sheets';
import { useStyles } from './styles';

/** Adds sheets as one step; false where it is refused, and said why. */
export async function addSheets(store: BalanceStore, label: string, make: () => Promise<NewSheets>): Promise<boolean> {
  try {
    const { edits, added } = await make();
    const wrong = await store.change(label, edits);
    if (wrong === undefined) store.sayAdded(added);
    return wrong === undefined;
  } catch (error) {
    store.tell('failed', refusal(error));
    return false;
  }
}

export function NewAirplane({
  store,
  first,
  onClosed,
}: {
  readonly store: BalanceStore;
  readonly first: boolean;
  onClosed(): void;
}) {
  const styles = useStyles();
  const [gear, setGear] = useState<Gear>('nosewheel');
  const [name, setName] = useState('');
  const [chosen, setChosen] = useState(store.state.units);
  // Nothing of the workbook says its units yet: these sheets will.
  const free = first && !store.state.parts;
  const units = free ? chosen : store.state.units;
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const called = name.trim();
    if (!first && called === '')
      return store.tell('failed', t('Give the airplane a name. It goes at the end of its sheets’ names.'));
    if (!(await addSheets(store, t('Add an airplane'), () => exampleSheets(store.pane.workbook, called, gear, units))))
      return;
    store.choose(
      Math.max(
        0,
        store.state.models.findIndex(({ sheets }) => sheets.name === called),
      ),
    );
    store.open('balance-weighing');
    onClosed();
  };
  return (
    <form className={styles.section} onSubmit={(event) => void submit(event)} noValidate aria-labelledby="balance-new">
      <h2 id="balance-new" className={styles.heading}>
        {first ? t('No airplane in this workbook yet') : t('Another airplane')}
      </h2>
      <p className={styles.text}>
        {t(
          'It is kept on four sheets, where you can read and change everything without this pane: Weighing, Loading, Envelope and Cases. They come with an invented example, marked so. Type over it.',
        )}
      </p>
      <div className={styles.choice}>
        <Field size="small" label={t('Gear')} className={styles.choiceField}>
          <Select
            size="small"
            className={styles.input}
            value={gear}
            onChange={(_event, { value }) => setGear(value as Gear)}
          >
            {GEARS.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </Select>
        </Field>
        {free && (
          <Field size="small" label={t('Units')} className={styles.choiceField}>
            <Select
              size="small"
              className={styles.input}
              value={units}
              onChange={(_event, { value }) => setChosen(value as UnitSystem)}
            >
              {SYSTEMS.map(({ units: system, label }) => (
                <option key={system} value={system}>
                  {t(label)}
                </option>
              ))}
            </Select>
          </Field>
        )}
        {!first && (
          <Field size="small" label={t('Name')} className={styles.choiceField}>
            <Input
              size="small"
              className={styles.input}
              value={name}
              autoComplete="off"
              onChange={(_event, { value }) => setName(value)}
            />
          </Field>
        )}
      </div>
      <div className={styles.buttons}>
        <Button appearance="primary" type="submit">
          {t('Add the sheets')}
        </Button>
        {!first && <Button onClick={onClosed}>{t('Close')}</Button>}
      </div>
    </form>
  );
}

const MISSING: Readonly<Record<SheetKind, { readonly title: Marked; readonly text: Marked; readonly step: Marked }>> = {
  weighing: {
    title: mark('No weighing yet'),
    text: mark('The sheet takes the scale readings, tares and arms; the empty weight follows from them.'),
    step: mark('Add the sheet of the weighing'),
  },
  loading: {
    title: mark('No loading yet'),
    text: mark('The sheet takes the stations with their arms and ranges, and what is loaded at each.'),
    step: mark('Add the sheet of the loading'),
  },
  envelope: {
    title: mark('No envelope yet'),
    text: mark('The sheet takes the corners of the allowed weights and arms, from the aircraft’s own documents.'),
    step: mark('Add the sheet of the envelope'),
  },
  cases: {
    title: mark('No cases yet'),
    text: mark('The sheet keeps loadings under a name, a column for each station.'),
    step: mark('Add the sheet of the cases'),
  },
};

/** What a section shows whose sheet is not there. */
export function MissingSheet({
  store,
  model,
  kind,
  sheet,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly kind: SheetKind;
  readonly sheet: string | undefined;
}) {
  const styles = useStyles();
  const { title, text, step } = MISSING[kind];
  const make = async (): Promise<unknown> => {
    // Its formulas reckon with the cells of the airplane's other sheets as they stand there.
    if (model.sheetUnits === 'both')
      return store.tell(
        'failed',
        t('The sheets of this airplane mix inch-pound and metric units. Use one system in their labels first.'),
      );
    const airplane = {
      name: model.sheets.name,
      gear: model.weighing?.record.gear ?? 'nosewheel',
      stations: model.stations.length > 0 ? model.stations : USUAL_STATIONS,
      units: model.sheetUnits,
    };
    return addSheets(store, t(step), () => missingSheet(store.pane.workbook, kind, airplane));
  };
  return (
    <section className={styles.section} aria-labelledby={`balance-missing-${kind}`}>
      <h2 id={`balance-missing-${kind}`} className={styles.heading}>
        {t(title)}
      </h2>
      {sheet === undefined ? (
        <>
          <p className={styles.text}>{t(text)}</p>
          <Button appearance="primary" onClick={() => void make()}>
            {t('Add the sheet')}
          </Button>
        </>
      ) : (
        <p className={styles.text}>
          {t('The sheet {sheet} has no headers of this form, or no rows that can be read.', { sheet })} {t(text)}
        </p>
      )}
    </section>
  );
}
