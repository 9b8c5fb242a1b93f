/** Changes put into a workbook's package; every part that they do not concern stays byte for byte as it was. */
import { showsDate, type Cell, type SheetModel, type TableModel } from '../sheet';
import { isDynamic, needsArray } from '../sheet/formula';
import { seenNames, type IsName, type ScopedName } from './formula-text';
import { asChanges, type CellChange, type SheetChanges, type SheetPlace, type WorkbookChanges } from './difference';
import { XlsxError } from './error';
import { Package } from './package';
import { joinSheet, patchFrame, printTitles, splitSheet } from './patch-frame';
import { patchCells, type CellContext } from './patch-cells';
import { FILTER_NAME, filterNames, setTableFilters, withFilter } from './filters';
import { addSheet, dynamicArrayRecord, setHidden, setNames } from './patch-workbook';
import { patchRows } from './patch-rows';
import { StylePatcher } from './patch-styles';
import type { Operation } from './structure/operation';
import { shiftPackage } from './structure/shift';
import { addTable, changeTable, tablesOf } from './tables';
import { readWorkbookPart, type WorkbookPart } from './workbook-part';
import { addCharts } from './write-chart';
import type { Codec } from './zip';

/** The file's bytes with the changes in it. Throws XlsxError, and then nothing was changed. */
export function patchWorkbook(bytes: Uint8Array, changes: WorkbookChanges, codec?: Codec): Uint8Array {
  const file = new Package(bytes, codec);
  new Patch(file, changes).run();
  return file.save();
}

/** Before a sheet's new name until all have theirs: it may take the name of one that is renamed. */
const BETWEEN = '\u2023';

class Patch {
  private workbook: WorkbookPart;
  private styles: StylePatcher | undefined;
  private record: number | undefined;
  private formulasChanged = false;
  private tables: readonly string[] | undefined;

  constructor(
    private readonly file: Package,
    private changes: WorkbookChanges,
  ) {
    this.workbook = readWorkbookPart(file);
  }

  // eslint-disable-next-line complexity -- the steps of one patch in their order
  run(): void {
    const { file } = this;
    const { newSheets = [], order } = this.changes;
    const missing = this.changes.sheets.find(({ sheet }) => !this.workbook.sheets.some(({ name }) => name === sheet));
    if (missing) throw new XlsxError('no-sheet', `The workbook has no sheet ${missing.sheet}`);
    // Sheets come before cells: a name or a table may speak of them.
    const taken = new Set(this.workbook.sheets.map(({ name }) => name.toLowerCase()));
    for (const sheet of newSheets) {
      const name = order ? `${BETWEEN}${sheet.name}` : sheet.name;
      if (taken.has(name.toLowerCase())) throw new XlsxError('unsupported', `The workbook has a sheet ${name} already`);
      addSheet(file, this.workbook, name, sheet);
      taken.add(name.toLowerCase());
    }
    if (order) this.arrange(order, newSheets);
    this.workbook = readWorkbookPart(file);
    const { workbook, changes } = this;
    const sheets = [...changes.sheets, ...newSheets.map(asChanges)];
    const parts = new Map(workbook.sheets.map(({ name, part }) => [name, part]));
    for (const sheet of sheets) {
      const part = parts.get(sheet.sheet);
      if (part) this.patchSheet(part, sheet);
    }
    // Headers of sheets that are made here, for every page.
    const titles = sheets.flatMap(({ sheet, isMadeHere, frozen }) =>
      isMadeHere && frozen ? printTitles({ name: sheet, frozen }) : [],
    );
    const filtered = sheets.filter(({ filters }) => filters);
    const names = [
      ...(changes.names ?? []),
      ...titles,
      ...filtered.flatMap(({ sheet, filters = [] }) => filterNames(sheet, filters)),
    ];
    const removed = [
      ...(changes.removedNames ?? []),
      ...filtered.map(({ sheet }) => ({ name: FILTER_NAME, scope: sheet })),
    ];
    if (names.length + removed.length > 0) setNames(file, workbook, names, removed, (sheet) => this.namesSeenBy(sheet));
    if (this.styles?.changed) file.set(workbook.styles!, this.styles.xml);
    // The chain lists the formulas' cells: one that is out of date makes a program repair the file, none is made anew.
    if (this.formulasChanged && workbook.calculationChain) {
      file.removePart(workbook.calculationChain);
      file.unrelate(workbook.part, workbook.calculationChain);
    }
  }

  /** Sheets renamed, removed and put in order, with all that names them. New ones are there already. */
  private arrange(order: readonly SheetPlace[], added: readonly SheetModel[]): void {
    const names = new Set(order.map(({ name }) => name.toLowerCase()));
    if (!order.length || names.size !== order.length)
      throw new XlsxError('unsupported', 'A workbook needs sheets, and no two may have the same name');
    const isNew = new Set(added.map(({ name }) => name));
    const staying = new Set(order.map(({ name, was }) => was ?? (isNew.has(name) ? undefined : name)));
    const renamed = order.filter(({ name, was = name }) => was !== name);
    shiftPackage(this.file, [
      ...this.workbook.sheets.flatMap(({ name: sheet }): Operation[] =>
        staying.has(sheet) ? [] : [{ kind: 'removeSheet', sheet }],
      ),
      ...renamed.map(({ name, was }): Operation => ({ kind: 'renameSheet', sheet: was!, name: `${BETWEEN}${name}` })),
      ...[...renamed, ...added].map(({ name }): Operation => ({
        kind: 'renameSheet',
        sheet: `${BETWEEN}${name}`,
        name,
      })),
      ...order.map(({ name }, at): Operation => ({ kind: 'placeSheet', sheet: name, at })),
    ]);
    const nameNow = new Map(renamed.map(({ name, was }) => [was, name]));
    const { sheets, removedNames = [] } = this.changes;
    this.changes = {
      ...this.changes,
      sheets: sheets.map((one) => ({ ...one, sheet: nameNow.get(one.sheet) ?? one.sheet })),
      // A name that held on a sheet went with it.
      removedNames: removedNames.flatMap((one) =>
        one.scope === undefined
          ? [one]
          : staying.has(one.scope)
            ? [{ ...one, scope: nameNow.get(one.scope) ?? one.scope }]
            : [],
      ),
    };
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

  /** The names that a sheet's formulas see once the changes are made. */
  private namesSeenBy(sheet: string | undefined): IsName {
    return seenNames(() => ({ names: this.names(), tables: this.tableNames() }), sheet);
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
