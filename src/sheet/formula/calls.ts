/** What a formula calls, and what follows from it for how it is stored. */
import { allFunctionFacts, functionFacts, type FunctionFacts } from './facts';
import { NAMESPACE } from './namespace';
import { tryFormula } from './parse';
import { FormulaScanner, tokens } from './tokens';
import { isOtherFile } from './spelling';
import type { FormulaNode } from './syntax';

/** Names of the functions that a typed formula calls, in capitals. */
export function functionNames(formula: string): string[] {
  const names: string[] = [];
  if (!formula.includes('(')) return names;
  const scanner = new FormulaScanner(formula);
  while (scanner.next())
    if (scanner.kind === 'call') names.push(formula.slice(scanner.start, scanner.end).toUpperCase());
  return names;
}

const isOurs = (name: string): boolean => name.startsWith(`${NAMESPACE}.`);

/** True where a typed formula calls one of Tarebook's own functions. */
export const callsTare = (formula: string): boolean =>
  formula.toUpperCase().includes(`${NAMESPACE}.`) && functionNames(formula).some(isOurs);

const SPILLING = [...allFunctionFacts.values()].flatMap(({ name, spills }) => (spills ? [name] : []));
const MAYBE_DYNAMIC = new RegExp([`${NAMESPACE}.`, ...SPILLING].join('|').replaceAll('.', '\\.'), 'i');

/** True where a typed formula has to be stored as a dynamic array to be bound, or to spill. */
export const isDynamic = (formula: string): boolean =>
  MAYBE_DYNAMIC.test(formula) &&
  functionNames(formula).some((name) => isOurs(name) || functionFacts(name)?.spills === true);

/**
 * True where a formula computes over arrays though a file does not mark it: what came with dynamic arrays, and TARE
 * functions. A plain MMULT or TRANSPOSE, which are older, gives its first cell.
 */
export const isDynamicUnmarked = (formula: string): boolean =>
  MAYBE_DYNAMIC.test(formula) &&
  functionNames(formula).some((name) => isOurs(name) || (name !== 'MODE.MULT' && isYoung(functionFacts(name))));

const isYoung = (facts: FunctionFacts | undefined): boolean =>
  facts !== undefined && facts.spills && facts.filePrefix !== '';

/** Whether a formula refers to another workbook. */
export const namesOtherFile = (formula: string): boolean =>
  formula.includes('[') && tokens(formula).some(({ kind, text }) => kind === 'sheet' && isOtherFile(text));

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
