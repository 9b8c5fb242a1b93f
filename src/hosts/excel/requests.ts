/**
 * How Excel is asked: by batches whose errors are the port's, in as few round trips as may be, for cells, ranges, sheets,
 * tables and names as the port has them; and what this Excel can do.
 */
import {
  CellError,
  isErrorCode,
  WorkbookError,
  type Cell,
  type CellInput,
  type NameModel,
  type RangeAddress,
  type SheetContent,
  type SheetInfo,
  type SheetRequest,
  type TableModel,
} from '../../sheet';

/** True where this Excel has the requirement set ExcelApi of that version. */
export const supports = (version: string): boolean => Office.context.requirements.isSetSupported('ExcelApi', version);

/** Runs a batch; waits while a person is typing in a cell, and gives Excel's errors as the port's. */
export async function run<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
  options: Excel.RunOptions = {},
): Promise<T> {
  try {
    return await Excel.run({ delayForCellEdit: true, ...options }, batch);
  } catch (error) {
    throw asWorkbookError(error);
  }
}

/** A batch whose edits are one step of Excel's own undo, where this Excel can have them so. */
export const runAsOne = <T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> =>
  run(batch, supports('1.20') ? { mergeUndoGroup: true } : {});

/** What is asked for in one sync: `ask` loads it and gives what reads it after the sync. */
export const answered = <T>(ask: (context: Excel.RequestContext) => () => T): Promise<T> =>
  run(async (context) => {
    const answer = ask(context);
    await context.sync();
    return answer();
  });

/** What Excel's own error codes mean to a person; by Microsoft, "Application-specific API error codes". */
const MEANINGS: Readonly<Record<string, readonly [WorkbookError['code'], string]>> = {
  AccessDenied: ['protected', 'Excel refuses the change: the sheet or the workbook is protected'],
  ItemNotFound: ['no-sheet', 'A sheet or table that was asked for is not in the workbook'],
  InvalidReference: ['off-sheet', 'The range is not on the sheet'],
  RangeExceedsLimit: ['off-sheet', 'The range is too large for Excel'],
  InsertDeleteConflict: [
    'host',
    'Excel cannot insert or remove these rows: a filter, a merged cell or another table is in the way',
  ],
  TableOverlap: ['shape', 'The table would overlap another'],
  ItemAlreadyExists: ['name-taken', 'The name is taken already'],
  InvalidOperationInCellEditMode: [
    'host',
    'Excel is in the middle of editing a cell: finish it with Enter or Escape, then try again',
  ],
  RequestPayloadSizeLimitExceeded: ['host', 'That is more than Excel takes at once'],
};

/** An error of Excel as one of the port's; anything else as it is. */
function asWorkbookError(error: unknown): unknown {
  if (error instanceof WorkbookError || !(error instanceof Error)) return error;
  const { code } = error as { code?: unknown };
  if (typeof code !== 'string') return error;
  const [ours, meaning] = MEANINGS[code] ?? (['host', `Excel reports ${code}`] as const);
  return new WorkbookError(ours, `${meaning}${error.message && !MEANINGS[code] ? `: ${error.message}` : ''}`, {
    cause: error,
  });
}

/** True for Excel's error of that code. */
export const isExcelError = (error: unknown, code: string): boolean =>
  error instanceof Error && (error as { code?: unknown }).code === code;

/** A range as an object of Excel. */
export const rangeOf = (context: Excel.RequestContext, range: RangeAddress): Excel.Range =>
  context.workbook.worksheets
    .getItem(range.sheet)
    .getRangeByIndexes(range.row, range.column, range.rows, range.columns);

export const PLACE = 'rowIndex,columnIndex,rowCount,columnCount';

/** A loaded range's place. */
export const placeOf = (sheet: string, range: Excel.Range): RangeAddress => ({
  sheet,
  row: range.rowIndex,
  column: range.columnIndex,
  rows: range.rowCount,
  columns: range.columnCount,
});

/** Asks for the sheets; call the result after the next sync. */
export function askSheets(context: Excel.RequestContext): () => SheetInfo[] {
  const { worksheets } = context.workbook;
  worksheets.load('items/name,items/visibility,items/protection/protected');
  return () =>
    worksheets.items.map((sheet) => ({
      name: sheet.name,
      visible: sheet.visibility === 'Visible',
      protected: sheet.protection.protected,
    }));
}

/** Asks for the names of the sheets by the ids that events carry; call the result after the next sync. */
export function askSheetNames(context: Excel.RequestContext): () => Map<string, string> {
  const { worksheets } = context.workbook;
  worksheets.load('items/id,items/name');
  return () => new Map(worksheets.items.map(({ id, name }) => [id, name]));
}

/** Asks for the defined names; call the result after the next sync. */
export function askNames(context: Excel.RequestContext): () => NameModel[] {
  const { names } = context.workbook;
  names.load('items/name,items/formula');
  return () => names.items.map(({ name, formula }) => ({ name, refersTo: String(formula).replace(/^=/, '') }));
}

export const tableNamed = <T extends Pick<TableModel, 'name'>>(tables: readonly T[], name: string): T | undefined =>
  tables.find((table) => table.name.toLowerCase() === name.toLowerCase());

/** Tables with their places. */
export class Tables {
  /** @param known how many tables there were last time: as many are asked for at once, so that one sync is enough while none is added */
  constructor(private known: number) {}

  /** Syncs, once as a rule. What `ask` asks of Excel is answered with it. */
  async list<T>(
    context: Excel.RequestContext,
    ask: () => T,
  ): Promise<{ readonly tables: readonly TableModel[]; readonly asked: T }> {
    const asked = ask();
    const count = context.workbook.tables.getCount();
    const read = Array.from({ length: this.known }, (_none, index) => askTable(context, index));
    try {
      await context.sync();
    } catch (error) {
      // A table less than last time, by whatever code Excel says so: that request failed as a whole, and is made once more.
      if (this.known === 0) throw error;
      this.known = 0;
      return this.list(context, ask);
    }
    if (count.value > read.length) {
      for (let index = read.length; index < count.value; index++) read.push(askTable(context, index));
      await context.sync();
    }
    this.known = count.value;
    return { asked, tables: read.slice(0, count.value).map((table) => table()) };
  }
}

function askTable(context: Excel.RequestContext, index: number): () => TableModel {
  const table = context.workbook.tables.getItemAt(index);
  table.load('name,showHeaders,worksheet/name');
  table.columns.load('items/name');
  const body = table.getDataBodyRange();
  body.load(PLACE);
  return () => {
    const { row, rows, ...place } = placeOf(table.worksheet.name, body);
    const header = table.showHeaders ? 1 : 0;
    return {
      name: table.name,
      range: { ...place, row: row - header, rows: rows + header },
      columns: table.columns.items.map(({ name }) => name),
    };
  };
}

/** What a range's `formulas` and `values` take and give. */
export type ExcelCell = string | number | boolean;

/** A cell from a range's `values` and `valueTypes`: error values come as text there, told apart by the type. */
export function fromExcel(value: unknown, type: unknown): Cell {
  if (value === '' || value === null || value === undefined || type === 'Empty') return null;
  if (type === 'Error')
    return isErrorCode(value) ? new CellError(value) : new CellError('#VALUE!', `Excel shows ${String(value)}`);
  return typeof value === 'number' || typeof value === 'boolean' ? value : String(value);
}

/** A formula from a range's `formulas` and `values`: null where the cell holds a plain value, a text with "=" included. */
export const formulaOf = (formula: unknown, value: unknown): string | null =>
  typeof formula === 'string' && formula.startsWith('=') && formula !== value ? formula : null;

/** What is written into a range's `formulas`, so that the cell holds just that. */
export function toExcel(input: CellInput): ExcelCell {
  if (input === null) return '';
  if (input instanceof CellError) return input.code;
  if (typeof input === 'object') return input.formula;
  return typeof input === 'string' ? asTyped(input) : input;
}

/**
 * A text as it is typed so that Excel keeps it: with an apostrophe before what Excel would take for a number,
 * a date, a formula or a truth value ("3/32", "0012", "=x", "Mar 5").
 */
function asTyped(text: string): ExcelCell {
  const plain = text === '' || (/^\p{L}[\p{L} ,.;:()_&/-]*$/u.test(text) && !/^(true|false)$/i.test(text));
  return plain ? text : `'${text}`;
}

/** A cell as it stood, to be written back. */
export function asBefore(formula: unknown, value: unknown, type: unknown): ExcelCell {
  const typed = formulaOf(formula, value);
  if (typed !== null) return typed;
  // An error that the port has no code for goes back as it was.
  return type === 'Error' ? String(value) : toExcel(fromExcel(value, type));
}

/** Cells that one sync carries: Excel on the web takes 5 MB a request, which is far more than this in any cells of ours. */
export const CELLS_A_SYNC = 50_000;

/** A range in pieces of whole rows, none above what a sync carries. */
export function inPieces(range: RangeAddress): RangeAddress[] {
  const rows = Math.max(1, Math.floor(CELLS_A_SYNC / Math.max(1, range.columns)));
  return Array.from({ length: Math.ceil(range.rows / rows) }, (_piece, index) => {
    const done = index * rows;
    return { ...range, row: range.row + done, rows: Math.min(rows, range.rows - done) };
  });
}

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
