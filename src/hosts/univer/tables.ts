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
  type IUndoRedoCommandInfos,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import {
  ISuperTableService,
  RemoveSuperTableMutation,
  SetSuperTableMutation,
  type ISuperTable,
} from '@univerjs/engine-formula';
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
import { linesOf, sameCells, sheetNamed, toAddress, toRange } from './places';

/** The tables of a workbook as they now stand. */
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
          const grown = this.namedTables(this.growing.splice(0));
          const headed = this.namedTables(this.headed.splice(0));
          return {
            redos: [
              ...grown.map(([name, table]) => this.setting(name, withNextRow(table))),
              ...headed.flatMap(([, table]) => this.headerTexts(table)),
            ],
            undos: grown.map(([name, table]) => this.setting(name, table)),
          };
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
  place(name: string, address: RangeAddress): IUndoRedoCommandInfos {
    const sheetId = sheetNamed(this.workbook, address.sheet).getSheetId();
    const range = toRange(address);
    return {
      redos: [this.setting(name, { sheetId, range, titleMap: this.titles({ sheetId, range }) })],
      undos: [this.setting(name, this.service.getTable(this.unit, name))],
    };
  }

  private get service(): ISuperTableService {
    return this.injector.get(ISuperTableService);
  }

  private get unit(): string {
    return this.workbook.getUnitId();
  }

  /** Those of these names that there are. */
  private namedTables(names: readonly string[]): (readonly [name: string, table: ISuperTable])[] {
    return names.flatMap((name) => {
      const table = this.service.getTable(this.unit, name);
      return table ? [[name, table] as const] : [];
    });
  }

  /** Tables of the sheet whose cells are given values. */
  private tablesIn({ unitId, subUnitId }: ISetRangeValuesMutationParams): [name: string, table: ISuperTable][] {
    const all = unitId === this.unit ? [...(this.service.getTableMap(unitId) ?? [])] : [];
    return all.filter(([, { sheetId }]) => sheetId === subUnitId);
  }

  /** Gives a table its place and titles, or takes it away. */
  private setting(tableName: string, reference: Nullable<ISuperTable>): IMutationInfo {
    const { id } = reference ? SetSuperTableMutation : RemoveSuperTableMutation;
    return { id, params: { unitId: this.unit, tableName, reference } };
  }

  private writing(subUnitId: string, row: number, line: Record<number, ICellData>): IMutationInfo[] {
    const params = { unitId: this.unit, subUnitId, cellValue: { [row]: line } };
    return Object.keys(line).length > 0 ? [{ id: SetRangeValuesMutation.id, params }] : [];
  }

  /** Column titles by place; a blank or repeated one gets a name of its own, as every column needs one. */
  private titles({ sheetId, range }: Pick<ISuperTable, 'sheetId' | 'range'>): Map<string, number> {
    const cells = this.workbook.getSheetBySheetId(sheetId)!.getCellMatrix();
    const texts = linesOf(range.startColumn, range.endColumn).map((column) => {
      const value = fromCellData(cells.getValue(range.startRow, column));
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
    const follow = (command: ICommandInfo): IUndoRedoCommandInfos => {
      const undos = [this.setting(name, table)];
      const moved = handleDefaultRangeChangeWithEffectRefCommands(table.range, command);
      if (!moved) return { redos: [this.setting(name, undefined)], undos };
      if (sameCells(moved, table.range)) return { redos: [], undos: [] };
      const titleMap = movedTitles(table, moved, command);
      // Header cells of the columns that the command brings.
      const heads = [...titleMap]
        .filter(([title]) => !table.titleMap.has(title))
        .map(([title, place]) => [moved.startColumn + place, { v: title, t: CellValueType.STRING }] as const);
      return {
        redos: [
          this.setting(name, { ...table, range: moved, titleMap }),
          ...this.writing(table.sheetId, moved.startRow, Object.fromEntries(heads)),
        ],
        undos,
      };
    };
    this.watched.set(
      name,
      this.injector.get(RefRangeService).registerRefRange(table.range, follow, this.unit, table.sheetId),
    );
  }

  private writtenUnder(params: ISetRangeValuesMutationParams): string[] {
    return this.tablesIn(params).flatMap(([name, { sheetId, range }]) => {
      const row = range.endRow + 1;
      const line = params.cellValue?.[row];
      const columns = linesOf(range.startColumn, range.endColumn);
      const cells = this.workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
      const isFilled = (data: Nullable<ICellData>): boolean => fromCellData(data) !== null || Boolean(data?.f);
      return columns.some((column) => isFilled(line?.[column])) &&
        !columns.some((column) => isFilled(cells?.getValue(row, column)))
        ? [name]
        : [];
    });
  }

  private writtenHeaders(params: ISetRangeValuesMutationParams): string[] {
    const isIn = ({ startRow, startColumn, endColumn }: IRange): boolean =>
      Object.keys(params.cellValue?.[startRow] ?? {}).some(
        (key) => Number(key) >= startColumn && Number(key) <= endColumn,
      );
    return this.tablesIn(params).flatMap(([name, { range }]) => (isIn(range) ? [name] : []));
  }

  /** Header cells show the titles: one that was emptied, repeats another or is no text is given its title. */
  private headerTexts({ sheetId, range }: ISuperTable): IMutationInfo[] {
    const cells = this.workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
    const line: Record<number, ICellData> = {};
    for (const [title, place] of this.titles({ sheetId, range })) {
      const data = cells?.getValue(range.startRow, range.startColumn + place);
      if (data?.v === title && !data.f && !data.si) continue;
      line[range.startColumn + place] = { v: title, t: CellValueType.STRING, f: null, si: null, p: null };
    }
    return this.writing(sheetId, range.startRow, line);
  }

  /** Titles follow their header cells. */
  private readHeaders(params: ISetRangeValuesMutationParams): void {
    for (const [name, table] of this.tablesIn(params)) {
      if (!params.cellValue?.[table.range.startRow]) continue;
      const titleMap = this.titles(table);
      if ([...titleMap.keys()].join('\n') === [...table.titleMap.keys()].join('\n')) continue;
      const { id, params: set } = this.setting(name, { ...table, titleMap });
      this.injector.get(ICommandService).syncExecuteCommand(id, set, { onlyLocal: true });
    }
  }
}

/** A row that a person types directly under a table becomes its last one, as in other spreadsheets. */
const withNextRow = (table: ISuperTable): ISuperTable => ({
  ...table,
  range: { ...table.range, endRow: table.range.endRow + 1 },
});

/** A table's titles where their columns are after a command; a column that is new gets a name until its header is written. */
function movedTitles({ range, titleMap }: ISuperTable, moved: IRange, command: ICommandInfo): Map<string, number> {
  const titles: string[] = [];
  for (const [title, offset] of titleMap) {
    const column = range.startColumn + offset;
    const at = handleDefaultRangeChangeWithEffectRefCommands(
      { startRow: range.startRow, endRow: range.startRow, startColumn: column, endColumn: column },
      command,
    );
    if (at) titles[at.startColumn - moved.startColumn] = title;
  }
  const places = linesOf(0, moved.endColumn - moved.startColumn);
  return new Map(places.map((place) => [titles[place] ?? freeTitle(titles, place), place]));
}

function freeTitle(taken: readonly string[], offset: number): string {
  const plain = `Column${offset + 1}`;
  return taken.includes(plain) ? `${plain} ${offset + 1}` : plain;
}
