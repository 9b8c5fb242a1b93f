/** Conditions of SUMIF and its like, and texts with wildcards. */
import { CellError, isErrorCode, type Cell } from '../sheet';
import { compare, textNumber } from './values';

export type Test = (cell: Cell) => boolean;

/** ">=2.5", "rivet*", 3 or TRUE as a test. */
export function criterion(given: Cell): Test {
  if (typeof given !== 'string') {
    if (given === null) return (cell) => cell === 0;
    if (given instanceof CellError) return (cell) => cell instanceof CellError && cell.code === given.code;
    return (cell) => equals(cell, given);
  }
  const [, operator = '', operand = ''] = /^(<>|<=|>=|[<>=])?([^]*)$/.exec(given)!;
  const wanted = operandOf(operand);
  if (operator === '<>') {
    const same = sameAs(wanted, operand);
    return (cell) => !same(cell);
  }
  if (operator === '' || operator === '=')
    return operator === '' && operand === '' ? (cell) => cell === null || cell === '' : sameAs(wanted, operand);
  return ordered(operator, wanted);
}

function ordered(operator: string, wanted: Cell): Test {
  const holds: Record<string, (order: number) => boolean> = {
    '<': (o) => o < 0,
    '>': (o) => o > 0,
    '<=': (o) => o <= 0,
    '>=': (o) => o >= 0,
  };
  const test = holds[operator]!;
  return (cell) =>
    cell !== null && !(cell instanceof CellError) && typeof cell === typeof wanted && test(compare(cell, wanted));
}

function operandOf(text: string): Cell {
  const number = textNumber(text);
  if (number !== undefined) return number;
  if (/^(true|false)$/i.test(text)) return text.toLowerCase() === 'true';
  const code = text.toUpperCase();
  return isErrorCode(code) ? new CellError(code) : text;
}

function sameAs(wanted: Cell, text: string): Test {
  if (text === '') return (cell) => cell === null;
  if (wanted instanceof CellError) return (cell) => cell instanceof CellError && cell.code === wanted.code;
  if (typeof wanted === 'number' || typeof wanted === 'boolean') return (cell) => equals(cell, wanted);
  const matches = wildcard(wanted ?? '');
  return (cell) => typeof cell === 'string' && matches(cell);
}

/** A number also equals a text that reads as it. */
function equals(cell: Cell, wanted: number | boolean): boolean {
  if (cell === wanted) return true;
  return typeof wanted === 'number' && typeof cell === 'string' && textNumber(cell) === wanted;
}

/** A text without case in which * stands for any text, ? for any character, and ~ takes that meaning away. */
export function wildcard(pattern: string): (text: string) => boolean {
  if (!/[*?~]/.test(pattern)) {
    const lower = pattern.toLowerCase();
    return (text) => text.toLowerCase() === lower;
  }
  const source = pattern.replace(/~[*?~]|[*?]|[\\^$.+()[\]{}|/]/g, (piece) =>
    piece === '*' ? '[^]*' : piece === '?' ? '[^]' : `\\${piece.at(-1)}`,
  );
  const expression = new RegExp(`^${source}$`, 'iu');
  return (text) => expression.test(text);
}
