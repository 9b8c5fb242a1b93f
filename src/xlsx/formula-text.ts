/**
 * Formulas as text: a file's spelling and the typed one. Texts, names of sheets and names of columns stay as they are,
 * even where a part of one looks like a function or a reference.
 */
import { excelName, NAMESPACE } from '../functions';
import {
  declaredNames,
  filePart,
  FormulaScanner,
  functionFacts,
  HANDED_ON,
  matching,
  operandEnd,
  operandStart,
  parameterNames,
  tokens,
  typedPart,
  withPlainGone,
  type Token,
} from '../sheet/formula';

const NO_NAMES: IsName = () => false;

const FILE_NAMESPACE = '_xldudf_';
const OURS = new RegExp(`^${FILE_NAMESPACE}(${NAMESPACE}_.+)$`, 'i');
/** More than one can stand before a name: _xlfn._xlws.SORT. */
const PREFIX = /^(?:_xl(?:fn|ws|pm|udf|eta)\.)+/i;
/** Source: [MS-XLSX] 2.2.2: parameters of LET and LAMBDA. */
const PARAMETER = '_xlpm.';
/** Prefix where LAMBDA declares a parameter that a call may leave out; where it is used, the parameter has the usual prefix. Seen in files that Excel saved. */
const OPTIONAL = '_xlop.';

/** How a file says that a table's column is taken in the formula's own row. */
const OWN_ROW = '#This Row';

/**
 * A formula from a file as it would be typed: "_xldudf_TARE_AREA_RECT(" is "TARE.AREA.RECT(", "_xlfn.XLOOKUP(" is
 * "XLOOKUP(", "[[#This Row],[width]]" is "[@width]". A function that is handed on keeps its mark where a name is spelled
 * like it, because without the mark it would be that name: BYROW(A1:C3,_xleta.SUM).
 */
export function fromFile(formula: string, isName?: IsName): string {
  if (!formula.includes('_xl') && !formula.includes('_XL') && !formula.includes(OWN_ROW)) return formula;
  const scanner = new FormulaScanner(formula);
  let typed = '';
  let from = 0;
  let hasSigns = false;
  let hasOptional = false;
  while (scanner.next()) {
    const { kind, start, end } = scanner;
    if (kind === 'bracket' && formula.includes(OWN_ROW, start)) {
      typed += `${formula.slice(from, start)}[${typedPart(formula.slice(start + 1, end - 1))}]`;
      from = end;
      continue;
    }
    // "_"
    if ((kind !== 'call' && kind !== 'name') || formula.charCodeAt(start) !== 0x5f) continue;
    const text = typedName(formula.slice(start, end), kind === 'call', isName);
    hasSigns ||= text === 'ANCHORARRAY' || text === 'SINGLE';
    hasOptional ||= isOptional(text);
    typed += formula.slice(from, start) + text;
    from = end;
  }
  typed += formula.slice(from);
  if (hasOptional) typed = withBrackets(typed);
  return hasSigns ? withSigns(typed) : typed;
}

const isOptional = (text: string): boolean => text.toLowerCase().startsWith(OPTIONAL);

/** LAMBDA(_xlop.x,x) is typed LAMBDA([x],x). */
function withBrackets(formula: string): string {
  const all = tokens(formula);
  const declared = declaredNames(all);
  return all
    .map((token) => {
      if (!isOptional(token.text)) return token.text;
      const name = token.text.slice(OPTIONAL.length);
      return declared.has(token) ? `[${name}]` : name;
    })
    .join('');
}

function typedName(text: string, isCall: boolean, isName = NO_NAMES): string {
  const ours = isCall ? OURS.exec(text) : null;
  if (ours) return ours[1]!.toUpperCase().replaceAll('_', '.');
  const bare = text.replace(PREFIX, '');
  return text.toLowerCase().startsWith(HANDED_ON) && isName(bare) ? HANDED_ON + bare : bare;
}

/** ANCHORARRAY(A1) is typed A1#, and SINGLE(A1:A9) is typed @A1:A9. */
function withSigns(formula: string): string {
  const all = tokens(formula);
  const out = all.map(({ text }) => text);
  all.forEach(({ kind, text }, index) => {
    if (kind !== 'call' || (text !== 'ANCHORARRAY' && text !== 'SINGLE')) return;
    const close = matching(all, index + 1, 1);
    if (close === undefined || operandEnd(all, index + 2) !== close - 1) return;
    const isAnchor = text === 'ANCHORARRAY';
    // Only the cell itself: "A1:B2#" is a range from A1 to all that B2 spills.
    if (isAnchor ? operandStart(all, close - 1) !== index + 2 : isGoingOn(all, close + 1)) return;
    out[index] = isAnchor ? '' : '@';
    out[index + 1] = '';
    out[close] = isAnchor ? '#' : '';
  });
  return out.join('');
}

/** Kinds of tokens that belong to the reference before them, so that an @ before the reference would apply to them, too. */
const GOING_ON: ReadonlySet<string> = new Set(['open', 'cell', 'columns', 'rows', 'sheet', 'name', 'table', 'call']);

function isGoingOn(all: readonly Token[], index: number): boolean {
  const token = all[index];
  if (token?.kind === 'space') return GOING_ON.has(all[index + 1]?.kind ?? '');
  return token !== undefined && (token.text === ':' || token.text === '#' || token.kind === 'open');
}

/** A typed formula in a file's spelling, in which a spreadsheet program binds every function. */
export function toFile(typed: string, isName = NO_NAMES): string {
  const formula = withPlainGone(typed);
  const all = tokens(formula);
  const out = all.map(({ text }) => text);
  const parameters = parameterNames(all);
  const whole = { all, parameters, isName };
  all.forEach((token, index) => {
    const { kind, text } = token;
    if (parameters.has(token)) out[index] = kind === 'bracket' ? OPTIONAL + text.slice(1, -1) : PARAMETER + text;
    else if (kind === 'call') out[index] = fileName(text);
    else if (kind === 'name' && isHandedOn(whole, index)) out[index] = HANDED_ON + text;
    else if (kind === 'bracket') out[index] = `[${filePart(text.slice(1, -1))}]`;
  });
  // @A1# is the one cell of all that A1 spills.
  for (const [sign, put] of [
    ['#', anchor],
    ['@', single],
  ] as const)
    all.forEach(({ kind, text }, index) => {
      if (kind === 'operator' && text === sign) put(all, out, index);
    });
  return out.join('');
}

function fileName(text: string): string {
  const name = text.toUpperCase();
  if (name.startsWith(`${NAMESPACE}.`))
    return `${FILE_NAMESPACE}${NAMESPACE}.${excelName(name.slice(NAMESPACE.length + 1))}`.replaceAll('.', '_');
  return (functionFacts(name)?.filePrefix ?? '') + text;
}

function anchor(all: readonly Token[], out: string[], index: number): void {
  const first = operandStart(all, index - 1);
  if (first === undefined) return;
  out[first] = `_xlfn.ANCHORARRAY(${out[first]!}`;
  out[index] = ')';
}

function single(all: readonly Token[], out: string[], index: number): void {
  const last = operandEnd(all, index + 1);
  if (last === undefined) return;
  out[index] = '_xlfn.SINGLE(';
  out[last] += ')';
}

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
 * Whether a name is an ordinary function that is handed on as a value, by its bare name: BYROW(A1:C3,SUM). A file marks it,
 * as BYROW(A1:C3,_xleta.SUM), because SUM alone is a name of the workbook there. Seen in files that Excel saved. A
 * name of the workbook that is spelled like a function stays that name: the calculator takes it for the name, too.
 */
function isHandedOn(formula: Formula, index: number): boolean {
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
 * @param there the names and tables of the workbook: asked for once, and only when a formula hands on a function
 * @param sheet its name; undefined for a formula of the workbook itself
 */
export function seenNames(
  there: () => { readonly names: readonly ScopedName[]; readonly tables: readonly string[] },
  sheet: string | undefined,
): IsName {
  let seen: ReadonlySet<string> | undefined;
  // Made when it is first asked for: hardly any formula hands on a function, and a workbook can have thousands of names.
  return (name) => {
    if (!seen) {
      const { names, tables } = there();
      const own = names.filter(({ scope }) => scope === undefined || scope === sheet);
      seen = new Set([...own.map((one) => one.name), ...tables].map((one) => one.toLowerCase()));
    }
    return seen.has(name.toLowerCase());
  };
}
