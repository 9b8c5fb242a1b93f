/** The values of the project's own sheets, from the port or from a workbook as plain data. */
import type { UnitSystem } from '../core/quantity';
import type { Cell, Workbook, WorkbookModel } from '../sheet';
import { airplaneSheets } from './airplane-sheets';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS } from './forms';
import { matchedNames } from './match/matches-sheet';
import { MATCHES } from './match/meanings';
import { OWN_RIVETS_SHEET } from './own-rivets';
import type { SheetValues } from './problems';
import { unitsOfProject } from './project-units';
import { findPrices, pricesIn, readPrices, type ProjectPrices } from './prices';
import { HEADER_WITHIN } from './rows';
import { ALLOWANCES, LOG } from './weight-forms';

export interface ProjectSheets {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  /** Of all sheets of the workbook. */
  readonly names: readonly string[];
  /** By a sheet's name, in any case. */
  readonly values: SheetValues;
  /** The price list, wherever it stands. */
  readonly prices?: ProjectPrices | undefined;
}

/** The sheets that the project's models read, of those that there are; the matched ones are known by what the sheet Matches says. */
export function projectSheetNames(names: readonly string[]): string[] {
  const fixed = new Set(
    [
      ...[PARTS, MATCHES, JOINTS, HARDWARE_FORM, BUDGET, LOG, ALLOWANCES].map(({ sheet }) => sheet),
      OWN_RIVETS_SHEET,
    ].map((name) => name.toLowerCase()),
  );
  const airplanes = airplaneSheets(names).flatMap(({ weighing, loading, envelope, cases }) => [
    weighing,
    loading,
    envelope,
    cases,
  ]);
  return names.filter((name) => fixed.has(name.toLowerCase()) || airplanes.includes(name));
}

/** The matched sheets among those of the workbook. */
export const matchedSheets = (
  names: readonly string[],
  matches: readonly (readonly Cell[])[] | undefined,
): string[] => {
  const matched = new Set(matchedNames(matches).map((name) => name.toLowerCase()));
  return names.filter((name) => matched.has(name.toLowerCase()));
};

function byName(
  names: readonly string[],
  sheets: ReadonlyMap<string, readonly (readonly Cell[])[]>,
  prices: ProjectPrices | undefined,
): ProjectSheets {
  const values: SheetValues = (sheet) => sheets.get(sheet.toLowerCase());
  return { names, values, units: unitsOfProject(values, names), prices };
}

type Readable = Pick<Workbook, 'sheets' | 'usedRange' | 'read'>;
type WithTables = Readable & Pick<Workbook, 'tables'>;

/** Reads the project's sheets through the port; a sheet without cells is left out. */
export async function readProjectSheets(workbook: WithTables): Promise<ProjectSheets> {
  const names = await namesOf(workbook);
  return byName(names, await readLists(workbook, names, projectSheetNames(names), readAll), await readPrices(workbook));
}

/**
 * Those of the sheets with the given names that there are, and the price list.
 * @param wanted what is read of each: all of it, or the rows in which a header may stand
 */
export async function readNamedSheets(
  workbook: WithTables,
  wanted: Readonly<Record<string, 'all' | 'top'>>,
): Promise<ProjectSheets> {
  const names = await namesOf(workbook);
  const sheets = new Map<string, Cell[][]>();
  for (const [sheet, part] of Object.entries(wanted)) {
    const own = names.filter((name) => name.toLowerCase() === sheet.toLowerCase());
    const read = part === 'all' ? readAll : readTop;
    const found =
      sheet === PARTS.sheet
        ? await readLists(workbook, names, [...own, ...names.filter(isMatches)], read)
        : await readAs(workbook, own, read);
    for (const [key, cells] of found) sheets.set(key, cells);
  }
  return byName(names, sheets, await readPrices(workbook));
}

/** The system of units that the project is shown in: of its sheets the labels tell it, and not the list below them. */
export async function readProjectUnits(workbook: Readable): Promise<UnitSystem> {
  const names = await namesOf(workbook);
  return byName(names, await readLists(workbook, names, projectSheetNames(names), readTop), undefined).units;
}

const namesOf = async (workbook: Pick<Workbook, 'sheets'>): Promise<string[]> =>
  (await workbook.sheets()).map(({ name }) => name);

const isMatches = (name: string): boolean => name.toLowerCase() === MATCHES.sheet.toLowerCase();

/** Those of the sheets, and the lists that are matched by the sheet Matches where that is among them. */
async function readLists(
  workbook: Readable,
  names: readonly string[],
  wanted: readonly string[],
  read: typeof readAll,
): Promise<Map<string, Cell[][]>> {
  const sheets = await readAs(workbook, wanted, read);
  const others = matchedSheets(names, sheets.get(MATCHES.sheet.toLowerCase())).filter(
    (name) => !sheets.has(name.toLowerCase()),
  );
  for (const [key, cells] of await readAs(workbook, others, read)) sheets.set(key, cells);
  return sheets;
}

async function readAs(
  workbook: Readable,
  wanted: readonly string[],
  read: typeof readAll,
): Promise<Map<string, Cell[][]>> {
  const sheets = new Map<string, Cell[][]>();
  for (const name of wanted) {
    // What the matches say has no length that is known beforehand.
    const cells = await (isMatches(name) ? readAll : read)(workbook, name);
    if (cells) sheets.set(name.toLowerCase(), cells);
  }
  return sheets;
}

/** All cells of a sheet; undefined where it has none. */
async function readAll(workbook: Readable, sheet: string): Promise<Cell[][] | undefined> {
  const used = await workbook.usedRange(sheet);
  return used && workbook.read(used);
}

/** The rows of a sheet in which a header may stand; undefined where it has no cells. */
export async function readTop(workbook: Pick<Readable, 'usedRange' | 'read'>, sheet: string): Promise<Cell[][] | undefined> {
  const used = await workbook.usedRange(sheet);
  return used && workbook.read({ ...used, rows: Math.min(used.rows, HEADER_WITHIN) });
}

/** The same of a workbook as plain data. */
export function projectSheetsOf(model: WorkbookModel): ProjectSheets {
  const sheets = new Map(
    model.sheets.map(
      ({ name, cells }) =>
        [
          name.toLowerCase(),
          Array.from(cells, (row) => Array.from(row ?? [], (cell): Cell => cell?.value ?? null)),
        ] as const,
    ),
  );
  return byName(
    model.sheets.map(({ name }) => name),
    sheets,
    pricesOf(model),
  );
}

function pricesOf({ sheets }: WorkbookModel): ProjectPrices | undefined {
  const place = findPrices(
    sheets.map(({ name }) => name),
    sheets.flatMap(({ tables }) => tables),
  );
  const cells = sheets.find(({ name }) => name === place?.sheet)?.cells;
  if (!place || !cells) return undefined;
  const columns = cells.reduce((most, row) => Math.max(most, row?.length ?? 0), 0);
  const range = place.table?.range ?? { sheet: place.sheet, row: 0, column: 0, rows: cells.length, columns };
  const valueAt = (row: number, column: number): Cell => cells[range.row + row]?.[range.column + column]?.value ?? null;
  const read = Array.from({ length: range.rows }, (_row, row) =>
    Array.from({ length: range.columns }, (_column, column) => valueAt(row, column)),
  );
  return pricesIn(place, range, read);
}
