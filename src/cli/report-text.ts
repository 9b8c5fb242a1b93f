/** The roll-up as text for a terminal and as JSON for a script, both in the units of the workbook. */
import { costText } from '../core/price';
import { quantities, type Dimension, type Quantities } from '../core/quantity';
import {
  bySizeSentence,
  NOTHING_RESTS,
  restingSentence,
  restsOn,
  type ComponentSummary,
  type ProjectSummary,
  type Resting,
} from '../project';

const CAUTION = 'An estimate is not a weighing. Loading limits come from the aircraft’s own documents.';

/** What the columns of weights are. */
const MARGIN = 'Margin is budget less forecast; now is what the list weighs today.';

interface Column {
  readonly head: string;
  readonly unit: string;
  readonly cell: (one: ComponentSummary) => string;
}

function columnsIn(say: Quantities, budgeted: boolean): Column[] {
  const number = (head: string, places: number, value: (one: ComponentSummary) => number): Column => ({
    head,
    unit: '',
    cell: (one) => say.write(value(one), places),
  });
  const quantity = (
    head: string,
    dimension: Dimension,
    places: number,
    value: (one: ComponentSummary) => number | undefined,
  ): Column => ({
    head,
    unit: say.sign(dimension),
    cell(one) {
      const found = value(one);
      return found === undefined ? '' : say.bare(found, dimension, places);
    },
  });
  return [
    number('Parts', 0, (one) => one.parts),
    number('Rivets', 0, (one) => one.rivets),
    quantity('Now', 'weight', 3, (one) => one.weight),
    quantity('Arm', 'length', 2, (one) => one.arm),
    quantity('Moment', 'moment', 1, (one) => one.moment),
    { head: 'Cost', unit: '', cell: (one) => costText(one.costs, say.write) },
    ...(budgeted
      ? [
          quantity('Forecast', 'weight', 2, (one) => one.forecast),
          quantity('Budget', 'weight', 2, (one) => one.budget),
          quantity('Margin', 'weight', 2, (one) => one.margin),
        ]
      : []),
  ];
}

/** The components as an aligned table with units, then what is in error. */
export function reportText(
  title: string,
  { units, components, total, bySize, problems }: ProjectSummary,
  resting: Resting = NOTHING_RESTS,
): string {
  const lines = [...components, total];
  const columns = columnsIn(quantities(units), total.budget !== undefined);
  const label = ({ name }: ComponentSummary): string =>
    restsOn(name, total.name, resting) ? `${name} (not recalculated)` : name;
  const first = Math.max('Component'.length, ...lines.map((one) => label(one).length));
  const widths = columns.map(({ head, unit, cell }) =>
    Math.max(head.length, unit.length, ...lines.map((one) => cell(one).length)),
  );
  const row = (name: string, cells: readonly string[]): string =>
    [name.padEnd(first), ...cells.map((cell, index) => cell.padStart(widths[index]!))].join('  ').trimEnd();
  const rule = '─'.repeat(first + widths.reduce((sum, width) => sum + width + 2, 0));
  const text = [
    title,
    '',
    row(
      'Component',
      columns.map(({ head }) => head),
    ),
    row(
      '',
      columns.map(({ unit }) => unit),
    ),
    rule,
    ...components.map((one) =>
      row(
        label(one),
        columns.map(({ cell }) => cell(one)),
      ),
    ),
    rule,
    row(
      label(total),
      columns.map(({ cell }) => cell(total)),
    ),
    '',
    ...(total.budget === undefined ? [] : [MARGIN]),
    ...(bySize === 0 ? [] : [bySizeSentence(bySize)]),
    CAUTION,
  ];
  if (resting.marked.length > 0)
    text.push('', 'Not recalculated:', ...resting.marked.map((one) => `  ${restingSentence(one)}`));
  if (problems.length > 0)
    text.push(
      '',
      `${problems.length} ${problems.length === 1 ? 'cell' : 'cells'} to fix:`,
      ...problems.map(({ sheet, cell, message }) => `  ${sheet}!${cell} ${message}`),
    );
  return text.join('\n');
}

/** The same as plain data; which unit each figure is in, `units` says. */
export function reportJson(
  title: string,
  { units, components, total, bySize, problems }: ProjectSummary,
  resting: Resting = NOTHING_RESTS,
): string {
  const say = quantities(units);
  const shown = (value: number | undefined, dimension: Dimension): number | null =>
    value === undefined ? null : say.to(value, dimension);
  const plain = (one: ComponentSummary) => ({
    name: one.name,
    ...(restsOn(one.name, total.name, resting) ? { notRecalculated: true } : {}),
    parts: one.parts,
    rivets: one.rivets,
    weight: shown(one.weight, 'weight'),
    arm: shown(one.arm, 'length'),
    moment: shown(one.moment, 'moment'),
    cost: one.cost ?? null,
    costs: one.costs.amounts,
    unpriced: one.costs.unpriced,
    forecast: shown(one.forecast, 'weight'),
    budget: shown(one.budget, 'weight'),
    margin: shown(one.margin, 'weight'),
  });
  return JSON.stringify(
    {
      title,
      units: { weight: say.sign('weight'), arm: say.sign('length'), moment: say.sign('moment') },
      components: components.map(plain),
      total: plain(total),
      reckonedBySize: bySize,
      problems,
      notRecalculated: resting.marked.map(restingSentence),
      caution: CAUTION,
    },
    null,
    2,
  );
}
