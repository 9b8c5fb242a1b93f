/**
 * Sorting rows of a list. The engine's own sorting plug-in refuses every range that a formula spills into, sorts by
 * what stands in cells and not by what is spilled over them, and leaves formulas as they were: so this is ours.
 */
import type { Injector, Workbook as EngineWorkbook, Worksheet } from '@univerjs/core';
import { CellError, cellName, overlap, rangeName, type Cell, type RangeAddress } from '../../sheet';
import { moved } from '../../sheet/formula';
import type { Obstacle, RowsOrder } from '../../xlsx';
import { cellReader, isBlank } from './list-range';
import { formulaAt } from './order-rows';
import { protectedText } from './protection';
import { toAddress } from './ranges';
import { spilledCells, spillRanges } from './spills';

export interface SortKey {
  /** Counted from the sheet's first column. */
  readonly column: number;
  readonly descending: boolean;
}

/** What a sort does: nothing where the rows are in order already; or why it is not made, in a sentence. */
export type SortPlan = { readonly order: RowsOrder } | { readonly nothing: true } | { readonly refused: string };

interface Wanted {
  /** Rows that are sorted, without their headings. */
  readonly range: RangeAddress;
  readonly keys: readonly SortKey[];
  /** What stands in the file in one piece. */
  readonly obstacles: readonly Obstacle[];
}

export function planSort(injector: Injector, book: EngineWorkbook, sheet: Worksheet, wanted: Wanted): SortPlan {
  const { range, keys } = wanted;
  const refused = refusalOf(injector, book, sheet, wanted);
  if (refused !== undefined) return { refused };
  const blocks = blocksIn(injector, book, sheet, range);
  const part = blocks.find(({ area }) => area.row > range.row || area.row + area.rows < range.row + range.rows);
  if (part)
    return {
      refused: `The formula in ${part.name} fills ${rangeName(part.area)}, which is only a part of these rows. Sort the rows that it fills, or leave its column out.`,
    };
  const staying = [
    ...new Set(
      blocks.flatMap(({ area }) =>
        Array.from({ length: area.columns }, (_none, index) => area.column + index).filter(
          (column) => column >= range.column && column < range.column + range.columns,
        ),
      ),
    ),
  ];
  const order = orderOf(cellReader(injector, book, sheet), sheet, range, keys);
  if (order.every((from, to) => from === to)) return { nothing: true };
  const { row, column, columns } = range;
  const operation: RowsOrder = {
    kind: 'order',
    sheet: sheet.getName(),
    row,
    column,
    columns,
    order,
    staying,
    heights: takesHeights(injector, book, sheet, range),
  };
  return lostReference(injector, book, sheet, operation) ?? { order: operation };
}

function refusalOf(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  { range, obstacles }: Wanted,
): string | undefined {
  const locked = protectedText(injector, book, sheet);
  if (locked !== undefined) return locked;
  const merge = sheet.getMergeData().find((one) => overlap(toAddress(range.sheet, one), range));
  if (merge) return `${rangeName(toAddress(range.sheet, merge))} is one merged cell. Unmerge it first.`;
  const fixed = obstacles.find(
    ({ kind, sheet: name, area }) =>
      (kind === 'whatif' || kind === 'pivot') &&
      name.toLowerCase() === range.sheet.toLowerCase() &&
      overlap({ ...area, sheet: range.sheet }, range),
  );
  return (
    fixed &&
    `${rangeName(fixed.area)} is ${fixed.kind === 'whatif' ? 'a what-if table' : 'a pivot table'}, whose rows cannot be sorted here. Leave it out of the range.`
  );
}

/** Formulas whose results fill several cells of the range. */
function blocksIn(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  range: RangeAddress,
): { readonly name: string; readonly area: RangeAddress }[] {
  const unit = book.getUnitId();
  const spilled = spilledCells(injector, unit, sheet.getSheetId()) ?? {};
  const found: { name: string; area: RangeAddress }[] = [];
  for (const [row, line] of Object.entries(spillRanges(injector, unit, sheet.getSheetId()) ?? {}))
    for (const [column, own] of Object.entries(line ?? {})) {
      const area = own && toAddress(range.sheet, own);
      if (!area || area.rows * area.columns === 1 || !overlap(area, range)) continue;
      // Where it found no room it fills its own cell alone.
      const next = area.columns > 1 ? spilled[area.row]?.[area.column + 1] : spilled[area.row + 1]?.[area.column];
      if (next) found.push({ name: cellName(Number(row), Number(column)), area });
    }
  return found;
}

/** For each row of the range the one that comes to stand there. Rows that are not shown keep their places. */
function orderOf(
  read: (row: number, column: number) => Cell,
  sheet: Worksheet,
  { row, rows }: RangeAddress,
  keys: readonly SortKey[],
): number[] {
  const shown = Array.from({ length: rows }, (_none, index) => index).filter((index) =>
    sheet.getRowVisible(row + index),
  );
  const sorted = shown
    .map((index) => ({ index, cells: keys.map(({ column }) => read(row + index, column)) }))
    .sort((a, b) => {
      for (const [place, { descending }] of keys.entries()) {
        const order = compareCells(a.cells[place]!, b.cells[place]!, descending);
        if (order !== 0) return order;
      }
      return 0;
    });
  const order = Array.from({ length: rows }, (_none, index) => index);
  shown.forEach((place, index) => (order[place] = sorted[index]!.index));
  return order;
}

const texts = new Intl.Collator('en', { sensitivity: 'accent' });

/** Numbers, texts, yes and no, errors, in this order or from its end; blanks come last in either. */
function compareCells(a: Cell, b: Cell, descending: boolean): number {
  if (isBlank(a) || isBlank(b)) return Number(isBlank(a)) - Number(isBlank(b));
  const order = rankOf(a) - rankOf(b) || compareAlike(a, b);
  return descending ? -order : order;
}

const rankOf = (cell: Cell): number =>
  typeof cell === 'number' ? 0 : typeof cell === 'string' ? 1 : typeof cell === 'boolean' ? 2 : 3;

function compareAlike(a: Cell, b: Cell): number {
  if (typeof a === 'string' && typeof b === 'string') return texts.compare(a, b);
  if (a instanceof CellError || b instanceof CellError) return 0;
  return Number(a) - Number(b);
}

/** Heights go with rows of which nothing stays behind. */
function takesHeights(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  { row, rows, column, columns }: RangeAddress,
): boolean {
  const lines = sheet.getRowManager().getRowData() as Record<number, { readonly h?: number } | undefined>;
  const heights = new Set(Array.from({ length: rows }, (_none, index) => lines[row + index]?.h));
  if (heights.size < 2) return false;
  const read = cellReader(injector, book, sheet);
  for (let line = row; line < row + rows; line++)
    for (let place = 0; place < sheet.getColumnCount(); place++)
      if ((place < column || place >= column + columns) && !isBlank(read(line, place))) return false;
  return true;
}

/** A formula that would name what is above the sheet's first row. */
function lostReference(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  { row, column, columns, order, staying }: RowsOrder,
): SortPlan | undefined {
  const stays = new Set(staying);
  for (const [to, from] of order.entries())
    for (let place = column; from !== to && place < column + columns; place++) {
      const formula = stays.has(place) ? undefined : formulaAt(injector, book, sheet, row + from, place);
      if (formula === undefined || formula.includes('#REF!') || !moved(formula, to - from, 0).includes('#REF!'))
        continue;
      return {
        refused: `The formula in ${cellName(row + from, place)} counts rows from its own, and would count off the sheet in row ${row + to + 1}. Fix what it names with $ first.`,
      };
    }
  return undefined;
}
