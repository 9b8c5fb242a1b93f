/** The corners of the envelope, as the aircraft's own documents give them, and their picture. */
import { useCallback, useMemo } from 'react';
import { envelopePicture, type PictureOptions } from '../../pictures';
import { percentOfChord } from '../../report';
import { ENVELOPE, ENVELOPE_SOURCE, findFact, type BalanceModel, type EnvelopeSheet } from '../../workbook';
import { Picture } from '../picture';
import { Problems } from '../problems';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { FormTable, type TableColumn } from './form-table';
import { inches, pounds } from './numbers';
import { takeRowEdits } from './row-edits';
import { useStyles } from './styles';

const CORNERS: readonly TableColumn<'arm' | 'weight' | 'note'>[] = [
  { key: 'arm', head: 'Arm, in', kind: 'number', width: '25%' },
  { key: 'weight', head: 'Weight, lb', kind: 'number', width: '25%' },
  { key: 'note', head: 'Note', kind: 'text', width: '50%', line: true },
];

export function EnvelopeSection({ store, model, envelopeSheet }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly envelopeSheet: EnvelopeSheet }) {
  const styles = useStyles();
  const { form, envelope } = envelopeSheet;
  const values = store.state.sheets.values(form.sheet) ?? [];
  const from = findFact(values.slice(0, form.header), ENVELOPE_SOURCE);
  const rows = form.rows.map(({ row }) => row);
  const toPercent = useMemo(() => percentOfChord(model), [model]);
  const draw = useCallback((options: PictureOptions) => envelopePicture({ envelope: envelope!, cases: [], ...(toPercent ? { toPercent } : {}) }, options), [envelope, toPercent]);
  const corner = (row: number): string => `corner ${rows.indexOf(row) + 1 || rows.length + 1}`;
  return (
    <>
      <section className={styles.section} aria-labelledby="balance-corners">
        <h2 id="balance-corners" className={styles.heading}>
          {envelope ? `${pounds(envelope.weights.from)} to ${pounds(envelope.weights.to)}, ${inches(envelope.arms.from)} to ${inches(envelope.arms.to)}` : 'No envelope yet'}
        </h2>
        <p className={styles.text}>Copy the corners from the aircraft’s own documents, in order around the envelope, either way. Its edges and corners count as inside.</p>
        {from && <CellField store={store} sheet={form.sheet} row={from.row} column={from.column} kind="text" label={ENVELOPE_SOURCE} shownLabel="Limits from (document and page)" lines />}
        <FormTable store={store} form={ENVELOPE} found={form} columns={CORNERS} rows={rows} addLabel="Add corner" nameOf={corner} remove={(row) => takeRowEdits(ENVELOPE, form, store.state.sheets, row, rows.at(-1)!)} />
      </section>
      {envelope && (
        <section className={styles.section} aria-label="Picture of the envelope">
          <Picture draw={draw} />
        </section>
      )}
      <Problems store={store} problems={model.problems.filter(({ sheet }) => sheet === form.sheet)} />
    </>
  );
}
