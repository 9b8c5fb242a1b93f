/** One formula evaluated, as in a cell of its own. */
import { CellError, type Result, type WorkbookModel } from '../../sheet';
import { recalculate } from './recalculate';

/** The value of a formula, with or without its "=", against a workbook's cells where one is given. Errors come as CellError. */
export async function evaluate(formula: string, workbook?: WorkbookModel): Promise<Result> {
  const text = formula.trim().replace(/^=/, '');
  const name = freeName(workbook);
  const model: WorkbookModel = {
    styles: workbook?.styles ?? [],
    names: workbook?.names ?? [],
    sheets: [...(workbook?.sheets ?? []), { name, cells: [[{ value: null, formula: text }]], tables: [] }],
  };
  const { model: after, kept } = await recalculate(model);
  const reason = kept.find(({ cells }) => cells.some(({ sheet }) => sheet === name))?.reason;
  if (reason) return new CellError('#NAME?', reason.replace(/^function/, 'There is no function'));
  const { cells } = after.sheets.at(-1)!;
  const { value = null, spill } = cells[0]?.[0] ?? {};
  if (!spill || spill.rows * spill.columns === 1) return value;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => cells[r]?.[c]?.value ?? ''),
  );
}

function freeName(workbook: WorkbookModel | undefined): string {
  const taken = new Set((workbook?.sheets ?? []).map((sheet) => sheet.name.toLowerCase()));
  let number = 1;
  while (taken.has(`evaluated ${number}`)) number++;
  return `Evaluated ${number}`;
}
