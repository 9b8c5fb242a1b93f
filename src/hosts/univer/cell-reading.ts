/** Values and formulas of a worksheet's cells, line by line: a long sheet is read in turns, so that the page answers meanwhile. */
import { type ICellData, type Injector, type Nullable, type Worksheet } from '@univerjs/core';
import type { Cell, RangeAddress } from '../../sheet';
import { fromCellData } from './cells';
import { FormulaTexts } from './formula-texts';
import type { ByCell } from './spills';
import { done, type Turns } from './turns';

type ByColumn = Readonly<Record<number, Nullable<ICellData>>>;
type Spilled = Nullable<ByCell<ICellData>>;
const NOTHING: ByColumn = {};

/** How many rows and columns from A1 on have something in them; undefined where none has. */
export function usedExtent(
  worksheet: Worksheet,
  spilled: Spilled,
): { readonly rows: number; readonly columns: number } | undefined {
  let rows = 0;
  let columns = 0;
  const seen = (row: number, column: number): void => {
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
  };
  const cells = worksheet.getCellMatrix();
  const all = worksheet.getColumnCount();
  for (let row = cells.getLength() - 1; row >= 0; row--) {
    // What stands before a cell that is known of says nothing more.
    const column = lastFilled(cells.getRow(row) ?? NOTHING, row < rows ? columns : 0, all);
    if (column !== undefined) seen(row, column);
  }
  for (const [row, line] of Object.entries(spilled ?? {}))
    for (const column of Object.keys(line ?? {})) seen(Number(row), Number(column));
  return rows === 0 ? undefined : { rows, columns };
}

/** A list of a row's columns takes longer to make than looking into so many of them. */
const FEW_COLUMNS = 64;

/** The last column of a row, from one on, that has something in it. */
function lastFilled(line: ByColumn, from: number, all: number): number | undefined {
  const places = all - from <= FEW_COLUMNS ? undefined : Object.keys(line);
  for (let at = (places?.length ?? all) - 1; at >= 0; at--) {
    const column = places ? Number(places[at]) : at;
    if (column < from) return undefined;
    const cell = line[column];
    if (cell && (fromCellData(cell) !== null || cell.f || cell.si)) return column;
  }
  return undefined;
}

/** Reads the values of a range: of the row that is given, from 0. */
export function valueReader(
  worksheet: Worksheet,
  spilled: Spilled,
  { column: first, columns }: RangeAddress,
): (row: number) => Cell[] {
  const cells = worksheet.getCellMatrix();
  return (row) => {
    const line: ByColumn = cells.getRow(row) ?? NOTHING;
    const own = spilled?.[row];
    const values: Cell[] = [];
    for (let column = first; column < first + columns; column++)
      values.push(fromCellData(own?.[column] ?? line[column]));
    return values;
  };
}

/** Reads the formulas of a range: of the row that is given, from 0; null in cells without one. */
export function formulaReader(
  injector: Injector,
  worksheet: Worksheet,
  { column: first, columns }: RangeAddress,
): (row: number) => (string | null)[] {
  const cells = worksheet.getCellMatrix();
  const texts = new FormulaTexts(injector, cells);
  return (row) => {
    const line: ByColumn = cells.getRow(row) ?? NOTHING;
    const formulas: (string | null)[] = [];
    for (let column = first; column < first + columns; column++)
      formulas.push(texts.at(row, column, line[column]) ?? null);
    return formulas;
  };
}

/** The lines of a range, in one go. */
export const lines = <T>({ row, rows }: RangeAddress, lineAt: (row: number) => T): T[] =>
  Array.from({ length: rows }, (_none, r) => lineAt(row + r));

/** A range of more cells than this is read in turns. */
const MANY_CELLS = 20_000;
const LINES_AT_ONCE = 50;

/** The lines of a range, in turns where it is a long one; those that have been read by then where `holds` gives false. */
export async function linesInTurns<T>(
  turns: Turns,
  range: RangeAddress,
  lineAt: (row: number) => T,
  holds: () => boolean,
): Promise<T[]> {
  const { row, rows, columns } = range;
  if (rows * columns <= MANY_CELLS) return lines(range, lineAt);
  const all: T[] = [];
  await done(
    turns,
    (function* reading() {
      for (let r = 0; r < rows && holds(); r++) {
        all.push(lineAt(row + r));
        if (r % LINES_AT_ONCE === 0) yield;
      }
    })(),
  );
  return all;
}
