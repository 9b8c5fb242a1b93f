/** Reading cells of Excel in as few round trips as their number allows. */
import type { Cell, RangeAddress, SheetContent, SheetRequest } from '../../sheet';
import { formulaOf, fromExcel, PLACE, placeOf, rangeOf } from './requests';
import { CELLS_A_SYNC, inPieces } from './steps';

/** Asks for the rectangle from A1 that holds every used cell; call the result after the next sync. */
export function askUsed(context: Excel.RequestContext, sheet: string): () => RangeAddress | undefined {
  const used = context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true);
  used.load(PLACE);
  return () => {
    if (used.isNullObject) return undefined;
    const { row, column, rows, columns } = placeOf(sheet, used);
    return { sheet, row: 0, column: 0, rows: row + rows, columns: column + columns };
  };
}

/** Asks for the values of a sheet, from A1, that may not be there and has but a few cells; call the result after the next sync. */
export function askSmall(context: Excel.RequestContext, sheet: string): () => Cell[][] | undefined {
  const used = context.workbook.worksheets.getItemOrNullObject(sheet).getUsedRangeOrNullObject(true);
  used.load(`${PLACE},${VALUES}`);
  return () => {
    if (used.isNullObject) return undefined;
    const { row, column, rows, columns } = placeOf(sheet, used);
    const values = valuesOf(used);
    return Array.from({ length: row + rows }, (_row, r) =>
      Array.from({ length: column + columns }, (_column, c) => values[r - row]?.[c - column] ?? null),
    );
  };
}

/** What `valuesOf` reads, to be loaded. */
export const VALUES = 'values,valueTypes';

/** The cells of a loaded range. */
export const valuesOf = ({ values, valueTypes }: Excel.Range): Cell[][] =>
  values.map((line: unknown[], r) => line.map((value, c) => fromExcel(value, valueTypes[r]?.[c])));

const formulasOf = ({ formulas, values }: Excel.Range): (string | null)[][] =>
  formulas.map((line: unknown[], r) => line.map((formula, c) => formulaOf(formula, values[r]?.[c])));

interface RangeCells {
  readonly values: Cell[][];
  readonly formulas?: (string | null)[][];
}

/** One sync for where the sheets end, and one for their cells. */
export async function readSheets(
  context: Excel.RequestContext,
  requests: readonly SheetRequest[],
): Promise<(SheetContent | undefined)[]> {
  if (requests.length === 0) return [];
  const used = requests.map(({ sheet }) => askUsed(context, sheet));
  await context.sync();
  const wanted = requests.map(({ rows = Infinity, formulas }, index) => {
    const range = used[index]!();
    return range && { range: { ...range, rows: Math.min(rows, range.rows) }, formulas };
  });
  const read = await readRanges(
    context,
    wanted.filter((one) => one !== undefined),
  );
  return wanted.map((one) => one && read.shift());
}

/** Reads ranges in as few syncs as their cells allow, a large one in pieces. */
export async function readRanges(
  context: Excel.RequestContext,
  requests: readonly { readonly range: RangeAddress; readonly formulas?: boolean | undefined }[],
): Promise<RangeCells[]> {
  const read = requests.map(({ formulas }): RangeCells => ({ values: [], ...(formulas ? { formulas: [] } : {}) }));
  let asked: { readonly of: RangeCells; readonly piece: Excel.Range }[] = [];
  let weight = 0;
  const take = async (): Promise<void> => {
    await context.sync();
    for (const { of, piece } of asked) {
      of.values.push(...valuesOf(piece));
      of.formulas?.push(...formulasOf(piece));
    }
    asked = [];
    weight = 0;
  };
  for (const [index, { range, formulas }] of requests.entries())
    for (const piece of inPieces(range)) {
      const cells = piece.rows * piece.columns;
      if (asked.length > 0 && weight + cells > CELLS_A_SYNC) await take();
      const object = rangeOf(context, piece);
      object.load(formulas ? `${VALUES},formulas` : VALUES);
      asked.push({ of: read[index]!, piece: object });
      weight += cells;
    }
  if (asked.length > 0) await take();
  return read;
}
