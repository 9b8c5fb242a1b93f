/** A workbook's whole state as texts, sheet by sheet, to be kept outside the engine and put back into it. */
import {
  CommandType,
  ICommandService,
  IResourceManagerService,
  UniverInstanceType,
  IUniverInstanceService,
  type ICellData,
  type IDisposable,
  type IWorkbookData,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { ISuperTableService } from '@univerjs/engine-formula';
import type { Operation } from '../../xlsx';
import { createWorkbook, type Engine } from './engine';
import { keep } from './file-marks';
import { FilterStore, type EngineFilter } from './filter-store';
import { injectorOf } from './internals';
import type { MutationPlace } from './mutations';

/** Raised when the texts change their form: older ones are then not read. */
const FORM = 3;
/** This one had formulas that were not known beside their values only. */
const FORM_BEFORE = 2;

interface Head {
  readonly form: number;
  readonly snapshot: Omit<IWorkbookData, 'sheets'>;
  readonly tables: readonly {
    readonly name: string;
    readonly reference: unknown;
    readonly titles: readonly string[];
  }[];
  /** What was done to the structure since the file was read; left out by an older version. */
  readonly operations?: readonly Operation[];
  /** Filters by the sheets' ids; left out by an older version. */
  readonly filters?: readonly (readonly [sheet: string, filters: readonly EngineFilter[]])[];
}

/** Everything but the sheets: their order, styles, names, drop-down lists, tables. */
export function headText(engine: Engine, unit: string): string {
  const injector = injectorOf(engine.univer);
  const filters = injector.get(FilterStore);
  const { sheets: _sheets, ...snapshot } = bookOf(engine, unit).getSnapshot();
  const resources = injector.get(IResourceManagerService).getResources(unit, UniverInstanceType.UNIVER_SHEET);
  const tables = [...(injector.get(ISuperTableService).getTableMap(unit) ?? [])].map(([name, table]) => ({
    name,
    reference: { ...table, titleMap: undefined },
    titles: [...table.titleMap.keys()],
  }));
  return JSON.stringify({
    form: FORM,
    snapshot: { ...snapshot, resources },
    tables,
    operations: engine.structure.of(unit),
    ...(filters.knows(unit) ? { filters: filters.all(unit) } : {}),
  } satisfies Head);
}

export function sheetIds(engine: Engine, unit: string): string[] {
  return [...bookOf(engine, unit).getSnapshot().sheetOrder];
}

/** One sheet; undefined where there is none of this id. */
export function sheetText(engine: Engine, unit: string, sheet: string): string | undefined {
  const data = bookOf(engine, unit).getSnapshot().sheets[sheet];
  return data && JSON.stringify(data);
}

/** Puts a kept workbook back under the id `unit`; nothing is calculated yet. Throws where the texts are of another form. */
export function loadKept(
  engine: Engine,
  unit: string,
  title: string,
  head: string,
  sheets: ReadonlyMap<string, string>,
): void {
  const { form, snapshot, tables, operations, filters } = JSON.parse(head) as Head;
  if (form !== FORM && form !== FORM_BEFORE) throw new Error(`Kept in form ${form}; this version reads form ${FORM}`);
  const data = Object.fromEntries(
    [...sheets].map(([id, text]) => [id, JSON.parse(text) as IWorkbookData['sheets'][string]]),
  );
  const missing = snapshot.sheetOrder.find((id) => !data[id]);
  if (missing) throw new Error(`The kept workbook has no sheet ${missing}`);
  if (form === FORM_BEFORE) for (const sheet of Object.values(data)) takeFormulasIn(sheet);
  engine.structure.begin(unit, operations ?? []);
  if (filters) injectorOf(engine.univer).get(FilterStore).begin(unit, filters);
  createWorkbook(engine, { ...snapshot, id: unit, name: title, sheets: data });
  const service = injectorOf(engine.univer).get(ISuperTableService);
  for (const { name, reference, titles } of tables)
    service.registerTable(unit, name, {
      ...(reference as object),
      titleMap: new Map(titles.map((one, index) => [one, index])),
    } as never);
}

/** Gives cells of the former form the formula that stands beside their value. */
function takeFormulasIn({ cellData }: IWorkbookData['sheets'][string]): void {
  for (const line of Object.values(cellData ?? {}))
    for (const cell of Object.values(line as Record<number, ICellData | null>)) {
      const { formula, value } = (cell?.custom ?? {}) as { formula?: string; value?: unknown };
      if (!cell || formula === undefined || cell.f || (cell.v ?? null) !== value) continue;
      cell.f = `=${formula}`;
      keep(cell, formula);
    }
}

/** Tells of every edit, results of calculation apart: the ids of the sheets it touched. */
export function watchEdits(engine: Engine, unit: string, listener: (sheets: readonly string[]) => void): IDisposable {
  return injectorOf(engine.univer)
    .get(ICommandService)
    .onCommandExecuted((command, options) => {
      const params = (command.params ?? {}) as MutationPlace;
      if (
        command.type !== CommandType.MUTATION ||
        params.unitId !== unit ||
        options?.onlyLocal ||
        options?.['fromFormula']
      )
        return;
      const touched = [params.subUnitId, params.sheet?.id, params.from?.subUnitId, params.to?.subUnitId];
      listener([...new Set(touched.filter((id) => id !== undefined))]);
    });
}

const bookOf = (engine: Engine, unit: string): EngineWorkbook =>
  injectorOf(engine.univer).get(IUniverInstanceService).getUnit<EngineWorkbook>(unit, UniverInstanceType.UNIVER_SHEET)!;
