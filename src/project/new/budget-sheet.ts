/** The edits that fill the sheet Budget: design weights, and beside them everything summed up by component. */
import { fromInch, labelIn, type Dimension, type UnitSystem } from '../../core/quantity';
import { TOTAL } from '../../core/mass';
import { BUDGET } from '../forms';
import { chartOf } from './budget-chart';
import {
  CAUTION,
  formatIn,
  labelsOf,
  labelWidth,
  lookOf,
  LOOKS,
  SheetPlan,
  type FilledSheet,
  type SummedColumns,
} from './plan';
import { columnRange, ifAll, unitsArgument } from './formula-terms';
import { INCOMPLETE, priceColumn } from '../../core/price';
import { PRICE_TABLE } from '../prices';

/** Rows of the two headers, from 1: the sums begin beside the typed header, which nobody deletes with the examples. */
const SUMS_HEADER = 5;
const HEADER = 6;
const FIRST = HEADER + 1;
/** Components that there is room for. */
const ROWS = 30;

interface NewBudget {
  readonly units: UnitSystem;
  readonly examples: boolean;
  /** Without it there is nothing to sum. */
  readonly parts: SummedColumns | undefined;
  /** Lists beside the parts whose cost counts: joints, hardware. */
  readonly others: readonly (SummedColumns | undefined)[];
  /** True where the table of prices says a currency with each price. */
  readonly hasCurrencies: boolean;
}

/** Component and design weight, lb. */
const EXAMPLES: readonly (readonly [string, number])[] = [
  ['Ribs', 4],
  ['Spar', 0.6],
  ['Skins', 8.5],
];

/** The first label is not the form's "Component": by that the typed columns are found. */
const SUMS: readonly { readonly label: string; readonly dimension?: Dimension; readonly numberFormat?: string }[] = [
  { label: 'By component' },
  { label: 'Now (lb)', dimension: 'weight', numberFormat: '0.000' },
  { label: 'Forecast (lb)', dimension: 'weight', numberFormat: '0.000' },
  { label: 'Budget (lb)', dimension: 'weight', numberFormat: '0.00' },
  { label: 'Margin (lb)', dimension: 'weight', numberFormat: '0.00' },
  { label: 'Margin (%)', numberFormat: '0.0' },
  { label: 'Weighed (%)', numberFormat: '0.0' },
  { label: 'Arm (in)', dimension: 'length' },
  { label: 'Moment (lb·in)', dimension: 'moment' },
  { label: 'Cost', numberFormat: '#,##0.00' },
];

/** Fills an empty sheet Budget. */
export function newBudgetSheet({ units, examples, parts, others, hasCurrencies }: NewBudget): FilledSheet {
  const last = HEADER + ROWS;
  const labels = labelsOf(BUDGET, units);
  const plan = new SheetPlan(BUDGET.sheet)
    .heading('Against the design weight', [
      'Type the components and their design weights. Forecast is the weight now and a growth allowance by status, a practice borrowed from spacecraft.',
      examples
        ? `Rows ${FIRST} to ${HEADER + EXAMPLES.length} are invented examples, as the parts are: write over them.`
        : 'A component that the parts list names is summed up here as soon as it has a weight.',
      CAUTION,
    ])
    .header(HEADER - 1, labels)
    .look(`A${FIRST}:A${last}`, 'text')
    .as(`B${FIRST}:B${last}`, { ...LOOKS.text, numberFormat: '0.00' });
  if (examples)
    plan.rows(
      FIRST - 1,
      EXAMPLES.map(([component, pounds]) => [component, Number(fromInch(pounds, 'weight', units).toPrecision(12))]),
    );
  if (parts) addSums(plan, units, { parts, others, hasCurrencies });
  plan.widths([
    16,
    Math.max(12, labelWidth(labels[1]!)),
    3,
    ...(parts ? sumLabels(units).map((label, index) => Math.max(index === 0 ? 16 : 11, labelWidth(label))) : []),
  ]);
  return {
    edits: plan.edits(false),
    exampleRows: examples ? EXAMPLES.length : 0,
    typed: `A${FIRST}:B${last}`,
    first: { sheet: BUDGET.sheet, row: FIRST - 1, column: 0, rows: 1, columns: 1 },
  };
}

const sumLabels = (units: UnitSystem): string[] => SUMS.map(({ label, dimension }) => labelIn(label, units, dimension));
const letter = (index: number): string => String.fromCharCode('D'.charCodeAt(0) + index);

function addSums(
  plan: SheetPlan,
  units: UnitSystem,
  { parts, others, hasCurrencies }: Pick<NewBudget, 'others' | 'hasCurrencies'> & { readonly parts: SummedColumns },
): void {
  const last = HEADER + ROWS;
  plan
    .row(SUMS_HEADER - 1, sumLabels(units), 3)
    .look(`D${SUMS_HEADER}:${letter(SUMS.length - 1)}${SUMS_HEADER}`, 'header');
  SUMS.forEach(({ dimension, numberFormat = formatIn(dimension, units) }, index) => {
    if (numberFormat !== undefined)
      plan.as(`${letter(index)}${HEADER}:${letter(index)}${last}`, lookOf({ computed: true }, units, numberFormat));
  });
  plan.chart(
    chartOf(plan.sheet, {
      header: SUMS_HEADER - 1,
      last: last - 1,
      column: 3,
      right: 3 + SUMS.length - 1,
      weight: sumLabels(units)[1]!,
    }),
  );
  const all = (from: SummedColumns, column: string): string => columnRange(from.sheet, column, from.first, from.last);
  plan.formula(
    HEADER - 1,
    3,
    `TARE.BUDGET(${all(parts, parts.component)},${all(parts, parts.weight)},${parts.status === undefined ? '' : all(parts, parts.status)},$A$${FIRST}:$A$${last},$B$${FIRST}:$B$${last}${unitsArgument(units, 1)})`,
  );
  for (let row = HEADER; row <= last; row++) {
    const [name, weight, moment] = [`D${row}`, `E${row}`, `L${row}`];
    const sum = (from: SummedColumns, column: string): string =>
      `IF(${name}="${TOTAL}",SUM(${all(from, column)}),SUMIFS(${all(from, column)},${all(from, from.component)},${name}))`;
    plan
      .formula(row - 1, 10, ifAll([weight], `IF(${weight}=0,"",${moment}/${weight})`))
      .formula(row - 1, 11, ifAll([name], sum(parts, parts.moment)));
    const priced = [parts, ...others].flatMap((from) =>
      from?.cost === undefined ? [] : [{ ...from, cost: from.cost }],
    );
    if (priced.length > 0) plan.formula(row - 1, 12, ifAll([name], costOf(name, priced, hasCurrencies)));
  }
}

/** A criterion that every number meets, and neither a text nor an error does. */
const ANY_NUMBER = '"<1E+300"';

/** What is shown in the place of a cost that would add up two currencies. */
const SEVERAL = 'several currencies';

/**
 * The cost of a component, or of all: "incomplete" where one of its costs is neither a number nor blank, as the pane and
 * the report say it, and no sum where prices are in more than one currency.
 */
function costOf(
  name: string,
  lists: readonly (SummedColumns & { readonly cost: string })[],
  hasCurrencies: boolean,
): string {
  const each = (write: (costs: string, components: string) => string): string =>
    lists
      .map((from) => {
        const all = (column: string): string => columnRange(from.sheet, column, from.first, from.last);
        return write(all(from.cost), all(from.component));
      })
      .join('+');
  const missing = each(
    (costs, components) =>
      `IF(${name}="${TOTAL}",ROWS(${costs})-COUNTIF(${costs},${ANY_NUMBER})-COUNTIF(${costs},""),COUNTIF(${components},${name})-COUNTIFS(${components},${name},${costs},${ANY_NUMBER})-COUNTIFS(${components},${name},${costs},""))`,
  );
  const sum = each(
    (costs, components) => `IF(${name}="${TOTAL}",SUM(${costs}),SUMIFS(${costs},${components},${name}))`,
  );
  const cost = `IF(${missing}>0,"${INCOMPLETE}",${sum})`;
  if (!hasCurrencies) return cost;
  const [items, currencies] = [priceColumn('item'), priceColumn('currency')].map(
    ({ label }) => `${PRICE_TABLE}[${label}]`,
  ) as [string, string];
  const others = `COUNTIF(${items},"?*")>COUNTIFS(${items},"?*",${currencies},INDEX(${currencies},1)&"")`;
  return `IF(${others},"${SEVERAL}",${cost})`;
}
