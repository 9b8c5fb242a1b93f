/** What the shell gives to every view. */
import type { CellPlace, Workbook, WorkbookModel } from '../../sheet';
import { t } from '../locale';
import type { HandOverStore } from '../handover';

/** A copy of a workbook recalculated, and the formulas in it that kept their values because they are not known. */
export type Recalculate = (copy: WorkbookModel) => {
  readonly model: WorkbookModel;
  readonly kept: readonly (CellPlace & { readonly functionName: string | undefined })[];
};

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

/**
 * What a person prefers in the pane, kept by the browser on this computer. It is no part of the
 * workbook: nothing that a number depends on belongs here.
 */
export interface Settings {
  get(key: string): string | undefined;
  set(key: string, value: string): void;
}

const PREFIX = 'tarebook.pane.';

/** Settings in the browser's local storage; where that is refused they last as long as the pane. */
export function browserSettings(): Settings {
  const kept = new Map<string, string>();
  return {
    get(key) {
      try {
        return kept.get(key) ?? localStorage.getItem(PREFIX + key) ?? undefined;
      } catch {
        return kept.get(key);
      }
    },
    set(key, value) {
      kept.set(key, value);
      try {
        localStorage.setItem(PREFIX + key, value);
      } catch {
        // A host may forbid storage to guests: the setting then lasts as long as the pane.
      }
    },
  };
}

/** What is said where the calculator cannot be had; it is asked for again the next time. */
export const noCalculator = (cause: unknown): Error =>
  new Error(t('The calculator could not be loaded. Check the connection, then try again.'), { cause });

/** Says what to do where the calculator cannot be fetched. */
export const saying = (load: () => Promise<Recalculate>) => (): Promise<Recalculate> =>
  load().catch((error: unknown) => {
    throw noCalculator(error);
  });
