/**
 * A project's components as its own sheets state them: weight, arm, moment, cost, forecast and margin of each, and
 * of all. Weights in pounds, arms in inches, whatever units the sheets are in. What is in error is named and left
 * out, never counted as nothing in silence.
 */
import { TOTAL, type BudgetLine } from '../core/mass';
import { ByName } from '../core/names';
import { CostSum, oneAmount, type Cost, type PriceBook } from '../core/price';
import type { UnitSystem } from '../core/quantity';
import { cellName, textIn } from '../sheet';
import { readComponents } from './components';
import { JOINTS } from './forms';
import { readHardware } from './hardware';
import { COST, NO_COMPONENT, weighedBySize, type PartRow } from './parts';
import { currencyOfItems } from './prices';
import type { Problem, SheetValues } from './reading';
import { keptInUnits, readSheet } from './project-units';
import { placeOfRow, RowReader } from './rows';

export interface ComponentSummary {
  readonly name: string;
  readonly parts: number;
  readonly rivets: number;
  /** As the list has it now, lb. */
  readonly weight: number;
  /** in; undefined where the component weighs nothing, or the arms could not be read */
  readonly arm: number | undefined;
  /** lb·in */
  readonly moment: number;
  /** Undefined where it is incomplete, or in more than one currency: `costs` says which. */
  readonly cost: number | undefined;
  readonly costs: Cost;
  /** Weight with the growth allowance of each part's status, lb. */
  readonly forecast: number;
  /** lb; undefined where the budget does not name it */
  readonly budget: number | undefined;
  /** Budget less forecast, lb; negative is over. */
  readonly margin: number | undefined;
}

export interface ProjectSummary {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  /** In the order of the parts list; then those that the joints and the budget alone name. */
  readonly components: readonly ComponentSummary[];
  readonly total: ComponentSummary;
  /** What the rivets of the joints cost. */
  readonly rivetCosts: Cost;
  /** What the hardware of its own sheet costs. */
  readonly hardwareCosts: Cost;
  /** Rows whose weight is reckoned from material and size, where no cell states it. */
  readonly bySize: number;
  readonly problems: readonly Problem[];
}

class Sum {
  parts = 0;
  rivets = 0;
  weight = 0;
  moment = 0;
  readonly costs = new CostSum();

  merge(other: Sum): void {
    this.parts += other.parts;
    this.rivets += other.rivets;
    this.weight += other.weight;
    this.moment += other.moment;
    this.costs.merge(other.costs);
  }
}

/**
 * Sums a project up from its sheets' values. Rivet weights are not added from the Joints sheet: the
 * parts list carries a row of rivets for each component, so that they are summed once. Their cost is
 * taken from the joints. The sheet Hardware is taken in the same way.
 * @param book the price list, which knows each item's currency; without it there is but one
 * @returns undefined where there is no sheet with the parts list's header
 */
export const summarise = keptInUnits(
  (values: SheetValues, units: UnitSystem, book?: PriceBook): ProjectSummary | undefined => {
    const components = readComponents(values, units);
    if (!components) return undefined;
    const { parts, lines } = components;
    const problems: Problem[] = [...components.problems];
    const sums = new ByName(() => new Sum(), NO_COMPONENT);
    const currencyOf = currencyOfItems(book);
    // Arms whose unit cannot be told are left out, all of them: no balance follows from moments of 0.
    const armed = !parts.form.refused.includes('arm');
    /** Sheets that have no column of arms: said once, and not of each row. */
    const armless = new Set<string>();
    for (const row of parts.rows) {
      addPart(sums.get(row.component), row, currencyOf);
      if (!armed || row.weight === undefined || row.weight === 0 || row.arm !== undefined) continue;
      const { row: line, head } = placeOfRow(parts.form, row.row);
      const { sheet, columns } = head;
      if (columns.arm !== undefined) {
        problems.push({
          sheet,
          cell: cellName(line, columns.arm),
          message: 'has a weight and no arm: its moment is missing from the balance',
        });
      } else if (!armless.has(sheet)) {
        armless.add(sheet);
        problems.push({
          sheet,
          cell: cellName(head.header, Math.min(...Object.values(columns))),
          message: `starts a header without a column Arm: the rows below it are not in the balance`,
        });
      }
    }
    const rivetCosts = addJoints(values, sums, currencyOf, problems);
    const hardwareCosts = addHardware(values, sums, currencyOf);
    for (const { group } of lines) sums.get(group);
    const byName = new Map(lines.map((line) => [sums.get(line.group), line]));
    const all = new Sum();
    const found = sums.entries().map(({ name, value }) => {
      all.merge(value);
      return finish(name, value, byName.get(value), armed);
    });
    return {
      units: parts.units,
      components: found,
      total: finish(TOTAL, all, components.total, armed),
      rivetCosts,
      hardwareCosts,
      bySize: weighedBySize(parts),
      problems,
    };
  },
);

/** Takes a cost into sums: one that is not known makes them incomplete where there is something to pay for. */
export function addCost(sums: readonly CostSum[], cost: number | undefined, currency: string, isOwed: boolean): void {
  for (const sum of sums)
    if (cost !== undefined) sum.add(cost, currency);
    else if (isOwed) sum.addUnpriced();
}

function addPart(sum: Sum, row: PartRow, currencyOf: (item: string) => string): void {
  sum.parts += row.quantity;
  if (row.unpriced) sum.costs.addUnpriced();
  else if (row.cost !== undefined) sum.costs.add(row.cost, currencyOf(row.item));
  if (row.weight === undefined) return;
  sum.weight += row.weight;
  sum.moment += row.weight * (row.arm ?? 0);
}

function addJoints(
  values: SheetValues,
  sums: ByName<Sum>,
  currencyOf: (item: string) => string,
  problems: Problem[],
): Cost {
  const costs = new CostSum();
  const joints = readSheet(values, JOINTS);
  if (!joints) return costs;
  problems.push(...joints.problems);
  const reader = new RowReader(joints, problems);
  for (const row of joints.rows) {
    const sum = sums.get(textIn(row.cells.component));
    const count = reader.number(row, 'count', { takes: 'rivets, 0 or more' });
    sum.rivets += count ?? 0;
    const isOwed = joints.columns.cost !== undefined && (row.cells.cost !== undefined || Boolean(count));
    addCost([sum.costs, costs], reader.number(row, 'cost', COST), currencyOf(textIn(row.cells.rivet)), isOwed);
  }
  return costs;
}

/** Its weight is in the parts list's rows of hardware; what is wrong with it has been named with the components. */
function addHardware(values: SheetValues, sums: ByName<Sum>, currencyOf: (item: string) => string): Cost {
  const costs = new CostSum();
  const hardware = readHardware(values);
  if (!hardware) return costs;
  for (const { component, item, quantity, cost } of hardware.rows) {
    const sum = sums.get(component);
    sum.parts += quantity;
    const isOwed = hardware.form.columns.cost !== undefined && quantity > 0;
    addCost([sum.costs, costs], cost, currencyOf(item), isOwed);
  }
  return costs;
}

const finish = (
  name: string,
  { parts, rivets, weight, moment, costs }: Sum,
  line: BudgetLine | undefined,
  armed: boolean,
): ComponentSummary => ({
  name,
  parts,
  rivets,
  weight,
  moment,
  arm: weight === 0 || !armed ? undefined : moment / weight,
  cost: oneAmount(costs),
  costs: { amounts: costs.amounts, unpriced: costs.unpriced },
  forecast: line?.forecast ?? 0,
  budget: line?.budget,
  margin: line?.margin,
});
