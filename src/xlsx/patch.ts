/** Changes put into a workbook's package; every part that they do not concern stays byte for byte as it was. */
import type { Cell, NameModel, SheetModel, TableModel } from '../sheet';
import { isDynamic, needsArray } from '../sheet/formula';
import { seenNames, type IsName, type ScopedName } from './bare-functions';
import { asChanges, type CellChange, type SheetChanges, type WorkbookChanges } from './changes';
import { XlsxError } from './error';
import { Package } from './package';
import { printTitles } from './page-setup';
import { patchCells, type CellContext } from './patch-cells';
import { setFilterName, setTableFilters, withFilter } from './patch-filters';
import { joinSheet, patchFrame, splitSheet } from './patch-frame';
import { dynamicArrayRecord } from './patch-metadata';
import { patchRows } from './patch-rows';
import { StylePatcher } from './patch-styles';
import { arrangeSheets, type SheetPlace } from './patch-sheets';
import { addTable, changeTable, tablesOf } from './patch-tables';
import { addSheet, setHidden, setNames } from './patch-workbook';
import { showsDate } from '../sheet';
import { readWorkbookPart, type WorkbookPart } from './workbook-part';
import { addCharts } from './write-chart';
import type { Codec } from './zip';

/** The file's bytes with the changes in it. Throws XlsxError, and then nothing was changed. */
export function patchWorkbook(bytes: Uint8Array, changes: WorkbookChanges, codec?: Codec): Uint8Array {
  const file = new Package(bytes, codec);
  new Patch(file, changes).run();
  return file.save();
}

/** Name of a new sheet until all have their own: it may take the name of one that is renamed. */
const BETWEEN = '\u2023new ';

class Patch {
  private readonly workbook: WorkbookPart;
  private styles: StylePatcher | undefined;
  private record: number | undefined;
  private formulasChanged = false;
  private tables: readonly string[] | undefined;

  constructor(
    private readonly file: Package,
    private readonly changes: WorkbookChanges,
  ) {
    this.workbook = readWorkbookPart(file);
  }

  // eslint-disable-next-line complexity -- the steps of one patch in their order
  run(): void {
    const { file, workbook, changes } = this;
    const parts = new Map(workbook.sheets.map(({ name, part }) => [name, part]));
    // Sheets come before cells: a name or a table may speak of them.
    const added = (changes.newSheets ?? []).map((sheet, index) => ({
      ...asChanges(sheet),
      sheet: changes.order ? `${BETWEEN}${index}` : sheet.name,
      model: sheet,
    }));
    for (const { sheet, model } of added) {
      if ([...parts.keys()].some((name) => name.toLowerCase() === sheet.toLowerCase()))
        throw new XlsxError('unsupported', `The workbook has a sheet ${sheet} already`);
      parts.set(sheet, addSheet(file, workbook, sheet, model));
    }
    for (const sheet of [...changes.sheets, ...added]) {
      const part = parts.get(sheet.sheet);
      if (!part) throw new XlsxError('no-sheet', `The workbook has no sheet ${sheet.sheet}`);
      this.patchSheet(part, sheet);
    }
    if (changes.order) this.arrange(changes.order, changes.newSheets ?? []);
    const names = [...(changes.names ?? []), ...this.titles()];
    if (names.length || changes.removedNames?.length)
      setNames(file, workbook, names, changes.removedNames ?? [], (sheet) => this.namesSeenBy(sheet));
    if (this.styles?.changed) file.set(workbook.styles!, this.styles.xml);
    // The chain lists the formulas' cells: one that is out of date makes a program repair the file, none is made anew.
    if ((this.formulasChanged || changes.order) && workbook.calculationChain) {
      file.removePart(workbook.calculationChain);
      file.unrelate(workbook.part, workbook.calculationChain);
    }
  }

  /** Headers of sheets that are made here, for every page. Sheets have their last names by now. */
  private titles(): NameModel[] {
    const { sheets, newSheets = [], order = [] } = this.changes;
    const filled = sheets.flatMap(({ sheet, isMadeHere, frozen }) => {
      const name = order.find(({ name: now, was = now }) => was === sheet)?.name ?? sheet;
      return isMadeHere && frozen ? [{ name, frozen }] : [];
    });
    return [...filled, ...newSheets].flatMap(printTitles);
  }

  private arrange(order: readonly SheetPlace[], added: readonly SheetModel[]): void {
    const names = new Set(order.map(({ name }) => name.toLowerCase()));
    if (!order.length || names.size !== order.length)
      throw new XlsxError('unsupported', 'A workbook needs sheets, and no two may have the same name');
    const between = new Map(added.map(({ name }, index) => [name, `${BETWEEN}${index}`]));
    arrangeSheets(
      this.file,
      this.workbook,
      order.map(({ name, was = between.get(name) }) => ({ name, was: was ?? name })),
    );
  }

  private patchSheet(part: string, changes: SheetChanges): void {
    const { file } = this;
    const { frame, data: before } = splitSheet(file.text(part));
    const data = patchRows(before, changes.rows ?? new Map());
    if (changes.hidden !== undefined) setHidden(file, this.workbook, part, changes.hidden);
    let around = patchFrame(frame, changes);
    const cells = inOrder(changes.cells ?? []);
    const { bytes: patched, formulasChanged } = cells.length
      ? patchCells(data, cells, this.context(changes.sheet))
      : { bytes: data, formulasChanged: false };
    this.formulasChanged ||= formulasChanged;
    const known = tablesOf(file, part, changes.sheet);
    const wanted = withRenamedColumns(
      [...known.values()].map(({ table }) => table),
      changes.tables ?? [],
      cells,
    );
    for (const table of wanted) {
      const old = known.get(table.name.toLowerCase());
      if (old) changeTable(file, old.part, old.table, table);
      else around = addTable(file, part, around, table);
    }
    if (changes.filters) {
      around = withFilter(around, changes.filters);
      setTableFilters(file, part, changes.sheet, changes.filters);
      setFilterName(file, this.workbook, changes.sheet, changes.filters);
    }
    if (changes.charts?.length)
      around = addCharts(file, part, around, {
        sheet: changes.sheet,
        charts: changes.charts,
        valueAt: valuesOf(cells),
      });
    file.set(part, joinSheet(around, patched));
  }

  private context(sheet: string): CellContext {
    const { file, workbook, changes } = this;
    const ranges = new Set(
      [...workbook.names, ...(changes.names ?? [])].flatMap(({ name, refersTo }) =>
        /[:[]/.test(refersTo) ? [name.toLowerCase()] : [],
      ),
    );
    return {
      isArray: (formula) => isDynamic(formula) || needsArray(formula, (name) => ranges.has(name.toLowerCase())),
      isName: this.namesSeenBy(sheet),
      format: (style, base) => this.styleList().format(changes.styles?.[style] ?? {}, base),
      dynamic: () => (this.record ??= dynamicArrayRecord(file, workbook)),
      shifted: (format) => workbook.dates1904 && showsDate(this.styleList().look(format).numberFormat ?? ''),
    };
  }

  /** The names that a sheet's formulas see once the changes are made. @param sheet its name in the file */
  private namesSeenBy(sheet: string | undefined): IsName {
    let seen: IsName | undefined;
    return (name) => {
      const now = this.changes.order?.find((one) => (one.was ?? one.name) === sheet)?.name ?? sheet;
      seen ??= seenNames(this.names(), this.tableNames(), [sheet, now]);
      return seen(name);
    };
  }

  /** The names of the workbook once the changes are made. */
  private names(): readonly ScopedName[] {
    const { workbook, changes } = this;
    const key = ({ name, scope = '' }: ScopedName): string => `${scope} ${name}`.toLowerCase();
    const removed = new Set((changes.removedNames ?? []).map(key));
    return [...workbook.names.filter((one) => !removed.has(key(one))), ...(changes.names ?? [])];
  }

  private tableNames(): readonly string[] {
    const { file, workbook, changes } = this;
    this.tables ??= [
      ...workbook.sheets.flatMap(({ name, part }) => [...tablesOf(file, part, name).keys()]),
      ...[...changes.sheets, ...(changes.newSheets ?? [])].flatMap(({ tables = [] }) => tables.map(({ name }) => name)),
    ];
    return this.tables;
  }

  private styleList(): StylePatcher {
    const { file, workbook } = this;
    if (!workbook.styles) throw new XlsxError('unsupported', 'The file has no styles part to put a format into');
    this.styles ??= new StylePatcher(
      file.text(workbook.styles),
      workbook.theme && file.has(workbook.theme) ? file.text(workbook.theme) : undefined,
    );
    return this.styles;
  }
}

/** The values of cells that are written, by row and column. */
function valuesOf(cells: readonly CellChange[]): (row: number, column: number) => Cell {
  const values = new Map(cells.map(({ row, column, value }) => [`${row} ${column}`, value]));
  return (row, column) => values.get(`${row} ${column}`) ?? null;
}

/** Changes by row and column; of two for one cell the later holds. */
function inOrder(cells: readonly CellChange[]): CellChange[] {
  const sorted = [...cells].sort((a, b) => a.row - b.row || a.column - b.column);
  return sorted.filter((cell, index) => {
    const next = sorted[index + 1];
    return cell.row !== next?.row || cell.column !== next.column;
  });
}

/** A header cell and its table's column name have to agree, or programs call the file damaged: tables follow their cells. */
function withRenamedColumns(
  known: readonly TableModel[],
  given: readonly TableModel[],
  cells: readonly CellChange[],
): TableModel[] {
  const named = new Set(given.map(({ name }) => name.toLowerCase()));
  const renamed = known.flatMap((table): TableModel[] => {
    const { row, column, columns } = table.range;
    if (named.has(table.name.toLowerCase())) return [];
    const heads = cells.filter(
      (cell) =>
        cell.row === row && cell.column >= column && cell.column < column + columns && typeof cell.value === 'string',
    );
    const names = [...table.columns];
    for (const head of heads) names[head.column - column] = String(head.value);
    return names.join('\n') === table.columns.join('\n') ? [] : [{ ...table, columns: names }];
  });
  return [...given, ...renamed];
}
