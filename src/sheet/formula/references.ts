/** References in a formula's text: moved as a fill moves them, and seen from another sheet. */
import { cellName, columnIndex, columnName, parseCell, quoteSheet } from '../address';
import { pieces, type Piece } from './pieces';

/** A formula moved by rows and columns: relative references move with it, as those of a shared formula do. */
export function moved(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  const all = pieces(formula);
  return all
    .map(({ kind, text }, index) => {
      if (kind !== 'word') return text;
      const cell = parseCell(text);
      if (cell) return moveCell(text, rows, columns);
      return isHalf(all, index) ? moveHalf(text, rows, columns) : text;
    })
    .join('');
}

function moveCell(text: string, rows: number, columns: number): string {
  const [, lockColumn, , lockRow] = LOCKS.exec(text)!;
  const { row, column } = parseCell(text)!;
  const to = { row: lockRow ? row : row + rows, column: lockColumn ? column : column + columns };
  if (to.row < 0 || to.column < 0) return '#REF!';
  const name = cellName(to.row, to.column);
  if (!lockColumn && !lockRow) return name;
  return `${lockColumn}${columnName(to.column)}${lockRow}${to.row + 1}`;
}

/** A formula as another sheet would say it: references that name no sheet name this one. */
export function onSheet(formula: string, sheet: string): string {
  const all = pieces(formula);
  return all
    .map(({ kind, text }, index) => {
      const before = all[index - 1]?.text;
      if (kind !== 'word' || before === '!' || before === ':') return text;
      return parseCell(text) || isHalf(all, index) ? `${quoteSheet(sheet)}!${text}` : text;
    })
    .join('');
}

/** The next of A1, $A$1, A$1, $A1, for all cells of a formula as its first one stands. */
export function relocked(formula: string): string {
  const all = pieces(formula);
  const first = all.find(({ kind, text }) => kind === 'word' && parseCell(text))?.text;
  if (first === undefined) return formula;
  const [, column, , row] = LOCKS.exec(first)!;
  const [lockColumn, lockRow] = column ? (row ? ['', '$'] : ['', '']) : row ? ['$', ''] : ['$', '$'];
  return all
    .map(({ kind, text }) =>
      kind === 'word' && parseCell(text)
        ? text.replace(LOCKS, `${lockColumn.replace('$', '$$$$')}$2${lockRow.replace('$', '$$$$')}$4`)
        : text,
    )
    .join('');
}

const LOCKS = /^(\$?)([A-Za-z]+)(\$?)(\d+)$/;

/** True for "A" or "1" in A:A or 1:1. */
function isHalf(all: readonly Piece[], index: number): boolean {
  const { text } = all[index]!;
  const half = /^\$?[A-Za-z]{1,3}$/.test(text)
    ? /^\$?[A-Za-z]{1,3}$/
    : /^\$?\d{1,7}$/.test(text)
      ? /^\$?\d{1,7}$/
      : undefined;
  if (!half) return false;
  const pairs = (colon: number, other: number): boolean =>
    all[colon]?.text === ':' && all[other]?.kind === 'word' && half.test(all[other].text);
  return pairs(index + 1, index + 2) || pairs(index - 1, index - 2);
}

function moveHalf(text: string, rows: number, columns: number): string {
  if (text.startsWith('$')) return text;
  const to = /^\d/.test(text) ? Number(text) - 1 + rows : columnIndex(text) + columns;
  if (to < 0) return '#REF!';
  return /^\d/.test(text) ? String(to + 1) : columnName(to);
}
