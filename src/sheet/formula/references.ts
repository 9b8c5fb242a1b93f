/** References in a formula's text: moved as a fill moves them, as offsets from the formula's cell, and seen from another sheet. */
import { columnIndex, columnName, quoteSheet } from '../address';
import { withReferences } from './found-references';
import { FormulaScanner } from './scan';
import { LAST_COLUMN, LAST_ROW } from './syntax';
import { rewrite } from './tokens';

type Spelling = (reference: FormulaScanner, rows: number, columns: number) => string;

/** A formula with other texts for its cells (A1) and for its whole columns and rows (A:$C, 1:3). */
function respelled(formula: string, [cell, lines]: readonly Spelling[], rows: number, columns: number): string {
  const scanner = new FormulaScanner(formula);
  let out = '';
  let from = 0;
  while (scanner.next()) {
    const { kind } = scanner;
    if (kind !== 'cell' && kind !== 'columns' && kind !== 'rows') continue;
    out += formula.slice(from, scanner.start) + (kind === 'cell' ? cell! : lines!)(scanner, rows, columns);
    from = scanner.end;
  }
  return out + formula.slice(from);
}

/** A formula moved by rows and columns: relative references move with it, as those of a shared formula do. */
export const moved = (formula: string, rows: number, columns: number): string =>
  rows === 0 && columns === 0 ? formula : respelled(formula, MOVED, rows, columns);

function movedCell({ row, column, rowFixed, columnFixed }: FormulaScanner, rows: number, columns: number): string {
  const toRow = rowFixed ? row : row + rows;
  const toColumn = columnFixed ? column : column + columns;
  if (toRow < 0 || toColumn < 0 || toRow > LAST_ROW || toColumn > LAST_COLUMN) return '#REF!';
  return `${columnFixed ? '$' : ''}${columnName(toColumn)}${rowFixed ? '$' : ''}${toRow + 1}`;
}

function movedLines({ kind, text, start, end }: FormulaScanner, rows: number, columns: number): string {
  const halves = text
    .slice(start, end)
    .split(':')
    .map((half) => {
      if (half.startsWith('$')) return half;
      const to = kind === 'columns' ? columnIndex(half) + columns : Number(half) - 1 + rows;
      if (to < 0 || to > (kind === 'columns' ? LAST_COLUMN : LAST_ROW)) return undefined;
      return kind === 'columns' ? columnName(to) : String(to + 1);
    });
  return halves.includes(undefined) ? '#REF!' : halves.join(':');
}

function cellKey(scanner: FormulaScanner, row: number, column: number): string {
  const r = scanner.rowFixed ? `$${scanner.row}` : scanner.row - row;
  const c = scanner.columnFixed ? `$${scanner.column}` : scanner.column - column;
  return `\u0001${r}\u0001${c}`;
}

function linesKey({ kind, text, start, end }: FormulaScanner, row: number, column: number): string {
  const half = (name: string): string | number => {
    if (name.startsWith('$')) return name.toUpperCase();
    return kind === 'columns' ? columnIndex(name) - column : Number(name) - 1 - row;
  };
  const [first, last] = text.slice(start, end).split(':') as [string, string];
  return `\u0001${kind}${half(first)}\u0001${half(last)}`;
}

const MOVED = [movedCell, movedLines];
const KEYS = [cellKey, linesKey];

/** The formula with its relative references as offsets from the cell it stands in: formulas that have it in common share what is made of them. */
export const templateKey = (formula: string, row: number, column: number): string =>
  respelled(formula, KEYS, row, column);

/** A formula as another sheet would say it: references that name no sheet name this one. */
export function onSheet(formula: string, sheet: string): string {
  const text = `${quoteSheet(sheet)}!`;
  return withReferences(formula, ({ kind, isElsewhere, sheet: own, start }) => {
    const isBare = (kind === 'range' || kind === 'spill') && own === undefined && !isElsewhere;
    return isBare ? [{ start, end: start, text }] : [];
  });
}

/** Turns A1 into $A$1, A$1, $A1 and A1 again. All cells of the formula get the form that follows that of the first. */
export function relocked(formula: string): string {
  const first = new FormulaScanner(formula);
  while (first.kind !== 'cell') if (!first.next()) return formula;
  const { columnFixed, rowFixed } = first;
  // $A$1 → A$1 → $A1 → A1 → $A$1
  const [column, row] = columnFixed
    ? rowFixed
      ? [false, true]
      : [false, false]
    : rowFixed
      ? [true, false]
      : [true, true];
  const parts = /^\$?([A-Za-z]+)\$?(\d+)$/;
  return rewrite(formula, ({ kind, text }) =>
    kind === 'cell'
      ? text.replace(
          parts,
          (_whole, letters: string, digits: string) => `${column ? '$' : ''}${letters}${row ? '$' : ''}${digits}`,
        )
      : undefined,
  );
}
