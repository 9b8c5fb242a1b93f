/** What an argument's cells hold, read through the port; an expression is computed in a small copy of the cells that it reads. */
import type { Argument, Cell, CellModel, Matrix, RangeAddress, Workbook, WorkbookModel } from '../../../sheet';
import type { FormulaNode } from '../../../sheet/formula';
import type { PaneContext } from '../../shared/view';
import { isWhole, placeOf, placesIn, within, type Facts, type Place, type Standpoint } from './places';

export interface CellsRead {
  readonly argument: Argument;
  /** Place of the cells; undefined for an expression. */
  readonly place?: Place;
}

export interface Source {
  readonly workbook: Workbook;
  readonly facts: Facts;
  readonly from: Standpoint;
  readonly loadRecalculate: PaneContext['loadRecalculate'];
}

/** A1#: how far it spills is known to the sheet alone. */
const OF_SPILL = /\d#/;

/** undefined where the formula cannot be computed here; the workbook itself may still do it. */
export async function readArgument(node: FormulaNode, text: string, source: Source): Promise<CellsRead | undefined> {
  const { workbook, facts, from } = source;
  const place = placeOf(node, facts, from);
  if (place) {
    const range = await clipped(workbook, place.range);
    const cells = await workbook.read(range);
    return {
      place: { ...place, range },
      argument: range.rows === 1 && range.columns === 1 ? (cells[0]?.[0] ?? null) : cells,
    };
  }
  if (OF_SPILL.test(text)) return undefined;
  const argument = await compute(
    text,
    await Promise.all(placesIn(node, facts, from).map(({ range }) => clipped(workbook, range))),
    source,
  );
  return argument === undefined ? undefined : { argument };
}

/** Whole columns and rows as far as their sheet is used. */
const clipped = async (workbook: Workbook, range: RangeAddress): Promise<RangeAddress> =>
  isWhole(range) ? within(range, await workbook.usedRange(range.sheet)) : range;

async function compute(
  formula: string,
  ranges: readonly RangeAddress[],
  { workbook, facts, from, loadRecalculate }: Source,
): Promise<Argument | undefined> {
  if (!loadRecalculate) return undefined;
  const cells = new Map<string, (CellModel | undefined)[][]>(facts.sheets.map(({ name }) => [name.toLowerCase(), []]));
  for (const range of ranges) put(cells.get(range.sheet.toLowerCase()), range, await workbook.read(range));
  // In the formula's own row, for "this row" of a table; beyond all else that is there, so that it can spill.
  const column = Math.max(
    0,
    ...ranges.map((range) => range.column + range.columns),
    ...facts.tables.map(({ range }) => range.column + range.columns),
  );
  const own = cells.get(from.sheet.toLowerCase());
  if (!own) return undefined;
  (own[from.row] ??= [])[column] = { value: null, formula };
  const copy: WorkbookModel = {
    sheets: facts.sheets.map(({ name }) => ({
      name,
      cells: cells.get(name.toLowerCase())!,
      tables: facts.tables.filter(({ range }) => range.sheet.toLowerCase() === name.toLowerCase()),
    })),
    names: facts.names,
    styles: [],
  };
  const { model, kept } = (await loadRecalculate())(copy);
  if (kept.length > 0) return undefined;
  const after =
    model.sheets[facts.sheets.findIndex(({ name }) => name.toLowerCase() === from.sheet.toLowerCase())]!.cells;
  const { value = null, spill } = after[from.row]?.[column] ?? {};
  if (!spill || spill.rows * spill.columns === 1) return value;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => after[from.row + r]?.[column + c]?.value ?? null),
  );
}

function put(cells: (CellModel | undefined)[][] | undefined, { row, column }: RangeAddress, values: Matrix): void {
  if (!cells) return;
  values.forEach((line, r) =>
    line.forEach(
      (value: Cell, c) => value !== null && value !== '' && ((cells[row + r] ??= [])[column + c] = { value }),
    ),
  );
}
