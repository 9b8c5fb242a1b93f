/** Formulas that differ only by the cell they stand in share one program. */
import { columnIndex } from '../sheet';

/** Quoted texts, quoted sheets and brackets are passed over; a name like LOG10( or A1.x is none of a cell. */
const PIECES =
  /"[^"]*"|'[^']*'|\[[^\]]*\]|(?<![\p{L}\p{N}_.\\$])(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})(?![\p{L}\p{N}_.(!])/gu;

/** The formula with its relative references as offsets from the cell it stands in. */
export function templateKey(formula: string, row: number, column: number): string {
  return formula.replace(
    PIECES,
    (
      whole: string,
      lockColumn: string | undefined,
      letters: string | undefined,
      lockRow: string | undefined,
      digits: string | undefined,
    ) => {
      if (letters === undefined || digits === undefined) return whole;
      const c = lockColumn ? letters.toUpperCase() : columnIndex(letters) - column;
      const r = lockRow ? digits : Number(digits) - 1 - row;
      return `\u0001${lockRow}${r}\u0001${lockColumn}${c}`;
    },
  );
}
