/**
 * Formulas written by hand over sheets of their own (months, a table with a row of totals, conditions, hidden rows), and
 * what LibreOffice 7.4.7 gave for them when they were stored. Where a document says otherwise, the document's answer
 * stands with it: "MS" is Microsoft's page on the function.
 */
import { CellError, isErrorCode, type Cell, type WorkbookModel } from '../../../src/sheet';
import book from './written.json';

type Stored = number | string | boolean | null | { readonly error: string };

interface StoredCell {
  readonly value: Stored;
  readonly formula?: string;
  readonly plain?: boolean;
  readonly style?: number;
}

const cellOf = (stored: Stored): Cell =>
  stored !== null && typeof stored === 'object'
    ? new CellError(isErrorCode(stored.error) ? stored.error : '#VALUE!')
    : stored;

export interface Written {
  readonly formula: string;
  readonly gives: Cell;
  /** Undefined where LibreOffice gave it; else what LibreOffice gives instead, and the document that decides. */
  readonly why?: string;
}

export const WRITTEN: readonly Written[] = (book.formulas as unknown as (readonly [string, Stored, string?])[]).map(
  ([formula, gives, why]) => ({ formula, gives: cellOf(gives), ...(why === undefined ? {} : { why }) }),
);

/** The name of the sheet on which the formulas stand, one a row in column A. */
export const OWN_SHEET = 'F';

/** The workbook with the formulas in their places, as a file has them: plain. */
export function writtenBook(): WorkbookModel {
  const { sheets, names, styles } = book.book as unknown as Omit<WorkbookModel, 'sheets'> & {
    readonly sheets: readonly (Omit<WorkbookModel['sheets'][number], 'cells'> & {
      readonly cells: readonly (readonly (StoredCell | null)[] | null)[];
    })[];
  };
  return {
    names,
    styles,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      cells:
        sheet.name === OWN_SHEET
          ? WRITTEN.map(({ formula }) => [{ value: null, formula, plain: true }])
          : sheet.cells.map((line) =>
              (line ?? []).map((cell) => (cell ? { ...cell, value: cellOf(cell.value) } : undefined)),
            ),
    })),
  };
}
