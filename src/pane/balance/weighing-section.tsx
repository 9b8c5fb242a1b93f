/** The airplane on its scales: facts, points, corrections, and the empty weight that follows. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { CORRECTIONS, findFact, GEARS, readForm, WEIGHING, WEIGHING_FACTS, type BalanceModel, type Weighing } from '../../workbook';
import type { CellKind } from '../cell-text';
import { printPaper } from '../paper';
import { Problems } from '../problems';
import { refusal } from '../refusal';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { FormTable, type TableColumn } from './form-table';
import { bare, inches, moment, percent, pounds } from './numbers';
import { takeRowEdits } from './row-edits';
import { useStyles } from './styles';
import { RECORD_STYLES, recordBody, recordPage } from './weighing-record';

type FactKey = keyof typeof WEIGHING_FACTS;

const FACTS: readonly (readonly [FactKey, CellKind])[] = [['airplane', 'text'], ['date', 'date'], ['gear', 'text'], ['lemac', 'number'], ['mac', 'number'], ['level', 'text'], ['scales', 'text']];
const WIDE: ReadonlySet<FactKey> = new Set(['airplane', 'level', 'scales']);

const POINTS: readonly TableColumn<'point' | 'reading' | 'tare' | 'net' | 'arm' | 'moment'>[] = [
  { key: 'point', head: 'Point', kind: 'text', width: '34%', line: true },
  { key: 'reading', head: 'Scale reading, lb', kind: 'number', width: '23%' },
  { key: 'tare', head: 'Tare, lb', kind: 'number', width: '20%' },
  { key: 'arm', head: 'Arm, in', kind: 'number', width: '23%' },
];
const CORRECTED: readonly TableColumn<'correction' | 'weight' | 'arm' | 'moment'>[] = [
  { key: 'correction', head: 'What', kind: 'text', width: '50%', line: true },
  { key: 'weight', head: 'Weight, lb', kind: 'number', width: '25%' },
  { key: 'arm', head: 'Arm, in', kind: 'number', width: '25%' },
];

export function WeighingSection({ store, model, weighing }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly weighing: Weighing }) {
  const styles = useStyles();
  const { sheet } = weighing;
  const values = store.state.sheets.values(sheet) ?? [];
  const corrections = readForm(CORRECTIONS, values, sheet);
  const points = readForm(WEIGHING, corrections ? values.slice(0, corrections.header) : values, sheet);
  if (!points) return null;
  // The line above the corrections says what they are, and is no point.
  const limit = corrections ? corrections.header - 1 : Infinity;
  const pointRows = points.rows.filter(({ row, cells }) => row < limit || cells.reading !== undefined).map(({ row }) => row);
  const text = (row: number, column: number | undefined): string => (column === undefined ? '' : String(store.cell(sheet, row, column) ?? ''));
  const number = (row: number, column: number | undefined): number | undefined => {
    const cell = column === undefined ? null : store.cell(sheet, row, column);
    return typeof cell === 'number' ? cell : undefined;
  };
  const pointLine = (row: number): string => {
    const [reading, arm] = [number(row, points.columns.reading), number(row, points.columns.arm)];
    if (reading === undefined || arm === undefined) return 'not weighed yet';
    const net = reading - (number(row, points.columns.tare) ?? 0);
    return `net ${pounds(net)} · moment ${moment(net * arm)}`;
  };
  const correctionLine = (row: number): string => {
    const [weight, arm] = [number(row, corrections?.columns.weight), number(row, corrections?.columns.arm)];
    return weight === undefined || arm === undefined ? '' : `${weight < 0 ? 'taken off' : 'added'} · moment ${moment(weight * arm)}`;
  };

  return (
    <>
      <Result store={store} weighing={weighing} />
      <section className={styles.section} aria-label="Facts of the weighing">
        <div className={styles.facts}>
          {FACTS.map(([key, kind]) => {
            const fact = findFact(values.slice(0, points.header), WEIGHING_FACTS[key]);
            if (!fact) return null;
            return (
              <div key={key} className={WIDE.has(key) ? styles.wide : undefined}>
                <CellField store={store} sheet={sheet} row={fact.row} column={fact.column} kind={kind} label={WEIGHING_FACTS[key]} shownLabel={WEIGHING_FACTS[key]} lines={WIDE.has(key)} {...(key === 'gear' ? { choices: GEARS } : {})} {...(key === 'date' ? { placeholder: 'YYYY-MM-DD' } : {})} />
              </div>
            );
          })}
        </div>
      </section>
      <section className={styles.section} aria-labelledby="balance-points">
        <h2 id="balance-points" className={styles.heading}>
          On the scales
        </h2>
        <FormTable
          store={store}
          form={WEIGHING}
          found={points}
          columns={POINTS}
          rows={pointRows}
          limit={limit}
          addLabel="Add point"
          nameOf={(row) => text(row, points.columns.point)}
          below={pointLine}
          remove={(row) => takeRowEdits(WEIGHING, points, store.state.sheets, row, pointRows.at(-1)!)}
        />
      </section>
      {corrections && (
        <section className={styles.section} aria-labelledby="balance-corrections">
          <h2 id="balance-corrections" className={styles.heading}>
            Corrections
          </h2>
          <p className={styles.text}>Negative for what was aboard and does not belong to the empty weight, positive for what was absent and does.</p>
          <FormTable
            store={store}
            form={CORRECTIONS}
            found={corrections}
            columns={CORRECTED}
            rows={corrections.rows.map(({ row }) => row)}
            addLabel="Add correction"
            nameOf={(row) => text(row, corrections.columns.correction)}
            below={correctionLine}
            remove={(row) => takeRowEdits(CORRECTIONS, corrections, store.state.sheets, row, corrections.rows.at(-1)!.row)}
          />
        </section>
      )}
      <Problems store={store} problems={model.problems.filter((problem) => problem.sheet === sheet)} />
    </>
  );
}

function Result({ store, weighing }: { readonly store: BalanceStore; readonly weighing: Weighing }) {
  const styles = useStyles();
  const { result, problems } = weighing;
  const today = store.pane.today();
  const body = recordBody(weighing, today);
  const print = (): void => {
    try {
      if (body !== undefined) printPaper(body, 'record', RECORD_STYLES);
    } catch (error) {
      store.tell('failed', `Printing was refused here: save the record instead, and print it from a browser. ${refusal(error)}`);
    }
  };
  const save = (): void => {
    if (body === undefined) return;
    const name = `weighing-${weighing.record.date ?? today}.html`;
    store.pane.saveFile(name, recordPage(body, `Weighing record ${weighing.airplane}`.trim()));
    store.tell('done', `Saved the record as ${name}.`);
  };
  if (!result) {
    return (
      <section className={styles.section} aria-labelledby="balance-empty">
        <h2 id="balance-empty" className={styles.heading}>
          Not weighed yet
        </h2>
        <p className={styles.text}>Type a scale reading and an arm for each point; empty weight and arm follow at once.</p>
      </section>
    );
  }
  return (
    <section className={styles.section} aria-labelledby="balance-empty">
      <h2 id="balance-empty" className={styles.heading}>
        Empty: {pounds(result.weight)} at {inches(result.arm)}
        {result.percentMac !== undefined && `, ${percent(result.percentMac)} MAC`}
      </h2>
      <table className={mergeClasses(styles.table, styles.results)}>
        <thead>
          <tr>
            <th scope="col">
              <span className={styles.spoken}>Stage</span>
            </th>
            <th scope="col" data-number="">
              Weight, lb
            </th>
            <th scope="col" data-number="">
              Arm, in
            </th>
            <th scope="col" data-number="">
              Moment, lb·in
            </th>
          </tr>
        </thead>
        <tbody>
          {([['As weighed', result.asWeighed], ['Corrected', result]] as const).map(([label, sum]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td data-number="">{bare(sum.weight, 1)}</td>
              <td data-number="">{bare(sum.arm, 2)}</td>
              <td data-number="">{bare(sum.moment, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {problems.length > 0 && <p className={mergeClasses(styles.quiet, styles.wrong)}>{problems.length === 1 ? 'One cell below is to be mended first.' : `${problems.length} cells below are to be mended first.`}</p>}
      <div className={styles.buttons}>
        <Button size="small" onClick={print}>
          Print record
        </Button>
        <Button size="small" onClick={save}>
          Save record
        </Button>
      </div>
    </section>
  );
}
