/** The workbook as plain data, read through the port: what a trial is made in, so that the workbook itself is left alone. */
import {
  isFormula,
  type Cell,
  type CellModel,
  type Edit,
  type RangeAddress,
  type SheetModel,
  type Workbook,
  type WorkbookModel,
} from '../../../../sheet';

export type ReadableWorkbook = Pick<
  Workbook,
  'sheets' | 'usedRange' | 'read' | 'readFormulas' | 'tables' | 'names' | 'dates1904'
>;

/** Looks of a workbook that counts days from 1904: which cells show dates is all that a calculation asks for. */
const STYLES_1904 = [{}, { numberFormat: 'yyyy-mm-dd' }];
const DATED = 1;

export async function copyOf(workbook: ReadableWorkbook): Promise<WorkbookModel> {
  const [infos, tables, names, dates] = await Promise.all([
    workbook.sheets(),
    workbook.tables(),
    workbook.names(),
    workbook.dates1904(),
  ]);
  const sheets: SheetModel[] = [];
  for (const { name } of infos) {
    const used = await workbook.usedRange(name);
    sheets.push({
      name,
      cells: used ? await cellsOf(workbook, used) : [],
      tables: tables.filter(({ range }) => range.sheet === name),
    });
  }
  if (!dates) return { sheets, names, styles: [] };
  for (const { sheet, row, column } of dates.shown) {
    const line = sheets.find(({ name }) => name === sheet)?.cells[row];
    const cell = line?.[column];
    if (line && cell) line[column] = { ...cell, style: DATED };
  }
  return { sheets, names, styles: STYLES_1904, dates1904: true };
}

async function cellsOf(workbook: ReadableWorkbook, range: RangeAddress): Promise<(CellModel | undefined)[][]> {
  const [values, formulas] = await Promise.all([workbook.read(range), workbook.readFormulas(range)]);
  return values.map((line, row) =>
    line.map((value, column): CellModel | undefined => {
      const formula = formulas[row]?.[column];
      if (formula) return { value, formula: formula.replace(/^=/, '') };
      return value === null ? undefined : { value };
    }),
  );
}

export interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

const sheetIn = (copy: WorkbookModel, name: string): SheetModel | undefined =>
  copy.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());

export const cellIn = (copy: WorkbookModel, { sheet, row, column }: Place): CellModel | undefined =>
  sheetIn(copy, sheet)?.cells[row]?.[column];

export const valueIn = (copy: WorkbookModel, place: Place): Cell => cellIn(copy, place)?.value ?? null;

/** A copy with edits made in it; only those that write plain values. */
export function withWrites(copy: WorkbookModel, edits: readonly Edit[]): WorkbookModel {
  const sheets = copy.sheets.map((sheet): SheetModel => ({ ...sheet, cells: [...sheet.cells] }));
  for (const edit of edits) {
    if (edit.kind !== 'write') throw new Error(`A trial writes cells only, not ${edit.kind}`);
    const cells = sheets.find(({ name }) => name.toLowerCase() === edit.range.sheet.toLowerCase())?.cells;
    edit.cells.forEach((line, r) => {
      const row = edit.range.row + r;
      if (!cells) return;
      const changed = [...(cells[row] ?? [])];
      line.forEach((input, c) => {
        const { style } = changed[edit.range.column + c] ?? {};
        const look = style === undefined ? {} : { style };
        changed[edit.range.column + c] = isFormula(input)
          ? { ...look, value: null, formula: input.formula.replace(/^=/, '') }
          : { ...look, value: input };
      });
      cells[row] = changed;
    });
  }
  return { ...copy, sheets };
}
