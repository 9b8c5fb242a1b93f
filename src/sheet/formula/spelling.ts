/** How formulas are spelled: references, sheets before them, numbers and texts, and whole trees with brackets where they need them. */
import { columnIndex, columnName, quoteSheet } from '../address';
import { CellError, type Cell } from '../cell';
import type { RangeAddress } from '../model';
import { LAST_COLUMN, LAST_ROW, type Arguments, type Coordinate, type FormulaNode, type ReferenceNode } from './syntax';

const CELL = /^(\$?)([A-Za-z]+)(\$?)(\d+)$/;

/** "$A1" */
export function cellNode(text: string, sheet: string | undefined): ReferenceNode {
  const [, columnLock, letters, rowLock, digits] = CELL.exec(text)!;
  const row = { at: Number(digits) - 1, fixed: rowLock === '$' };
  const column = { at: columnIndex(letters!), fixed: columnLock === '$' };
  return { kind: 'reference', sheet, top: row, left: column, bottom: row, right: column };
}

/** From one cell to another, whichever comes first. */
export function rangeNode(a: ReferenceNode, b: ReferenceNode): ReferenceNode {
  const [top, bottom] = a.top.at <= b.bottom.at ? [a.top, b.bottom] : [b.top, a.bottom];
  const [left, right] = a.left.at <= b.right.at ? [a.left, b.right] : [b.left, a.right];
  return { kind: 'reference', sheet: a.sheet, top, left, bottom, right };
}

/** The cells that a reference names, on the sheet of its formula where it names none. */
export const cellsOf = ({ sheet, top, left, bottom, right }: ReferenceNode, onSheet: string): RangeAddress => ({
  sheet: sheet ?? onSheet,
  row: top.at,
  column: left.at,
  rows: bottom.at - top.at + 1,
  columns: right.at - left.at + 1,
});

/** All rows of a column and all columns of a row move with nothing. */
const end = (at: number): Coordinate => ({ at, fixed: true });

/** The halves of "A:$C" or "1:$3", the lower one first. */
function halves(text: string, at: (half: string) => number): readonly [Coordinate, Coordinate] {
  const [a, b] = text
    .split(':')
    .map((half): Coordinate => ({ at: at(half.replace('$', '')), fixed: half.startsWith('$') })) as [
    Coordinate,
    Coordinate,
  ];
  return a.at <= b.at ? [a, b] : [b, a];
}

/** "A:$C" */
export function columnsNode(text: string, sheet: string | undefined): ReferenceNode {
  const [left, right] = halves(text, columnIndex);
  return { kind: 'reference', sheet, top: end(0), bottom: end(LAST_ROW), left, right };
}

/** "1:$3" */
export function rowsNode(text: string, sheet: string | undefined): ReferenceNode {
  const [top, bottom] = halves(text, (half) => Number(half) - 1);
  return { kind: 'reference', sheet, top, bottom, left: end(0), right: end(LAST_COLUMN) };
}

/** A reference as it is typed, with the sheet that it names. */
export function referenceText({ sheet, top, left, bottom, right }: ReferenceNode): string {
  const before = sheet === undefined ? '' : `${quoteSheet(sheet)}!`;
  if (top.at === 0 && bottom.at === LAST_ROW && top.fixed && bottom.fixed)
    return `${before}${columnText(left)}:${columnText(right)}`;
  if (left.at === 0 && right.at === LAST_COLUMN && left.fixed && right.fixed)
    return `${before}${rowText(top)}:${rowText(bottom)}`;
  const first = cellText(top, left);
  const last = cellText(bottom, right);
  const isCell = top.at === bottom.at && left.at === right.at && first === last;
  return `${before}${first}${isCell ? '' : `:${last}`}`;
}

/** "$A1" */
const cellText = (row: Coordinate, column: Coordinate): string => columnText(column) + rowText(row);

const lock = ({ fixed }: Coordinate): string => (fixed ? '$' : '');
const columnText = (column: Coordinate): string => lock(column) + columnName(column.at);
const rowText = (row: Coordinate): string => lock(row) + String(row.at + 1);

/**
 * The sheet that a token of kind 'sheet' names, which stands before a reference: Parts!, 'Left wing'!, [2]Prices!,
 * Jan:Mar!, #REF!. undefined for a sheet of another workbook and for several sheets, which are elsewhere, and for #REF!.
 */
export function sheetOf(prefix: string): { readonly sheet: string | undefined; readonly isElsewhere: boolean } {
  if (prefix.startsWith('#')) return { sheet: undefined, isElsewhere: false };
  const name = plainName(prefix);
  return /[[\]:]/.test(name) ? { sheet: undefined, isElsewhere: true } : { sheet: name, isElsewhere: false };
}

/** True for a sheet of another workbook: [2]Prices!, 'C:\[a.xlsx]Prices'!. */
export const isOtherFile = (prefix: string): boolean => /[[\]]/.test(prefix);

/** A prefix in which sheets have other names; `names` maps old ones in lower case. */
export function renamedPrefix(prefix: string, names: ReadonlyMap<string, string>): string {
  if (prefix.startsWith('#') || isOtherFile(prefix)) return prefix;
  const parts = plainName(prefix).split(':');
  const changed = parts.map((name) => names.get(name.toLowerCase()) ?? name);
  return changed.every((name, index) => name === parts[index]) ? prefix : sheetPrefix(changed);
}

/** The prefix of a sheet, or of the first and the last of several, which share one pair of quotes: 'Jan 1:Mar 1'!. */
export function sheetPrefix(names: readonly string[]): string {
  const text = names.join(':');
  return names.every((name) => quoteSheet(name) === name) ? `${text}!` : `'${text.replaceAll("'", "''")}'!`;
}

/** The sheets that a prefix of this workbook names: one, or the first and the last of several. */
export const sheetsOf = (prefix: string): string[] => plainName(prefix).split(':');

const plainName = (prefix: string): string => {
  const text = prefix.slice(0, -1);
  return text.startsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
};

/** A spreadsheet keeps 15 digits of a number. */
const DIGITS = 15;

/** A number as it stands in a formula, whatever the locale: "0.09375". */
export const numberLiteral = (value: number): string => String(Number(value.toPrecision(DIGITS))).toUpperCase();

/** A text as it stands in a formula: "6061", quotes in it doubled. */
export const textLiteral = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** What a text literal says. */
export const textOf = (literal: string): string => literal.slice(1, -1).replaceAll('""', '"');

/** How tightly operators and other nodes bind, from loosest to tightest. A node that binds less than its place needs is printed in brackets. */
const TIGHT = {
  '=': 1,
  '<>': 1,
  '<': 1,
  '>': 1,
  '<=': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
  sign: 6,
  percent: 7,
  single: 8,
  intersection: 9,
  span: 10,
  call: 11,
  apply: 11,
  primary: 12,
} as const;

/** The text of a tree's formula, without "=". When that text is parsed, it gives the same tree. */
export const printFormula = (node: FormulaNode): string => print(node, 0);

function print(node: FormulaNode, place: number): string {
  const text = printed(node);
  return tightness(node) < place ? `(${text})` : text;
}

function tightness(node: FormulaNode): number {
  if (node.kind === 'binary') return TIGHT[node.operator];
  if (node.kind === 'value' && typeof node.value === 'number' && node.value < 0) return TIGHT.sign;
  return node.kind in TIGHT ? TIGHT[node.kind as keyof typeof TIGHT] : TIGHT.primary;
}

const printed = <Kind extends FormulaNode['kind']>(node: NodeOf<Kind>): string => PRINTERS[node.kind](node);

type NodeOf<Kind extends FormulaNode['kind']> = Extract<FormulaNode, { kind: Kind }>;

const PRINTERS: { readonly [Kind in FormulaNode['kind']]: (node: NodeOf<Kind>) => string } = {
  value: ({ value }) => valueText(value),
  array: ({ rows }) => `{${rows.map((row) => row.map(valueText).join(',')).join(';')}}`,
  reference: referenceText,
  spill: ({ of }) => `${referenceText(of)}#`,
  name: ({ sheet, name }) => (sheet === undefined ? name : `${quoteSheet(sheet)}!${name}`),
  table: ({ table, part }) => `${table}[${part}]`,
  elsewhere: ({ text }) => text,
  sign: ({ negative, of }) => `${negative ? '-' : '+'}${print(of, TIGHT.sign)}`,
  percent: ({ of }) => `${print(of, TIGHT.percent)}%`,
  single: ({ of }) => `@${print(of, TIGHT.single)}`,
  binary: ({ operator, left, right }) =>
    `${print(left, TIGHT[operator])}${operator}${print(right, TIGHT[operator] + 1)}`,
  intersection: ({ left, right }) => `${print(left, TIGHT.intersection)} ${print(right, TIGHT.span)}`,
  // A range inside a span is printed in brackets, because A1:B2:C3 would be read from the left.
  span: ({ from, to }) => `${print(from, TIGHT.span)}:${print(to, TIGHT.apply)}`,
  union: ({ of }) => `(${of.map((one) => print(one, 0)).join(',')})`,
  call: ({ name, args }) => `${name}(${argumentsText(args)})`,
  apply: ({ of, args }) => `${print(of, TIGHT.apply)}(${argumentsText(args)})`,
};

const argumentsText = (args: Arguments): string => args.map((arg) => (arg ? print(arg, 0) : '')).join(',');

function valueText(value: Cell): string {
  if (typeof value === 'number') return numberLiteral(value);
  if (typeof value === 'string') return textLiteral(value);
  if (value instanceof CellError) return value.code;
  return value === null ? '""' : value ? 'TRUE' : 'FALSE';
}
