/** Formulas that differ only by the cell they stand in: they share what is made of them. */
import { columnIndex } from '../address';
import { FormulaScanner } from './scan';

/** The formula with its relative references as offsets from the cell it stands in. */
export function templateKey(formula: string, row: number, column: number): string {
  const scanner = new FormulaScanner(formula);
  let key = '';
  let from = 0;
  while (scanner.next()) {
    const { kind } = scanner;
    if (kind !== 'cell' && kind !== 'columns' && kind !== 'rows') continue;
    key +=
      formula.slice(from, scanner.start) +
      (kind === 'cell' ? cellKey(scanner, row, column) : linesKey(scanner, row, column));
    from = scanner.end;
  }
  return key + formula.slice(from);
}

function cellKey(scanner: FormulaScanner, row: number, column: number): string {
  const r = scanner.rowFixed ? `$${scanner.row}` : scanner.row - row;
  const c = scanner.columnFixed ? `$${scanner.column}` : scanner.column - column;
  return `\u0001${r}\u0001${c}`;
}

/** A:$C, 1:3 */
function linesKey({ kind, text, start, end }: FormulaScanner, row: number, column: number): string {
  const half = (name: string): string | number => {
    if (name.startsWith('$')) return name.toUpperCase();
    return kind === 'columns' ? columnIndex(name) - column : Number(name) - 1 - row;
  };
  const [first, last] = text.slice(start, end).split(':') as [string, string];
  return `\u0001${kind}${half(first)}\u0001${half(last)}`;
}
