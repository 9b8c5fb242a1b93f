/** Fills a workbook's formulas with their values, as the embedded engine computes them. */
import { calculate, loadWorkbook, startEngine, UniverWorkbook } from '../../src/hosts/univer';
import { CellError, cellName, type WorkbookModel } from '../../src/sheet';

/** `name` tells one workbook from another: the engine keeps parsed formulas by the workbook's id. */
export async function computed(name: string, model: WorkbookModel): Promise<WorkbookModel> {
  const engine = startEngine();
  loadWorkbook(engine, model, name, name);
  const workbook = new UniverWorkbook(engine, name, 'headless', name);
  await calculate(engine);
  const filled = workbook.toModel(model);
  workbook.dispose();
  return keepLooks(model, filled);
}

/** A sample in which a cell is in error is not written. */
export function refuseErrors(name: string, model: WorkbookModel): void {
  const wrong = model.sheets.flatMap((sheet) =>
    sheet.cells.flatMap((row, r) =>
      row.flatMap((cell, c) =>
        cell?.value instanceof CellError ? [`${sheet.name}!${cellName(r, c)} ${cell.value.toString()}`] : [],
      ),
    ),
  );
  if (wrong.length > 0) throw new Error(`${name} has cells in error:\n${wrong.join('\n')}`);
}

/** Widths, tables and lists come from the sample as it is written down; values, spills and styles from the engine. */
const keepLooks = (written: WorkbookModel, filled: WorkbookModel): WorkbookModel => ({
  ...filled,
  names: written.names,
  sheets: filled.sheets.map((sheet, index) => ({ ...written.sheets[index]!, cells: sheet.cells })),
});
