import type { ComponentType } from 'react';
import type { Workbook, WorkbookModel } from '../../sheet';
import type { HandOverStore } from '../handover/hand-over-store';
import type { Marked } from '../locale';
import type { Settings } from './settings';

/** A copy of a workbook recalculated, and the formulas in it that kept their values because they are not known. */
export type Recalculate = (copy: WorkbookModel) => {
  readonly model: WorkbookModel;
  readonly kept: readonly {
    readonly sheet: string;
    readonly row: number;
    readonly column: number;
    readonly functionName: string | undefined;
  }[];
};

/** What the shell gives to every view. */
export interface PaneContext {
  readonly workbook: Workbook;
  readonly settings: Settings;
  /** Today as "year-month-day", in the user's own time zone. */
  today(): string;
  /** Hands a text file to the user; gives false where the pane itself says what became of it instead. */
  saveFile(name: string, text: string): unknown;
  /** What takes files where a pane can neither save one nor print; without it the pane can. */
  readonly handOver?: HandOverStore;
  /** Fetches what a formula that is not in the workbook yet is computed with; without it there is none. */
  readonly loadRecalculate?: () => Promise<Recalculate>;
  /** Address of a worksheet function's help page, where there is one. */
  readonly helpUrl?: (functionName: string) => string;
}

/** One tab of the pane. A view is one folder and one line in views.tsx. */
export interface View {
  readonly id: string;
  readonly label: Marked;
  readonly Body: ComponentType<{ readonly pane: PaneContext }>;
}
