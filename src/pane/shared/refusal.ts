import { useState } from 'react';
import { WorkbookError } from '../../sheet';
import { mark, t, type Marked } from '../locale';

/** What to do about a refusal, where its kind tells. */
const MEND: Readonly<Record<WorkbookError['code'], Marked | ''>> = {
  protected: mark('Unprotect the sheet, then try again.'),
  'no-sheet': mark('Was the sheet removed or renamed?'),
  'no-table': mark('Was the table removed or renamed?'),
  'off-sheet': mark('Make room on the sheet, then try again.'),
  shape: '',
  'name-taken': mark('Rename the sheet or table that has this name, then try again.'),
  'typed-since': mark('Undo in the sheet with Ctrl+Z, or change the cells there.'),
  host: mark('Finish what is being typed in the sheet, then try again.'),
};

/** A failed host call as one or two plain sentences: what happened, and what to do. */
export function refusal(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  const sentence = /[.!?]$/.test(text) ? text : `${text}.`;
  const mend = error instanceof WorkbookError ? MEND[error.code] : '';
  return mend ? `${sentence} ${t(mend)}` : sentence;
}

/** Does what may be refused, and says in place why the last that was tried was. */
export function useTried(): readonly [
  wrong: string | undefined,
  tried: (work: () => Promise<unknown>) => Promise<void>,
] {
  const [wrong, setWrong] = useState<string>();
  const tried = async (work: () => Promise<unknown>): Promise<void> => {
    setWrong(undefined);
    await work().catch((error: unknown) => setWrong(refusal(error)));
  };
  return [wrong, tried];
}
