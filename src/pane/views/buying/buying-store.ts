/** The view's state and everything it asks of the workbook, one thing at a time. */
import {
  newBuyingSheet,
  newPurchasesSheet,
  newStockSheet,
  PURCHASES,
  readForm,
  readStockSheet,
  STOCK,
  type FormSheet,
  type ProjectSheets,
  type StockSheetKey,
} from '../../../project';
import { isFormula, type Cell, type Edit } from '../../../sheet';
import { mark, t } from '../../locale';
import { isToAdd } from '../../shared/edits';
import { TabStore, type TabState } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { buyingSheets, readBuyingSheets, type BuyingSheets } from './buying-sheets';
import type { CuttingGroup } from './cutting-needs';
import { shelfChange, type MadePlan, type ShelfChange } from './made-plans';

export interface BuyingState extends TabState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly sheets: BuyingSheets | undefined;
}

/** The sheet Stock or the sheet Buying. */
export type SheetToAdd = typeof STOCK.sheet;

export class BuyingStore extends TabStore<BuyingState> {
  protected readonly wanted = buyingSheets;

  constructor(pane: PaneContext) {
    super(pane, { status: 'reading', sheets: undefined });
  }

  protected show(sheets: ProjectSheets): void {
    this.set({ sheets: readBuyingSheets(sheets), status: 'ready', mend: undefined });
  }

  addSheet(name: SheetToAdd): Promise<unknown> {
    return this.make({
      label: t('Add the sheet {sheet}', { sheet: name }),
      anew: [name],
      edits: (now) => this.newSheet(name, now),
      said: t('Added the sheet {sheet}.', { sheet: name }),
    });
  }

  /** Puts the leftovers of a plan that was cut on the sheet Stock and takes off it what the plan has spent, as one step. `done` is told before the sheets are read again. */
  async shelve(made: MadePlan, group: CuttingGroup, done: () => void): Promise<void> {
    const date = this.pane.today();
    let change: ShelfChange | undefined;
    await this.make({
      label: t('Put the leftovers of {material} on the shelf', { material: group.name }),
      anew: [STOCK.sheet],
      edits: (now) => {
        const known = readStockSheet(now.values, now.units)?.form;
        const added = known ? [] : this.newSheet(STOCK.sheet, now);
        change = shelfChange(made, group, known ?? formOf(added), (stock) =>
          t('Cut on {date} from {stock}', { date, stock }),
        );
        return [...added, ...change.edits];
      },
      written: done,
      said: () =>
        t(
          'The sheet Stock: {put, plural, =0 {no leftover} one {# leftover} other {# leftovers}} put on the shelf, {taken, plural, =0 {nothing} one {# piece} other {# pieces}} taken off. Undo takes it back.',
          { put: change!.put, taken: change!.taken },
        ),
    });
  }

  private newSheet(name: SheetToAdd, now: ProjectSheets): Edit[] {
    const add = isToAdd(
      now,
      name,
      mark('The sheet {sheet} holds something else. Put the labels of its columns in one row, or rename the sheet.'),
    );
    const units = this.state.sheets?.units;
    if (name === STOCK.sheet) return newStockSheet(add, units);
    return name === PURCHASES.sheet
      ? newPurchasesSheet(add)
      : newBuyingSheet(this.state.sheets?.terms.currency ?? '', add, units);
  }
}

/** The form of a sheet that is about to be added. */
const formOf = (edits: readonly Edit[]): FormSheet<StockSheetKey> =>
  readForm(
    STOCK,
    edits
      .flatMap((edit) => (edit.kind === 'write' ? edit.cells : []))
      .map((row) => row.map((cell): Cell => (isFormula(cell) ? null : cell))),
  )!;
