/** A workbook without the gaps of its sparse rows, which do not pass into a page. */
import type { WorkbookModel } from '../../src/sheet';

export const dense = (model: WorkbookModel): WorkbookModel => ({
  ...model,
  sheets: model.sheets.map((sheet) => ({ ...sheet, cells: Array.from(sheet.cells, (row) => Array.from(row ?? [])) })),
});
