/**
 * What is done to lists and sheets of an open workbook as a whole: sorting, filtering, finding and replacing; and which
 * list a selection is about: the selected rows, the table under the cursor, or the filled cells around it.
 */
import {
  ICommandService,
  type Injector,
  type IRange,
  type IUndoRedoCommandInfos,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { RemoveRowByRangeCommand } from '@univerjs/sheets';
import {
  isBlank,
  isInRange,
  rangeName,
  WorkbookError,
  type CellPlace,
  type FilterColumn,
  type RangeAddress,
} from '../../sheet';
import type { Obstacle } from '../../xlsx';
import { linesOf, protectedText, runsOf, sheetNamed, targetOf, toAddress, toRange } from './places';
import { cellReader } from './cells';
import { Filters, type FilterChange, type FilteredList, type ShownTexts } from './filters';
import { Finder, type FindQuery, type Replaced } from './find';
import type { UndoSteps } from './history';
import { sorting, type SortKey } from './sort';
import { tablesOf } from './tables';

export interface SheetFilter extends FilteredList {
  readonly columns: readonly FilterColumn[];
  /** How many rows it hides. */
  readonly hidden: number;
}

export interface ListRange {
  /** With its row of headings. */
  readonly range: RangeAddress;
  readonly hasHeadings: boolean;
  /** Of a table its name: that its first row has headings is then settled. */
  readonly table?: string;
  /** The selected columns, where the selected rows have others beside them: sorted alone, they would be torn from those. */
  readonly part?: RangeAddress;
}

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

  /** The list that a selected range is about; undefined where there is none: a single cell with nothing around it. */
  listAt(selected: RangeAddress): ListRange | undefined {
    const { injector, book } = this.open;
    const sheet = this.sheet(selected.sheet);
    const own = toRange(selected);
    const name = sheet.getName();
    const read = cellReader(injector, sheet);
    if (own.endRow > own.startRow && !isWholeColumns(own, sheet)) return selectedRows(name, own, read);
    const tables = tablesOf(injector, book).filter(({ range }) => range.sheet === name);
    for (const at of placesIn(own, sheet, read)) {
      const table = tables.find(({ range }) => isInRange(range, at.row, at.column));
      if (table) return { range: table.range, hasHeadings: true, table: table.name };
      const range = filledAround(name, at, read);
      if (range && range.rows > 1) return { range, hasHeadings: looksLikeHeadings(range, read) };
    }
    return undefined;
  }

  /**
   * Sorts the rows of a range, which has no headings in it, as one step. Gives back why it was not done, in a sentence;
   * nothing was then changed. Blanks come last; rows that are not shown stay where they are.
   */
  sort(range: RangeAddress, keys: readonly SortKey[]): Promise<string | undefined> {
    return this.change('Sort', () =>
      sorting(this.open.injector, this.sheet(range.sheet), range, keys, this.open.obstacles()),
    );
  }

  /** Filters of a sheet: its own and those of its tables. */
  filters(sheet: string): readonly SheetFilter[] {
    return this.filtersOfBook.on(this.sheet(sheet)).map(({ range, table, columns, hidden }) => ({
      range: toAddress(sheet, range),
      ...(table === undefined ? {} : { table }),
      columns,
      hidden: hidden.length,
    }));
  }

  /** What a column of a list shows, as a filter takes it: each text once. `column` counts from the list's first. */
  async shownTexts(list: RangeAddress, column: number): Promise<ShownTexts> {
    await this.open.settled();
    return this.filtersOfBook.texts(this.sheet(list.sheet), toRange(list), column);
  }

  /**
   * Changes the filter of a list as one step; rows that it hides are hidden, and no less there for all that calculates.
   * Gives back why it was not done, in a sentence.
   */
  filter(list: FilteredList, change: FilterChange): Promise<string | undefined> {
    return this.change('Filter', () => {
      const sheet = this.sheet(list.range.sheet);
      const locked = protectedText(this.open.injector, sheet);
      if (locked !== undefined) return locked;
      const own = this.filtersOfBook.on(sheet).find(({ table }) => table === list.table);
      const name = own && rangeName(toAddress(list.range.sheet, own.range));
      if (list.table === undefined && name !== undefined && name !== rangeName(list.range))
        return `This sheet has a filter on ${name}, and a file has one for a sheet. Remove that one first.`;
      return this.filtersOfBook.changing(sheet, list, own, change);
    });
  }

  /** Cells that have a text, in the order of the sheets that are asked and row by row. */
  async find(query: FindQuery): Promise<readonly CellPlace[]> {
    await this.open.settled();
    return this.finder.find(query);
  }

  /** Replaces the text in the cells that have it, of those that are given, as one step. */
  replace(query: FindQuery, replacement: string, cells?: readonly CellPlace[]): Promise<Replaced> {
    return this.open.inTurn(async () => {
      await this.open.settled();
      let done: Replaced = { count: 0, left: [] };
      await this.asOneStep('Replace', async () => {
        done = this.finder.replace(query, replacement, cells ?? this.finder.find(query));
      });
      return done;
    });
  }

  /** Runs of rows of a sheet are deleted, each by the engine's own command, as one step. */
  private removeRows(sheet: Worksheet, runs: readonly IRange[]): Promise<void> {
    const commands = this.open.injector.get(ICommandService);
    return this.open.inTurn(() =>
      this.asOneStep('Delete rows', async () => {
        for (const range of runs)
          // Refused: the reason has been told.
          if (!(await commands.executeCommand(RemoveRowByRangeCommand.id, { ...targetOf(sheet), range })))
            throw new WorkbookError('host', 'The spreadsheet refused the edit');
      }).catch((error: unknown) => {
        if (!(error instanceof WorkbookError)) throw error;
      }),
    );
  }

  /**
   * Makes mutations of the engine as one step of undo; what a person does in the grid, and not the pane. Where there is
   * a sentence in their place it is given back.
   */
  private change(
    label: string,
    mutations: () => IUndoRedoCommandInfos | string | undefined,
  ): Promise<string | undefined> {
    return this.open.inTurn(async () => {
      await this.open.settled();
      const made = mutations();
      if (made === undefined || typeof made === 'string') return made;
      await this.asOneStep(label, async () => this.open.history.run(this.open.book.getUnitId(), made));
      return undefined;
    });
  }

  private asOneStep(label: string, work: () => Promise<void>): Promise<void> {
    return this.open.history.asOneStep(this.open.book.getUnitId(), label, work);
  }

  private sheet(name: string): Worksheet {
    return sheetNamed(this.open.book, name);
  }
}

type Reader = ReturnType<typeof cellReader>;
type Place = Omit<CellPlace, 'sheet'>;

const isWholeColumns = ({ startRow, endRow }: IRange, sheet: Worksheet): boolean =>
  Number.isNaN(startRow) || endRow - startRow + 1 >= sheet.getRowCount();

/** Where to look for a list: at the cell, or in whole columns at the filled cells that have most below them. */
function placesIn(selected: IRange, sheet: Worksheet, read: Reader): Place[] {
  const column = Number.isNaN(selected.startColumn) ? 0 : selected.startColumn;
  if (!isWholeColumns(selected, sheet)) return [{ row: selected.startRow, column }];
  const filled = linesOf(0, sheet.getRowCount() - 1).filter((row) => !isBlank(read(row, column)));
  return runsOf(filled)
    .sort(([a, aLast], [b, bLast]) => bLast - b - (aLast - a))
    .map(([row]) => ({ row, column }));
}

/** True where one of the cells is filled; there are none before the first row and column. */
function isFilled({ startRow, endRow, startColumn, endColumn }: IRange, read: Reader): boolean {
  for (let row = Math.max(0, startRow); row <= endRow; row++)
    for (let column = Math.max(0, startColumn); column <= endColumn; column++)
      if (!isBlank(read(row, column))) return true;
  return false;
}

/** Rows that are selected, with all their columns that hang together. */
function selectedRows(sheet: string, selected: IRange, read: Reader): ListRange {
  const own = toAddress(sheet, selected);
  let [left, right] = [selected.startColumn, selected.endColumn];
  const has = (column: number): boolean => isFilled({ ...selected, startColumn: column, endColumn: column }, read);
  while (has(left - 1)) left -= 1;
  while (has(right + 1)) right += 1;
  const range = { ...own, column: left, columns: right - left + 1 };
  return {
    range,
    hasHeadings: looksLikeHeadings(range, read),
    ...(range.columns === own.columns ? {} : { part: own }),
  };
}

/** The edges of a range, each with the one across and the way that it grows. */
const EDGES = [
  ['startRow', 'endRow', -1],
  ['endRow', 'startRow', 1],
  ['startColumn', 'endColumn', -1],
  ['endColumn', 'startColumn', 1],
] as const;

/** The filled cells that hang together around one: a blank row and a blank column end them. */
function filledAround(sheet: string, at: Place, read: Reader): RangeAddress | undefined {
  const own = { startRow: at.row, endRow: at.row, startColumn: at.column, endColumn: at.column };
  for (let grown = true; grown;) {
    grown = false;
    for (const [edge, across, step] of EDGES) {
      const next = own[edge] + step;
      const around = {
        startRow: own.startRow - 1,
        endRow: own.endRow + 1,
        startColumn: own.startColumn - 1,
        endColumn: own.endColumn + 1,
      };
      if (!isFilled({ ...around, [edge]: next, [across]: next }, read)) continue;
      own[edge] = next;
      grown = true;
    }
  }
  const range = toAddress(sheet, own);
  return range.rows * range.columns === 1 ? undefined : range;
}

/** Headings are texts, each of them. */
function looksLikeHeadings({ row, column, rows, columns }: RangeAddress, read: Reader): boolean {
  const first = linesOf(column, column + columns - 1)
    .map((place) => read(row, place))
    .filter((cell) => !isBlank(cell));
  return first.length > 0 && first.every((cell) => typeof cell === 'string') && rows > 1;
}
