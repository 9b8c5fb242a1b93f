/**
 * Formulas in which sheets, tables and their columns have other names (maps have the old ones in lower case), or are gone:
 * what named them is #REF! then, as in spreadsheets.
 */
import { withReferences, type FoundReference } from './found-references';
import { isOtherFile, renamedPrefix, sheetPrefix, sheetsOf } from './spelling';
import { escapedColumn, isBareColumn, partItems, type PartItem } from './table-part';
import { rewrite, type Replacement } from './tokens';

type Names = ReadonlyMap<string, string>;
type TableReference = Extract<FoundReference, { kind: 'table' }>;

const isName = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();
const gone = ({ start, end }: FoundReference): Replacement => ({ start, end, text: '#REF!' });

/** The names from one to another in an order, both included, that are left. */
function leftOf(order: readonly string[], ends: readonly string[], isGone: (name: string) => boolean): string[] {
  const [from, to = from] = ends.map((name) => order.findIndex((one) => isName(one, name)));
  return order.slice(Math.min(from!, to!), Math.max(from!, to!) + 1).filter((name) => !isGone(name));
}

/** A formula in which references name sheets by other names; those of other workbooks stay. */
export const withSheetNames = (formula: string, names: Names): string =>
  formula.includes('!')
    ? rewrite(formula, ({ kind, text }) => (kind === 'sheet' ? renamedPrefix(text, names) : undefined))
    : formula;

/**
 * A formula when a sheet is gone. References through several sheets ("Jan:Mar!A1") end at the next one that is left.
 * @param order the names of all sheets as they stood, the one that goes among them
 */
export function withoutSheet(formula: string, sheet: string, order: readonly string[]): string {
  const isGone = (name: string | undefined): boolean => name !== undefined && isName(name, sheet);
  const through = rewrite(formula, ({ kind, text }) => {
    if (kind !== 'sheet' || text.startsWith('#') || isOtherFile(text)) return undefined;
    const ends = sheetsOf(text);
    if (ends.length < 2 || !ends.some(isGone)) return undefined;
    const left = leftOf(order, ends, isGone);
    return sheetPrefix([...new Set([left[0] ?? '', left.at(-1) ?? ''])]);
  });
  return withReferences(through, (reference) => (isGone(reference.sheet) ? [gone(reference)] : []));
}

/**
 * A formula in which cells that are gone are #REF! alone: "Parts!#REF!" is a name that is not known to some programs.
 */
export const withPlainGone = (formula: string): string =>
  formula.includes('!#REF!')
    ? rewrite(formula, ({ kind }, index, all) =>
        kind === 'sheet' && all[index + 1]?.text.toUpperCase() === '#REF!' ? '' : undefined,
      )
    : formula;

/** The table that a reference names, or may name; '' where it names none of this workbook. */
function tableOf(reference: FoundReference): string {
  if (reference.isElsewhere || reference.sheet !== undefined) return '';
  if (reference.kind === 'table') return reference.table;
  return reference.kind === 'name' ? reference.name : '';
}

/** A formula in which tables have other names; one of another workbook stays. */
export const withTableNames = (formula: string, names: Names): string =>
  withReferences(formula, (reference) => {
    const old = tableOf(reference);
    const text = old === '' ? undefined : names.get(old.toLowerCase());
    return text === undefined ? [] : [{ start: reference.start, end: reference.start + old.length, text }];
  });

/** A formula when a table is gone. */
export const withoutTable = (formula: string, table: string): string =>
  withReferences(formula, (reference) => (isName(tableOf(reference), table) ? [gone(reference)] : []));

/** A formula whose references to a table are changed. */
const inTable = (
  formula: string,
  table: string,
  isInTable: boolean,
  change: (reference: TableReference) => readonly Replacement[],
): string =>
  withReferences(formula, (reference) => {
    if (reference.kind !== 'table' || reference.isElsewhere) return [];
    const isOfTable = reference.table === '' ? isInTable : isName(reference.table, table);
    return isOfTable ? change(reference) : [];
  });

/** Another column in the place of one that a reference names. */
function columnNamed({ end, part }: TableReference, item: PartItem, name: string): Replacement {
  const offset = end - 1 - part.length;
  const text = item.isBracketed || isBareColumn(name) ? escapedColumn(name) : `[${escapedColumn(name)}]`;
  return { start: offset + item.start, end: offset + item.end, text };
}

/**
 * A formula in which columns of a table have other titles.
 * @param isInTable true where the formula stands in the table, so that [width] is of it
 */
export const withColumnNames = (formula: string, table: string, names: Names, isInTable: boolean): string =>
  formula.includes('[')
    ? inTable(formula, table, isInTable, (reference) =>
        partItems(reference.part).items.flatMap((item) => {
          const now = item.isArea ? undefined : names.get(item.name.toLowerCase());
          return now === undefined ? [] : [columnNamed(reference, item, now)];
        }),
      )
    : formula;

export interface GoneColumns {
  readonly table: string;
  /** The columns that are deleted. */
  readonly columns: readonly string[];
  /** All columns of the table before the edit, in order. */
  readonly order: readonly string[];
}

/**
 * A formula when columns of a table are gone.
 * @param isInTable true where the formula stands in the table, so that [width] is of it
 */
export const withoutColumns = (formula: string, { table, columns, order }: GoneColumns, isInTable: boolean): string =>
  inTable(formula, table, isInTable, (reference) => {
    const items = partItems(reference.part).items.filter(({ isArea }) => !isArea);
    const names = items.map(({ name }) => name);
    const isGone = (name: string): boolean => columns.some((one) => isName(one, name));
    if (!names.some(isGone)) return [];
    const left = leftOf(order, names, isGone);
    if (left.length === 0) return [gone(reference)];
    return items.map((item, index) => columnNamed(reference, item, index === 0 ? left[0]! : left.at(-1)!));
  });
