/**
 * A project's components as its own sheets state them: weight, arm, moment and cost of each, and of all.
 * Weights in pounds, arms in inches, whatever units the sheets are in. What is in error is named and left out,
 * never counted as nothing in silence.
 */
import type { UnitSystem } from '../core/quantity';
import { CellError, cellName } from '../sheet';
import { BUDGET, JOINTS, PARTS } from './forms';
import { NO_COMPONENT } from './parts';
import type { Problem, SheetValues } from './problems';
import { readSheet, unitsOfProject } from './project-units';
import { numberIn, textIn, type FormRow, type FormSheet } from './rows';

export interface ComponentSummary {
  readonly name: string;
  readonly parts: number;
  readonly rivets: number;
  /** lb */
  readonly weight: number;
  /** in; undefined where the component weighs nothing, or the arms could not be read */
  readonly arm: number | undefined;
  /** lb·in */
  readonly moment: number;
  readonly cost: number;
  /** lb; undefined where the budget does not name it */
  readonly budget: number | undefined;
}

export interface ProjectSummary {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  readonly components: readonly ComponentSummary[];
  readonly total: ComponentSummary;
  readonly problems: readonly Problem[];
}

interface Sum {
  parts: number;
  rivets: number;
  weight: number;
  moment: number;
  cost: number;
}

/**
 * Sums a project up from its sheets' values. Rivet weights are not added from the Joints sheet: the
 * parts list carries a row of rivets for each component, so that they are summed once. Their cost is
 * taken from the joints.
 * @returns undefined where there is no sheet with the parts list's header
 */
export function summarise(values: SheetValues, units = unitsOfProject(values)): ProjectSummary | undefined {
  const parts = readSheet(values, PARTS);
  if (!parts) return undefined;
  const joints = readSheet(values, JOINTS);
  const budget = readSheet(values, BUDGET);
  const problems: Problem[] = [parts, joints, budget].flatMap((sheet) => sheet?.problems ?? []);
  const sums = new Map<string, Sum>();
  const sumOf = (name: string): Sum => {
    const key = name || NO_COMPONENT;
    let sum = sums.get(key);
    if (!sum) sums.set(key, (sum = { parts: 0, rivets: 0, weight: 0, moment: 0, cost: 0 }));
    return sum;
  };

  for (const row of parts.rows) addPart(sumOf(textIn(row.cells.component)), row, parts, problems);
  for (const row of joints?.rows ?? []) {
    const sum = sumOf(textIn(row.cells.component));
    sum.rivets += numberOr(row, 'count', joints!, problems) ?? 0;
    sum.cost += numberOr(row, 'cost', joints!, problems) ?? 0;
  }

  // Arms whose unit cannot be told are left out, all of them: no balance follows from moments of 0.
  const armed = !parts.refused.includes('arm');
  const budgets = new Map(
    (budget?.rows ?? []).map((row) => [textIn(row.cells.component).toLowerCase(), numberIn(row.cells.budget)]),
  );
  const components = [...sums].map(([name, sum]) => finish(name, sum, budgets.get(name.toLowerCase()), armed));
  const all = [...sums.values()].reduce((total, sum) => add(total, sum), {
    parts: 0,
    rivets: 0,
    weight: 0,
    moment: 0,
    cost: 0,
  });
  const budgeted = components.flatMap((component) => component.budget ?? []);
  const total = finish(
    'Total',
    all,
    budgeted.length > 0 ? budgeted.reduce((sum, one) => sum + one, 0) : undefined,
    armed,
  );
  return { units, components, total, problems };
}

function addPart(
  sum: Sum,
  row: FormRow<(typeof PARTS.columns)[number]['key']>,
  sheet: FormSheet<(typeof PARTS.columns)[number]['key']>,
  problems: Problem[],
): void {
  sum.parts += numberIn(row.cells.quantity) ?? 1;
  sum.cost += numberOr(row, 'cost', sheet, problems) ?? 0;
  const weight = numberOr(row, 'weight', sheet, problems);
  if (weight === undefined) return;
  sum.weight += weight;
  const arm = numberOr(row, 'arm', sheet, problems);
  if (arm !== undefined) sum.moment += weight * arm;
  else if (weight !== 0 && !sheet.refused.includes('arm'))
    problems.push({
      sheet: sheet.sheet,
      cell: cellName(row.row, sheet.columns.arm ?? 0),
      message: 'has a weight and no arm: its moment is missing from the balance',
    });
}

/** The number in a column of a row; an error or text there is named among the problems. */
function numberOr<K extends string>(
  row: FormRow<K>,
  key: K,
  sheet: FormSheet<K>,
  problems: Problem[],
): number | undefined {
  const cell = row.cells[key];
  if (typeof cell === 'number' || cell === undefined) return cell;
  const message =
    cell instanceof CellError
      ? `is ${cell.code} and is left out of the sum${cell.message ? `: ${cell.message}` : ''}`
      : `holds no number ("${String(cell)}") and is left out of the sum`;
  problems.push({ sheet: sheet.sheet, cell: cellName(row.row, sheet.columns[key] ?? 0), message });
  return undefined;
}

const add = (a: Sum, b: Sum): Sum => ({
  parts: a.parts + b.parts,
  rivets: a.rivets + b.rivets,
  weight: a.weight + b.weight,
  moment: a.moment + b.moment,
  cost: a.cost + b.cost,
});

const finish = (name: string, sum: Sum, budget: number | undefined, armed: boolean): ComponentSummary => ({
  name,
  ...sum,
  arm: sum.weight === 0 || !armed ? undefined : sum.moment / sum.weight,
  budget,
});
