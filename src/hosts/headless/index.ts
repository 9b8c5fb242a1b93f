export { evaluate } from './evaluate';
export { writeBytes } from './files';
export type { KeptFormulas } from './kept';
export { openHeadless, type HeadlessWorkbook } from './open';
export { recalculate, type RecalculateOptions, type Recalculation } from './recalculate';
export type { CellProblem } from './results';
