/**
 * Filters of open workbooks. The engine's own filter plug-in knows one filter of a sheet, none of tables, and forgets
 * what it does not know of a filter: so they are kept here, and the engine is told which rows they hide. It then leaves
 * those out of what is done to a range.
 */
import { CommandType, type IAccessor, type IMutation, type Injector, type IRange } from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { FilterColumn } from '../../sheet';

export interface EngineFilter {
  /** With the row of headings; of a table's filter it is the table's. */
  readonly range: IRange;
  readonly table?: string;
  readonly columns: readonly FilterColumn[];
  /** Rows that it hides. */
  readonly hidden: readonly number[];
}

export class FilterStore {
  private readonly units = new Map<string, Map<string, readonly EngineFilter[]>>();
  private readonly rows = new Map<string, ReadonlySet<number>>();

  /** False where nothing is known of a workbook's filters: those of its file then stay. */
  knows(unit: string): boolean {
    return this.units.has(unit);
  }

  /** Makes a workbook's filters known, by its sheets. */
  begin(unit: string, sheets: Iterable<readonly [sheet: string, filters: readonly EngineFilter[]]>): void {
    this.units.set(unit, new Map());
    for (const [sheet, filters] of sheets) this.put(unit, sheet, filters);
  }

  of(unit: string, sheet: string): readonly EngineFilter[] {
    return this.units.get(unit)?.get(sheet) ?? [];
  }

  all(unit: string): [sheet: string, filters: readonly EngineFilter[]][] {
    return [...(this.units.get(unit) ?? [])];
  }

  put(unit: string, sheet: string, filters: readonly EngineFilter[]): void {
    const sheets = this.units.get(unit) ?? new Map<string, readonly EngineFilter[]>();
    this.units.set(unit, sheets.set(sheet, filters));
    const hidden = filters.flatMap((one) => one.hidden);
    if (hidden.length > 0) this.rows.set(keyOf(unit, sheet), new Set(hidden));
    else this.rows.delete(keyOf(unit, sheet));
  }

  hides(unit: string, sheet: string, row: number): boolean {
    return this.rows.size > 0 && (this.rows.get(keyOf(unit, sheet))?.has(row) ?? false);
  }

  /** Rows that filters of a sheet hide, in order. */
  hiddenRows(unit: string, sheet: string): number[] {
    return [...(this.rows.get(keyOf(unit, sheet)) ?? [])].sort((a, b) => a - b);
  }

  forget(unit: string): void {
    for (const sheet of this.units.get(unit)?.keys() ?? []) this.rows.delete(keyOf(unit, sheet));
    this.units.delete(unit);
  }
}

const keyOf = (unit: string, sheet: string): string => `${unit} ${sheet}`;

export interface SetFiltersParams {
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
