export { evaluate } from './evaluate';
export type { KeptFormulas } from '../../calculation/kept';
export { recalculate, type RecalculateOptions, type Recalculation } from './recalculate';
export type { CellProblem } from '../../calculation/results';
