/**
 * Rows of a range put into another order: the engine's own way of it leaves formulas and looks behind, so that cells
 * are taken out and put in again as a whole. A mutation of its own tells the log of the structure, by which the file
 * has the same done to it.
 */
import {
  CommandType,
  IUniverInstanceService,
  Tools,
  UniverInstanceType,
  type IAccessor,
  type ICellData,
  type IMutation,
  type IMutationInfo,
  type Injector,
  type IRange,
  type ISheetDataValidationRule,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { DataValidationModel, UpdateDataValidationMutation, UpdateRuleType } from '@univerjs/data-validation';
import { FormulaDataModel } from '@univerjs/engine-formula';
import { SetRangeValuesMutation, SetStyleCommand, SetWorksheetRowIsAutoHeightMutation } from '@univerjs/sheets';
import { moved } from '../../sheet/formula';
import type { RowsOrder } from '../../xlsx';

export interface OrderRowsParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly order: RowsOrder;
}

/** Tells that rows have another order; heights of rows are the one thing that it changes itself. */
export const OrderRowsMutation: IMutation<OrderRowsParams> = {
  id: 'tarebook.mutation.order-rows',
  type: CommandType.MUTATION,
  handler(accessor: IAccessor, { unitId, subUnitId, order: { order, row, heights } }: OrderRowsParams): boolean {
    const book = accessor.get(IUniverInstanceService).getUnit<EngineWorkbook>(unitId, UniverInstanceType.UNIVER_SHEET);
    const rows = book?.getSheetBySheetId(subUnitId)?.getRowManager().getRowData() as RowLooks | undefined;
    if (!rows) return false;
    if (!heights) return true;
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
type RowLooks = Record<number, Partial<Record<(typeof HEIGHT_KEYS)[number], unknown>>>;

/** The mutations that put rows into an order, and that take it back. */
export function orderingRows(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  operation: RowsOrder,
): { readonly redo: IMutationInfo[]; readonly undo: IMutationInfo[] } {
  const there = mutations(
    book,
    sheet,
    operation,
    cellsFrom(injector, book, sheet, operation, (to) => operation.order[to]!),
  );
  const back = mutations(
    book,
    sheet,
    { ...operation, order: inverse(operation.order) },
    cellsFrom(injector, book, sheet, operation, (to) => to),
  );
  const lists = movingLists(injector, book, sheet, operation);
  return { redo: [...there, ...lists.redo], undo: [...lists.undo, ...back] };
}

type Cells = Record<number, Record<number, ICellData | null>>;

function mutations(book: EngineWorkbook, sheet: Worksheet, operation: RowsOrder, cells: Cells): IMutationInfo[] {
  const where = { unitId: book.getUnitId(), subUnitId: sheet.getSheetId() };
  const stays = new Set(operation.staying);
  const [contents, looks] = [false, true].map((isStaying) => pick(cells, (column) => stays.has(column) === isStaying));
  // What is put over a cell would take up its looks: each is emptied before.
  return [
    ...steps(where, contents!, () => null, undefined),
    // A step that is said to be of looks alone leaves the formula that fills the column.
    ...steps(where, looks!, () => ({ s: null }), SetStyleCommand.id),
    { id: OrderRowsMutation.id, params: { ...where, order: operation } satisfies OrderRowsParams },
    // Has the grid draw rows in their heights.
    ...(operation.heights
      ? [{ id: SetWorksheetRowIsAutoHeightMutation.id, params: { ...where, ranges: [], autoHeightInfo: 0 } }]
      : []),
  ];
}

function steps(
  where: { readonly unitId: string; readonly subUnitId: string },
  cells: Cells,
  empty: () => ICellData | null,
  trigger: string | undefined,
): IMutationInfo[] {
  const emptied: Cells = {};
  const filled: Cells = {};
  for (const [row, line] of Object.entries(cells))
    for (const [column, cell] of Object.entries(line)) {
      (emptied[Number(row)] ??= {})[Number(column)] = empty();
      if (cell) (filled[Number(row)] ??= {})[Number(column)] = cell;
    }
  return [emptied, filled]
    .filter((cellValue) => Object.keys(cellValue).length > 0)
    .map((cellValue) => ({
      id: SetRangeValuesMutation.id,
      params: { ...where, cellValue, ...(trigger ? { trigger } : {}) },
    }));
}

const pick = (cells: Cells, takes: (column: number) => boolean): Cells =>
  Object.fromEntries(
    Object.entries(cells).map(([row, line]) => [
      row,
      Object.fromEntries(Object.entries(line).filter(([column]) => takes(Number(column)))),
    ]),
  );

/** Cells of the rows that get another, each as it is in the row `fromOf` gives for it; null where nothing is. */
function cellsFrom(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  operation: RowsOrder,
  fromOf: (to: number) => number,
): Cells {
  const { row } = operation;
  const cells: Cells = {};
  eachPlace(operation, (to, column, stays) => {
    const from = row + fromOf(to - row);
    const data = sheet.getCellMatrix().getValue(from, column);
    const looks = data?.s ? { s: data.s } : null;
    const whole = (): ICellData | null =>
      data ? wholeCell(data, formulaAt(injector, book, sheet, from, column), to - from) : null;
    (cells[to] ??= {})[column] = stays ? looks : whole();
  });
  return cells;
}

function eachPlace(
  { row, column, columns, order, staying }: RowsOrder,
  take: (row: number, column: number, stays: boolean) => void,
): void {
  const stays = new Set(staying);
  order.forEach((from, to) => {
    if (from === to) return;
    for (let place = column; place < column + columns; place++) take(row + to, place, stays.has(place));
  });
}

/** A cell with all that it holds, its formula written out and moved down. */
function wholeCell(data: ICellData, formula: string | undefined, down: number): ICellData | null {
  const { si: _si, f: _f, ...rest } = Tools.deepClone(data);
  const cell: ICellData = formula === undefined ? rest : { ...rest, f: `=${moved(formula, down, 0)}` };
  return Object.values(cell).every((one) => one === undefined || one === null) ? null : cell;
}

/** The formula that stands in a cell, without "="; undefined where there is none. */
export function formulaAt(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  row: number,
  column: number,
): string | undefined {
  const data = sheet.getCellMatrix().getValue(row, column);
  if (data?.f) return data.f.replace(/^=/, '');
  if (!data?.si) return undefined;
  // Of cells that were filled as one formula the engine lists that, and how far each is from it.
  const item = injector.get(FormulaDataModel).getFormulaData()[book.getUnitId()]?.[sheet.getSheetId()]?.[row]?.[column];
  return item ? moved(item.f.replace(/^=/, ''), item.y ?? 0, item.x ?? 0) : undefined;
}

function inverse(order: readonly number[]): number[] {
  const back: number[] = [];
  order.forEach((from, to) => (back[from] = to));
  return back;
}

/** Lists of choices that not all cells of a column have go with the cells that have them. */
function movingLists(
  injector: Injector,
  book: EngineWorkbook,
  sheet: Worksheet,
  operation: RowsOrder,
): { redo: IMutationInfo[]; undo: IMutationInfo[] } {
  const where = { unitId: book.getUnitId(), subUnitId: sheet.getSheetId() };
  const rules = injector.get(DataValidationModel).getRules(where.unitId, where.subUnitId) as ISheetDataValidationRule[];
  const steps = rules.flatMap(({ uid, ranges }) => {
    const after = rangesAfter(ranges, operation);
    const put = (payload: readonly IRange[]): IMutationInfo => ({
      id: UpdateDataValidationMutation.id,
      params: { ...where, ruleId: uid, payload: { type: UpdateRuleType.RANGE, payload: [...payload] } },
    });
    return after ? [{ redo: put(after), undo: put(ranges) }] : [];
  });
  return { redo: steps.map(({ redo }) => redo), undo: steps.map(({ undo }) => undo) };
}

/** Ranges after the rows have another order; undefined where they stay as they are. */
function rangesAfter(
  ranges: readonly IRange[],
  { row, column, columns, order, staying }: RowsOrder,
): IRange[] | undefined {
  const stays = new Set(staying);
  const places = inverse(order);
  const last = row + order.length - 1;
  let isChanged = false;
  const after = ranges.flatMap((range): IRange[] => {
    const { startRow, endRow, startColumn, endColumn } = range;
    const isBeside = endRow < row || startRow > last || endColumn < column || startColumn >= column + columns;
    if (isBeside || (startRow <= row && endRow >= last)) return [range];
    // Of a list over several columns each follows for itself.
    return Array.from({ length: endColumn - startColumn + 1 }, (_none, index) => startColumn + index).flatMap(
      (place) => {
        const own = { startColumn: place, endColumn: place };
        if (place < column || place >= column + columns || stays.has(place)) return [{ ...range, ...own }];
        const rows: number[] = [];
        for (let line = startRow; line <= endRow; line++)
          rows.push(line < row || line > last ? line : row + places[line - row]!);
        isChanged = true;
        return runsOf(rows).map(([from, to]) => ({ startRow: from, endRow: to, ...own }));
      },
    );
  });
  return isChanged ? after : undefined;
}

/** Numbers in runs of neighbours: the first and the last of each. */
export function runsOf(numbers: readonly number[]): (readonly [first: number, last: number])[] {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number <= last[1] + 1) last[1] = Math.max(last[1], number);
    else runs.push([number, number]);
  }
  return runs;
}
