/**
 * Formulas as text: a file's spelling and the typed one. Texts, names of sheets and names of columns stay as they are,
 * even where a part of one looks like a function or a reference.
 */
import { excelName, NAMESPACE } from '../functions';
import {
  declaredNames,
  FormulaScanner,
  functionFacts,
  HANDED_ON,
  operandEnd,
  operandStart,
  parameterNames,
  tokens,
  withPlainGone,
} from '../sheet/formula';
import { filePart, matching, typedPart, type Token } from '../sheet/formula';
import { isHandedOn, type IsName } from './bare-functions';

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
