/** The workbook as plain data, read through the port: what a trial is made in, so that the workbook itself is left alone. */
import type { Cell, CellModel, Edit, RangeAddress, SheetModel, Workbook, WorkbookModel } from '../../../../sheet';

export type ReadableWorkbook = Pick<Workbook, 'sheets' | 'usedRange' | 'read' | 'readFormulas' | 'tables' | 'names'>;

export async function copyOf(workbook: ReadableWorkbook): Promise<WorkbookModel> {
  const [infos, tables, names] = await Promise.all([workbook.sheets(), workbook.tables(), workbook.names()]);
  const sheets: SheetModel[] = [];
  for (const { name } of infos) {
    const used = await workbook.usedRange(name);
    sheets.push({
      name,
      cells: used ? await cellsOf(workbook, used) : [],
      tables: tables.filter(({ range }) => range.sheet === name),
    });
  }
  return { sheets, names, styles: [] };
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
        changed[edit.range.column + c] =
          typeof input === 'object' && input !== null && 'formula' in input
            ? { value: null, formula: input.formula.replace(/^=/, '') }
            : { value: input };
      });
      cells[row] = changed;
    });
  }
  return { ...copy, sheets };
}
