/**
 * Functions that a formula hands on as values, by their bare names: BYROW(A1:C3,SUM). A file marks them, as BYROW(A1:C3,_xleta.SUM),
 * because SUM alone is a name of the workbook there. Seen in files that Excel saved.
 */
import { functionFacts, matching, type Token } from '../sheet/formula';

/** A name that holds in the whole workbook, or on the sheet that is its scope. */
export interface ScopedName {
  readonly name: string;
  readonly scope?: string | undefined;
}

/** Whether formulas that are read or written see a name of the workbook or a table of this name. */
export type IsName = (name: string) => boolean;

/** Functions that take one as an argument, or several side by side, and which argument that is (from 0). */
const AS_ARGUMENT: ReadonlyMap<string, number> = new Map([
  ['GROUPBY', 2],
  ['PIVOTBY', 3],
]);
const SIDE_BY_SIDE: ReadonlySet<string> = new Set(['HSTACK', 'VSTACK']);

/** What the rest of the formula says about the place that is looked at. */
interface Formula {
  readonly all: readonly Token[];
  /** Names that its LETs and LAMBDAs give to values. */
  readonly parameters: ReadonlySet<Token>;
  readonly isName: IsName;
}

/**
 * Whether a name is an ordinary function that is handed on. A name of the workbook that is spelled like a function stays
 * that name: the calculator takes it for the name, too.
 */
export function isHandedOn(formula: Formula, index: number): boolean {
  const { all, isName } = formula;
  const { text } = all[index]!;
  if (!functionFacts(text) || /^(?:true|false)$/i.test(text) || isName(text)) return false;
  const isWhole = /^[,(]$/.test(beside(all, index, -1)?.text ?? '') && /^[,)]$/.test(beside(all, index, 1)?.text ?? '');
  return isWhole && isFunctionPlace(formula, index, index);
}

const beside = (all: readonly Token[], index: number, step: 1 | -1): Token | undefined =>
  all[all[index + step]?.kind === 'space' ? index + 2 * step : index + step];

/** Whether the argument that begins and ends with these tokens may be a function. */
function isFunctionPlace(formula: Formula, first: number, last: number): boolean {
  const { all, parameters, isName } = formula;
  const place = argumentAt(all, first);
  const call = place && all[place.open - 1];
  if (!place || !call) return false;
  // LAMBDA(f,x,f(x))(ABS,-3)
  if (call.kind === 'close' || parameters.has(call)) return true;
  if (call.kind !== 'call') return false;
  const name = call.text.toUpperCase();
  if (functionFacts(name)?.endsWithFunction) return beside(all, last, 1)?.kind === 'close';
  if (AS_ARGUMENT.has(name)) return AS_ARGUMENT.get(name) === place.argument;
  if (name === 'LET') return place.argument % 2 === 1;
  if (!SIDE_BY_SIDE.has(name)) return functionFacts(name) === undefined && isName(call.text);
  const end = matching(all, place.open, 1);
  return end !== undefined && isFunctionPlace(formula, place.open - 1, end);
}

/** The bracket in which a token stands, and the number of its argument from 0. */
function argumentAt(all: readonly Token[], index: number): { open: number; argument: number } | undefined {
  let depth = 0;
  let argument = 0;
  for (let at = index - 1; at >= 0; at--) {
    const { kind } = all[at]!;
    if (kind === 'close' || kind === 'closeArray') depth++;
    else if (kind === 'comma' && depth === 0) argument++;
    else if ((kind === 'open' || kind === 'openArray') && depth-- === 0) return { open: at, argument };
  }
  return undefined;
}

/**
 * What the formulas of a sheet see: the names of the workbook and its own, and all tables.
 * @param sheet its name, or each that it has while sheets are renamed; none for a formula of the workbook itself
 */
export function seenNames(
  names: readonly ScopedName[],
  tables: readonly string[],
  sheet: readonly (string | undefined)[],
): IsName {
  let seen: ReadonlySet<string> | undefined;
  // Made when it is first asked for: hardly any formula hands on a function, and a workbook can have thousands of names.
  return (name) => {
    seen ??= new Set([
      ...names.flatMap((one) => (one.scope === undefined || sheet.includes(one.scope) ? [one.name.toLowerCase()] : [])),
      ...tables.map((one) => one.toLowerCase()),
    ]);
    return seen.has(name.toLowerCase());
  };
}
