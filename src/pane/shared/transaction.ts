/** One change of the workbook that a tab makes, and what a person is told of it. */
import { sheetOfEdit, type Edit } from '../../sheet';
import type { ProjectSheets } from '../../project';

/** What the last step did, or why it was refused. */
export interface Message {
  readonly tone: 'done' | 'failed';
  readonly text: string;
  /** True where one undo takes the step back. */
  readonly undoable?: boolean | undefined;
}

/** A step of undo. */
export interface Transaction {
  /** What it is called among the workbook's steps. */
  readonly label: string;
  /** What it writes; a function makes it when its turn has come, of the sheets as they then are. */
  readonly edits: readonly Edit[] | ((now: ProjectSheets) => readonly Edit[] | Promise<readonly Edit[]>);
  /** Sheets by whose places such a function goes: they are read anew before it. */
  readonly anew?: readonly string[];
  /** What is shown at once, as if it were written already. Without it the change is shown when the workbook has made it. */
  readonly shown?: ProjectSheets;
  /** Called when it is in the workbook, before the sheets are read again. */
  readonly written?: () => void;
  /** What is said when it is done. */
  readonly said?: string | (() => string | undefined) | undefined;
}

/** The sheets that edits change; undefined where that cannot be told by the edits alone. */
export function sheetsChangedBy(edits: readonly Edit[], tables: ProjectSheets['tables']): string[] | undefined {
  const ofTable = (table: string): string | undefined => tables.find(({ name }) => name === table)?.range.sheet;
  const sheets = edits.map((edit) => sheetOfEdit(edit, ofTable));
  return sheets.every((sheet) => sheet !== undefined) ? [...new Set(sheets)] : undefined;
}
