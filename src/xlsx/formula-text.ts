/** Formulas as text: their pieces, a file's spelling of function names and the typed one, and moved references. */
import { cellName, columnIndex, columnName, parseCell, quoteSheet } from '../workbook';
import { NAMESPACE } from '../functions';
import { FILE_PREFIXES, SPILLING } from './future-functions';

/** 'call': a name with "(" after it; 'sheet': one with "!" after it, quoted or not; 'table': one with "[" after it. */
type PieceKind = 'text' | 'call' | 'sheet' | 'table' | 'word' | 'bracket' | 'other';

interface Piece {
  readonly kind: PieceKind;
  readonly text: string;
}

const PIECES = /"(?:[^"]|"")*"?|'(?:[^']|'')*'?|[\p{L}\p{N}_$.\\?]+|\s+|[^]/gu;
const AFTER: Readonly<Record<string, PieceKind>> = { '(': 'call', '!': 'sheet', '[': 'table' };

/** The pieces of a formula; joined, they are the formula again. */
function pieces(formula: string): Piece[] {
  const found: Piece[] = [];
  PIECES.lastIndex = 0;
  const pattern = new RegExp(PIECES);
  for (let match = pattern.exec(formula); match; match = pattern.exec(formula)) {
    const [text] = match;
    if (text === '[') {
      const end = bracketEnd(formula, match.index);
      pattern.lastIndex = end;
      found.push({ kind: 'bracket', text: formula.slice(match.index, end) });
    } else if (text.startsWith('"')) found.push({ kind: 'text', text });
    else if (text.startsWith("'")) found.push({ kind: 'sheet', text });
    else if (/^[\p{L}\p{N}_$.\\?]/u.test(text)) found.push({ kind: AFTER[formula[pattern.lastIndex] ?? ''] ?? 'word', text });
    else found.push({ kind: 'other', text });
  }
  return found;
}

/** End of a table's brackets, which nest and in which an apostrophe takes the next character's meaning away. */
function bracketEnd(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at++) {
    if (formula[at] === "'") at++;
    else if (formula[at] === '[') depth++;
    else if (formula[at] === ']' && --depth === 0) return at + 1;
  }
  return formula.length;
}

const FILE_NAMESPACE = '_xldudf_';
const OURS = new RegExp(`^${FILE_NAMESPACE}(${NAMESPACE}_.+)$`, 'i');
const OUR_CALLS = new RegExp(`(?<![\\p{L}\\p{N}_.])${FILE_NAMESPACE}(${NAMESPACE}_\\w+)\\(`, 'giu');
const PREFIX = /_xl(?:fn|ws|pm|udf)\./gi;

/** A formula from a file as it would be typed: "_xldudf_TARE_AREA_RECT(" is "TARE.AREA.RECT(", "_xlfn.XLOOKUP(" is "XLOOKUP(". */
export function fromFile(formula: string): string {
  if (!formula.includes('_xl') && !formula.includes('_XL')) return formula;
  // A large parts list has a formula a row: without texts and quoted names there is nothing to be careful of.
  if (!/["'[]|ANCHORARRAY/i.test(formula)) return formula.replace(OUR_CALLS, (_whole, name: string) => `${name.toUpperCase().replaceAll('_', '.')}(`).replace(PREFIX, '');
  const typed = pieces(formula)
    .map(({ kind, text }) => {
      if (kind !== 'call' && kind !== 'word') return text;
      const ours = kind === 'call' ? OURS.exec(text) : null;
      return ours ? ours[1]!.toUpperCase().replaceAll('_', '.') : text.replace(PREFIX, '');
    })
    .join('');
  // A reference to a whole spill stands in files as a function of its first cell.
  return typed.replace(/\bANCHORARRAY\((\$?[A-Z]{1,3}\$?\d+)\)/gi, '$1#');
}

/** A typed formula in a file's spelling, in which a spreadsheet program binds every function. */
export function toFile(formula: string): string {
  const anchored = formula.replace(/(\$?\b[A-Z]{1,3}\$?\d+)#/gi, 'ANCHORARRAY($1)');
  return pieces(anchored)
    .map(({ kind, text }) => {
      if (kind !== 'call') return text;
      const name = text.toUpperCase();
      if (name.startsWith(`${NAMESPACE}.`)) return FILE_NAMESPACE + name.replaceAll('.', '_');
      return (FILE_PREFIXES.get(name) ?? '') + text;
    })
    .join('');
}

/** Names of the functions that a typed formula calls, in capitals. */
export function functionNames(formula: string): string[] {
  return formula.includes('(') ? pieces(formula).flatMap(({ kind, text }) => (kind === 'call' ? [text.toUpperCase()] : [])) : [];
}

/** A formula in which references name sheets by other names; `names` maps old ones in lower case. */
export function withSheetNames(formula: string, names: ReadonlyMap<string, string>): string {
  return pieces(formula)
    .map(({ kind, text }) => {
      if (kind !== 'sheet') return text;
      const name = text.startsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
      const changed = names.get(name.toLowerCase());
      return changed === undefined ? text : quoteSheet(changed);
    })
    .join('');
}

const MAYBE_DYNAMIC = new RegExp(`${NAMESPACE}\\.|${[...SPILLING].join('|')}`, 'i');

/** True where a typed formula has to be stored as a dynamic array to be bound, or to spill. */
export function isDynamic(formula: string): boolean {
  if (!MAYBE_DYNAMIC.test(formula)) return false;
  return functionNames(formula).some((name) => name.startsWith(`${NAMESPACE}.`) || SPILLING.has(name));
}

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
