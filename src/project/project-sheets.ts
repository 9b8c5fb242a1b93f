/** The project's sheets as they stand at one moment: of an open workbook, or of a workbook as plain data. */
import type { UnitSystem } from '../core/quantity';
import type { Cell, SheetContent, SheetInfo, TableModel, WorkbookModel } from '../sheet';
import { airplaneSheets } from './balance-forms';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, ALLOWANCES, LOG } from './forms';
import { matchedNames } from './match/matches-sheet';
import { MATCHES } from './match/meanings';
import { goOn } from './once';
import { OWN_RIVETS_SHEET } from './own-rivets';
import type { SheetValues } from './problems';
import { unitsOfProject } from './project-units';
import { findPrices, pricesAt, type ProjectPrices } from './prices';

export interface ProjectSheets {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  readonly sheets: readonly SheetInfo[];
  /** Names of all sheets of the workbook. */
  readonly names: readonly string[];
  readonly tables: readonly TableModel[];
  /** By a sheet's name, in any case; undefined where it has no cells or was not read. */
  readonly values: SheetValues;
  /** Formulas as typed, by a sheet's name; undefined where they were not read. */
  readonly formulas: (sheet: string) => SheetContent['formulas'];
  /** The price list, wherever it stands; undefined where there is none, or it was not read. */
  readonly prices: ProjectPrices | undefined;
}

/** What is known of a workbook, by its sheets' names in small letters. */
export interface Known {
  readonly sheets: readonly SheetInfo[];
  readonly names: readonly string[];
  readonly tables: readonly TableModel[];
  readonly cells: ReadonlyMap<string, SheetContent | undefined>;
  /** False for a sheet of which the first rows alone are known. */
  readonly isWhole: (sheet: string) => boolean;
}

/** @param earlier a state of the same workbook: what was made of sheets that have not changed since is used again */
export function sheetsAt({ sheets, names, tables, cells, isWhole }: Known, earlier?: ProjectSheets): ProjectSheets {
  const values: SheetValues = (sheet) => cells.get(sheet.toLowerCase())?.values;
  if (earlier) goOn(values, earlier.values);
  return {
    sheets,
    names,
    tables,
    values,
    formulas: (sheet) => cells.get(sheet.toLowerCase())?.formulas,
    get units() {
      return unitsOfProject(values, names);
    },
    get prices() {
      const place = findPrices(names, tables);
      return place && isWhole(place.sheet) ? pricesAt(values, place) : undefined;
    },
  };
}

/** The formula in a cell; undefined where it holds none, or formulas were not read. */
export const formulaIn = (
  { formulas }: Pick<ProjectSheets, 'formulas'>,
  sheet: string,
  row: number,
  column: number,
): string | undefined => formulas(sheet)?.[row]?.[column] ?? undefined;

/** A workbook without sheets. */
export const NO_SHEETS: ProjectSheets = sheetsAt({
  sheets: [],
  names: [],
  tables: [],
  cells: new Map(),
  isWhole: () => true,
});

/** The sheets of a workbook as plain data. */
export function projectSheetsOf(model: WorkbookModel): ProjectSheets {
  const lined = model.sheets.map(({ name, cells }) => {
    const lines = Array.from(cells, (row) => Array.from(row ?? []));
    const read: SheetContent = {
      values: lines.map((row) => row.map((cell): Cell => cell?.value ?? null)),
      formulas: lines.map((row) => row.map((cell) => (cell?.formula === undefined ? null : `=${cell.formula}`))),
    };
    return [name.toLowerCase(), read] as const;
  });
  return sheetsAt({
    sheets: model.sheets.map(({ name, hidden, protected: locked }) => ({
      name,
      visible: !hidden,
      protected: locked === true,
    })),
    names: model.sheets.map(({ name }) => name),
    tables: model.sheets.flatMap(({ tables }) => tables),
    cells: new Map(lined),
    isWhole: () => true,
  });
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
