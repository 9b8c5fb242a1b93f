/** The roll-up as text for a terminal and as JSON for a script. */
import type { ComponentSummary, ProjectSummary } from '../workbook';

const CAUTION = 'An estimate is not a weighing. Loading limits come from the aircraft’s own documents.';

interface Column {
  readonly head: string;
  readonly unit: string;
  readonly cell: (one: ComponentSummary) => string;
}

const fixed = (value: number | undefined, places: number): string =>
  value === undefined ? '' : value.toLocaleString('en-US', { minimumFractionDigits: places, maximumFractionDigits: places });
const margin = (one: ComponentSummary): number | undefined => (one.budget === undefined ? undefined : one.budget - one.weight);

const COLUMNS: readonly Column[] = [
  { head: 'Parts', unit: '', cell: (one) => fixed(one.parts, 0) },
  { head: 'Rivets', unit: '', cell: (one) => fixed(one.rivets, 0) },
  { head: 'Weight', unit: 'lb', cell: (one) => fixed(one.weight, 3) },
  { head: 'Arm', unit: 'in', cell: (one) => fixed(one.arm, 2) },
  { head: 'Moment', unit: 'lb·in', cell: (one) => fixed(one.moment, 1) },
  { head: 'Cost', unit: '', cell: (one) => fixed(one.cost, 2) },
  { head: 'Budget', unit: 'lb', cell: (one) => fixed(one.budget, 2) },
  { head: 'Margin', unit: 'lb', cell: (one) => fixed(margin(one), 2) },
];

/** The components as an aligned table with units, then what is in error. */
export function reportText(title: string, { components, total, problems }: ProjectSummary): string {
  const lines = [...components, total];
  const columns = total.budget === undefined ? COLUMNS.filter(({ head }) => head !== 'Budget' && head !== 'Margin') : COLUMNS;
  const first = Math.max('Component'.length, ...lines.map((one) => one.name.length));
  const widths = columns.map(({ head, unit, cell }) => Math.max(head.length, unit.length, ...lines.map((one) => cell(one).length)));
  const row = (name: string, cells: readonly string[]): string => [name.padEnd(first), ...cells.map((cell, index) => cell.padStart(widths[index]!))].join('  ').trimEnd();
  const rule = '─'.repeat(first + widths.reduce((sum, width) => sum + width + 2, 0));
  const text = [
    title,
    '',
    row('Component', columns.map(({ head }) => head)),
    row('', columns.map(({ unit }) => unit)),
    rule,
    ...components.map((one) => row(one.name, columns.map(({ cell }) => cell(one)))),
    rule,
    row(total.name, columns.map(({ cell }) => cell(total))),
    '',
    CAUTION,
  ];
  if (problems.length > 0) text.push('', `${problems.length} ${problems.length === 1 ? 'cell is' : 'cells are'} not counted:`, ...problems.map(({ sheet, cell, message }) => `  ${sheet}!${cell} ${message}`));
  return text.join('\n');
}

/** The same as plain data: weights in lb, arms in in, moments in lb·in. */
export function reportJson(title: string, { components, total, problems }: ProjectSummary): string {
  const plain = (one: ComponentSummary) => ({
    name: one.name,
    parts: one.parts,
    rivets: one.rivets,
    weight: one.weight,
    arm: one.arm ?? null,
    moment: one.moment,
    cost: one.cost,
    budget: one.budget ?? null,
    margin: margin(one) ?? null,
  });
  return JSON.stringify({ title, units: { weight: 'lb', arm: 'in', moment: 'lb·in' }, components: components.map(plain), total: plain(total), problems, caution: CAUTION }, null, 2);
}
