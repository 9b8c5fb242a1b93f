/** The corners of the envelope, as the aircraft's own documents give them, and their picture. */
import { envelopePicture, type EnvelopePictureData } from '../../../pictures';
import {
  ENVELOPE,
  ENVELOPE_SOURCE,
  findFact,
  type BalanceModel,
  type EnvelopeSheet,
  type JudgedCase,
} from '../../../project';
import { percentOfChord } from '../../../report';
import { mark, t } from '../../locale';
import { Picture, type PictureProps } from '../../shared/picture';
import { Problems } from '../../shared/cell-list';
import type { BalanceStore } from './balance-store';
import { figuresIn, limitsCaution, pictureCase } from './balance-words';
import { CellField, FormTable, type TableColumn } from './form-fields';
import { takeRowEdits } from './edits';
import { useStyles } from './styles';

const CORNERS: readonly TableColumn<'arm' | 'weight' | 'note'>[] = [
  { key: 'arm', head: mark('Arm'), kind: 'number', width: '25%' },
  { key: 'weight', head: mark('Weight'), kind: 'number', width: '25%' },
  { key: 'note', head: mark('Note'), kind: 'text', width: '50%', line: true },
];

export function EnvelopeSection({
  store,
  model,
  envelopeSheet: { form, envelope },
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly envelopeSheet: EnvelopeSheet;
}) {
  const styles = useStyles();
  const from = findFact((store.state.sheets.values(form.sheet) ?? []).slice(0, form.header), ENVELOPE_SOURCE);
  const rows = form.rows.map(({ row }) => row);
  const say = figuresIn(model.units);
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
          <EnvelopePicture model={model} envelope={envelope} cases={[]} />
        </section>
      )}
      <Problems store={store} problems={model.problems.filter(({ sheet }) => sheet === form.sheet)} />
    </>
  );
}

/** Loadings over an envelope, with a second axis in per cent of the chord where that is known. */
export function EnvelopePicture({
  model,
  cases,
  onPick,
  ...shown
}: {
  readonly model: BalanceModel;
  readonly cases: readonly JudgedCase[];
} & Pick<EnvelopePictureData, 'envelope' | 'reach' | 'title'> &
  Pick<PictureProps, 'onPick'>) {
  const toPercent = percentOfChord(model);
  const data = {
    ...shown,
    cases: cases.map((one) => pictureCase(one, model.units)),
    quantities: figuresIn(model.units).quantities,
    ...(toPercent ? { toPercent } : {}),
  };
  return <Picture draw={(options) => envelopePicture(data, options)} {...(onPick ? { onPick } : {})} />;
}

/** The standing caution, with the document that the sheet names. */
export function LimitsFrom({ model }: { readonly model: BalanceModel }) {
  const styles = useStyles();
  const from = model.envelopeSheet?.limitsFrom;
  return (
    <p className={styles.quiet}>
      {from
        ? t('Limits from: {document}.', { document: from })
        : t('The sheet does not say which document the limits are from.')}{' '}
      {limitsCaution()}
    </p>
  );
}
