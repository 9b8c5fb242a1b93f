/** The tables of a workbook in the engine: known to formulas by name, and kept in step when rows and columns move. */
import {
  CellValueType,
  ICommandService,
  type ICommandInfo,
  type IDisposable,
  type ICellData,
  type IMutationInfo,
  type Injector,
  type IRange,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { ISuperTableService, RemoveSuperTableMutation, SetSuperTableMutation } from '@univerjs/engine-formula';
import {
  handleDefaultRangeChangeWithEffectRefCommands,
  RefRangeService,
  SetRangeValuesCommand,
  SetRangeValuesMutation,
  SheetInterceptorService,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import { CellError, tableTitles, type RangeAddress, type TableModel } from '../../sheet';
import { fromCellData } from './cells';
import { sheetNamed, toAddress, toRange } from './ranges';

export const tablesOf = (injector: Injector, workbook: EngineWorkbook): TableModel[] =>
  [...(injector.get(ISuperTableService).getTableMap(workbook.getUnitId()) ?? [])].flatMap(([name, table]) => {
    const sheet = workbook.getSheetBySheetId(table.sheetId)?.getName();
    return sheet === undefined
      ? []
      : [{ name, range: toAddress(sheet, table.range), columns: [...table.titleMap.keys()] }];
  });

export class Tables {
  private readonly watched = new Map<string, IDisposable>();
  private readonly listeners: IDisposable[] = [];
  /** Tables under whose last row the edit that is being made writes into an empty row. */
  private growing: string[] = [];
  /** Tables into whose row of headers it writes. */
  private headed: string[] = [];

  constructor(
    private readonly injector: Injector,
    private readonly workbook: EngineWorkbook,
  ) {
    const commands = injector.get(ICommandService);
    this.listeners.push(
      commands.beforeCommandExecuted((command, options) => {
        if (command.id !== SetRangeValuesMutation.id || options?.onlyLocal) return;
        const params = command.params as ISetRangeValuesMutationParams;
        this.growing = this.writtenUnder(params);
        this.headed = this.writtenHeaders(params);
      }),
      injector.get(SheetInterceptorService).interceptCommand({
        getMutations: (command) => {
          if (command.id !== SetRangeValuesCommand.id) return { redos: [], undos: [] };
          const { redos, undos } = this.grow();
          return { redos: [...redos, ...this.headerTexts()], undos };
        },
      }),
      commands.onCommandExecuted((command) => {
        if (command.id === SetSuperTableMutation.id || command.id === RemoveSuperTableMutation.id)
          this.watch((command.params as { tableName: string }).tableName);
        if (command.id === SetRangeValuesMutation.id) this.readHeaders(command.params as ISetRangeValuesMutationParams);
      }),
    );
    for (const table of this.list()) this.watch(table.name);
  }

  dispose(): void {
    for (const one of [...this.listeners, ...this.watched.values()]) one.dispose();
    this.watched.clear();
  }

  list(): TableModel[] {
    return tablesOf(this.injector, this.workbook);
  }

  /** The table of this name in any case. */
  find(name: string): TableModel | undefined {
    return this.list().find((table) => table.name.toLowerCase() === name.toLowerCase());
  }

  /** The mutations that give a table its range, and that take it back. */
  place(name: string, range: RangeAddress): { redo: IMutationInfo; undo: IMutationInfo } {
    const before = this.service.getTable(this.unit, name);
    const sheetId = sheetNamed(this.workbook, range.sheet)!.getSheetId();
    const redo = this.setting(name, { sheetId, range: toRange(range), titleMap: this.titles(sheetId, toRange(range)) });
    return {
      redo,
      undo: before
        ? this.setting(name, before)
        : { id: RemoveSuperTableMutation.id, params: { unitId: this.unit, tableName: name } },
    };
  }

  private get service(): ISuperTableService {
    return this.injector.get(ISuperTableService);
  }

  private get unit(): string {
    return this.workbook.getUnitId();
  }

  private setting(tableName: string, reference: unknown): IMutationInfo {
    return { id: SetSuperTableMutation.id, params: { unitId: this.unit, tableName, reference } };
  }

  /** Column titles by place; a blank or repeated one gets a name of its own, as every column needs one. */
  private titles(sheetId: string, range: IRange): Map<string, number> {
    const cells = this.workbook.getSheetBySheetId(sheetId)!.getCellMatrix();
    const texts = Array.from({ length: range.endColumn - range.startColumn + 1 }, (_column, place) => {
      const value = fromCellData(cells.getValue(range.startRow, range.startColumn + place));
      return value === null ? undefined : String(value instanceof CellError ? value.code : value);
    });
    return new Map(tableTitles(texts).map((title, place) => [title, place]));
  }

  /** Follows the insertions, removals and moves that change a table's place; they carry the change in their own undo. */
  private watch(name: string): void {
    this.watched.get(name)?.dispose();
    this.watched.delete(name);
    const table = this.service.getTable(this.unit, name);
    if (!table) return;
    const follow = (command: ICommandInfo): { redos: IMutationInfo[]; undos: IMutationInfo[] } => {
      const moved = handleDefaultRangeChangeWithEffectRefCommands(table.range, command);
      if (moved && sameRange(moved, table.range)) return { redos: [], undos: [] };
      const redo = moved
        ? this.setting(name, { ...table, range: moved, titleMap: movedTitles(table, moved, command) })
        : { id: RemoveSuperTableMutation.id, params: { unitId: this.unit, tableName: name } };
      const added = moved ? addedHeaders(table, moved, command) : {};
      const heads: IMutationInfo[] = Object.keys(added).length
        ? [
            {
              id: SetRangeValuesMutation.id,
              params: { unitId: this.unit, subUnitId: table.sheetId, cellValue: { [moved!.startRow]: added } },
            },
          ]
        : [];
      return { redos: [redo, ...heads], undos: [this.setting(name, table)] };
    };
    this.watched.set(
      name,
      this.injector.get(RefRangeService).registerRefRange(table.range, follow, this.unit, table.sheetId),
    );
  }

  /** A row that a person types directly under a table becomes its last one, as in other spreadsheets. */
  private grow(): { redos: IMutationInfo[]; undos: IMutationInfo[] } {
    const steps = this.growing.flatMap((name) => {
      const table = this.service.getTable(this.unit, name);
      return table
        ? [
            {
              redo: this.setting(name, { ...table, range: { ...table.range, endRow: table.range.endRow + 1 } }),
              undo: this.setting(name, table),
            },
          ]
        : [];
    });
    this.growing = [];
    return { redos: steps.map(({ redo }) => redo), undos: steps.map(({ undo }) => undo) };
  }

  private writtenUnder({ unitId, subUnitId, cellValue }: ISetRangeValuesMutationParams): string[] {
    if (unitId !== this.unit || !cellValue) return [];
    return [...(this.service.getTableMap(this.unit) ?? [])].flatMap(([name, { sheetId, range }]) => {
      const row = range.endRow + 1;
      if (sheetId !== subUnitId || !cellValue[row]) return [];
      const columns = Array.from(
        { length: range.endColumn - range.startColumn + 1 },
        (_none, index) => range.startColumn + index,
      );
      const cells = this.workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
      const isFilled = (data: Nullable<ICellData>): boolean => fromCellData(data) !== null || Boolean(data?.f);
      return columns.some((column) => isFilled(cellValue[row]?.[column])) &&
        !columns.some((column) => isFilled(cells?.getValue(row, column)))
        ? [name]
        : [];
    });
  }

  private writtenHeaders({ unitId, subUnitId, cellValue }: ISetRangeValuesMutationParams): string[] {
    if (unitId !== this.unit || !cellValue) return [];
    return [...(this.service.getTableMap(this.unit) ?? [])].flatMap(([name, { sheetId, range }]) =>
      sheetId === subUnitId &&
      Object.keys(cellValue[range.startRow] ?? {}).some(
        (column) => Number(column) >= range.startColumn && Number(column) <= range.endColumn,
      )
        ? [name]
        : [],
    );
  }

  /** Header cells show the titles: one that was emptied, repeats another or is no text is given its title. */
  private headerTexts(): IMutationInfo[] {
    const redos = this.headed.flatMap((name) => {
      const table = this.service.getTable(this.unit, name);
      return table ? this.headerText(table.sheetId, table.range, this.titles(table.sheetId, table.range)) : [];
    });
    this.headed = [];
    return redos;
  }

  private headerText(sheetId: string, range: IRange, titles: ReadonlyMap<string, number>): IMutationInfo[] {
    const cells = this.workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
    const line: Record<number, ICellData> = {};
    for (const [title, place] of titles) {
      const data = cells?.getValue(range.startRow, range.startColumn + place);
      if (data?.v === title && !data.f && !data.si) continue;
      line[range.startColumn + place] = { v: title, t: CellValueType.STRING, f: null, si: null, p: null };
    }
    return Object.keys(line).length === 0
      ? []
      : [
          {
            id: SetRangeValuesMutation.id,
            params: { unitId: this.unit, subUnitId: sheetId, cellValue: { [range.startRow]: line } },
          },
        ];
  }

  /** Titles follow their header cells. */
  private readHeaders({ unitId, subUnitId, cellValue }: ISetRangeValuesMutationParams): void {
    if (unitId !== this.unit || !cellValue) return;
    for (const [name, table] of this.service.getTableMap(this.unit) ?? []) {
      if (table.sheetId !== subUnitId || !cellValue[table.range.startRow]) continue;
      const titles = this.titles(subUnitId, table.range);
      if ([...titles.keys()].join('\n') === [...table.titleMap.keys()].join('\n')) continue;
      const { id, params } = this.setting(name, { ...table, titleMap: titles });
      this.injector.get(ICommandService).syncExecuteCommand(id, params, { onlyLocal: true });
    }
  }
}

const sameRange = (a: IRange, b: IRange): boolean =>
  a.startRow === b.startRow && a.endRow === b.endRow && a.startColumn === b.startColumn && a.endColumn === b.endColumn;

/** A table's titles where their columns are after a command; a column that is new gets a name until its header is written. */
function movedTitles(
  { range, titleMap }: { readonly range: IRange; readonly titleMap: ReadonlyMap<string, number> },
  moved: IRange,
  command: ICommandInfo,
): Map<string, number> {
  const titles: string[] = [];
  for (const [title, offset] of titleMap) {
    const column = range.startColumn + offset;
    const at = handleDefaultRangeChangeWithEffectRefCommands(
      { startRow: range.startRow, endRow: range.startRow, startColumn: column, endColumn: column },
      command,
    );
    if (at) titles[at.startColumn - moved.startColumn] = title;
  }
  const width = moved.endColumn - moved.startColumn + 1;
  return new Map(
    Array.from({ length: width }, (_column, offset) => [titles[offset] ?? freeTitle(titles, offset), offset]),
  );
}

/** Header cells of the columns that a command brings. */
function addedHeaders(
  table: { readonly range: IRange; readonly titleMap: ReadonlyMap<string, number> },
  moved: IRange,
  command: ICommandInfo,
): Record<number, ICellData> {
  const added = [...movedTitles(table, moved, command)].filter(([title]) => !table.titleMap.has(title));
  return Object.fromEntries(
    added.map(([title, place]) => [moved.startColumn + place, { v: title, t: CellValueType.STRING }]),
  );
}

function freeTitle(taken: readonly string[], offset: number): string {
  const plain = `Column${offset + 1}`;
  return taken.includes(plain) ? `${plain} ${offset + 1}` : plain;
}
