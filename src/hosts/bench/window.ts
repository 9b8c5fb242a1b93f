import type { UniverWorkbook } from '../univer';

declare global {
  interface Window {
    /** For scripts and the browser's console: the open workbook, through the same port as the pane's. */
    readonly tarebook?: { readonly workbook: UniverWorkbook | undefined };
  }
}

/** Puts the open workbook where scripts find it. */
export function offerToScripts(workbook: () => UniverWorkbook | undefined): void {
  Object.defineProperty(window, 'tarebook', {
    value: {
      get workbook() {
        return workbook();
      },
    },
  });
}
