/** Trees of formulas → text, with brackets where the tree needs them. */
import { CellError, type Cell } from '../cell';
import { quoteSheet } from '../address';
import { numberLiteral, referenceText, textLiteral } from './spelling';
import type { Arguments, FormulaNode } from './syntax';

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
      return `${node.negative ? '-' : '+'}${print(node.of, TIGHT.sign)}`;
    case 'percent':
      return `${print(node.of, TIGHT.percent)}%`;
    case 'single':
      return `@${print(node.of, TIGHT.single)}`;
    case 'binary': {
      const own = TIGHT[node.operator];
      return `${print(node.left, own)}${node.operator}${print(node.right, own + 1)}`;
    }
    case 'intersection':
      return `${print(node.left, TIGHT.intersection)} ${print(node.right, TIGHT.span)}`;
    case 'span':
      // A range inside a span is printed in brackets, because A1:B2:C3 would be read from the left.
      return `${print(node.from, TIGHT.span)}:${print(node.to, TIGHT.apply)}`;
    case 'union':
      return `(${node.of.map((one) => print(one, 0)).join(',')})`;
    case 'call':
      return `${node.name}(${argumentsText(node.args)})`;
    case 'apply':
      return `${print(node.of, TIGHT.apply)}(${argumentsText(node.args)})`;
  }
}

const argumentsText = (args: Arguments): string => args.map((arg) => (arg ? print(arg, 0) : '')).join(',');

function valueText(value: Cell): string {
  if (typeof value === 'number') return numberLiteral(value);
  if (typeof value === 'string') return textLiteral(value);
  if (value instanceof CellError) return value.code;
  return value === null ? '""' : value ? 'TRUE' : 'FALSE';
}
