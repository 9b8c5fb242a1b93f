/** A workbook's model recalculated: every formula, TARE and ordinary. Those that are not calculated keep their last values; what they are is said by name. */
import { entryOf } from '../core/memoized';
import { fullName, type CellPlace, type MarkedPlace, type WorkbookModel } from '../sheet';
import { namesOtherFile } from '../sheet/formula';
import { Calculator, type Calculation, type Progress, type SheetCell, type UnknownFormula } from './calculate';
import { withResults, type Results } from './results';

export interface KeptFormulas {
  /** "EDATE is not known here", "Another workbook is not read here", "These formulas go round in a circle". */
  readonly reason: string;
  readonly cells: readonly CellPlace[];
}

export interface Recalculation extends Results {
  /** Formulas with an unknown function, a reference to another file, or in a circle: they keep their last values. */
  readonly kept: readonly KeptFormulas[];
  /** These, and every formula that rests on one of them. */
  readonly notRecalculated: readonly MarkedPlace[];
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
    notRecalculated: calculation.notRecalculated.map((one) => ({
      ...placeOf(model, one),
      because: placeOf(model, one.because),
    })),
  };
}

/** What keeps its value, by reason. */
function keptFormulas(
  model: WorkbookModel,
  unknown: readonly UnknownFormula[],
  { circles, notRecalculated }: Pick<Calculation, 'circles' | 'notRecalculated'>,
): KeptFormulas[] {
  const kept = new Set(notRecalculated.map(keyOf));
  const reasons = new Map<string, CellPlace[]>();
  const add = (reason: string, cell: SheetCell): void => {
    entryOf(reasons, reason, (): CellPlace[] => []).push(placeOf(model, cell));
  };
  for (const one of unknown) if (kept.has(keyOf(one))) add(reasonOf(one), one);
  for (const circle of circles)
    for (const { grid, row, column } of circle)
      add('These formulas go round in a circle', { sheet: grid.index, row, column });
  return [...reasons].map(([reason, cells]) => ({ reason, cells }));
}

/** Why a formula is not calculated, as the start of a sentence. */
export function reasonOf({ functionName, formula, message }: UnknownFormula): string {
  if (namesOtherFile(formula)) return 'Another workbook is not read here';
  return functionName === undefined ? message.replace(/\.$/, '') : `${functionName} is not known here`;
}

/** "EDATE is not known here: Parts!B7 keeps the file's value" */
export function keptSentence({ reason, cells }: KeptFormulas): string {
  const [first] = cells;
  const where = fullName({ ...first!, rows: 1, columns: 1 });
  return cells.length === 1
    ? `${reason}: ${where} keeps the file's value`
    : `${reason}: ${where} and ${cells.length - 1} more keep the file's values`;
}

const keyOf = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;
const placeOf = (model: WorkbookModel, { sheet, row, column }: SheetCell): CellPlace => ({
  sheet: model.sheets[sheet]!.name,
  row,
  column,
});
