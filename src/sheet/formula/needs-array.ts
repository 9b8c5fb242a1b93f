/** Which formulas have to be stored as array formulas to be computed over their ranges. */
import type { FormulaNode } from './syntax';
import { tryFormula } from './parse';

/** Functions that take cells: given a range, a plain formula takes the cell of its own row from it. */
const OF_CELLS = new Set(
  (
    'ABS SIGN INT EXP SIN COS TAN ATAN SINH COSH TANH ASIN ACOS DEGREES RADIANS SQRT LN LOG10 LOG ATAN2 POWER ROUND ROUNDUP ROUNDDOWN TRUNC MOD QUOTIENT MROUND ' +
    'CEILING FLOOR EVEN ODD NOT ISBLANK ISNUMBER ISTEXT ISNONTEXT ISLOGICAL ISERROR ISERR ISNA ISEVEN ISODD LEN UPPER LOWER PROPER TRIM CLEAN CODE VALUE CHAR ' +
    'EXACT LEFT RIGHT MID REPT REPLACE SUBSTITUTE FIND SEARCH CONCATENATE DATE YEAR MONTH DAY DAYS IF IFERROR IFNA'
  ).split(' '),
);

/** These compute over arrays by themselves. */
const OVER_ARRAYS = new Set(['SUMPRODUCT', 'MMULT', 'LOOKUP']);

/**
 * True where a formula computes with a whole range at a place that takes one cell: A1:A3*2, ROUND(A1:A3,1).
 * Stored as a plain formula it would be computed on one row only.
 */
export function needsArray(formula: string, nameIsRange: (name: string) => boolean = () => false): boolean {
  if (!/[:#[]/.test(formula) && !/[\p{L}_]{2}/u.test(formula)) return false;
  const node = tryFormula(formula);
  return node !== undefined && needs(node, nameIsRange);
}

function needs(node: FormulaNode, isRange: (name: string) => boolean): boolean {
  const inside = (child: FormulaNode): boolean => several(child, isRange) || needs(child, isRange);
  switch (node.kind) {
    case 'binary':
      return inside(node.left) || inside(node.right);
    case 'sign':
    case 'percent':
      return inside(node.of);
    case 'call':
      if (OVER_ARRAYS.has(node.name)) return false;
      return node.args.some((arg) => arg && (OF_CELLS.has(node.name) ? inside(arg) : needs(arg, isRange)));
    case 'intersection':
      return needs(node.left, isRange) || needs(node.right, isRange);
    case 'union':
      return node.of.some((one) => needs(one, isRange));
    case 'apply':
      return [node.of, ...node.args].some((arg) => arg && needs(arg, isRange));
    case 'span':
      return needs(node.from, isRange) || needs(node.to, isRange);
    default:
      return false;
  }
}

/** True for a node that stands for several cells by itself. */
function several(node: FormulaNode, isRange: (name: string) => boolean): boolean {
  switch (node.kind) {
    case 'reference':
      return node.top.at !== node.bottom.at || node.left.at !== node.right.at;
    case 'spill':
    case 'span':
    case 'union':
    case 'intersection':
      return true;
    case 'elsewhere':
      return /:|\[[^\]]*\]$/.test(node.text);
    case 'table':
      return !/^@|#this row/i.test(node.part.trim());
    case 'name':
      return isRange(node.name);
    default:
      return false;
  }
}
