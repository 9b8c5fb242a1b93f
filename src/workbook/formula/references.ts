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
  const [, lockColumn, , lockRow] = /^(\$?)([A-Za-z]+)(\$?)(\d+)$/.exec(text)!;
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

/** True for "A" or "1" in A:A or 1:1. */
function isHalf(all: readonly Piece[], index: number): boolean {
  const { text } = all[index]!;
  const half = /^\$?[A-Za-z]{1,3}$/.test(text) ? /^\$?[A-Za-z]{1,3}$/ : /^\$?\d{1,7}$/.test(text) ? /^\$?\d{1,7}$/ : undefined;
  if (!half) return false;
  const pairs = (colon: number, other: number): boolean => all[colon]?.text === ':' && all[other]?.kind === 'word' && half.test(all[other].text);
  return pairs(index + 1, index + 2) || pairs(index - 1, index - 2);
}

function moveHalf(text: string, rows: number, columns: number): string {
  if (text.startsWith('$')) return text;
  const to = /^\d/.test(text) ? Number(text) - 1 + rows : columnIndex(text) + columns;
  if (to < 0) return '#REF!';
  return /^\d/.test(text) ? String(to + 1) : columnName(to);
}
