/** What stands before a reference: Parts!, 'Left wing'!, [2]Prices!, Jan:Mar!, #REF!. */
import { quoteSheet } from '../address';

export interface SheetPrefix {
  /** undefined for a sheet of another workbook, for several sheets, and for #REF!. */
  readonly sheet: string | undefined;
  /** True for another workbook, and for several sheets. */
  readonly isElsewhere: boolean;
}

/** The sheet that a token of kind 'sheet' names. */
export function sheetOf(prefix: string): SheetPrefix {
  if (prefix.startsWith('#')) return { sheet: undefined, isElsewhere: false };
  const name = plainName(prefix);
  return /[[\]:]/.test(name) ? { sheet: undefined, isElsewhere: true } : { sheet: name, isElsewhere: false };
}

/** True for a sheet of another workbook: [2]Prices!, 'C:\[a.xlsx]Prices'!. */
export const isOtherFile = (prefix: string): boolean => /[[\]]/.test(prefix);

/** A prefix in which sheets have other names; `names` maps old ones in lower case. */
export function renamedPrefix(prefix: string, names: ReadonlyMap<string, string>): string {
  if (prefix.startsWith('#') || isOtherFile(prefix)) return prefix;
  const parts = plainName(prefix).split(':');
  const changed = parts.map((name) => names.get(name.toLowerCase()) ?? name);
  if (changed.every((name, index) => name === parts[index])) return prefix;
  if (changed.length === 1) return `${quoteSheet(changed[0]!)}!`;
  // Several sheets share one pair of quotes: 'Jan 1:Mar 1'!.
  return changed.every((name) => quoteSheet(name) === name)
    ? `${changed.join(':')}!`
    : `'${changed.join(':').replaceAll("'", "''")}'!`;
}

/** The sheets that a prefix of this workbook names: one, or the first and the last of several. */
export const sheetsOf = (prefix: string): string[] => plainName(prefix).split(':');

const plainName = (prefix: string): string => {
  const text = prefix.slice(0, -1);
  return text.startsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
};
