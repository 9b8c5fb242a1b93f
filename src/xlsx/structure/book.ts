/** The parts of a package that an edit of the structure concerns, each read once and written back where it changed. */
import { isInRange, parseRange } from '../../sheet';
import { XlsxError } from '../error';
import type { Package } from '../package';
import { replaceElements } from '../elements';
import { joinSheet, splitSheet } from '../patch-frame';
import { readWorkbookPart } from '../workbook-part';
import { XmlTree, type XmlElement } from '../xml-tree';
import { isSheet, sheetsOf } from './areas';
import { followAnchors, followElsewhere, followPlaced, isElsewhere, linkAfter, vmlAfter } from './around';
import { SheetCells } from './cells';
import type { FormulaEdit } from './formulas';
import { Frame } from './frame';
import type { Obstacle } from './obstacles';
import { isCellOperation, type CellOperation, type RowsOrder } from './operation';
import { TableParts } from './tables';
import { WorkbookTree, type SheetEntry } from './workbook';
import { LAST_ROW, type CellsMove } from '../../sheet/formula';

export interface SheetParts {
  readonly part: string;
  readonly frame: Frame;
  readonly cells: SheetCells;
  readonly tables: Map<string, TableParts>;
}

export class Book {
  readonly workbook: WorkbookTree;
  private readonly sheets = new Map<string, SheetParts>();
  private readonly trees = new Map<string, XmlTree>();
  private readonly caches: readonly (string | undefined)[];
  private readonly elsewhere: readonly string[];
  private readonly namesBefore: string;

  constructor(readonly file: Package) {
    const workbook = readWorkbookPart(file);
    this.workbook = new WorkbookTree(file, workbook.part);
    this.namesBefore = this.sheetNames;
    this.caches = [workbook.calculationChain, ...file.related(workbook.part, 'volatileDependencies')];
    this.elsewhere = file.parts().filter((part) => /\.xml$/i.test(part) && isElsewhere(file.contentType(part) ?? ''));
  }

  entry(name: string): SheetEntry {
    const entry = this.workbook.sheet(name);
    if (!entry?.part) throw new XlsxError('no-sheet', `The workbook has no sheet ${name}`);
    return entry;
  }

  sheet(name: string): SheetParts {
    const part = this.entry(name).part!;
    const known = this.sheets.get(part);
    if (known) return known;
    const { file } = this;
    const { frame, data } = splitSheet(file.text(part));
    const tables = new Map(
      file.related(part, 'table').map((table) => [table, new TableParts(table, file.text(table))] as const),
    );
    const made = { part, frame: new Frame(frame), cells: new SheetCells(data), tables };
    this.sheets.set(part, made);
    return made;
  }

  table(name: string): TableParts {
    for (const entry of this.worksheets)
      for (const table of this.sheet(entry.name).tables.values())
        if (table.name.toLowerCase() === name.toLowerCase()) return table;
    throw new XlsxError('unsupported', `The workbook has no table ${name}`);
  }

  addSheet(name: string, at: number): void {
    this.refuseTaken(name);
    this.workbook.add(name, at);
  }

  renameSheet(sheet: string, name: string): void {
    const { element } = this.entry(sheet);
    this.refuseTaken(name, element);
    element.set('name', name);
  }

  private refuseTaken(name: string, own?: XmlElement): void {
    if (this.workbook.entries.some((one) => one.element !== own && isSheet(one.name, name)))
      throw new XlsxError('unsupported', `The workbook has a sheet ${name} already`);
  }

  /** A sheet goes with all parts to which only it leads. */
  removeSheet(sheet: string): void {
    const entry = this.entry(sheet);
    if (this.worksheets.length === 1) throw new XlsxError('unsupported', 'A workbook needs one sheet');
    const part = entry.part!;
    const tables = [...this.sheet(sheet).tables.values()].map(({ name }) => name);
    this.workbook.remove(entry);
    this.sheets.delete(part);
    this.file.unrelate(this.workbook.part, part);
    this.removePart(part);
    for (const table of tables) this.followFormulas({ kind: 'removeTable', table });
  }

  obstacles(sheets: readonly string[]): Obstacle[] {
    return [...new Set(sheets)].flatMap((sheet) => [...this.obstaclesOn(sheet), ...this.sourcesOn(sheet)]);
  }

  fixedObstacles(): Obstacle[] {
    return this.worksheets.flatMap(({ name, part }) => {
      const mayHold =
        /t="(array|dataTable)"/.test(this.file.text(part!)) ||
        this.file.relationships(part!).some(({ type }) => type === 'pivotTable');
      const own = mayHold ? this.obstaclesOn(name).filter(({ kind }) => kind !== 'table' && kind !== 'merge') : [];
      return [...own, ...this.sourcesOn(name)];
    });
  }

  /** Changes the tables of the edit's sheets; gives what formulas have to know of that. */
  followTables(edit: CellOperation): FormulaEdit[] {
    const followed: FormulaEdit[] = [];
    for (const sheet of new Set(sheetsOf(edit))) {
      const { part, tables, frame } = this.sheet(sheet);
      for (const [target, table] of tables) {
        const { name, columns: order } = table;
        table.followFormulas(sheet, edit);
        const { isGone, goneColumns } = table.follow(sheet, edit);
        if (goneColumns.length) followed.push({ kind: 'removeColumns', table: name, columns: goneColumns, order });
        if (!isGone) continue;
        followed.push({ kind: 'removeTable', table: name });
        tables.delete(target);
        frame.dropTable(this.file.relationships(part).find((one) => one.target === target)?.id ?? '');
        this.file.unrelate(part, target);
        this.removePart(target);
      }
    }
    return followed;
  }

  /** Changes everything else that names cells or sheets: all but the cells of the edit's sheets and their tables. */
  followFormulas(edit: FormulaEdit): void {
    const moved = new Set(isCellOperation(edit) ? sheetsOf(edit).map((name) => name.toLowerCase()) : []);
    for (const { name } of this.worksheets) {
      const { part } = this.entry(name);
      this.followAround(part!, name, edit);
      if (!moved.has(name.toLowerCase()) && !this.mayConcern(part!, edit)) continue;
      const { frame, cells, tables } = this.sheet(name);
      cells.followFormulas(edit, (row, column) => ({
        sheet: name,
        isInTable: [...tables.values()].some(({ area }) => isInRange(area, row, column)),
      }));
      frame.note(name);
      frame.follow(name, edit);
      followAnchors(frame.root, name, edit);
      if (!moved.has(name.toLowerCase())) for (const table of tables.values()) table.followFormulas(name, edit);
    }
    for (const entry of this.workbook.entries)
      if (!entry.isWorksheet && entry.part) this.followAround(entry.part, '', edit);
    for (const part of this.elsewhere) if (this.file.has(part)) followElsewhere(this.tree(part).root, edit);
    this.workbook.followNames(edit);
  }

  /** Rows of a range in another order: its cells, with the notes and links in them. */
  order(operation: RowsOrder): void {
    const { sheet } = operation;
    const { part, cells, frame } = this.sheet(sheet);
    cells.order(operation);
    const notes = this.related(part, 'comments', 'threadedComment', 'vmlDrawing');
    if (notes.length === 0 && !frame.hasLinks) return;
    for (const move of asMoves(operation)) {
      this.followNotes(part, sheet, move);
      frame.followLinks(sheet, move);
    }
  }

  write(): void {
    const { file, workbook } = this;
    for (const sheet of this.sheets.values()) this.writeSheet(sheet);
    for (const [part, tree] of this.trees) if (tree.isChanged && file.has(part)) file.set(part, tree.toString());
    if (workbook.isChanged) file.set(workbook.part, workbook.toString());
    if (this.sheetNames !== this.namesBefore) dropTitles(file);
    // The chain lists the formulas' cells: one that is out of date makes a program repair the file, none is made anew.
    for (const cache of this.caches)
      if (cache && file.has(cache)) {
        file.removePart(cache);
        file.unrelate(workbook.part, cache);
      }
  }

  private writeSheet({ part, frame, cells, tables }: SheetParts): void {
    const { file } = this;
    for (const table of tables.values()) {
      for (const { row, column, name } of table.headers) cells.putText(row, column, name);
      if (table.isChanged) file.set(table.part, table.toString());
    }
    frame.growDimension(tables);
    if (frame.isChanged || cells.isChanged)
      file.set(part, joinSheet(frame.toString(), cells.isChanged ? cells.bytes() : splitSheet(file.text(part)).data));
  }

  private get sheetNames(): string {
    return this.workbook.entries.map(({ name }) => name).join('\n');
  }

  private get worksheets(): SheetEntry[] {
    return this.workbook.entries.filter(({ isWorksheet, part }) => isWorksheet && part && this.file.has(part));
  }

  /** False for a sheet whose part names no other sheet; such a sheet is not read at all. */
  private mayConcern(part: string, edit: FormulaEdit): boolean {
    return this.sheets.has(part) || !isCellOperation(edit) || this.file.text(part).includes('!');
  }

  private tree(part: string): XmlTree {
    const tree = this.trees.get(part) ?? new XmlTree(this.file.text(part));
    this.trees.set(part, tree);
    return tree;
  }

  /** Notes, threads, drawings and links of a sheet. */
  private followAround(part: string, sheet: string, edit: FormulaEdit): void {
    this.followNotes(part, sheet, edit);
    for (const target of this.related(part, 'tableSingleCells', 'pivotTable'))
      followPlaced(this.tree(target).root, sheet, edit);
    for (const target of this.related(part, 'drawing', 'ctrlProp')) {
      followAnchors(this.tree(target).root, sheet, edit);
      this.followLinks(target, sheet, edit);
    }
    this.followLinks(part, sheet, edit);
  }

  /** Notes with their shapes, threads of comments. */
  private followNotes(part: string, sheet: string, edit: FormulaEdit): void {
    const { file } = this;
    for (const target of this.related(part, 'comments', 'threadedComment'))
      followPlaced(this.tree(target).root, sheet, edit);
    for (const target of this.related(part, 'vmlDrawing')) {
      const before = file.text(target);
      const after = vmlAfter(before, sheet, edit);
      if (after !== before) file.set(target, after);
    }
  }

  private related(part: string, ...types: readonly string[]): string[] {
    return types.flatMap((type) => this.file.related(part, type));
  }

  /** Links into the workbook that are written as addresses: "#Parts!A1". */
  private followLinks(part: string, sheet: string, edit: FormulaEdit): void {
    const name = part.replace(/([^/]*)$/, '_rels/$1.rels');
    if (!this.file.has(name) || !this.file.text(name).includes('"#')) return;
    for (const element of this.tree(name).root.elements) {
      const target = element.get('Target') ?? '';
      if (target.startsWith('#')) element.set('Target', linkAfter(target, sheet, edit));
    }
  }

  private obstaclesOn(sheet: string): Obstacle[] {
    const { part, cells, tables, frame } = this.sheet(sheet);
    return [
      ...cells
        .extents(sheet)
        .filter(({ isDynamic }) => !isDynamic)
        .map(({ area, type }): Obstacle => ({ sheet, area, kind: type === 'array' ? 'array' : 'whatif' })),
      ...[...tables.values()].map(({ area, name, headerRows: headers, totalsRows: totals }): Obstacle => ({
        sheet,
        area,
        kind: 'table',
        name,
        headers,
        totals,
      })),
      ...frame.merges.flatMap((merge) => obstacleAt(merge, sheet, { kind: 'merge' })),
      ...this.file.related(part, 'pivotTable').flatMap((target) => {
        const { root } = this.tree(target);
        const name = root.get('name') ?? '';
        return obstacleAt(root.named('location')[0]?.get('ref'), sheet, { kind: 'pivot', name });
      }),
    ];
  }

  private sourcesOn(sheet: string): Obstacle[] {
    return this.elsewhere
      .filter((part) => this.file.has(part))
      .flatMap((part) => [...this.tree(part).root.walk()])
      .filter(({ name }) => name === 'worksheetSource' || name === 'rangeSet')
      .flatMap((source) =>
        isSheet(source.get('sheet') ?? '', sheet) ? obstacleAt(source.get('ref'), sheet, { kind: 'source' }) : [],
      );
  }

  private removePart(part: string): void {
    const { file } = this;
    const targets = file.relationships(part).flatMap(({ target }) => target ?? []);
    file.removePart(part);
    const rels = part.replace(/([^/]*)$/, '_rels/$1.rels');
    if (file.has(rels)) file.set(rels, undefined);
    this.trees.delete(part);
    for (const target of targets) if (file.has(target) && !this.isReached(target)) this.removePart(target);
  }

  private isReached(part: string): boolean {
    return this.file
      .parts()
      .some((other) =>
        this.file.relationships(other).some(({ target }) => target?.toLowerCase() === part.toLowerCase()),
      );
  }
}

/** None where the text names no range. */
function obstacleAt(ref: string | undefined, sheet: string, what: Pick<Obstacle, 'kind' | 'name'>): Obstacle[] {
  const area = parseRange(ref ?? '', sheet);
  return area ? [{ sheet, area, ...what }] : [];
}

/** Removes the list of sheets from the file's properties. Programs make it anew, and an outdated one would contradict the workbook. */
function dropTitles(file: Package): void {
  const [part] = file.related('', 'extended-properties');
  if (!part) return;
  const left = ['HeadingPairs', 'TitlesOfParts'].reduce(
    (xml, name) => replaceElements(xml, name, () => ''),
    file.text(part),
  );
  file.set(part, left);
}

/** Another order of rows as moves, for what goes with single cells. The rows are set aside at the sheet's end, and brought back one by one. Nothing but notes and links may follow these moves. */
function asMoves({ sheet, row, column, columns, order, staying }: RowsOrder): CellsMove[] {
  const stays = new Set(staying);
  const aside = LAST_ROW + 1 - order.length;
  return runsBeside(column, columns, stays).flatMap(([first, count]): CellsMove[] => {
    const rowsOf = (from: number, rows: number, to: number): CellsMove => ({
      kind: 'move',
      from: { sheet, row: from, rows, column: first, columns: count },
      to: { sheet, row: to, column: first },
    });
    return [rowsOf(row, order.length, aside), ...order.map((from, to) => rowsOf(aside + from, 1, row + to))];
  });
}

/** Columns of a range without some: each run as its first column and how many they are. */
function runsBeside(column: number, columns: number, without: ReadonlySet<number>): [first: number, count: number][] {
  const runs: [number, number][] = [];
  for (let place = column; place < column + columns; place++) {
    if (without.has(place)) continue;
    const last = runs.at(-1);
    if (last && last[0] + last[1] === place) last[1] += 1;
    else runs.push([place, 1]);
  }
  return runs;
}
