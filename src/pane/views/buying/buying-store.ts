/** The view's state and everything it asks of the workbook, one thing at a time. */
import { CellError, type Cell } from '../../../sheet';
import {
  newBuyingSheet,
  newPurchasesSheet,
  newStockSheet,
  PURCHASES,
  readForm,
  STOCK,
  type FormSheet,
  type StockSheetKey,
} from '../../../project';
import { type Edit } from '../../../sheet';
import { t } from '../../locale';
import { StepStore, type StepState } from '../../shared/step-store';
import type { PaneContext } from '../../shared/view';
import type { CuttingGroup } from './cutting-needs';
import type { MadePlan } from './made-plans';
import { shelfChange } from './shelf';
import { readBuyingSheets, type BuyingSheets } from './sheets';

export interface BuyingState extends StepState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly sheets: BuyingSheets | undefined;
}

/** The sheet Stock or the sheet Buying. */
export type SheetToAdd = typeof STOCK.sheet;

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
      await this.workbook.apply(t('Add the sheet {sheet}', { sheet: name }), await this.newSheet(name));
      return t('Added the sheet {sheet}.', { sheet: name });
    });
  }

  /** Puts the leftovers of a plan that was cut on the sheet Stock and takes off it what the plan has spent, as one step. `done` is told before the sheets are read again. */
  shelve(made: MadePlan, group: CuttingGroup, done: () => void): Promise<void> {
    return this.step(async () => {
      const known = this.state.sheets?.stock?.form;
      const added = known ? [] : await this.newSheet(STOCK.sheet);
      const date = this.pane.today();
      const { edits, put, taken } = shelfChange(made, group, known ?? formOf(added), (stock) =>
        t('Cut on {date} from {stock}', { date, stock }),
      );
      await this.workbook.apply(t('Put the leftovers of {material} on the shelf', { material: group.name }), [
        ...added,
        ...edits,
      ]);
      done();
      return t(
        'The sheet Stock: {put, plural, =0 {no leftover} one {# leftover} other {# leftovers}} put on the shelf, {taken, plural, =0 {nothing} one {# piece} other {# pieces}} taken off. Undo takes it back.',
        { put, taken },
      );
    });
  }

  private async newSheet(name: SheetToAdd): Promise<Edit[]> {
    const known = (await this.workbook.sheets()).find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    if (known && (await this.workbook.usedRange(known.name)))
      throw new Error(
        t('The sheet {sheet} holds something else. Put the labels of its columns in one row, or rename the sheet.', {
          sheet: known.name,
        }),
      );
    const add = known === undefined;
    const units = this.state.sheets?.units;
    if (name === STOCK.sheet) return newStockSheet(add, units);
    return name === PURCHASES.sheet
      ? newPurchasesSheet(add)
      : newBuyingSheet(this.state.sheets?.terms.currency ?? '', add, units);
  }
}

/** The form of a sheet that is about to be added. */
function formOf(edits: readonly Edit[]): FormSheet<StockSheetKey> {
  const cells = edits
    .flatMap((edit) => (edit.kind === 'write' ? edit.cells : []))
    .map((row) =>
      row.map((cell): Cell =>
        cell !== null && typeof cell === 'object' && !(cell instanceof CellError) ? null : cell,
      ),
    );
  return readForm(STOCK, cells)!;
}
