export {
  Calculator,
  type Calculation,
  type Computed,
  type NotRecalculated,
  type Progress,
  type SheetCell,
  type UnknownFormula,
} from './calculate';
export { /** @internal */ evaluate, evaluation, type Evaluation } from './evaluate';
export { knowsFunction } from './functions';
export {
  keptSentence,
  reasonOf,
  recalculate,
  type KeptFormulas,
  type RecalculateOptions,
  type Recalculation,
} from './recalculate';
export { nearFunctions } from './unknown-function';
export { formattedNumber, formattedText } from './number-format';
export type { CellProblem } from './results';
export { numberText } from './values';
