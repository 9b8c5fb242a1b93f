/** A model as the port shows it: values and formulas, and no word of what is spilled. */
import type { WorkbookModel } from '../../../../src/sheet';
import {
  CopyInMaking,
  readInBlocks,
  type ReadableWorkbook,
} from '../../../../src/pane/views/weights/what-if/book-copy';

/** What a worker makes of the blocks that are sent to it. */
export async function copyOf(workbook: ReadableWorkbook): Promise<WorkbookModel> {
  const copy = new CopyInMaking();
  const frame = await readInBlocks(workbook, async (block) => copy.take(structuredClone(block)));
  return copy.finish(structuredClone(frame));
}

export function blindWorkbook(model: WorkbookModel): ReadableWorkbook {
  const cells = (name: string) => model.sheets.find((sheet) => sheet.name === name)!.cells;
  const block = <T>(
    range: { sheet: string; row: number; column: number; rows: number; columns: number },
    of: (row: number, column: number) => T,
  ): T[][] =>
    Array.from({ length: range.rows }, (_row, r) =>
      Array.from({ length: range.columns }, (_column, c) => of(range.row + r, range.column + c)),
    );
  return {
    sheets: async () => model.sheets.map(({ name }) => ({ name, visible: true, protected: false })),
    usedRange: async (sheet) => {
      const used = cells(sheet);
      const columns = Math.max(0, ...Array.from(used, (line) => line?.length ?? 0));
      return columns === 0 ? undefined : { sheet, row: 0, column: 0, rows: used.length, columns };
    },
    read: async (range) => block(range, (row, column) => cells(range.sheet)[row]?.[column]?.value ?? null),
    readFormulas: async (range) =>
      block(range, (row, column) => {
        const formula = cells(range.sheet)[row]?.[column]?.formula;
        return formula === undefined ? null : `=${formula}`;
      }),
    tables: async () => model.sheets.flatMap(({ tables }) => tables),
    names: async () => model.names,
    dates1904: async () =>
      model.dates1904
        ? {
            shown: model.sheets.flatMap(({ name, cells: lines }) =>
              lines.flatMap((line, row) =>
                (line ?? []).flatMap((cell, column) => (cell?.style ? [{ sheet: name, row, column }] : [])),
              ),
            ),
          }
        : undefined,
  };
}
