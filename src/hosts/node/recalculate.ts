/** A workbook's model recalculated: every formula, TARE and ordinary. */
import type { WorkbookModel } from '../../sheet';
import { namesOtherFile } from '../../xlsx';
import { Calculator, type Computed, type Progress, type UnknownFormula } from '../../calculation';
import { Keeper, type KeptFormulas } from '../../calculation/kept';
import { withResults, type Results } from '../../calculation/results';

export interface Recalculation extends Results {
  /** Formulas with an unknown function, a reference to another file, or in a circle: they keep their last values. */
  readonly kept: readonly KeptFormulas[];
}

export interface RecalculateOptions {
  readonly progress?: Progress;
}

/** Recalculates a model. What the calculator does not know keeps its value. */
export async function recalculate(model: WorkbookModel, options: RecalculateOptions = {}): Promise<Recalculation> {
  const keeper = new Keeper();
  const calculator = new Calculator(model);
  for (const unknown of calculator.unknown) keeper.keep(reasonToKeep(unknown), placeOf(unknown, model));
  return calculated(model, keeper.isEmpty ? calculator : new Calculator(keeper.frozen(model)), keeper, options);
}

function calculated(
  model: WorkbookModel,
  calculator: Calculator,
  keeper: Keeper,
  options: RecalculateOptions,
): Recalculation {
  const { results, circles } = calculator.run(options.progress);
  keepCircles(circles, keeper);
  return finished(model, results, keeper);
}

const finished = (model: WorkbookModel, results: readonly Computed[], keeper: Keeper): Recalculation => ({
  ...withResults(model, results),
  kept: keeper.list(),
});

function keepCircles(circles: ReturnType<Calculator['circles']>, keeper: Keeper): void {
  for (const circle of circles)
    for (const { grid, row, column } of circle)
      keeper.keep('a circle of formulas', { sheet: grid.sheet.name, row, column });
}

function reasonToKeep({ functionName, formula, message }: UnknownFormula): string {
  if (namesOtherFile(formula)) return 'a reference to another workbook';
  return functionName === undefined ? message : `function ${functionName}`;
}

const placeOf = (
  { sheet, row, column }: UnknownFormula,
  model: WorkbookModel,
): { sheet: string; row: number; column: number } => ({ sheet: model.sheets[sheet]!.name, row, column });
