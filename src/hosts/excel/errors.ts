import { WorkbookError } from '../../sheet';

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
export function asWorkbookError(error: unknown): unknown {
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
