/** What filters of an open workbook do: which rows they hide, how they are set and cleared, and how they follow edits. */
import {
  CustomCommandExecutionError,
  ICommandService,
  type ICommandInfo,
  type IDisposable,
  type IMutationInfo,
  type Injector,
  type IRange,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { RemoveSuperTableMutation, SetSuperTableMutation } from '@univerjs/engine-formula';
import {
  handleDefaultRangeChangeWithEffectRefCommands,
  RefRangeService,
  RemoveRowByRangeCommand,
  SetRowVisibleMutation,
} from '@univerjs/sheets';
import type { FilterColumn, FilterModel, RangeAddress, SheetModel } from '../../sheet';
import { FilterStore, SetFiltersMutation, type EngineFilter, type SetFiltersParams } from './filter-store';
import { cellReader, isBlank } from './list-range';
import { runsOf } from './order-rows';
import { linesOf, toAddress, toRange } from './ranges';
import { shownText } from './shown-text';
import { tablesOf } from './tables';

/** Mutations with those that take them back. */
export interface Steps {
  readonly redo: readonly IMutationInfo[];
  readonly undo: readonly IMutationInfo[];
}

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
    if (!this.store.knows(this.unit)) return undefined;
    return this.on(sheet)
      .filter(({ table, columns }) => table === undefined || columns.length > 0)
      .map(({ range, table, columns }) => ({
        range: toAddress(sheet.getName(), range),
        ...(table === undefined ? {} : { table }),
        columns,
      }));
  }

  /** What the data of a column shows. */
  texts(sheet: Worksheet, filter: Pick<EngineFilter, 'range'>, column: number): ShownTexts {
    const found = new Map<string, string>();
    let blanks = false;
    const textAt = this.textReader(sheet);
    for (let row = filter.range.startRow + 1; row <= filter.range.endRow; row++) {
      const text = textAt(row, filter.range.startColumn + column);
      if (text === '') blanks = true;
      else if (!found.has(text.toLowerCase())) found.set(text.toLowerCase(), text);
    }
    return { texts: [...found.values()], blanks };
  }

  /** Puts a filter over a list, which hides nothing yet. */
  adding(sheet: Worksheet, range: RangeAddress, table: string | undefined): Steps {
    const made: EngineFilter = {
      range: toRange(range),
      ...(table === undefined ? {} : { table }),
      columns: [],
      hidden: [],
    };
    return this.setting(sheet, [...this.on(sheet).filter((one) => one.table !== table), made]);
  }

  removing(sheet: Worksheet, filter: EngineFilter): Steps {
    return this.setting(
      sheet,
      this.on(sheet).filter((one) => one.table !== filter.table),
    );
  }

  /** A filter with what it asks of one column, or of none where `asked` is left out; `column` counts from its first. */
  choosing(sheet: Worksheet, filter: EngineFilter, column: number, asked?: Omit<FilterColumn, 'column'>): Steps {
    const others = filter.columns.filter((one) => one.column !== column);
    const columns = [...others, ...(asked ? [{ column, ...asked }] : [])].sort((a, b) => a.column - b.column);
    return this.replacing(sheet, filter, { ...filter, columns, hidden: this.hiddenRows(sheet, filter, columns) });
  }

  /** Shows all rows. */
  clearing(sheet: Worksheet, filter: EngineFilter): Steps {
    return this.replacing(sheet, filter, { ...filter, columns: [], hidden: [] });
  }

  private replacing(sheet: Worksheet, before: EngineFilter, after: EngineFilter): Steps {
    const all = this.on(sheet);
    return this.setting(sheet, all.includes(before) ? all.map((one) => (one === before ? after : one)) : [...all.filter((one) => one.table !== before.table), after]); // prettier-ignore
  }

  private get unit(): string {
    return this.book.getUnitId();
  }

  private setting(sheet: Worksheet, filters: readonly EngineFilter[]): Steps {
    const where = { unitId: this.unit, subUnitId: sheet.getSheetId() };
    const put = (list: readonly EngineFilter[]): IMutationInfo[] => [
      { id: SetFiltersMutation.id, params: { ...where, filters: list } satisfies SetFiltersParams },
      // Has the grid lay out its rows anew.
      { id: SetRowVisibleMutation.id, params: { ...where, ranges: [] } },
    ];
    return { redo: put(filters), undo: put(this.store.of(this.unit, sheet.getSheetId())) };
  }

  private textReader(sheet: Worksheet): (row: number, column: number) => string {
    const read = cellReader(this.injector, this.book, sheet);
    const styles = this.book.getStyles();
    const cells = sheet.getCellMatrix();
    return (row, column) => {
      const value = read(row, column);
      return isBlank(value)
        ? ''
        : shownText(value, styles.getStyleByCell(cells.getValue(row, column))?.n?.pattern).trim();
    };
  }

  /** What is asked that is not known here goes on hiding the rows that it hides. */
  private hiddenRows(sheet: Worksheet, before: EngineFilter, columns: readonly FilterColumn[]): number[] {
    const textAt = this.textReader(sheet);
    const { range } = before;
    const isKnown = ({ values }: FilterColumn): boolean => values !== undefined;
    const passes = (row: number, asked: readonly Asked[]): boolean =>
      asked.every((one) => one.takes(textAt(row, range.startColumn + one.column)));
    const [was, is] = [before.columns, columns].map((list) => list.filter(isKnown).map((one) => new Asked(one)));
    const kept = columns.every(isKnown) ? [] : before.hidden.filter((row) => passes(row, was!));
    const hidden = new Set(kept);
    for (let row = range.startRow + 1; row <= range.endRow; row++) if (!passes(row, is!)) hidden.add(row);
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
  private following(sheet: Worksheet, command: ICommandInfo): { redos: IMutationInfo[]; undos: IMutationInfo[] } {
    const before = this.on(sheet);
    const after = before.flatMap((filter) => followed(filter, command) ?? []);
    if (JSON.stringify(after) === JSON.stringify(before)) return { redos: [], undos: [] };
    const { redo, undo } = this.setting(sheet, after);
    return { redos: [...redo], undos: [...undo] };
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
    const rows: number[] = [];
    for (let row = range.startRow; row <= range.endRow; row++) if (!filtered.has(row)) rows.push(row);
    const runs = runsOf(rows).map(([startRow, endRow]) => ({ ...range, startRow, endRow }));
    queueMicrotask(() => removeRows(sheet, runs.reverse()));
    throw new CustomCommandExecutionError('Rows around hidden ones are deleted run by run.');
  }
}

const WATCHED = new Set<string>([SetFiltersMutation.id, SetSuperTableMutation.id, RemoveSuperTableMutation.id]);

/** What is asked of a column, ready to be asked of many texts. */
class Asked {
  readonly column: number;
  private readonly texts: ReadonlySet<string>;
  private readonly blanks: boolean;

  constructor({ column, values = [], blanks = false }: FilterColumn) {
    this.column = column;
    this.texts = new Set(values.map((text) => text.trim().toLowerCase()));
    this.blanks = blanks;
  }

  takes(text: string): boolean {
    return text === '' ? this.blanks : this.texts.has(text.toLowerCase());
  }
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
