export { FileError, readBytes, writeBytes } from './files';
export { evaluate } from './evaluate';
export { recalculate, type KeptFormulas, type Recalculation } from './recalculate';
export { type CellProblem } from './results';
