/** What is done to lists and sheets of an open workbook as a whole: sorting, filtering, finding and replacing. */
import {
  ICommandService,
  sequenceExecute,
  type Injector,
  type IRange,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { RemoveRowByRangeCommand } from '@univerjs/sheets';
import { rangeName, WorkbookError, type FilterColumn, type RangeAddress } from '../../sheet';
import type { Obstacle } from '../../xlsx';
import type { EngineFilter } from './filter-store';
import { Filters, type ShownTexts, type Steps } from './filters';
import { Finder, type FindQuery, type FoundCell, type Replaced } from './find';
import type { UndoSteps } from './history';
import { listAt, type ListRange } from './list-range';
import { orderingRows } from './order-rows';
import { sheetNamed, toAddress, toRange } from './ranges';
import { planSort, type SortKey } from './sort';
import { protectedText } from './protection';

/** A list that a filter is over, with its headings. */
export interface FilteredList {
  readonly range: RangeAddress;
  /** The table that it is; left out for the sheet's own filter. */
  readonly table?: string;
}

export interface SheetFilter extends FilteredList {
  readonly columns: readonly FilterColumn[];
  /** How many rows it hides. */
  readonly hidden: number;
}

export type FilterChange =
  /** A filter that hides nothing yet. */
  | { readonly kind: 'add' }
  /** What is asked of a column, counted from the list's first; left out, all of it is shown. */
  | { readonly kind: 'choose'; readonly column: number; readonly asked?: Omit<FilterColumn, 'column'> }
  /** All rows are shown again. */
  | { readonly kind: 'clear' }
  | { readonly kind: 'remove' };

const sheetFilter = (sheet: string, { range, table, columns, hidden }: EngineFilter): SheetFilter => ({
  range: toAddress(sheet, range),
  ...(table === undefined ? {} : { table }),
  columns,
  hidden: hidden.length,
});

const sameRange = (a: RangeAddress, b: RangeAddress): boolean => rangeName(a) === rangeName(b);

/** What lists need of their workbook. */
interface OpenWorkbook {
  readonly injector: Injector;
  readonly book: EngineWorkbook;
  readonly history: UndoSteps;
  /** Runs edits one after the other. */
  readonly inTurn: <T>(work: () => Promise<T>) => Promise<T>;
  readonly settled: () => Promise<void>;
  /** What stands in one piece, in the file or on the sheet. */
  readonly obstacles: () => readonly Obstacle[];
}

export class Lists {
  readonly filtersOfBook: Filters;
  private readonly finder: Finder;

  constructor(private readonly open: OpenWorkbook) {
    this.finder = new Finder(open.injector, open.book);
    this.filtersOfBook = new Filters(open.injector, open.book, (sheet, runs) => void this.removeRows(sheet, runs));
  }

  dispose(): void {
    this.filtersOfBook.dispose();
  }

  /** The list that a selected range is about; undefined where nothing is around the cell. */
  listAt(selected: RangeAddress): ListRange | undefined {
    return listAt(this.open.injector, this.open.book, this.sheet(selected.sheet), toRange(selected));
  }

  /**
   * Sorts the rows of a range, which has no headings in it, as one step. Gives back why it was not done, in a sentence;
   * nothing was then changed. Blanks come last; rows that are not shown stay where they are.
   */
  sort(range: RangeAddress, keys: readonly SortKey[]): Promise<string | undefined> {
    return this.open.inTurn(async () => {
      await this.open.settled();
      const sheet = this.sheet(range.sheet);
      const obstacles = this.open.obstacles();
      const plan = planSort(this.open.injector, this.open.book, sheet, { range, keys, obstacles });
      if ('refused' in plan) return plan.refused;
      if ('order' in plan)
        await this.asStep('Sort', orderingRows(this.open.injector, this.open.book, sheet, plan.order));
      return undefined;
    });
  }

  /** Filters of a sheet: its own and those of its tables. */
  filters(sheet: string): readonly SheetFilter[] {
    return this.filtersOfBook.on(this.sheet(sheet)).map((filter) => sheetFilter(sheet, filter));
  }

  /** What a column of a list shows, as a filter takes it: each text once. `column` counts from the list's first. */
  async shownTexts(list: RangeAddress, column: number): Promise<ShownTexts> {
    await this.open.settled();
    return this.filtersOfBook.texts(this.sheet(list.sheet), { range: toRange(list) }, column);
  }

  /**
   * Changes the filter of a list as one step; rows that it hides are hidden, and no less there for all that calculates.
   * Gives back why it was not done, in a sentence.
   */
  filter(list: FilteredList, change: FilterChange): Promise<string | undefined> {
    return this.open.inTurn(async () => {
      await this.open.settled();
      const sheet = this.sheet(list.range.sheet);
      const filters = this.filtersOfBook;
      const locked = protectedText(this.open.injector, this.open.book, sheet);
      if (locked !== undefined) return locked;
      const own = filters.on(sheet).find(({ table }) => table === list.table);
      if (own && list.table === undefined && !sameRange(toAddress(list.range.sheet, own.range), list.range))
        return `This sheet has a filter on ${rangeName(toAddress(list.range.sheet, own.range))}, and a file has one for a sheet. Remove that one first.`;
      const filter: EngineFilter = own ?? { ...list, range: toRange(list.range), columns: [], hidden: [] };
      const steps = (): Steps | undefined => {
        switch (change.kind) {
          case 'add':
            return own ? undefined : filters.adding(sheet, list.range, list.table);
          case 'choose':
            return filters.choosing(sheet, filter, change.column, change.asked);
          case 'clear':
            return own && filters.clearing(sheet, own);
          case 'remove':
            return own && filters.removing(sheet, own);
        }
      };
      const made = steps();
      if (made) await this.asStep('Filter', made);
      return undefined;
    });
  }

  /** Cells that have a text, in the order of the sheets that are asked and row by row. */
  async find(query: FindQuery): Promise<readonly FoundCell[]> {
    await this.open.settled();
    return this.finder.find(query);
  }

  /** Replaces the text in the cells that have it, of those that are given, as one step. */
  replace(query: FindQuery, replacement: string, cells?: readonly FoundCell[]): Promise<Replaced> {
    return this.open.inTurn(async () => {
      await this.open.settled();
      let done: Replaced = { count: 0, left: [] };
      await this.open.history.asOneStep(this.open.book.getUnitId(), 'Replace', async () => {
        done = this.finder.replace(query, replacement, cells ?? this.finder.find(query));
      });
      return done;
    });
  }

  /** Runs of rows of a sheet are deleted, each by the engine's own command, as one step. */
  private removeRows(sheet: Worksheet, runs: readonly IRange[]): Promise<void> {
    return this.open.inTurn(() =>
      this.open.history
        .asOneStep(this.open.book.getUnitId(), 'Delete rows', async () => {
          for (const range of runs) {
            const params = { unitId: this.open.book.getUnitId(), subUnitId: sheet.getSheetId(), range };
            // Refused: the reason has been told.
            if (!(await this.open.injector.get(ICommandService).executeCommand(RemoveRowByRangeCommand.id, params)))
              throw new WorkbookError('host', 'The spreadsheet refused the edit');
          }
        })
        .catch((error: unknown) => {
          if (!(error instanceof WorkbookError)) throw error;
        }),
    );
  }

  /** Mutations of the engine as one step of undo; what a person does in the grid, and not the pane. */
  private async asStep(label: string, { redo, undo }: Steps): Promise<void> {
    const unitID = this.open.book.getUnitId();
    await this.open.history.asOneStep(unitID, label, async () => {
      const { result, error } = sequenceExecute([...redo], this.open.injector.get(ICommandService));
      if (!result) throw new WorkbookError('host', 'The spreadsheet refused the edit', { cause: error });
      this.open.history.pushUndoRedo({ unitID, redoMutations: [...redo], undoMutations: [...undo] });
    });
  }

  private sheet(name: string): Worksheet {
    const found = sheetNamed(this.open.book, name);
    if (!found) throw new WorkbookError('no-sheet', `There is no sheet "${name}"`);
    return found;
  }
}
