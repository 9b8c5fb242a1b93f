/** The values of the project's own sheets, from the port or from a workbook as plain data. */
import type { UnitSystem } from '../core/quantity';
import type { Cell, Workbook, WorkbookModel } from '../sheet';
import { airplaneSheets } from './airplane-sheets';
import { BUDGET, JOINTS, PARTS } from './forms';
import type { SheetValues } from './problems';
import { unitsOfProject } from './project-units';
import { HEADER_WITHIN } from './rows';
import { ALLOWANCES, LOG } from './weight-forms';

export interface ProjectSheets {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  /** Of all sheets of the workbook. */
  readonly names: readonly string[];
  /** By a sheet's name, in any case. */
  readonly values: SheetValues;
}

/** The sheets that the project's models read, of those that there are. */
export function projectSheetNames(names: readonly string[]): string[] {
  const fixed = new Set([PARTS, JOINTS, BUDGET, LOG, ALLOWANCES].map(({ sheet }) => sheet.toLowerCase()));
  const airplanes = airplaneSheets(names).flatMap(({ weighing, loading, envelope, cases }) => [
    weighing,
    loading,
    envelope,
    cases,
  ]);
  return names.filter((name) => fixed.has(name.toLowerCase()) || airplanes.includes(name));
}

function byName(names: readonly string[], sheets: ReadonlyMap<string, readonly (readonly Cell[])[]>): ProjectSheets {
  const values: SheetValues = (sheet) => sheets.get(sheet.toLowerCase());
  return { names, values, units: unitsOfProject(values, names) };
}

type Readable = Pick<Workbook, 'sheets' | 'usedRange' | 'read'>;

/** Reads the project's sheets through the port; a sheet without cells is left out. */
export const readProjectSheets = (workbook: Readable): Promise<ProjectSheets> => readSheets(workbook, readAll);

/** The system of units that the project is shown in: of its sheets the labels tell it, and not the list below them. */
export const readProjectUnits = async (workbook: Readable): Promise<UnitSystem> =>
  (await readSheets(workbook, readTop)).units;

async function readSheets(workbook: Readable, read: typeof readAll): Promise<ProjectSheets> {
  const names = (await workbook.sheets()).map(({ name }) => name);
  const sheets = new Map<string, Cell[][]>();
  for (const name of projectSheetNames(names)) {
    const cells = await read(workbook, name);
    if (cells) sheets.set(name.toLowerCase(), cells);
  }
  return byName(names, sheets);
}

/** All cells of a sheet; undefined where it has none. */
async function readAll(workbook: Readable, sheet: string): Promise<Cell[][] | undefined> {
  const used = await workbook.usedRange(sheet);
  return used && workbook.read(used);
}

/** The rows of a sheet in which a header may stand; undefined where it has no cells. */
export async function readTop(workbook: Readable, sheet: string): Promise<Cell[][] | undefined> {
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
  );
}
