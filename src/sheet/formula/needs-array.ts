/** Which formulas have to be stored as array formulas to be computed over their ranges. */
import { functionFacts } from './facts';
import { tryFormula } from './parse';
import type { FormulaNode } from './syntax';

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
    case 'call': {
      const facts = functionFacts(node.name);
      if (facts?.overArrays) return false;
      return node.args.some((arg, index) => arg && (facts?.takesCell(index) ? inside(arg) : needs(arg, isRange)));
    }
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
