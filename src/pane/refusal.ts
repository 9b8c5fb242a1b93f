import { WorkbookError } from '../workbook';

/** What to do about a refusal, where its kind tells. */
const MEND: Readonly<Record<WorkbookError['code'], string>> = {
  protected: 'Unprotect the sheet, then try again.',
  'no-sheet': 'Was the sheet removed or renamed?',
  'no-table': 'Was the table removed or renamed?',
  'off-sheet': 'Make room on the sheet, then try again.',
  shape: '',
  'name-taken': 'Rename what has that name, then try again.',
  host: 'Finish what is being typed in the sheet, then try again.',
};

/** A failed host call as one or two plain sentences: what happened, and what mends it. */
export function refusal(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  const sentence = /[.!?]$/.test(text) ? text : `${text}.`;
  return error instanceof WorkbookError && MEND[error.code] ? `${sentence} ${MEND[error.code]}` : sentence;
}
