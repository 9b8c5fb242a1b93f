/** The view's state and everything it asks of the workbook, one thing at a time. */
import { BUYING_SHEET, newBuyingSheet, newPurchasesSheet, newStockSheet, PURCHASES, STOCK, type Edit } from '../../workbook';
import { t } from '../locale';
import { StepStore, type StepState } from '../step-store';
import type { PaneContext } from '../view';
import { readBuyingSheets, type BuyingSheets } from './sheets';

export interface BuyingState extends StepState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly sheets: BuyingSheets | undefined;
}

export type SheetToAdd = typeof STOCK.sheet | typeof PURCHASES.sheet | typeof BUYING_SHEET;

export class BuyingStore extends StepStore<BuyingState> {
  constructor(pane: PaneContext) {
    super(pane, { status: 'reading', sheets: undefined });
  }

  protected concerns(sheets: readonly string[]): boolean {
    const names = this.state.sheets?.names;
    return !names || sheets.some((name) => names.has(name.toLowerCase()));
  }

  protected async readOnce(): Promise<void> {
    this.set({ sheets: await readBuyingSheets(this.workbook), status: 'ready', mend: undefined });
  }

  addSheet(name: SheetToAdd): Promise<void> {
    return this.step(async () => {
      const known = (await this.workbook.sheets()).find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
      if (known && (await this.workbook.usedRange(known.name))) throw new Error(t('The sheet {sheet} holds something else. Put the labels of its columns in one row, or rename the sheet.', { sheet: known.name }));
      await this.workbook.apply(t('Add the sheet {sheet}', { sheet: name }), this.newSheet(name, known === undefined));
      return t('Added the sheet {sheet}.', { sheet: name });
    });
  }

  private newSheet(name: SheetToAdd, add: boolean): Edit[] {
    const units = this.state.sheets?.units;
    if (name === STOCK.sheet) return newStockSheet(add, units);
    return name === PURCHASES.sheet ? newPurchasesSheet(add) : newBuyingSheet(this.state.sheets?.terms.currency ?? '', add, units);
  }
}
