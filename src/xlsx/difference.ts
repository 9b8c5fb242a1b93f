/** What one model of a workbook changes against another, as a patch. */
import {
  CellError,
  sameCell,
  tableTitles,
  type BarChart,
  type Cell,
  type CellModel,
  type ChoiceValidation,
  type FilterModel,
  type NameModel,
  type RangeAddress,
  type SheetModel,
  type Spill,
  type StyleModel,
  type TableModel,
  type WorkbookModel,
} from '../sheet';
import type { RowChange } from './patch-rows';
import { looksKey } from './patch-styles';

export interface CellChange {
  readonly row: number;
  readonly column: number;
  /** null empties the cell. */
  readonly value: Cell;
  /** Typed, without "="; null takes a formula away; left out, a formula stays and only its value changes. */
  readonly formula?: string | null;
  /** True: the formula stays of the plain kind even where it names ranges (see CellModel). */
  readonly plain?: boolean;
  /** New extent of an array formula. */
  readonly spill?: Spill;
  /** Index into WorkbookChanges.styles; left out, the cell keeps its looks. */
  readonly style?: number;
}

export interface SheetChanges {
  readonly sheet: string;
  /** True for a sheet whose contents are made here: it is set up to be printed, too. */
  readonly isMadeHere?: boolean;
  readonly cells?: readonly CellChange[];
  /** Tables that are new, or whose range or columns changed. */
  readonly tables?: readonly TableModel[];
  /** Widths in characters by column. */
  readonly columnWidths?: ReadonlyMap<number, number>;
  readonly frozen?: { readonly rows: number; readonly columns: number };
  /** Merges and drop-down lists to be added. */
  readonly merges?: readonly RangeAddress[];
  readonly validations?: readonly ChoiceValidation[];
  /** Merges to be removed. */
  readonly unmerged?: readonly RangeAddress[];
  /** Rows hidden, shown, or given a height. */
  readonly rows?: ReadonlyMap<number, RowChange>;
  /** Columns hidden (true) or shown. */
  readonly hiddenColumns?: ReadonlyMap<number, boolean>;
  /** The sheet itself hidden or shown. */
  readonly hidden?: boolean;
  /** "#rrggbb"; '' takes the colour away. */
  readonly tabColor?: string;
  /** All filters of the sheet and its tables, where one of them changed. */
  readonly filters?: readonly FilterModel[];
  /** Drop-down lists that have other cells than in the file, or that are removed. */
  readonly movedValidations?: readonly ListMove[];
  /** Charts of a sheet that is made here. */
  readonly charts?: readonly BarChart[];
}

export interface ListMove {
  readonly from: RangeAddress;
  /** Undefined: the list is taken away. */
  readonly to?: RangeAddress;
}

/** A sheet as it shall stand; `was` is its name in the file, left out for one that is new. */
export interface SheetPlace {
  readonly name: string;
  readonly was?: string;
}

export interface WorkbookChanges {
  /** Changes to sheets, by the names that they have in the file. */
  readonly sheets: readonly SheetChanges[];
  readonly newSheets?: readonly SheetModel[];
  /** All sheets in their new order, new ones included; given where one is renamed, removed or moved. */
  readonly order?: readonly SheetPlace[];
  /** Names that are new or stand for something else. */
  readonly names?: readonly NameModel[];
  readonly removedNames?: readonly Pick<NameModel, 'name' | 'scope'>[];
  /** What style indexes of changed cells and new sheets point into. */
  readonly styles?: readonly StyleModel[];
}

/** Lines that were hidden and are not, or the other way round. */
function hiddenChanges(before: readonly number[], after: readonly number[]): Map<number, boolean> {
  const [was, is] = [new Set(before), new Set(after)];
  return new Map([
    ...before.filter((line) => !is.has(line)).map((line): [number, boolean] => [line, false]),
    ...after.filter((line) => !was.has(line)).map((line): [number, boolean] => [line, true]),
  ]);
}

function rowChanges(
  before: readonly number[],
  after: readonly number[],
  heights: ReadonlyMap<number, number> = new Map(),
): Map<number, RowChange> {
  const changes = new Map<number, RowChange>();
  for (const [row, hidden] of hiddenChanges(before, after)) changes.set(row, { hidden });
  for (const [row, height] of heights) changes.set(row, { ...changes.get(row), height });
  return changes;
}

/** A sheet that does not exist yet, as changes to an empty one. */
export function asChanges(sheet: SheetModel): SheetChanges {
  const cells: CellChange[] = [];
  sheet.cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (!cell) return;
      cells.push(changeOf(row, column, cell));
    }),
  );
  const widths = (sheet.columnWidths ?? []).flatMap((width, column): [number, number][] =>
    width === undefined ? [] : [[column, width]],
  );
  return {
    sheet: sheet.name,
    isMadeHere: true,
    cells,
    tables: sheet.tables,
    columnWidths: new Map(widths),
    merges: sheet.merges ?? [],
    validations: sheet.validations ?? [],
    ...(sheet.frozen ? { frozen: sheet.frozen } : {}),
    rows: rowChanges([], sheet.hiddenRows ?? [], sheet.rowHeights),
    hiddenColumns: hiddenChanges([], sheet.hiddenColumns ?? []),
    ...(sheet.tabColor ? { tabColor: sheet.tabColor } : {}),
    ...(sheet.filters?.length ? { filters: sheet.filters } : {}),
    ...(sheet.charts ? { charts: sheet.charts } : {}),
  };
}

/** A model that says for each of its sheets which sheet of the file it is. */
export interface EditedModel extends WorkbookModel {
  /** Index of the sheet in the file's model; undefined for a new one. Left out, sheets are told by name. */
  readonly loadedAs?: readonly (number | undefined)[];
}

/** The changes that make the file of `before` one of `after`. */
export function difference(before: WorkbookModel, after: EditedModel): WorkbookChanges {
  const was = after.sheets.map((sheet, index) =>
    after.loadedAs ? before.sheets[after.loadedAs[index] ?? -1] : before.sheets.find(({ name }) => name === sheet.name),
  );
  const looks = { before: before.styles.map(looksKey), after: after.styles.map(looksKey) };
  const names = new Map(before.names.map((one) => [nameKey(one), one.refersTo]));
  const kept = new Set(after.names.map(nameKey));
  const renamed = new Map(
    was.flatMap((sheet, index): [string, string][] => (sheet ? [[sheet.name, after.sheets[index]!.name]] : [])),
  );
  const isAsBefore =
    before.sheets.every((sheet, index) => was[index] === sheet && after.sheets[index]!.name === sheet.name) &&
    was.slice(before.sheets.length).every((sheet) => !sheet);
  return {
    sheets: after.sheets.flatMap((sheet, index) => {
      const old = was[index];
      const changes = old && sheetDifference(old, withTitles(sheet), looks);
      return changes ? [changes] : [];
    }),
    newSheets: after.sheets.filter((_sheet, index) => !was[index]).map(withTitles),
    ...(isAsBefore
      ? {}
      : { order: after.sheets.map(({ name }, index) => ({ name, ...(was[index] ? { was: was[index].name } : {}) })) }),
    names: after.names.filter((one) => names.get(nameKey(one)) !== one.refersTo),
    removedNames: before.names.filter(
      (one) =>
        !kept.has(
          nameKey({ ...one, ...(one.scope === undefined ? {} : { scope: renamed.get(one.scope) ?? one.scope }) }),
        ),
    ),
    styles: after.styles,
  };
}

const nameKey = ({ name, scope }: Pick<NameModel, 'name' | 'scope'>): string => `${name.toLowerCase()} ${scope ?? ''}`;

/** A table's header cells and its columns are one: each a text, and no two alike. Programs call another file damaged. */
function withTitles(sheet: SheetModel): SheetModel {
  if (sheet.tables.length === 0) return sheet;
  const cells = [...sheet.cells];
  const tables = sheet.tables.map((table): TableModel => {
    const { row, column } = table.range;
    const heads = table.columns.map((_name, index) => cells[row]?.[column + index]);
    const columns = tableTitles(
      heads.map((cell, index) =>
        cell?.value === undefined || cell.value === null ? table.columns[index] : textOf(cell),
      ),
    );
    columns.forEach((title, index) => {
      const cell = heads[index];
      if (cell && cell.value === title && cell.formula === undefined) return;
      const line = [...(cells[row] ?? [])];
      line[column + index] = { value: title, ...(cell?.style === undefined ? {} : { style: cell.style }) };
      cells[row] = Array.from(line);
    });
    return { ...table, columns };
  });
  return { ...sheet, cells, tables };
}

const textOf = ({ value }: CellModel): string => (value instanceof CellError ? value.code : String(value));

/** Heights of rows that had none, or another one, in the file. */
const newHeights = (before: SheetModel, after: SheetModel): Map<number, number> =>
  new Map(
    [...(after.rowHeights ?? [])].filter(
      ([row, height]) => Math.abs(height - (before.rowHeights?.get(row) ?? -1)) >= 0.01,
    ),
  );

interface Looks {
  readonly before: readonly string[];
  readonly after: readonly string[];
}

function sheetDifference(before: SheetModel, after: SheetModel, looks: Looks): SheetChanges | undefined {
  const tables = new Map(before.tables.map((table) => [table.name.toLowerCase(), tableKey(table)]));
  const widths = (after.columnWidths ?? []).flatMap((width, column): [number, number][] =>
    width === undefined || Math.abs(width - (before.columnWidths?.[column] ?? -1)) < 0.01 ? [] : [[column, width]],
  );
  const lists = {
    cells: cellDifference(before, after, looks),
    tables: after.tables.filter((table) => tables.get(table.name.toLowerCase()) !== tableKey(table)),
    columnWidths: new Map(widths),
    ...mergeDifference(before.merges ?? [], after.merges ?? []),
    ...listDifference(before.validations ?? [], after.validations ?? []),
    rows: rowChanges(before.hiddenRows ?? [], after.hiddenRows ?? [], newHeights(before, after)),
    hiddenColumns: hiddenChanges(before.hiddenColumns ?? [], after.hiddenColumns ?? []),
  };
  const settings = settingDifference(before, after);
  const isChanged =
    Object.keys(settings).length > 0 ||
    Object.values(lists).some((list) => ('size' in list ? list.size : list.length) > 0);
  return isChanged ? { sheet: before.name, ...lists, ...settings } : undefined;
}

function mergeDifference(
  before: readonly RangeAddress[],
  after: readonly RangeAddress[],
): Required<Pick<SheetChanges, 'merges' | 'unmerged'>> {
  const [was, is] = [before, after].map((merges) => new Set(merges.map(rangeKey))) as [Set<string>, Set<string>];
  return {
    merges: after.filter((merge) => !was.has(rangeKey(merge))),
    unmerged: before.filter((merge) => !is.has(rangeKey(merge))),
  };
}

/** Frozen panes, hiding, colour and filters of the sheet as a whole, and what it is given where it was empty before. */
function settingDifference(
  before: SheetModel,
  after: SheetModel,
): Pick<SheetChanges, 'frozen' | 'hidden' | 'tabColor' | 'filters' | 'isMadeHere' | 'charts'> {
  const isHidden = after.hidden ?? false;
  const tabColor = after.tabColor ?? '';
  const isMadeHere = before.cells.length === 0 && !before.holdsMore && after.cells.length > 0;
  return {
    ...(isMadeHere ? { isMadeHere, charts: after.charts ?? [] } : {}),
    ...(paneKey(before) === paneKey(after) ? {} : { frozen: after.frozen ?? { rows: 0, columns: 0 } }),
    ...((before.hidden ?? false) === isHidden ? {} : { hidden: isHidden }),
    ...((before.tabColor ?? '') === tabColor ? {} : { tabColor }),
    ...(after.filters && filtersKey(before) !== filtersKey(after) ? { filters: after.filters } : {}),
  };
}

/** A list that is gone from one range and new at another has moved with its cells: what else the file says of it is kept. */
function listDifference(
  before: readonly ChoiceValidation[],
  after: readonly ChoiceValidation[],
): Required<Pick<SheetChanges, 'validations' | 'movedValidations'>> {
  const [was, is] = [before, after].map((lists) => new Set(lists.map(validationKey))) as [Set<string>, Set<string>];
  const validations = after.filter((one) => !was.has(validationKey(one)));
  const movedValidations = before.flatMap((one): ListMove[] => {
    if (is.has(validationKey(one)) || validations.some(({ range }) => rangeKey(range) === rangeKey(one.range)))
      return [];
    const to = validations.findIndex(({ choices }) => choices.join('\n') === one.choices.join('\n'));
    return [{ from: one.range, ...(to < 0 ? {} : { to: validations.splice(to, 1)[0]!.range }) }];
  });
  return { validations, movedValidations };
}

function cellDifference(before: SheetModel, after: SheetModel, looks: Looks): CellChange[] {
  const changes: CellChange[] = [];
  const rows = Math.max(before.cells.length, after.cells.length);
  for (let row = 0; row < rows; row++) {
    const old = before.cells[row];
    const now = after.cells[row];
    if (old === now) continue;
    const columns = Math.max(old?.length ?? 0, now?.length ?? 0);
    for (let column = 0; column < columns; column++) {
      const change = oneDifference(row, column, old?.[column], now?.[column], looks);
      if (change) changes.push(change);
    }
  }
  return changes;
}

// eslint-disable-next-line complexity -- each property of a cell may differ
function oneDifference(
  row: number,
  column: number,
  old: CellModel | undefined,
  now: CellModel | undefined,
  looks: Looks,
): CellChange | undefined {
  if (old === now) return undefined;
  const value = now?.value ?? null;
  const formula = formulaToWrite(old, now);
  const style = look(old, looks.before) === look(now, looks.after) ? undefined : now?.style;
  const spill = now?.spill && (formula !== undefined || !sameSpill(old?.spill, now.spill)) ? now.spill : undefined;
  if (sameCell(old?.value ?? null, value) && formula === undefined && style === undefined && !spill) return undefined;
  return changeOf(row, column, { value, formula, plain: now?.plain && !spill, spill, style });
}

/** A change to what is given; what a cell has nothing of is left out. */
const changeOf = (
  row: number,
  column: number,
  {
    value,
    formula,
    plain,
    spill,
    style,
  }: Pick<CellChange, 'value'> & { readonly [K in keyof CellChange]?: CellChange[K] | undefined },
): CellChange => ({
  row,
  column,
  value,
  ...(formula === undefined ? {} : { formula }),
  ...(plain ? { plain } : {}),
  ...(spill ? { spill } : {}),
  ...(style === undefined ? {} : { style }),
});

/** The formula where it has to be written; null where the cell has none any more, undefined where the file has the same one. */
function formulaToWrite(old: CellModel | undefined, now: CellModel | undefined): string | null | undefined {
  // A plain formula that now spills has to be written in the form that spills.
  const spillsAnew = now?.spill !== undefined && old?.spill === undefined;
  return old?.formula === now?.formula && !spillsAnew ? undefined : (now?.formula ?? null);
}

const sameSpill = (one: Spill | undefined, other: Spill): boolean =>
  one?.rows === other.rows && one.columns === other.columns;

const look = (cell: CellModel | undefined, keys: readonly string[]): string =>
  cell?.style === undefined ? '' : (keys[cell.style] ?? '');

const rangeKey = (range: RangeAddress): string => `${range.row} ${range.column} ${range.rows} ${range.columns}`;
const tableKey = (table: TableModel): string => `${rangeKey(table.range)} ${table.columns.join('\n')}`;
const validationKey = (one: ChoiceValidation): string =>
  `${rangeKey(one.range)} ${one.open ?? ''} ${one.choices.join('\n')}`;
const filtersKey = ({ filters = [] }: SheetModel): string =>
  filters
    .map(({ range, table, columns }) => `${(table ?? '').toLowerCase()} ${rangeKey(range)} ${JSON.stringify(columns)}`)
    .sort()
    .join('\n');
const paneKey = ({ frozen }: SheetModel): string => `${frozen?.rows ?? 0} ${frozen?.columns ?? 0}`;
