/**
 * The one roll-up of a project: its parts by component with growth by status, against the budget. The summary,
 * the weights and what is printed all show these lines. Beside it the project's own growth allowances; where it has
 * none, the core's, which are another industry's.
 */
import {
  budget,
  GROWTH_ALLOWANCES,
  growthAllowance,
  isWeighed,
  TOTAL,
  type Allowance,
  type BudgetLine,
} from '../core/mass';
import { ByName, nameKey } from '../core/names';
import type { UnitSystem } from '../core/quantity';
import { askedThicknesses } from './asked';
import { ALLOWANCES, BUDGET, HARDWARE_FORM, JOINTS } from './forms';
import { readParts, type PartRow, type PartsList } from './parts';
import { fractionIn, ifTaken, kept, type Problem, type SheetValues } from './reading';
import { keptInUnits, readerOf, readSheet } from './project-units';
import { placeOfRow, POUNDS, RowReader, type FormSheet } from './rows';
import { readHardware } from './hardware';
import { missingRows, type MissingRows } from './rivet-rows';
import { cellName, textIn } from '../sheet';

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
export const readComponents = keptInUnits((values: SheetValues, units: UnitSystem): Components | undefined => {
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
      ...(readHardware(values)?.problems ?? []),
      ...missing.map(({ problem }) => problem),
      ...askedThicknesses(values),
      ...namesToldApart(values, parts.form),
    ],
  };
});

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

export interface ProjectAllowances {
  readonly list: readonly Allowance[];
  /** False: the sheet is not there, or says the same as the default. */
  readonly own: boolean;
  readonly problems: readonly Problem[];
}

const MOST_GROWTH = 2;

/** The sheet's allowances, completed by the default ones for statuses that it does not name. @internal */
export const readGrowthAllowances = kept((values: SheetValues): ProjectAllowances => {
  const reader = readerOf(values, ALLOWANCES);
  if (!reader) return { list: GROWTH_ALLOWANCES, own: false, problems: [] };
  const read = reader.sheet.rows.flatMap((row): Allowance[] => {
    const status = textIn(row.cells.status);
    if (status === '') return [];
    const fraction = fractionIn(row.cells.growth);
    if (fraction !== undefined && fraction >= 0 && fraction <= MOST_GROWTH) return [{ status, fraction }];
    const guess =
      fraction !== undefined && fraction > MOST_GROWTH ? `. ${fraction} looks like per cent: write ${fraction}%` : '';
    reader.problem(
      row,
      'growth',
      `got ${row.cells.growth === undefined ? 'a blank' : String(row.cells.growth)}; takes per cent from 0% to 200%${guess}. The default allowance is used`,
    );
    return [];
  });
  const list = [...read, ...GROWTH_ALLOWANCES.filter(({ status }) => allowanceOf(status, read) === undefined)];
  const own = read.some(({ status, fraction }) => allowanceOf(status, GROWTH_ALLOWANCES) !== fraction);
  return { list, own, problems: reader.problems };
});

/** The allowance of a status as a fraction; undefined where the list does not hold it. */
const allowanceOf = (status: string, list: readonly Allowance[]): number | undefined =>
  ifTaken(() => growthAllowance(status, list));

/**
 * Names of components that Tarebook takes for one and that formulas of a sheet (SUMIFS, MATCH) tell apart: with a space
 * at an end, two spaces for one, or an accent typed in another way. A row whose component is spelled so is missing in
 * the sums that the sheets' own formulas make.
 * @param parts the lists of parts as they are read already
 */
function namesToldApart(values: SheetValues, parts: FormSheet<string>): Problem[] {
  const first = new Map<string, string>();
  const others = [JOINTS, HARDWARE_FORM, BUDGET].flatMap((form) => readSheet<string>(values, form) ?? []);
  return [parts, ...others].flatMap((form) =>
    form.rows.flatMap((listed): Problem[] => {
      const { head, row } = placeOfRow(form, listed.row);
      const column = head.columns['component'];
      const typed = column === undefined ? undefined : values(head.sheet)?.[row]?.[column];
      if (column === undefined || typeof typed !== 'string' || typed.trim() === '') return [];
      const key = nameKey(typed);
      const spelled = first.get(key) ?? typed;
      first.set(key, spelled);
      // Formulas of a sheet take capitals and small letters for the same.
      if (typed.toLowerCase() === spelled.toLowerCase()) return [];
      const message = `is "${typed}", and "${spelled}" above: formulas such as SUMIFS count them apart. Type the name the same way, without extra spaces`;
      return [{ sheet: head.sheet, cell: cellName(row, column), message }];
    }),
  );
}
