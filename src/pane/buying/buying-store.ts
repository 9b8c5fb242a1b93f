/** The view's state and everything it asks of the workbook, one thing at a time. */
import { BUYING_SHEET, newBuyingSheet, newPurchasesSheet, newStockSheet, PURCHASES, STOCK, type Edit, type RangeAddress, type Workbook } from '../../workbook';
import { refusal } from '../refusal';
import { Store } from '../store';
import type { PaneContext } from '../view';
import { readBuyingSheets, type BuyingSheets } from './sheets';

export interface BuyingState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly mend?: string | undefined;
  readonly sheets: BuyingSheets | undefined;
  readonly message?: { readonly tone: 'done' | 'failed'; readonly text: string } | undefined;
}

export type SheetToAdd = typeof STOCK.sheet | typeof PURCHASES.sheet | typeof BUYING_SHEET;

export class BuyingStore extends Store<BuyingState> {
  private readonly workbook: Workbook;
  private turn: Promise<unknown> = Promise.resolve();
  private reading: Promise<void> | undefined;
  private readAgain = false;
  private unsubscribe: (() => void) | undefined;

  constructor(pane: PaneContext) {
    super({ status: 'reading', sheets: undefined });
    this.workbook = pane.workbook;
  }

  start(): void {
    this.unsubscribe = this.workbook.onChange(({ sheets }) => {
      const names = this.state.sheets?.names;
      if (!names || sheets.some((name) => names.has(name.toLowerCase()))) void this.refresh();
    });
    void this.refresh();
  }

  stop(): void {
    this.unsubscribe?.();
  }

  /** Reads the sheets; calls that come meanwhile are met by one more reading. */
  refresh(): Promise<void> {
    if (this.reading) this.readAgain = true;
    else this.reading = this.readSheets();
    return this.reading;
  }

  private async readSheets(): Promise<void> {
    try {
      do {
        this.readAgain = false;
        this.set({ sheets: await readBuyingSheets(this.workbook), status: 'ready', mend: undefined });
      } while (this.readAgain);
    } catch (error) {
      this.set({ status: 'failed', mend: `The sheets could not be read. ${refusal(error)}` });
    } finally {
      this.reading = undefined;
    }
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

  /** Shows a place of the workbook. */
  select(range: RangeAddress): Promise<void> {
    return this.step(async () => {
      await this.workbook.select(range);
      return undefined;
    });
  }

  undo(): Promise<void> {
    return this.step(async () => ((await this.workbook.undo()) ? 'Undone.' : 'There is nothing to undo.'));
  }

  redo(): Promise<void> {
    return this.step(async () => ((await this.workbook.redo()) ? 'Done again.' : 'There is nothing to do again.'));
  }

  private step(work: () => Promise<string | undefined>): Promise<void> {
    const run = async (): Promise<void> => {
      this.set({ message: undefined });
      try {
        const done = await work();
        await this.refresh();
        if (done !== undefined) this.set({ message: { tone: 'done', text: done } });
      } catch (error) {
        this.set({ message: { tone: 'failed', text: refusal(error) } });
      }
    };
    const next = this.turn.then(run, run);
    this.turn = next;
    return next;
  }
}
