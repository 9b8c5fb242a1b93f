export {
  Calculator,
  type Calculation,
  type Computed,
  type NotRecalculated,
  type Progress,
  type SheetCell,
  type UnknownFormula,
} from './calculate';
export { knowsFunction } from './functions';
export {
  /** @internal */ evaluate,
  evaluation,
  keptSentence,
  reasonOf,
  recalculate,
  type Evaluation,
  type KeptFormulas,
  type Recalculation,
} from './recalculate';
export { nearFunctions } from './unknown-function';
export { formattedNumber, formattedText } from './number-format';
export type { CellProblem } from './results';
export { numberText } from './values';
