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
  /** The embedded engine even where the calculator knows everything: for comparing the two. */
  readonly engine?: boolean;
}

/**
 * Recalculates a model. The calculator does the work where it knows every function; else the embedded engine,
 * which knows some hundreds more and takes its time over them.
 */
export async function recalculate(model: WorkbookModel, options: RecalculateOptions = {}): Promise<Recalculation> {
  const keeper = new Keeper();
  const calculator = new Calculator(model);
  if (!calculator.unknown.length && !options.engine) return calculated(model, calculator, keeper, options);
  const { EngineCalculation } = await import('./engine-results');
  const engine = new EngineCalculation();
  for (const unknown of calculator.unknown) {
    const reason = reasonToKeep(unknown, (name) => engine.knows(name));
    if (reason) keeper.keep(reason, placeOf(unknown, model));
  }
  const known = keeper.frozen(model);
  const again = keeper.isEmpty ? calculator : new Calculator(known);
  if (!again.unknown.length && !options.engine) return calculated(model, again, keeper, options);
  keepCircles(again.circles(), keeper);
  return finished(model, await engine.results(keeper.frozen(model)), keeper);
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

/** undefined: the engine can calculate it. */
function reasonToKeep(
  { functionName, formula, message }: UnknownFormula,
  knows: (name: string) => boolean,
): string | undefined {
  if (namesOtherFile(formula)) return 'a reference to another workbook';
  if (functionName !== undefined) return knows(functionName) ? undefined : `function ${functionName}`;
  return message;
}

const placeOf = (
  { sheet, row, column }: UnknownFormula,
  model: WorkbookModel,
): { sheet: string; row: number; column: number } => ({ sheet: model.sheets[sheet]!.name, row, column });
