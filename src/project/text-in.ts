import { CellError, type Cell } from '../sheet';

/** The text in a cell; '' where it is blank. */
export const textIn = (cell: Cell | undefined): string =>
  cell === null || cell === undefined || cell instanceof CellError ? '' : String(cell).trim();
