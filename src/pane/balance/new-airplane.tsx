/** Adding an airplane's sheets, or one that it has not got. */
import { Button, Field, Input, Select } from '@fluentui/react-components';
import { useState, type FormEvent } from 'react';
import type { Gear } from '../../core/balance';
import { GEARS, USUAL_STATIONS, type BalanceModel } from '../../workbook';
import { refusal } from '../refusal';
import type { BalanceStore } from './balance-store';
import { exampleSheets, missingSheet, type NewSheets, type SheetKind } from './new-sheets';
import { useStyles } from './styles';

async function add(store: BalanceStore, label: string, make: () => Promise<NewSheets>): Promise<boolean> {
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

export function NewAirplane({ store, first, onClosed }: { readonly store: BalanceStore; readonly first: boolean; onClosed(): void }) {
  const styles = useStyles();
  const [gear, setGear] = useState<Gear>('nosewheel');
  const [name, setName] = useState('');
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const called = name.trim();
    if (!first && called === '') return store.tell('failed', 'Give the airplane a name: it stands behind the names of its sheets.');
    if (!(await add(store, 'Add an airplane', () => exampleSheets(store.pane.workbook, called, gear)))) return;
    store.choose(Math.max(0, store.state.models.findIndex(({ sheets }) => sheets.name === called)));
    store.open('balance-weighing');
    onClosed();
  };
  return (
    <form className={styles.section} onSubmit={(event) => void submit(event)} noValidate aria-labelledby="balance-new">
      <h2 id="balance-new" className={styles.heading}>
        {first ? 'No airplane in this workbook yet' : 'Another airplane'}
      </h2>
      <p className={styles.text}>Four sheets hold it, where you can read and change everything without this pane, too: Weighing, Loading, Envelope and Cases. They come with an invented example, marked so, to be written over.</p>
      <div className={styles.choice}>
        <Field size="small" label="Gear" className={styles.choiceField}>
          <Select size="small" className={styles.input} value={gear} onChange={(_event, { value }) => setGear(value as Gear)}>
            {GEARS.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </Select>
        </Field>
        {!first && (
          <Field size="small" label="Name" className={styles.choiceField}>
            <Input size="small" className={styles.input} value={name} autoComplete="off" onChange={(_event, { value }) => setName(value)} />
          </Field>
        )}
      </div>
      <div className={styles.buttons}>
        <Button appearance="primary" type="submit">
          Add the sheets
        </Button>
        {!first && <Button onClick={onClosed}>Close</Button>}
      </div>
    </form>
  );
}

const MISSING: Readonly<Record<SheetKind, { readonly title: string; readonly text: string }>> = {
  weighing: { title: 'No weighing yet', text: 'The sheet takes the scale readings, tares and arms; the empty weight follows from them.' },
  loading: { title: 'No loading yet', text: 'The sheet takes the stations with their arms and ranges, and what is loaded at each.' },
  envelope: { title: 'No envelope yet', text: 'The sheet takes the corners of the allowed weights and arms, from the aircraft’s own documents.' },
  cases: { title: 'No cases yet', text: 'The sheet keeps loadings under a name, a column for each station.' },
};

/** What a section shows whose sheet is not there. */
export function MissingSheet({ store, model, kind, sheet }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly kind: SheetKind; readonly sheet: string | undefined }) {
  const styles = useStyles();
  const { title, text } = MISSING[kind];
  const stations = model.stations.length > 0 ? model.stations : USUAL_STATIONS;
  const make = (): Promise<boolean> => add(store, `Add the sheet of ${kind}`, () => missingSheet(store.pane.workbook, kind, { name: model.sheets.name, gear: model.weighing?.record.gear ?? 'nosewheel', stations }));
  return (
    <section className={styles.section} aria-labelledby={`balance-missing-${kind}`}>
      <h2 id={`balance-missing-${kind}`} className={styles.heading}>
        {title}
      </h2>
      {sheet === undefined ? (
        <>
          <p className={styles.text}>{text}</p>
          <Button appearance="primary" onClick={() => void make()}>
            Add the sheet
          </Button>
        </>
      ) : (
        <p className={styles.text}>The sheet {sheet} lacks the headers of this form, or has no rows that can be read: {text.charAt(0).toLowerCase() + text.slice(1)}</p>
      )}
    </section>
  );
}
