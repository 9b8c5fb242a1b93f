/**
 * Sorting rows of a list. The engine's own sorting plug-in refuses every range that a formula spills into, sorts by
 * what stands in cells and not by what is spilled over them, and leaves formulas as they were; its own way of moving
 * rows leaves formulas and looks behind. So this is ours: cells are taken out and put in again as a whole, and a
 * mutation of its own tells the log of the structure, by which the file has the same done to it.
 */
import {
  CommandType,
  Tools,
  type IAccessor,
  type ICellData,
  type IMutation,
  type IMutationInfo,
  type Injector,
  type IRange,
  type IUndoRedoCommandInfos,
  type Nullable,
  type Worksheet,
} from '@univerjs/core';
import { UpdateDataValidationMutation, UpdateRuleType } from '@univerjs/data-validation';
import { SetRangeValuesMutation, SetStyleCommand, SetWorksheetRowIsAutoHeightMutation } from '@univerjs/sheets';
import { CellError, cellName, isBlank, overlap, rangeName, type Cell, type RangeAddress } from '../../sheet';
import { moved } from '../../sheet/formula';
import type { Obstacle, RowsOrder } from '../../xlsx';
import { bookOf, linesOf, protectedText, runsOf, targetOf, toAddress } from './places';
import { cellReader, fillsCells, formulaTexts, spilledCells, spillsOn } from './cells';
import { rulesOn } from './choices';

export interface SortKey {
  /** Counted from the sheet's first column. */
  readonly column: number;
  readonly descending: boolean;
}

/**
 * The mutations of a sort; undefined where the rows are in order already, and in a sentence why it is not made.
 * @param range rows that are sorted, without their headings
 * @param obstacles what stands in the file in one piece
 */
export function sorting(
  injector: Injector,
  sheet: Worksheet,
  range: RangeAddress,
  keys: readonly SortKey[],
  obstacles: readonly Obstacle[],
): IUndoRedoCommandInfos | string | undefined {
  const refused = refusalOf(injector, sheet, range, obstacles);
  if (refused !== undefined) return refused;
  const blocks = blocksIn(injector, sheet, range);
  const part = blocks.find((area) => area.row > range.row || area.row + area.rows < range.row + range.rows);
  if (part)
    return `The formula in ${cellName(part.row, part.column)} fills ${rangeName(part)}, which is only a part of these rows. Sort the rows that it fills, or leave its column out.`;
  const { row, column, columns } = range;
  const filled = new Set(blocks.flatMap((area) => linesOf(area.column, area.column + area.columns - 1)));
  const order = orderOf(cellReader(injector, sheet), sheet, range, keys);
  if (order.every((from, to) => from === to)) return undefined;
  const operation: RowsOrder = {
    kind: 'order',
    sheet: sheet.getName(),
    row,
    column,
    columns,
    order,
    staying: [...filled].filter((place) => place >= column && place < column + columns),
    heights: takesHeights(injector, sheet, range),
  };
  return lostReference(sheet, operation) ?? orderingRows(injector, sheet, operation);
}

function refusalOf(
  injector: Injector,
  sheet: Worksheet,
  range: RangeAddress,
  obstacles: readonly Obstacle[],
): string | undefined {
  const locked = protectedText(injector, sheet);
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

/** The cells of formulas whose results fill several cells of the range. */
function blocksIn(injector: Injector, sheet: Worksheet, range: RangeAddress): RangeAddress[] {
  const spilled = spilledCells(injector, sheet);
  return spillsOn(injector, sheet)
    .filter((own) => fillsCells(own, spilled))
    .map((own) => toAddress(range.sheet, own))
    .filter((area) => area.rows * area.columns > 1 && overlap(area, range));
}

/** For each row of the range the one that comes to stand there. Rows that are not shown keep their places. */
function orderOf(
  read: (row: number, column: number) => Cell,
  sheet: Worksheet,
  { row, rows }: RangeAddress,
  keys: readonly SortKey[],
): number[] {
  const order = linesOf(0, rows - 1);
  const shown = order.filter((index) => sheet.getRowVisible(row + index));
  const sorted = shown
    .map((index) => ({ index, cells: keys.map(({ column }) => read(row + index, column)) }))
    .sort((a, b) => {
      for (const [place, { descending }] of keys.entries()) {
        const sign = compareCells(a.cells[place]!, b.cells[place]!, descending);
        if (sign !== 0) return sign;
      }
      return 0;
    });
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
function takesHeights(injector: Injector, sheet: Worksheet, { row, rows, column, columns }: RangeAddress): boolean {
  const places = linesOf(row, row + rows - 1);
  const lines = sheet.getRowManager().getRowData() as Record<number, { readonly h?: number } | undefined>;
  if (new Set(places.map((line) => lines[line]?.h)).size < 2) return false;
  const read = cellReader(injector, sheet);
  const beside = linesOf(0, sheet.getColumnCount() - 1).filter((place) => place < column || place >= column + columns);
  return places.every((line) => beside.every((place) => isBlank(read(line, place))));
}

/** Why the rows cannot be put into this order: a formula would name what is above the sheet's first row. */
function lostReference(sheet: Worksheet, { row, column, columns, order, staying }: RowsOrder): string | undefined {
  const textAt = formulaTexts(sheet);
  const places = linesOf(column, column + columns - 1).filter((place) => !staying.includes(place));
  for (const [to, from] of order.entries()) {
    const lost = places.find((place) => {
      const formula = from === to ? undefined : textAt(row + from, place);
      return formula !== undefined && !formula.includes('#REF!') && moved(formula, to - from, 0).includes('#REF!');
    });
    if (lost !== undefined)
      return `The formula in ${cellName(row + from, lost)} counts rows from its own, and would count off the sheet in row ${row + to + 1}. Fix what it names with $ first.`;
  }
  return undefined;
}

interface OrderRowsParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly order: RowsOrder;
}

/** Tells that rows have another order; heights of rows are the one thing that it changes itself. */
export const OrderRowsMutation: IMutation<OrderRowsParams> = {
  id: 'tarebook.mutation.order-rows',
  type: CommandType.MUTATION,
  handler(accessor: IAccessor, { unitId, subUnitId, order: { order, row, heights } }: OrderRowsParams): boolean {
    const sheet = bookOf(accessor, unitId)?.getSheetBySheetId(subUnitId);
    if (!sheet || !heights) return Boolean(sheet);
    const rows = sheet.getRowManager().getRowData() as Record<
      number,
      Partial<Record<(typeof HEIGHT_KEYS)[number], unknown>>
    >;
    const before = order.map((_from, index) => ({ ...rows[row + index] }));
    order.forEach((from, to) => {
      const own = { ...rows[row + to] };
      for (const key of HEIGHT_KEYS) {
        delete own[key];
        if (before[from]![key] !== undefined) own[key] = before[from]![key];
      }
      rows[row + to] = own;
    });
    return true;
  },
};

const HEIGHT_KEYS = ['h', 'ia', 'ah', 'custom'] as const;

/** The mutations that put rows into an order, and that take it back. */
function orderingRows(injector: Injector, sheet: Worksheet, operation: RowsOrder): IUndoRedoCommandInfos {
  const { order } = operation;
  const back: number[] = [];
  order.forEach((from, to) => (back[from] = to));
  const lists = movingLists(injector, sheet, operation, back);
  return {
    redos: [...mutations(sheet, operation, (to) => order[to]!), ...lists.redos],
    undos: [...lists.undos, ...mutations(sheet, { ...operation, order: back }, (to) => to)],
  };
}

/** @param fromOf gives for each row of the range the one whose cells it gets, as they now stand */
function mutations(sheet: Worksheet, operation: RowsOrder, fromOf: (to: number) => number): IMutationInfo[] {
  const { row, column, columns, order, staying, heights } = operation;
  const where = targetOf(sheet);
  const textAt = formulaTexts(sheet);
  const cells = sheet.getCellMatrix();
  const moving = order.flatMap((from, to) => (from === to ? [] : [to]));
  const places = linesOf(column, column + columns - 1);
  const setting = (
    own: readonly number[],
    cellOf: (from: number, place: number, to: number) => ICellData | null,
    trigger?: string,
  ): IMutationInfo[] => {
    const lineOf = (to: number) => own.map((place) => [place, cellOf(row + fromOf(to), place, row + to)]);
    const cellValue = Object.fromEntries(moving.map((to) => [row + to, Object.fromEntries(lineOf(to))]));
    const params = { ...where, cellValue, ...(trigger ? { trigger } : {}) };
    return own.length > 0 ? [{ id: SetRangeValuesMutation.id, params }] : [];
  };
  const others = places.filter((place) => !staying.includes(place));
  const looks = places.filter((place) => staying.includes(place));
  // What is put over a cell would take up its looks: each is emptied before.
  return [
    ...setting(others, () => null),
    ...setting(others, (from, place, to) => wholeCell(cells.getValue(from, place), textAt(from, place), to - from)),
    // A step that is said to be of looks alone leaves the formula that fills the column.
    ...setting(looks, () => ({ s: null }), SetStyleCommand.id),
    ...setting(looks, (from, place) => ({ s: cells.getValue(from, place)?.s ?? null }), SetStyleCommand.id),
    { id: OrderRowsMutation.id, params: { ...where, order: operation } satisfies OrderRowsParams },
    // Has the grid draw rows in their heights.
    ...(heights
      ? [{ id: SetWorksheetRowIsAutoHeightMutation.id, params: { ...where, ranges: [], autoHeightInfo: 0 } }]
      : []),
  ];
}

/** A cell with all that it holds, its formula written out and moved down. */
function wholeCell(data: Nullable<ICellData>, formula: string | undefined, down: number): ICellData | null {
  const { si: _si, f: _f, ...rest } = Tools.deepClone(data ?? {});
  const cell: ICellData = formula === undefined ? rest : { ...rest, f: moved(formula, down, 0) };
  return Object.values(cell).every((one) => one === undefined || one === null) ? null : cell;
}

/** Lists of choices that not all cells of a column have go with the cells that have them. */
function movingLists(
  injector: Injector,
  sheet: Worksheet,
  operation: RowsOrder,
  places: readonly number[],
): IUndoRedoCommandInfos {
  const where = targetOf(sheet);
  const put = (ruleId: string, ranges: readonly IRange[]): IMutationInfo => ({
    id: UpdateDataValidationMutation.id,
    params: { ...where, ruleId, payload: { type: UpdateRuleType.RANGE, payload: [...ranges] } },
  });
  const steps = rulesOn(injector, sheet).flatMap(({ uid, ranges }) => {
    const after = rangesAfter(ranges, operation, places);
    return after ? [{ redo: put(uid, after), undo: put(uid, ranges) }] : [];
  });
  return { redos: steps.map(({ redo }) => redo), undos: steps.map(({ undo }) => undo) };
}

/**
 * Ranges after the rows have another order; undefined where they stay as they are.
 * @param places where each row goes
 */
function rangesAfter(
  ranges: readonly IRange[],
  { row, column, columns, order, staying }: RowsOrder,
  places: readonly number[],
): IRange[] | undefined {
  const last = row + order.length - 1;
  let isChanged = false;
  const after = ranges.flatMap((range): IRange[] => {
    const { startRow, endRow, startColumn, endColumn } = range;
    const isBeside = endRow < row || startRow > last || endColumn < column || startColumn >= column + columns;
    if (isBeside || (startRow <= row && endRow >= last)) return [range];
    // Of a list over several columns each follows for itself.
    return linesOf(startColumn, endColumn).flatMap((place) => {
      const own = { startColumn: place, endColumn: place };
      if (place < column || place >= column + columns || staying.includes(place)) return [{ ...range, ...own }];
      isChanged = true;
      const rows = linesOf(startRow, endRow).map((line) =>
        line < row || line > last ? line : row + places[line - row]!,
      );
      return runsOf(rows).map(([from, to]) => ({ startRow: from, endRow: to, ...own }));
    });
  });
  return isChanged ? after : undefined;
}
