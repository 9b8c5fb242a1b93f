/** The number format that a typed formula hands on from what it is made of, as spreadsheets do. */
import { tryFormula, type FormulaNode } from '../../sheet/formula';

/** The format of a cell, on the formula's own sheet where none is named. */
export type FormatAt = (
  sheet: string | undefined,
  place: { readonly row: number; readonly column: number },
) => string | undefined;

const DATE = 'yyyy-mm-dd';
const TIME = 'hh:mm:ss';

/** What these give is a date or a time, whatever they are given. */
const OWN: ReadonlyMap<string, string> = new Map([
  ...['DATE', 'TODAY', 'EDATE', 'EOMONTH', 'WORKDAY', 'DATEVALUE'].map((name) => [name, DATE] as const),
  ['NOW', `${DATE} hh:mm`],
  ['TIME', TIME],
  ['TIMEVALUE', TIME],
]);

/** These give one of the values that they are given, or a sum or mean of them; the number says from which argument on. */
const HANDING_ON: ReadonlyMap<string, number> = new Map([
  ...[
    'SUM',
    'MIN',
    'MAX',
    'AVERAGE',
    'MEDIAN',
    'ABS',
    'ROUND',
    'ROUNDUP',
    'ROUNDDOWN',
    'INDEX',
    'IFERROR',
    'IFNA',
    'SORT',
    'UNIQUE',
    'FILTER',
  ].map((name) => [name, 0] as const),
  ['IF', 1],
  ['CHOOSE', 1],
]);

/** undefined: none, as for a number that was typed. */
export function formatOf(formula: string, at: FormatAt): string | undefined {
  const node = tryFormula(formula.replace(/^=/, ''));
  return node && ofNode(node, at);
}

function ofNode(node: FormulaNode, at: FormatAt): string | undefined {
  switch (node.kind) {
    case 'reference':
      return at(node.sheet, { row: node.top.at, column: node.left.at });
    case 'spill':
      return ofNode(node.of, at);
    case 'sign':
      return ofNode(node.of, at);
    case 'binary':
      return ofBinary(node, at);
    case 'call':
      return ofCall(node, at);
    default:
      return undefined;
  }
}

function ofBinary({ operator, left, right }: FormulaNode & { kind: 'binary' }, at: FormatAt): string | undefined {
  if (operator !== '+' && operator !== '-') return undefined;
  const [first, second] = [ofNode(left, at), ofNode(right, at)];
  // From date to date is a number of days.
  return operator === '-' && isDate(first) && isDate(second) ? undefined : (first ?? second);
}

function ofCall({ name, args }: FormulaNode & { kind: 'call' }, at: FormatAt): string | undefined {
  const own = OWN.get(name);
  const from = HANDING_ON.get(name);
  if (own !== undefined || from === undefined) return own;
  for (const arg of args.slice(from)) {
    const format = arg && ofNode(arg, at);
    if (format) return format;
  }
  return undefined;
}

const isDate = (format: string | undefined): boolean =>
  format !== undefined && /[ymdhs]/i.test(format.replace(/"[^"]*"|\[[^\]]*\]/g, ''));
