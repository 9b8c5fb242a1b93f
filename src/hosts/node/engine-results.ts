/** Results of a workbook's formulas from the embedded engine: the way for formulas that the calculator does not know. */
import { IFunctionService } from '@univerjs/engine-formula';
import { CellError, type CellModel, type Matrix, type SheetModel, type WorkbookModel } from '../../sheet';
import { calculate, closeWorkbook, loadWorkbook, startEngine, UniverWorkbook, type Engine } from '../univer';
import type { Computed } from '../../calculation';

/** The engine keeps values by workbook in one place for the whole process: an id that came again would see old ones. */
let used = 0;

export class EngineCalculation {
  private readonly engine: Engine = startEngine({ calculation: 'engine' });

  constructor() {
    // The engine registers its functions with its first workbook.
    this.engine.api.createWorkbook({ id: 'first' });
  }

  knows(functionName: string): boolean {
    return this.engine.univer.__getInjector().get(IFunctionService).hasExecutor(functionName);
  }

  /** Calculates all formulas of a model. */
  async results(model: WorkbookModel): Promise<Computed[]> {
    const id = `recalculated-${(used += 1)}`;
    loadWorkbook(this.engine, model, id, id);
    const workbook = new UniverWorkbook(this.engine, id, 'headless', id);
    try {
      await calculate(this.engine);
      const after = workbook.toModel(model);
      return model.sheets.flatMap((sheet, index) => sheetResults(sheet, after.sheets[index]!, index));
    } finally {
      workbook.dispose();
      closeWorkbook(this.engine, id);
    }
  }
}

function sheetResults(before: SheetModel, after: SheetModel, sheet: number): Computed[] {
  const results: Computed[] = [];
  before.cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (cell?.formula === undefined) return;
      const now = after.cells[row]?.[column];
      results.push({ sheet, row, column, result: now?.spill ? block(after, row, column, now) : (now?.value ?? '') });
    }),
  );
  return results;
}

function block(sheet: SheetModel, row: number, column: number, { spill, value }: CellModel): Matrix {
  if (!spill || value instanceof CellError) return [[value]];
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => sheet.cells[row + r]?.[column + c]?.value ?? ''),
  );
}
