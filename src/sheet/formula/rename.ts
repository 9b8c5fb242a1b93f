/** Formulas in which sheets, tables and defined names have other names. Maps have the old ones in lower case. */
import { references } from './found-references';
import { renamedPrefix } from './sheet-prefix';
import { replaced, rewrite, type Replacement } from './tokens';

type Names = ReadonlyMap<string, string>;

/** A formula in which references name sheets by other names; those of other workbooks stay. */
export const withSheetNames = (formula: string, names: Names): string =>
  formula.includes('!')
    ? rewrite(formula, ({ kind, text }) => (kind === 'sheet' ? renamedPrefix(text, names) : undefined))
    : formula;

/** A formula in which tables and defined names have other names; those of another workbook stay. */
export const withNames = (formula: string, names: Names): string =>
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
