/** Requests to Excel, made as batches whose errors are the port's; and what this Excel can do. */
import { WorkbookError } from '../../sheet';

/** True where this Excel has the requirement set ExcelApi of that version. */
export const supports = (version: string): boolean => Office.context.requirements.isSetSupported('ExcelApi', version);

/** Runs a batch; waits while a person is typing in a cell, and gives Excel's errors as the port's. */
export async function run<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
  options: Excel.RunOptions = {},
): Promise<T> {
  try {
    return await Excel.run({ delayForCellEdit: true, ...options }, batch);
  } catch (error) {
    throw asWorkbookError(error);
  }
}

/** A batch whose edits are one step of Excel's own undo, where this Excel can have them so. */
export const runAsOne = <T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> =>
  run(batch, supports('1.20') ? { mergeUndoGroup: true } : {});

/** What is asked for in one sync: `ask` loads it and gives what reads it after the sync. */
export const answered = <T>(ask: (context: Excel.RequestContext) => () => T): Promise<T> =>
  run(async (context) => {
    const answer = ask(context);
    await context.sync();
    return answer();
  });

/** What Excel's own error codes mean to a person; by Microsoft, "Application-specific API error codes". */
const MEANINGS: Readonly<Record<string, readonly [WorkbookError['code'], string]>> = {
  AccessDenied: ['protected', 'Excel refuses the change: the sheet or the workbook is protected'],
  ItemNotFound: ['no-sheet', 'A sheet or table that was asked for is not in the workbook'],
  InvalidReference: ['off-sheet', 'The range is not on the sheet'],
  RangeExceedsLimit: ['off-sheet', 'The range is too large for Excel'],
  InsertDeleteConflict: [
    'host',
    'Excel cannot insert or remove these rows: a filter, a merged cell or another table is in the way',
  ],
  TableOverlap: ['shape', 'The table would overlap another'],
  ItemAlreadyExists: ['name-taken', 'The name is taken already'],
  InvalidOperationInCellEditMode: [
    'host',
    'Excel is in the middle of editing a cell: finish it with Enter or Escape, then try again',
  ],
  RequestPayloadSizeLimitExceeded: ['host', 'That is more than Excel takes at once'],
};

/** An error of Excel as one of the port's; anything else as it is. */
function asWorkbookError(error: unknown): unknown {
  if (error instanceof WorkbookError || !(error instanceof Error)) return error;
  const { code } = error as { code?: unknown };
  if (typeof code !== 'string') return error;
  const [ours, meaning] = MEANINGS[code] ?? (['host', `Excel reports ${code}`] as const);
  return new WorkbookError(ours, `${meaning}${error.message && !MEANINGS[code] ? `: ${error.message}` : ''}`, {
    cause: error,
  });
}

/** True for Excel's error of that code. */
export const isExcelError = (error: unknown, code: string): boolean =>
  error instanceof Error && (error as { code?: unknown }).code === code;
