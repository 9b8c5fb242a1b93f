/** What a formula calls, and what follows from it for how it is stored. */
import { allFunctionFacts, functionFacts } from './facts';
import { NAMESPACE } from './namespace';
import { FormulaScanner } from './scan';
import { isOtherFile } from './sheet-prefix';

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
  functionNames(formula).some((name) => isOurs(name) || (name !== 'MODE.MULT' && isYoung(name)));

function isYoung(name: string): boolean {
  const facts = functionFacts(name);
  return facts !== undefined && facts.spills && facts.filePrefix !== '';
}

/** Whether a formula refers to another workbook. */
export function namesOtherFile(formula: string): boolean {
  if (!formula.includes('[')) return false;
  const scanner = new FormulaScanner(formula);
  while (scanner.next())
    if (scanner.kind === 'sheet' && isOtherFile(formula.slice(scanner.start, scanner.end))) return true;
  return false;
}
