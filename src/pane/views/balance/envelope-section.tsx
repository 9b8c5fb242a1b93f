/** The corners of the envelope, as the aircraft's own documents give them, and their picture. */
import { useCallback, useMemo } from 'react';
import { envelopePicture, type PictureOptions } from '../../../pictures';
import { percentOfChord } from '../../../report';
import { ENVELOPE, ENVELOPE_SOURCE, findFact, type BalanceModel, type EnvelopeSheet } from '../../../project';
import { mark, t } from '../../locale';
import { Picture } from '../../shared/picture';
import { Problems } from '../../shared/cell-list';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { FormTable, type TableColumn } from './form-table';
import { figuresIn } from './balance-numbers';
import { takeRowEdits } from './row-edits';
import { useStyles } from './styles';

const CORNERS: readonly TableColumn<'arm' | 'weight' | 'note'>[] = [
  { key: 'arm', head: mark('Arm'), kind: 'number', width: '25%' },
  { key: 'weight', head: mark('Weight'), kind: 'number', width: '25%' },
  { key: 'note', head: mark('Note'), kind: 'text', width: '50%', line: true },
];

export function EnvelopeSection({
  store,
  model,
  envelopeSheet,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly envelopeSheet: EnvelopeSheet;
}) {
  const styles = useStyles();
  const { form, envelope } = envelopeSheet;
  const values = store.state.sheets.values(form.sheet) ?? [];
  const from = findFact(values.slice(0, form.header), ENVELOPE_SOURCE);
  const rows = form.rows.map(({ row }) => row);
  const say = figuresIn(model.units);
  const toPercent = useMemo(() => percentOfChord(model), [model]);
  const draw = useCallback(
    (options: PictureOptions) =>
      envelopePicture(
        {
          envelope: envelope!,
          cases: [],
          quantities: figuresIn(model.units).quantities,
          ...(toPercent ? { toPercent } : {}),
        },
        options,
      ),
    [envelope, toPercent, model],
  );
  const corner = (row: number): string =>
    t('corner {number, number}', { number: rows.indexOf(row) + 1 || rows.length + 1 });
  return (
    <>
      <section className={styles.section} aria-labelledby="balance-corners">
        <h2 id="balance-corners" className={styles.heading}>
          {envelope
            ? t('{lightest} to {heaviest}, {forward} to {aft}', {
                lightest: say.weight(envelope.weights.from),
                heaviest: say.weight(envelope.weights.to),
                forward: say.arm(envelope.arms.from),
                aft: say.arm(envelope.arms.to),
              })
            : t('No envelope yet')}
        </h2>
        <p className={styles.text}>
          {t(
            'Copy the corners from the aircraft’s own documents, in order around the envelope, either way. Its edges and corners count as inside.',
          )}
        </p>
        {from && (
          <CellField
            store={store}
            sheet={form.sheet}
            row={from.row}
            column={from.column}
            kind="text"
            label={ENVELOPE_SOURCE}
            shownLabel={t('Limits from (document and page)')}
            lines
          />
        )}
        <FormTable
          store={store}
          form={ENVELOPE}
          found={form}
          columns={CORNERS}
          rows={rows}
          addLabel={t('Add corner')}
          nameOf={corner}
          remove={(row) => takeRowEdits(ENVELOPE, form, store.state.sheets, row, rows.at(-1)!)}
        />
      </section>
      {envelope && (
        <section className={styles.section} aria-label={t('Picture of the envelope')}>
          <Picture draw={draw} />
        </section>
      )}
      <Problems store={store} problems={model.problems.filter(({ sheet }) => sheet === form.sheet)} />
    </>
  );
}
