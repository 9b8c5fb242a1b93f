/** A workbook's model recalculated: every formula, TARE and ordinary. */
import type { WorkbookModel } from '../sheet';
import { Calculator, type Progress } from './calculate';
import { keptFormulas, markedCells, type KeptFormulas, type MarkedCell } from './kept-formulas';
import { withResults, type Results } from './results';

export interface Recalculation extends Results {
  /** Formulas with an unknown function, a reference to another file, or in a circle: they keep their last values. */
  readonly kept: readonly KeptFormulas[];
  /** These, and every formula that rests on one of them. */
  readonly notRecalculated: readonly MarkedCell[];
}

export interface RecalculateOptions {
  readonly progress?: Progress;
}

export function recalculate(model: WorkbookModel, options: RecalculateOptions = {}): Recalculation {
  const calculator = new Calculator(model);
  const calculation = calculator.run(options.progress);
  return {
    ...withResults(model, calculation.results),
    kept: keptFormulas(model, calculator.unknown, calculation),
    notRecalculated: markedCells(model, calculation.notRecalculated),
  };
}
