/** Formulas after sheets, tables and columns of tables are gone: what named them is #REF!, as in spreadsheets. */
import { quoteSheet } from '../address';
import { references, type FoundReference } from './found-references';
import { escapedColumn, isBareColumn, partItems } from './part-items';
import { isOtherFile, sheetsOf } from './sheet-prefix';
import { replaced, rewrite, tokens, type Replacement } from './tokens';

const isName = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/**
 * A formula when a sheet is gone. References through several sheets ("Jan:Mar!A1") end at the next one that is left.
 * @param order the names of all sheets as they stood, the one that goes among them
 */
export function withoutSheet(formula: string, sheet: string, order: readonly string[]): string {
  const through = rewrite(formula, ({ kind, text }) => {
    if (kind !== 'sheet' || text.startsWith('#') || isOtherFile(text)) return undefined;
    const ends = sheetsOf(text);
    if (ends.length < 2 || !ends.some((name) => isName(name, sheet))) return undefined;
    return throughSheets(leftOf(order, ends, sheet));
  });
  return replaced(
    through,
    references(through).flatMap((reference): Replacement[] =>
      reference.sheet !== undefined && isName(reference.sheet, sheet)
        ? [{ start: reference.start, end: reference.end, text: '#REF!' }]
        : [],
    ),
  );
}

/** The names from one to another in an order, both included, that are left. */
function leftOf(order: readonly string[], ends: readonly string[], gone: string): string[] {
  const [from, to = from] = ends.map((name) => order.findIndex((one) => isName(one, name)));
  return order.slice(Math.min(from!, to!), Math.max(from!, to!) + 1).filter((name) => !isName(name, gone));
}

/** "Jan!", "Jan:Mar!", "'Jan 1:Mar 1'!" */
function throughSheets(names: readonly string[]): string {
  const [first = '', last = first] = [names[0], names.at(-1)];
  if (first === last) return `${quoteSheet(first)}!`;
  return [first, last].every((name) => quoteSheet(name) === name)
    ? `${first}:${last}!`
    : `'${`${first}:${last}`.replaceAll("'", "''")}'!`;
}

/**
 * A formula in which cells that are gone are #REF! alone: "Parts!#REF!" is a name that is not known to some programs.
 */
export function withPlainGone(formula: string): string {
  if (!formula.includes('!#REF!')) return formula;
  const all = tokens(formula);
  return rewrite(formula, ({ kind }, index) =>
    kind === 'sheet' && all[index + 1]?.text.toUpperCase() === '#REF!' ? '' : undefined,
  );
}

type TableReference = Extract<FoundReference, { kind: 'table' }>;

/** A formula when a table is gone. */
export const withoutTable = (formula: string, table: string): string =>
  replaced(
    formula,
    references(formula).flatMap((reference): Replacement[] => {
      if (reference.isElsewhere || reference.sheet !== undefined) return [];
      const name = reference.kind === 'table' ? reference.table : reference.kind === 'name' ? reference.name : '';
      return isName(name, table) ? [{ start: reference.start, end: reference.end, text: '#REF!' }] : [];
    }),
  );

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
export const withoutColumns = (formula: string, gone: GoneColumns, isInTable: boolean): string =>
  replaced(
    formula,
    references(formula).flatMap((reference): Replacement[] => {
      if (reference.kind !== 'table' || reference.isElsewhere) return [];
      const isOfTable = reference.table === '' ? isInTable : isName(reference.table, gone.table);
      return isOfTable ? withoutIn(reference, gone) : [];
    }),
  );

function withoutIn({ start, end, part }: TableReference, { columns, order }: GoneColumns): Replacement[] {
  const items = partItems(part).items.filter(({ isArea }) => !isArea);
  const isGone = (name: string): boolean => columns.some((one) => isName(one, name));
  if (!items.some(({ name }) => isGone(name))) return [];
  const [from, to = from] = items.map(({ name }) => order.findIndex((one) => isName(one, name)));
  const left = order.slice(Math.min(from!, to!), Math.max(from!, to!) + 1).filter((name) => !isGone(name));
  if (left.length === 0) return [{ start, end, text: '#REF!' }];
  const offset = end - 1 - part.length;
  return items.map((item, index) => {
    const name = index === 0 ? left[0]! : left.at(-1)!;
    const text = item.isBracketed || isBareColumn(name) ? escapedColumn(name) : `[${escapedColumn(name)}]`;
    return { start: offset + item.start, end: offset + item.end, text };
  });
}
