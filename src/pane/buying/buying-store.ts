/** The view's state and everything it asks of the workbook, one thing at a time. */
import { BUYING_SHEET, newBuyingSheet, newPurchasesSheet, newStockSheet, PURCHASES, STOCK, type Edit } from '../../workbook';
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
      if (known && (await this.workbook.usedRange(known.name))) throw new Error(`The sheet ${known.name} holds something else. Put the labels of its columns in one row, or rename the sheet.`);
      await this.workbook.apply(`Add the sheet ${name}`, this.newSheet(name, known === undefined));
      return `Added the sheet ${name}.`;
    });
  }

  private newSheet(name: SheetToAdd, add: boolean): Edit[] {
    if (name === STOCK.sheet) return newStockSheet(add);
    return name === PURCHASES.sheet ? newPurchasesSheet(add) : newBuyingSheet(this.state.sheets?.terms.currency ?? '', add);
  }
}
