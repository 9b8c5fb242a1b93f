/**
 * Cells of the engine as the port's cells, and the other way round; and what a cell of a file says beside its formula.
 * That is carried in the engine's cell, so that it moves, is copied, kept and taken back with it. A mark holds for the
 * formula that it was made for, whatever rows move under it, and for no other that is put into the cell.
 */
import {
  CellValueType,
  isFormulaString,
  type ICellData,
  type Injector,
  type IRange,
  type Nullable,
  type ObjectMatrix,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { FormulaDataModel } from '@univerjs/engine-formula';
import { formattedNumber, formattedText, numberText } from '../../calculation';
import {
  CellError,
  isErrorCode,
  isInRange,
  numberFrom,
  type Cell,
  type CellInput,
  type CellModel,
  type RangeAddress,
} from '../../sheet';
import { moved, needsArray } from '../../sheet/formula';
import { shapeOf } from './formula-reader';
import { toAddress } from './places';
import { done, type Turns } from './turns';

/** Every property that holds content is named, so that the engine clears what the new content does not set. */
const CLEARED: ICellData = { v: null, f: null, si: null, p: null, custom: null };

/** A cell's value; blank and empty text are null, an error a CellError without its message. */
// eslint-disable-next-line complexity -- one kind of the engine's cell after the other
export function fromCellData(data: Nullable<ICellData>): Cell {
  if (!data) return null;
  const value = data.v ?? data.p?.body?.dataStream.replace(/\r\n$/, '');
  if (value === undefined || value === null || value === '') return null;
  if (data.t === CellValueType.BOOLEAN) return value === 1 || value === true || value === '1';
  if (typeof value === 'string') {
    if (data.t === CellValueType.NUMBER && !Number.isNaN(Number(value))) return numberFrom(value);
    return data.t !== CellValueType.FORCE_STRING && isErrorCode(value) ? new CellError(value) : value;
  }
  return typeof value === 'number' ? numberFrom(value) : value;
}

/** What a cell is given, as the engine takes it; looks are left as they are. */
export function toInputData(input: CellInput): ICellData {
  if (typeof input === 'object' && input !== null && !(input instanceof CellError))
    return { ...CLEARED, f: asTyped(input.formula) };
  return { ...CLEARED, ...toValueData(input) };
}

/** A cell of a model as the engine's. Parts of a spill are left out: they come again with the formula's result. */
export function toCellData(cell: CellModel): ICellData {
  const style = cell.style === undefined ? {} : { s: String(cell.style) };
  if (cell.spilled) return style;
  const value = toValueData(cell.value);
  if (cell.formula === undefined) return { ...value, ...style };
  const data = { f: asTyped(cell.formula), ...value, ...style };
  // Marked only where it makes a difference: most formulas give the same in both kinds.
  return cell.plain && needsArray(cell.formula, () => true)
    ? { ...data, custom: { plain: shapeOf(cell.formula) } }
    : data;
}

const asTyped = (formula: string): string => (formula.startsWith('=') ? formula : `=${formula}`);

export function toValueData(cell: Cell): ICellData {
  if (cell === null) return {};
  if (typeof cell === 'number') return { v: cell, t: CellValueType.NUMBER };
  if (typeof cell === 'boolean') return { v: cell ? 1 : 0, t: CellValueType.BOOLEAN };
  // Marked as text, so that a part number of digits or a leading "=" stays what it is.
  return { v: cell instanceof CellError ? cell.code : cell, t: CellValueType.STRING };
}

interface Marks {
  /** A formula of the plain kind (see CellModel), by its shape. */
  readonly plain?: string;
  /** A formula that cannot be calculated here, by its shape and the value that it came with. */
  readonly kept?: {
    readonly shape: string;
    readonly value: ICellData['v'];
    readonly type: ICellData['t'];
    /** Where it came with a result of several cells: all of them, this one first. */
    readonly block?: ICellData[][];
  };
}

const marksOf = (data: Nullable<ICellData>): Marks => (data?.custom ?? {}) as Marks;

export const isPlain = (data: Nullable<ICellData>, formula: string): boolean => {
  const { plain } = marksOf(data);
  return plain !== undefined && plain === shapeOf(formula);
};

/**
 * Has a cell keep the value that it has now, as long as it has this formula and no other value.
 * @param block what it spilled in the file
 */
export function keep(data: ICellData, formula: string, block?: ICellData[][]): void {
  const kept: Marks['kept'] = {
    shape: shapeOf(formula),
    value: data.v ?? null,
    type: data.t ?? null,
    ...(block ? { block } : {}),
  };
  data.custom = { ...data.custom, kept };
}

/** What a cell keeps, with the engine's type of it; undefined for a formula that was typed. The engine empties cells that move. */
export function keptData(data: ICellData, formula: string): Pick<ICellData, 'v' | 't'> | undefined {
  const { kept } = marksOf(data);
  const value = data.v ?? null;
  return kept && (value === null || value === kept.value) && kept.shape === shapeOf(formula)
    ? { v: kept.value, t: kept.type }
    : undefined;
}

/** What a cell keeps beside its own value; undefined for one that spilled nothing, or has another formula now. */
export function keptBlock(data: Nullable<ICellData>, formula: string): readonly (readonly ICellData[])[] | undefined {
  const block = marksOf(data).kept?.block;
  return block && data && keptData(data, formula) ? block : undefined;
}

/** True for contents that bring a kept block with them, as taking back an edit does. */
export const bringsBlock = (data: Nullable<ICellData>): boolean => marksOf(data).kept?.block !== undefined;

type ByColumn = Readonly<Record<number, Nullable<ICellData>>>;
/** What formulas spill the engine keeps apart from the cells: by row and column. */
export type ByCell<T> = Record<number, Nullable<Record<number, Nullable<T>>>>;
type Spilled = Nullable<ByCell<ICellData>>;
const NOTHING: ByColumn = {};

/** Values of all cells of spills on a sheet, the first of each among them. */
export const spilledCells = (injector: Injector, sheet: Worksheet): Spilled =>
  injector.get(FormulaDataModel).getArrayFormulaCellData()?.[sheet.getUnitId()]?.[sheet.getSheetId()];

/** Extents of spills by the cell that holds the formula. */
export const spillRanges = (injector: Injector, sheet: Worksheet): Nullable<ByCell<IRange>> =>
  injector.get(FormulaDataModel).getArrayFormulaRange()?.[sheet.getUnitId()]?.[sheet.getSheetId()];

/** Extents of all spills on a sheet; each begins at the cell that holds the formula. */
export const spillsOn = (injector: Injector, sheet: Worksheet): IRange[] =>
  Object.values(spillRanges(injector, sheet) ?? {}).flatMap((line) =>
    Object.values(line ?? {}).flatMap((range) => range ?? []),
  );

/** The extent of the formula that fills a cell, or would. */
export const spillOver = (injector: Injector, sheet: Worksheet, row: number, column: number): IRange | undefined =>
  spillsOn(injector, sheet).find((range) => isInRange(toAddress('', range), row, column));

/** False where a result found no room: the engine then lists its extent, and no cells, which hold what they hold. */
export function fillsCells({ startRow, startColumn, endColumn }: IRange, spilled: Spilled): boolean {
  const [row, column] = endColumn > startColumn ? [startRow, startColumn + 1] : [startRow + 1, startColumn];
  return Boolean(spilled?.[row]?.[column]);
}

/** Gives the values of cells: their own, or those that formulas spill over them. */
export function cellReader(injector: Injector, sheet: Worksheet): (row: number, column: number) => Cell {
  const cells = sheet.getCellMatrix();
  const spilled = spilledCells(injector, sheet);
  return (row, column) => fromCellData(spilled?.[row]?.[column] ?? cells.getValue(row, column));
}

/** Gives the formulas of cells, with their "=": one that was filled down stands in the first one, and the others name it. */
export function formulaTexts(
  sheet: Worksheet,
): (row: number, column: number, data?: Nullable<ICellData>) => string | undefined {
  const cells = sheet.getCellMatrix();
  let firsts: ReturnType<typeof firstFormulas> | undefined;
  return (row, column, data = cells.getValue(row, column)) => {
    if (data?.f && isFormulaString(data.f)) return data.f;
    if (!data?.si) return undefined;
    firsts ??= firstFormulas(cells);
    const first = firsts.get(data.si);
    return first && `=${moved(first.text.slice(1), row - first.row, column - first.column)}`;
  };
}

function firstFormulas(
  cells: ObjectMatrix<Nullable<ICellData>>,
): ReadonlyMap<string, { text: string; row: number; column: number }> {
  const firsts = new Map<string, { text: string; row: number; column: number }>();
  cells.forValue((row, column, data) => {
    if (data?.si && data.f && isFormulaString(data.f)) firsts.set(data.si, { text: data.f, row, column });
  });
  return firsts;
}

/** @param numberFormat the cell's; '' where it has none */
export function shownText(value: Cell, numberFormat = ''): string {
  if (value === null) return '';
  if (value instanceof CellError) return value.code;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return numberFormat ? formattedText(value, numberFormat) : value;
  return (numberFormat && formattedNumber(value, numberFormat)) || numberText(value);
}

/** Gives what cells show: their values in the form that their number formats give them. */
export function shownReader(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
): (row: number, column: number) => string {
  const [read, cells, styles] = [cellReader(injector, sheet), sheet.getCellMatrix(), book.getStyles()];
  return (row, column) => shownText(read(row, column), styles.getStyleByCell(cells.getValue(row, column))?.n?.pattern);
}

/** How many rows and columns from A1 on have something in them; undefined where none has. */
export function usedExtent(
  injector: Injector,
  worksheet: Worksheet,
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
  const spilled = spilledCells(injector, worksheet);
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
  injector: Injector,
  worksheet: Worksheet,
  { column: first, columns }: RangeAddress,
): (row: number) => Cell[] {
  const cells = worksheet.getCellMatrix();
  const spilled = spilledCells(injector, worksheet);
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
  worksheet: Worksheet,
  { column: first, columns }: RangeAddress,
): (row: number) => (string | null)[] {
  const cells = worksheet.getCellMatrix();
  const textAt = formulaTexts(worksheet);
  return (row) => {
    const line: ByColumn = cells.getRow(row) ?? NOTHING;
    const formulas: (string | null)[] = [];
    for (let column = first; column < first + columns; column++)
      formulas.push(textAt(row, column, line[column] ?? null) ?? null);
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
