/**
 * Filters of open workbooks. The engine's own filter plug-in knows one filter of a sheet, none of tables, and forgets
 * what it does not know of a filter: so they are kept here, and the engine is told which rows they hide. It then leaves
 * those out of what is done to a range.
 */
import {
  CommandType,
  CustomCommandExecutionError,
  ICommandService,
  type IAccessor,
  type ICommandInfo,
  type IDisposable,
  type IMutation,
  type IMutationInfo,
  type Injector,
  type IRange,
  type IUndoRedoCommandInfos,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { RemoveSuperTableMutation, SetSuperTableMutation } from '@univerjs/engine-formula';
import {
  handleDefaultRangeChangeWithEffectRefCommands,
  INTERCEPTOR_POINT,
  RefRangeService,
  RemoveRowByRangeCommand,
  SetRowVisibleMutation,
  SheetInterceptorService,
} from '@univerjs/sheets';
import type { RowsLeftOut } from '../../calculation/service';
import type { FilterColumn, FilterModel, RangeAddress, SheetModel } from '../../sheet';
import { shownReader } from './cells';
import { linesOf, rowsHiddenByHand, runsOf, targetOf, toAddress, toRange } from './places';
import { tablesOf } from './tables';

export interface EngineFilter {
  /** With the row of headings; of a table's filter it is the table's. */
  readonly range: IRange;
  readonly table?: string;
  readonly columns: readonly FilterColumn[];
  /** Rows that it hides. */
  readonly hidden: readonly number[];
}

interface SheetFilters {
  readonly filters: readonly EngineFilter[];
  /** Rows that they hide. */
  readonly hidden: ReadonlySet<number>;
}

export class FilterStore {
  private readonly units = new Map<string, Map<string, SheetFilters>>();

  /** Makes a workbook's filters known, by its sheets. */
  begin(unit: string, sheets: Iterable<readonly [sheet: string, filters: readonly EngineFilter[]]>): void {
    this.units.set(unit, new Map());
    for (const [sheet, filters] of sheets) this.put(unit, sheet, filters);
  }

  of(unit: string, sheet: string): readonly EngineFilter[] {
    return this.units.get(unit)?.get(sheet)?.filters ?? [];
  }

  /** Undefined where nothing is known of a workbook's filters: those of its file then stay. */
  all(unit: string): (readonly [sheet: string, filters: readonly EngineFilter[]])[] | undefined {
    const sheets = this.units.get(unit);
    return sheets && Array.from(sheets, ([sheet, { filters }]) => [sheet, filters] as const);
  }

  put(unit: string, sheet: string, filters: readonly EngineFilter[]): void {
    const sheets = this.units.get(unit) ?? new Map<string, SheetFilters>();
    this.units.set(unit, sheets.set(sheet, { filters, hidden: new Set(filters.flatMap(({ hidden }) => hidden)) }));
  }

  hides(unit: string, sheet: string, row: number): boolean {
    return this.units.get(unit)?.get(sheet)?.hidden.has(row) ?? false;
  }

  /** Rows that filters of a sheet hide, in order. */
  hiddenRows(unit: string, sheet: string): number[] {
    return [...(this.units.get(unit)?.get(sheet)?.hidden ?? [])].sort((a, b) => a - b);
  }

  forget(unit: string): void {
    this.units.delete(unit);
  }
}

/** Rows of a sheet that subtotals leave out. */
export function rowsLeftOut(injector: Injector, sheet: Worksheet): RowsLeftOut {
  const filtered = injector.get(FilterStore).hiddenRows(sheet.getUnitId(), sheet.getSheetId());
  return { hiddenRows: [...rowsHiddenByHand(sheet), ...filtered], filtered: filtered.length > 0 };
}

interface SetFiltersParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly filters: readonly EngineFilter[];
}

/** Gives a sheet its filters. */
export const SetFiltersMutation: IMutation<SetFiltersParams> = {
  id: 'tarebook.mutation.set-filters',
  type: CommandType.MUTATION,
  handler(accessor: IAccessor, { unitId, subUnitId, filters }: SetFiltersParams): boolean {
    accessor.get(FilterStore).put(unitId, subUnitId, filters);
    return true;
  },
};

/** Has the engine leave out the rows that filters hide; its services of sheets are there with their first workbook. */
export function hideFilteredRows(injector: Injector): void {
  const store = injector.get(FilterStore);
  injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.ROW_FILTERED, {
    handler: (isFiltered, { unitId, subUnitId, row }, next) =>
      next(isFiltered === true || store.hides(unitId, subUnitId, row)),
  });
}

/** A list that a filter is over, with its headings. */
export interface FilteredList {
  readonly range: RangeAddress;
  /** The table that it is; left out for the sheet's own filter. */
  readonly table?: string;
}

export type FilterChange =
  /** A filter that hides nothing yet. */
  | { readonly kind: 'add' }
  /** What is asked of a column, counted from the list's first; left out, all of it is shown. */
  | { readonly kind: 'choose'; readonly column: number; readonly asked?: Omit<FilterColumn, 'column'> }
  /** All rows are shown again. */
  | { readonly kind: 'clear' }
  | { readonly kind: 'remove' };

/** What a column shows: each text once, in the order of the rows. */
export interface ShownTexts {
  readonly texts: readonly string[];
  readonly blanks: boolean;
}

export class Filters {
  private readonly store: FilterStore;
  private readonly listening: IDisposable[];
  private readonly watched: IDisposable[] = [];

  /** @param removeRows deletes rows of a sheet, run by run from the last, as one step */
  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
    removeRows: (sheet: Worksheet, runs: readonly IRange[]) => void,
  ) {
    this.store = injector.get(FilterStore);
    const commands = injector.get(ICommandService);
    this.listening = [
      commands.onCommandExecuted(({ id, params }) => {
        const { unitId } = (params ?? {}) as { readonly unitId?: string };
        if (unitId === this.unit && WATCHED.has(id)) this.watch();
      }),
      commands.beforeCommandExecuted((command) => this.partRemoval(command, removeRows)),
    ];
    this.watch();
  }

  dispose(): void {
    for (const one of [...this.listening, ...this.watched]) one.dispose();
  }

  /** Filters of a sheet; that of a table goes where the table is. */
  on(sheet: Worksheet): readonly EngineFilter[] {
    const tables = tablesOf(this.injector, this.book);
    return this.store.of(this.unit, sheet.getSheetId()).flatMap((filter): EngineFilter[] => {
      if (filter.table === undefined) return [filter];
      const table = tables.find(({ name }) => name.toLowerCase() === filter.table!.toLowerCase());
      return table && table.range.sheet === sheet.getName() ? [{ ...filter, range: toRange(table.range) }] : [];
    });
  }

  /** The filters as a file has them; undefined where they are not known. Those of tables where they hide rows. */
  models(sheet: Worksheet): FilterModel[] | undefined {
    if (!this.store.all(this.unit)) return undefined;
    return this.on(sheet)
      .filter(({ table, columns }) => table === undefined || columns.length > 0)
      .map(({ range, table, columns }) => ({
        range: toAddress(sheet.getName(), range),
        ...(table === undefined ? {} : { table }),
        columns,
      }));
  }

  /** What the data of a column shows. */
  texts(sheet: Worksheet, { startRow, endRow, startColumn }: IRange, column: number): ShownTexts {
    const found = new Map<string, string>();
    const textAt = this.textReader(sheet);
    for (let row = startRow + 1; row <= endRow; row++) {
      const text = textAt(row, startColumn + column);
      if (!found.has(text.toLowerCase())) found.set(text.toLowerCase(), text);
    }
    const blanks = found.delete('');
    return { texts: [...found.values()], blanks };
  }

  /** The mutations that change the filter of a list, where there is one that is `own`; undefined where that changes nothing. */
  changing(
    sheet: Worksheet,
    list: FilteredList,
    own: EngineFilter | undefined,
    change: FilterChange,
  ): IUndoRedoCommandInfos | undefined {
    // None is added to one that is there, and none cleared or removed that is not.
    if (change.kind !== 'choose' && (change.kind === 'add') === (own !== undefined)) return undefined;
    const plain: EngineFilter = { ...(own ?? { ...list, range: toRange(list.range) }), columns: [], hidden: [] };
    const after = change.kind === 'choose' ? this.chosen(sheet, own ?? plain, change) : plain;
    const all = this.on(sheet);
    const others = all.filter(({ table }) => table !== list.table);
    if (change.kind === 'remove') return this.setting(sheet, others);
    return this.setting(sheet, own ? all.map((one) => (one.table === list.table ? after : one)) : [...others, after]);
  }

  private chosen(
    sheet: Worksheet,
    filter: EngineFilter,
    { column, asked }: Extract<FilterChange, { kind: 'choose' }>,
  ): EngineFilter {
    const others = filter.columns.filter((one) => one.column !== column);
    const columns = [...others, ...(asked ? [{ column, ...asked }] : [])].sort((a, b) => a.column - b.column);
    return { ...filter, columns, hidden: this.hiddenRows(sheet, filter, columns) };
  }

  private get unit(): string {
    return this.book.getUnitId();
  }

  private setting(sheet: Worksheet, filters: readonly EngineFilter[]): IUndoRedoCommandInfos {
    const where = targetOf(sheet);
    const put = (list: readonly EngineFilter[]): IMutationInfo[] => [
      { id: SetFiltersMutation.id, params: { ...where, filters: list } satisfies SetFiltersParams },
      // Has the grid lay out its rows anew.
      { id: SetRowVisibleMutation.id, params: { ...where, ranges: [] } },
    ];
    return { redos: put(filters), undos: put(this.store.of(this.unit, sheet.getSheetId())) };
  }

  private textReader(sheet: Worksheet): (row: number, column: number) => string {
    const textAt = shownReader(this.injector, this.book, sheet);
    return (row, column) => textAt(row, column).trim();
  }

  /** What is asked that is not known here goes on hiding the rows that it hides. */
  private hiddenRows(sheet: Worksheet, before: EngineFilter, columns: readonly FilterColumn[]): number[] {
    const textAt = this.textReader(sheet);
    const { startRow, endRow, startColumn } = before.range;
    const isKnown = ({ values }: FilterColumn): boolean => values !== undefined;
    const passing = (asked: readonly FilterColumn[]): ((row: number) => boolean) => {
      const tests = asked.filter(isKnown).map((one) => ({ column: startColumn + one.column, takes: taking(one) }));
      return (row) => tests.every(({ column, takes }) => takes(textAt(row, column)));
    };
    const kept = columns.every(isKnown) ? [] : before.hidden.filter(passing(before.columns));
    const passes = passing(columns);
    const hidden = new Set([...kept, ...linesOf(startRow + 1, endRow).filter((row) => !passes(row))]);
    return [...hidden].sort((a, b) => a - b);
  }

  private watch(): void {
    for (const one of this.watched.splice(0)) one.dispose();
    const ranges = this.injector.get(RefRangeService);
    for (const sheet of this.book.getSheets())
      for (const { range } of this.on(sheet))
        this.watched.push(
          ranges.registerRefRange(range, (command) => this.following(sheet, command), this.unit, sheet.getSheetId()),
        );
  }

  /** Asked once for each filter of a sheet: each time the answer is the same, for all of them. */
  private following(sheet: Worksheet, command: ICommandInfo): IUndoRedoCommandInfos {
    const before = this.on(sheet);
    const after = before.flatMap((filter) => followed(filter, command) ?? []);
    return JSON.stringify(after) === JSON.stringify(before) ? { redos: [], undos: [] } : this.setting(sheet, after);
  }

  /**
   * Rows that are hidden by a filter are not deleted with those around them. The engine does so, but lists, merged
   * cells and tables then follow as if all had gone: each run of rows is deleted for itself.
   */
  private partRemoval(
    { id, params }: ICommandInfo,
    removeRows: (sheet: Worksheet, runs: readonly IRange[]) => void,
  ): void {
    if (id !== RemoveRowByRangeCommand.id) return;
    const { range, unitId, subUnitId } = params as { range: IRange; unitId?: string; subUnitId?: string };
    if (unitId !== undefined && unitId !== this.unit) return;
    const sheet = this.book.getSheetBySheetId(subUnitId ?? '') ?? this.book.getActiveSheet();
    const filtered = new Set(sheet.getRangeFilterRows(range));
    if (filtered.size === 0) return;
    const rows = linesOf(range.startRow, range.endRow).filter((row) => !filtered.has(row));
    const runs = runsOf(rows).map(([startRow, endRow]) => ({ ...range, startRow, endRow }));
    queueMicrotask(() => removeRows(sheet, runs.reverse()));
    throw new CustomCommandExecutionError('Rows around hidden ones are deleted run by run.');
  }
}

const WATCHED = new Set<string>([SetFiltersMutation.id, SetSuperTableMutation.id, RemoveSuperTableMutation.id]);

/** Tells which texts are shown by what is asked of a column. */
function taking({ values = [], blanks = false }: FilterColumn): (text: string) => boolean {
  const texts = new Set(values.map((text) => text.trim().toLowerCase()));
  return (text) => (text === '' ? blanks : texts.has(text.toLowerCase()));
}

/** A filter after an edit of rows, columns or cells; undefined where its cells are gone. */
function followed(filter: EngineFilter, command: ICommandInfo): EngineFilter | undefined {
  const { range } = filter;
  const after = handleDefaultRangeChangeWithEffectRefCommands(range, command);
  if (!after) return undefined;
  const columns = filter.columns.flatMap((one): FilterColumn[] => {
    const place = range.startColumn + one.column;
    const now = handleDefaultRangeChangeWithEffectRefCommands(
      { ...range, startColumn: place, endColumn: place },
      command,
    );
    return now ? [{ ...one, column: now.startColumn - after.startColumn }] : [];
  });
  const hidden =
    columns.length === 0 && filter.columns.length > 0
      ? []
      : runsOf(filter.hidden).flatMap(([startRow, endRow]) => {
          const now = handleDefaultRangeChangeWithEffectRefCommands({ ...range, startRow, endRow }, command);
          return now ? linesOf(now.startRow, now.endRow) : [];
        });
  const { startRow, endRow, startColumn, endColumn } = after;
  return { ...filter, range: { startRow, endRow, startColumn, endColumn }, columns, hidden };
}

/** The filters of a sheet of a file, with the rows that they hide. */
export function filtersIn({ filters = [], hiddenRows = [] }: SheetModel): EngineFilter[] {
  const left = new Set(hiddenRows);
  return filters.map(({ range, table, columns }) => {
    const hidden = columns.length === 0 ? [] : linesOf(range.row + 1, range.row + range.rows - 1).filter((row) => left.delete(row)); // prettier-ignore
    return { range: toRange(range), ...(table === undefined ? {} : { table }), columns, hidden };
  });
}
