/** One formula evaluated, as in a cell of its own. */
import { CellError, freeSheetName, type CellPlace, type Result, type WorkbookModel } from '../sheet';
import { FormulaError, parseFormula } from '../sheet/formula';
import { recalculate } from './recalculate';

export interface Evaluation {
  readonly result: Result;
  /** The formula of the workbook on which the result rests and which was not calculated. */
  readonly restsOn: CellPlace | undefined;
}

/** The value of a formula, with or without its "=", against a workbook's cells where one is given. Errors come as CellError. @internal */
export const evaluate = (formula: string, workbook?: WorkbookModel): Result => evaluation(formula, workbook).result;

/** The value of a formula, and whether it rests on a formula that was not calculated. */
export function evaluation(formula: string, workbook?: WorkbookModel): Evaluation {
  const text = formula.trim().replace(/^=/, '');
  const fault = faultIn(text);
  if (fault) return { result: fault, restsOn: undefined };
  const name = freeSheetName('Evaluated 1', new Set(workbook?.sheets.map((sheet) => sheet.name.toLowerCase())));
  const model: WorkbookModel = {
    styles: workbook?.styles ?? [],
    names: workbook?.names ?? [],
    sheets: [...(workbook?.sheets ?? []), { name, cells: [[{ value: null, formula: text }]], tables: [] }],
  };
  const { model: after, notRecalculated } = recalculate(model);
  const { cells } = after.sheets.at(-1)!;
  const { value = null, spill } = cells[0]?.[0] ?? {};
  const restsOn = notRecalculated.find(({ sheet }) => sheet === name)?.because;
  if (!spill || spill.rows * spill.columns === 1) return { result: value, restsOn };
  const result = Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => cells[r]?.[c]?.value ?? ''),
  );
  return { result, restsOn };
}

function faultIn(text: string): CellError | undefined {
  try {
    parseFormula(text);
    return undefined;
  } catch (error) {
    if (error instanceof FormulaError) return new CellError('#NAME?', error.message);
    throw error;
  }
}
