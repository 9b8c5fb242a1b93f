/** Formulas as text: a file's spelling of function names and the typed one. */
import { NAMESPACE } from '../functions';
import { quoteSheet } from '../sheet';
import { pieces } from '../sheet/formula';
import { FILE_PREFIXES, SPILLING } from './future-functions';

const FILE_NAMESPACE = '_xldudf_';
const OURS = new RegExp(`^${FILE_NAMESPACE}(${NAMESPACE}_.+)$`, 'i');
const OUR_CALLS = new RegExp(`(?<![\\p{L}\\p{N}_.])${FILE_NAMESPACE}(${NAMESPACE}_\\w+)\\(`, 'giu');
const PREFIX = /_xl(?:fn|ws|pm|udf)\./gi;

const OTHER_FILE = /(?:^|[^\p{L}\p{N}_\]])\[\d+\]|'[^']*\[[^\]]*\][^']*'!/u;

/** Whether a formula refers to another workbook. */
export const namesOtherFile = (formula: string): boolean => OTHER_FILE.test(formula);

/** A formula from a file as it would be typed: "_xldudf_TARE_AREA_RECT(" is "TARE.AREA.RECT(", "_xlfn.XLOOKUP(" is "XLOOKUP(". */
export function fromFile(formula: string): string {
  if (!formula.includes('_xl') && !formula.includes('_XL')) return formula;
  // A large parts list has a formula a row: without texts and quoted names there is nothing to be careful of.
  if (!/["'[]|ANCHORARRAY/i.test(formula))
    return formula
      .replace(OUR_CALLS, (_whole, name: string) => `${name.toUpperCase().replaceAll('_', '.')}(`)
      .replace(PREFIX, '');
  const typed = pieces(formula)
    .map(({ kind, text }) => {
      if (kind !== 'call' && kind !== 'word') return text;
      const ours = kind === 'call' ? OURS.exec(text) : null;
      return ours ? ours[1]!.toUpperCase().replaceAll('_', '.') : text.replace(PREFIX, '');
    })
    .join('');
  // A reference to a whole spill stands in files as a function of its first cell.
  return typed.replace(/\bANCHORARRAY\((\$?[A-Z]{1,3}\$?\d+)\)/gi, '$1#');
}

/** A typed formula in a file's spelling, in which a spreadsheet program binds every function. */
export function toFile(formula: string): string {
  const anchored = formula.replace(/(\$?\b[A-Z]{1,3}\$?\d+)#/gi, 'ANCHORARRAY($1)');
  return pieces(anchored)
    .map(({ kind, text }) => {
      if (kind !== 'call') return text;
      const name = text.toUpperCase();
      if (name.startsWith(`${NAMESPACE}.`)) return FILE_NAMESPACE + name.replaceAll('.', '_');
      return (FILE_PREFIXES.get(name) ?? '') + text;
    })
    .join('');
}

/** Names of the functions that a typed formula calls, in capitals. */
export function functionNames(formula: string): string[] {
  return formula.includes('(')
    ? pieces(formula).flatMap(({ kind, text }) => (kind === 'call' ? [text.toUpperCase()] : []))
    : [];
}

/** A formula in which references name sheets by other names; `names` maps old ones in lower case. */
export function withSheetNames(formula: string, names: ReadonlyMap<string, string>): string {
  return pieces(formula)
    .map(({ kind, text }) => {
      if (kind !== 'sheet') return text;
      const name = text.startsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
      const changed = names.get(name.toLowerCase());
      return changed === undefined ? text : quoteSheet(changed);
    })
    .join('');
}

const MAYBE_DYNAMIC = new RegExp(`${NAMESPACE}\\.|${[...SPILLING].join('|')}`, 'i');

/** True where a typed formula has to be stored as a dynamic array to be bound, or to spill. */
export function isDynamic(formula: string): boolean {
  if (!MAYBE_DYNAMIC.test(formula)) return false;
  return functionNames(formula).some((name) => name.startsWith(`${NAMESPACE}.`) || SPILLING.has(name));
}
