/**
 * The one roll-up of a project: its parts by component with growth by status, against the budget. The summary,
 * the weights and what is printed all show these lines.
 */
import { budget, isWeighed, TOTAL, type BudgetLine } from '../core/mass';
import { ByName } from '../core/names';
import type { UnitSystem } from '../core/quantity';
import { askedThicknesses } from './asked';
import { allowanceOf, readGrowthAllowances, type ProjectAllowances } from './allowances';
import { BUDGET } from './forms';
import { readParts, type PartRow, type PartsList } from './parts';
import { once } from './once';
import type { Problem, SheetValues } from './problems';
import { readSheet, unitsOfProject } from './project-units';
import { POUNDS, RowReader } from './row-reader';
import { readHardware } from './hardware';
import { missingRows, type MissingRows } from './rivet-rows';
import { textIn } from '../sheet';
import { namesToldApart } from './told-apart';

export type WeighingRow = PartRow & { readonly weight: number };

export interface Components {
  readonly parts: PartsList;
  /** The rows that have a weight, with a status that the allowances know. */
  readonly known: readonly WeighingRow[];
  readonly allowances: ProjectAllowances;
  /** One line for each component: first those of the budget in its order, then the others in the order of the parts list. */
  readonly lines: readonly BudgetLine[];
  /** The sum of all lines. Its budget is undefined where there is no budget. */
  readonly total: BudgetLine;
  /** Components whose rivets or hardware have cost on their own sheet and no weight in the parts list. */
  readonly missing: readonly MissingRows[];
  /** Problems of the parts list, the allowances and the budget. */
  readonly problems: readonly Problem[];
}

/** The roll-up; undefined where no sheet has the parts list's header. */
export function readComponents(values: SheetValues, units = unitsOfProject(values)): Components | undefined {
  return once(values, componentsOf, units);
}

function componentsOf(values: SheetValues, units: UnitSystem): Components | undefined {
  const parts = readParts(values, units);
  if (!parts) return undefined;
  const allowances = readGrowthAllowances(values);
  const problems: Problem[] = [];
  const known = parts.rows
    .filter((row): row is WeighingRow => row.weight !== undefined)
    .map((row) => ({ ...row, status: knownStatus(row, parts, allowances, problems) }));
  const goals = readGoals(values, parts, problems);
  const lines = budget(
    known.map(({ component, weight, status }) => ({ group: component, weight, status })),
    goals,
    allowances.list,
  );
  const total = lines.at(-1)!;
  const missing = missingRows(values, parts);
  const hardware = readHardware(values)?.problems ?? [];
  return {
    parts,
    known,
    allowances,
    lines: lines.slice(0, -1),
    total:
      goals.length > 0
        ? total
        : { ...total, group: TOTAL, budget: undefined, margin: undefined, marginPercent: undefined },
    missing,
    problems: [
      ...parts.problems,
      ...problems,
      ...allowances.problems,
      ...hardware,
      ...missing.map(({ problem }) => problem),
      ...askedThicknesses(values),
      ...namesToldApart(values, parts.form),
    ],
  };
}

/** A status that the allowances do not hold counts as "estimated", and is named. */
function knownStatus(row: WeighingRow, { form }: PartsList, { list }: ProjectAllowances, problems: Problem[]): string {
  const reader = new RowReader(form, problems);
  const place = { row: row.row, cells: {} };
  if (row.weighed !== undefined && !isWeighed(row.status))
    reader.problem(place, 'status', `is "${row.status}" though the row has been weighed: growth is still added to it`);
  if (row.status === '' || allowanceOf(row.status, list) !== undefined) return row.status;
  reader.problem(
    place,
    'status',
    `got "${row.status}"; takes ${list.map(({ status }) => status).join(', ')}. It counts as estimated`,
  );
  return '';
}

/** The components' names as the parts list spells them. */
function readGoals(values: SheetValues, { rows }: PartsList, problems: Problem[]): { group: string; weight: number }[] {
  const form = readSheet(values, BUDGET);
  if (!form) return [];
  problems.push(...form.problems);
  const reader = new RowReader(form, problems);
  const names = new ByName((name) => name);
  for (const { component } of rows) names.get(component);
  return form.rows.flatMap((row) => {
    const group = textIn(row.cells.component);
    const weight = group === '' ? undefined : reader.needed(row, 'budget', POUNDS);
    return weight === undefined ? [] : [{ group: names.get(group), weight }];
  });
}
