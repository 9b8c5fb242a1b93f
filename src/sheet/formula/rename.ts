/** Formulas in which sheets, tables, their columns and defined names have other names. Maps have the old ones in lower case. */
import { references } from './found-references';
import { escapedColumn, isBareColumn, partItems } from './part-items';
import { renamedPrefix } from './sheet-prefix';
import { replaced, rewrite, type Replacement } from './tokens';

type Names = ReadonlyMap<string, string>;

/** A formula in which references name sheets by other names; those of other workbooks stay. */
export const withSheetNames = (formula: string, names: Names): string =>
  formula.includes('!')
    ? rewrite(formula, ({ kind, text }) => (kind === 'sheet' ? renamedPrefix(text, names) : undefined))
    : formula;

/** A formula in which tables have other names; one of another workbook stays. */
export const withTableNames = (formula: string, names: Names): string =>
  replaced(
    formula,
    references(formula).flatMap((reference): Replacement[] => {
      if (reference.isElsewhere || (reference.kind !== 'table' && reference.kind !== 'name')) return [];
      const old = reference.kind === 'table' ? reference.table : reference.name;
      const name = reference.sheet === undefined ? names.get(old.toLowerCase()) : undefined;
      return name === undefined || old === ''
        ? []
        : [{ start: reference.start, end: reference.start + old.length, text: name }];
    }),
  );

/**
 * A formula in which columns of a table have other titles.
 * @param isInTable true where the formula stands in the table, so that [width] is of it
 */
export function withColumnNames(formula: string, table: string, names: Names, isInTable: boolean): string {
  if (!formula.includes('[')) return formula;
  return replaced(
    formula,
    references(formula).flatMap((reference): Replacement[] => {
      if (reference.kind !== 'table' || reference.isElsewhere) return [];
      const isOfTable = reference.table === '' ? isInTable : reference.table.toLowerCase() === table.toLowerCase();
      if (!isOfTable) return [];
      const offset = reference.end - 1 - reference.part.length;
      return renamedColumns(reference.part, names).map(({ start, end, text }) => ({
        start: offset + start,
        end: offset + end,
        text,
      }));
    }),
  );
}

function renamedColumns(part: string, names: Names): Replacement[] {
  return partItems(part).items.flatMap(({ start, end, isArea, isBracketed, name }) => {
    const now = isArea ? undefined : names.get(name.toLowerCase());
    if (now === undefined) return [];
    const text = isBracketed || isBareColumn(now) ? escapedColumn(now) : `[${escapedColumn(now)}]`;
    return [{ start, end, text }];
  });
}
