/** Trees of formulas → text, with brackets where the tree needs them. */
import { CellError, type Cell } from '../cell';
import { quoteSheet } from '../address';
import { numberLiteral, textLiteral } from './literals';
import { referenceText } from './reference-node';
import type { Arguments, FormulaNode } from './syntax';

/** How tightly a node binds, from loosest to tightest. A node that binds less than its place needs is printed in brackets. */
const TIGHT: Readonly<Record<string, number>> = {
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
};
const SIGN = 6;
const PERCENT = 7;
const SINGLE = 8;
const INTERSECTION = 9;
const SPAN = 10;
const APPLY = 11;
const PRIMARY = 12;

/** The text of a tree's formula, without "=". When that text is parsed, it gives the same tree. */
export const printFormula = (node: FormulaNode): string => print(node, 0);

function print(node: FormulaNode, place: number): string {
  const text = printed(node);
  return tightness(node) < place ? `(${text})` : text;
}

function tightness(node: FormulaNode): number {
  switch (node.kind) {
    case 'binary':
      return TIGHT[node.operator]!;
    case 'sign':
      return SIGN;
    case 'percent':
      return PERCENT;
    case 'single':
      return SINGLE;
    case 'intersection':
      return INTERSECTION;
    case 'span':
      return SPAN;
    case 'call':
    case 'apply':
      return APPLY;
    case 'value':
      return typeof node.value === 'number' && node.value < 0 ? SIGN : PRIMARY;
    default:
      return PRIMARY;
  }
}

// eslint-disable-next-line complexity -- one case a kind of node
function printed(node: FormulaNode): string {
  switch (node.kind) {
    case 'value':
      return valueText(node.value);
    case 'array':
      return `{${node.rows.map((row) => row.map(valueText).join(',')).join(';')}}`;
    case 'reference':
      return referenceText(node);
    case 'spill':
      return `${referenceText(node.of)}#`;
    case 'name':
      return node.sheet === undefined ? node.name : `${quoteSheet(node.sheet)}!${node.name}`;
    case 'table':
      return `${node.table}[${node.part}]`;
    case 'elsewhere':
      return node.text;
    case 'sign':
      return `${node.negative ? '-' : '+'}${print(node.of, SIGN)}`;
    case 'percent':
      return `${print(node.of, PERCENT)}%`;
    case 'single':
      return `@${print(node.of, SINGLE)}`;
    case 'binary': {
      const own = TIGHT[node.operator]!;
      return `${print(node.left, own)}${node.operator}${print(node.right, own + 1)}`;
    }
    case 'intersection':
      return `${print(node.left, INTERSECTION)} ${print(node.right, SPAN)}`;
    case 'span':
      return `${spanEnd(node.from, SPAN)}:${spanEnd(node.to, APPLY)}`;
    case 'union':
      return `(${node.of.map((one) => print(one, 0)).join(',')})`;
    case 'call':
      return `${node.name}(${argumentsText(node.args)})`;
    case 'apply':
      return `${print(node.of, APPLY)}(${argumentsText(node.args)})`;
  }
}

/** A range inside a span is printed in brackets, because A1:B2:C3 would be read from the left. */
function spanEnd(node: FormulaNode, place: number): string {
  return print(node, place);
}

const argumentsText = (args: Arguments): string => args.map((arg) => (arg ? print(arg, 0) : '')).join(',');

function valueText(value: Cell): string {
  if (typeof value === 'number') return numberLiteral(value);
  if (typeof value === 'string') return textLiteral(value);
  if (value instanceof CellError) return value.code;
  return value === null ? '""' : value ? 'TRUE' : 'FALSE';
}
