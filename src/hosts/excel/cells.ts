/** Cells between the Workbook port and Excel's ranges. */
import { CellError, isErrorCode, type Cell, type CellInput } from '../../sheet';

/** What a range's `formulas` and `values` take and give. */
export type ExcelCell = string | number | boolean;

/** A cell from a range's `values` and `valueTypes`: error values come as text there, told apart by the type. */
export function fromExcel(value: unknown, type: unknown): Cell {
  if (value === '' || value === null || value === undefined || type === 'Empty') return null;
  if (type === 'Error')
    return isErrorCode(value) ? new CellError(value) : new CellError('#VALUE!', `Excel shows ${String(value)}`);
  return typeof value === 'number' || typeof value === 'boolean' ? value : String(value);
}

/** A formula from a range's `formulas` and `values`: null where the cell holds a plain value, a text with "=" included. */
export const formulaOf = (formula: unknown, value: unknown): string | null =>
  typeof formula === 'string' && formula.startsWith('=') && formula !== value ? formula : null;

/** What is written into a range's `formulas`, so that the cell holds just that. */
export function toExcel(input: CellInput): ExcelCell {
  if (input === null) return '';
  if (input instanceof CellError) return input.code;
  if (typeof input === 'object') return input.formula;
  return typeof input === 'string' ? asTyped(input) : input;
}

/**
 * A text as it is typed so that Excel keeps it: with an apostrophe before what Excel would take for a number,
 * a date, a formula or a truth value ("3/32", "0012", "=x", "Mar 5").
 */
function asTyped(text: string): ExcelCell {
  const plain = text === '' || (/^\p{L}[\p{L} ,.;:()_&/-]*$/u.test(text) && !/^(true|false)$/i.test(text));
  return plain ? text : `'${text}`;
}

/** A cell as it stood, to be written back. */
export function asBefore(formula: unknown, value: unknown, type: unknown): ExcelCell {
  const typed = formulaOf(formula, value);
  if (typed !== null) return typed;
  // An error that the port has no code for goes back as it was.
  return type === 'Error' ? String(value) : toExcel(fromExcel(value, type));
}
