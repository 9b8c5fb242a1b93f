/** The workbook as plain data, read through the port: what a trial is made in, so that the workbook itself is left alone. */
import {
  isFormula,
  revived,
  type Cell,
  type CellModel,
  type CellPlace,
  type Dates1904,
  type Edit,
  type NameModel,
  type RangeAddress,
  type SheetModel,
  type TableModel,
  type Workbook,
  type WorkbookModel,
} from '../../../../sheet';
import { blocksOf } from '../../../shared/page-turn';

export type ReadableWorkbook = Pick<
  Workbook,
  'sheets' | 'usedRange' | 'read' | 'readFormulas' | 'tables' | 'names' | 'dates1904'
>;

/** Looks of a workbook that counts days from 1904: which cells show dates is all that a calculation asks for. */
const STYLES_1904 = [{}, { numberFormat: 'yyyy-mm-dd' }];
const DATED = 1;

/** Cells that are read at once, in some 20 ms on the bench; between two blocks the page answers. */
const CELLS_AT_ONCE = 10_000;

/** Rows of a sheet as the port gives them. */
export interface Block {
  readonly range: RangeAddress;
  readonly values: readonly (readonly Cell[])[];
  readonly formulas: readonly (readonly (string | null)[])[];
}

/** What there is of a workbook beside its cells. */
export interface BookFrame {
  readonly sheets: readonly string[];
  readonly tables: readonly TableModel[];
  readonly names: readonly NameModel[];
  readonly dates: Dates1904 | undefined;
}

/** Reads all cells in blocks of rows, each taken before the next is read. */
export async function readInBlocks(
  workbook: ReadableWorkbook,
  take: (block: Block) => Promise<unknown>,
): Promise<BookFrame> {
  const [infos, tables, names, dates] = await Promise.all([
    workbook.sheets(),
    workbook.tables(),
    workbook.names(),
    workbook.dates1904(),
  ]);
  const sheets = infos.map(({ name }) => name);
  for await (const range of blocksOf(workbook, sheets, CELLS_AT_ONCE)) {
    const [values, formulas] = await Promise.all([workbook.read(range), workbook.readFormulas(range)]);
    await take({ range, values, formulas });
  }
  return { sheets, tables, names, dates };
}

/** The copy, put together of what was read; an error cell may have been cloned on its way. */
export class CopyInMaking {
  private readonly cells = new Map<string, (CellModel | undefined)[][]>();

  take({ range: { sheet, row }, values, formulas }: Block): void {
    const lines = this.cells.get(sheet) ?? [];
    this.cells.set(sheet, lines);
    values.forEach((line, r) => {
      lines[row + r] = line.map((value, column): CellModel | undefined => {
        const formula = formulas[r]?.[column];
        if (formula) return { value: revived(value), formula: formula.replace(/^=/, '') };
        return value === null ? undefined : { value: revived(value) };
      });
    });
  }

  finish({ sheets, tables, names, dates }: BookFrame): WorkbookModel {
    for (const { sheet, row, column } of dates?.shown ?? []) {
      const line = this.cells.get(sheet)?.[row];
      const cell = line?.[column];
      if (line && cell) line[column] = { ...cell, style: DATED };
    }
    return {
      sheets: sheets.map((name) => ({
        name,
        cells: this.cells.get(name) ?? [],
        tables: tables.filter(({ range }) => range.sheet === name),
      })),
      names,
      ...(dates ? { styles: STYLES_1904, dates1904: true } : { styles: [] }),
    };
  }
}

export const cellIn = (copy: WorkbookModel, { sheet, row, column }: CellPlace): CellModel | undefined =>
  copy.sheets.find(({ name }) => name.toLowerCase() === sheet.toLowerCase())?.cells[row]?.[column];

export const valueIn = (copy: WorkbookModel, place: CellPlace): Cell => cellIn(copy, place)?.value ?? null;

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
