/** Fills a workbook's formulas with their values, as `tarebook recalc` computes them. */
import { recalculate } from '../../src/calculation';
import { CellError, cellName, type WorkbookModel } from '../../src/sheet';

/** Throws where a formula is not known: a sample holds none that keeps an old value. */
export async function computed(name: string, model: WorkbookModel): Promise<WorkbookModel> {
  const { model: filled, kept } = recalculate(model);
  if (kept.length > 0) throw new Error(`${name} has formulas that are not calculated: ${JSON.stringify(kept)}`);
  return filled;
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
