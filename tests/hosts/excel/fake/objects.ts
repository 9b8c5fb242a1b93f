/** Excel's objects, as many of them as the add-in uses. Each is a path to a place, looked up when the request is carried out. */
import { parseRange } from '../../../../src/workbook';
import { ExcelFault, type FakeBook, type FakeSheet, type FakeTable, type Place } from './book';
import { ClientObject, ClientResult, Collection, type FakeContext } from './client-object';

const ROWS = 1_048_576;
const COLUMNS = 16_384;

interface Spot {
  readonly sheet: FakeSheet;
  readonly place: Place;
}

/** Handlers of one kind of event. */
export class EventHandlers {
  readonly active = new Set<(event: unknown) => unknown>();

  /** As Excel's: on and off with the next sync. */
  at(context: FakeContext) {
    return {
      add: (handler: (event: unknown) => unknown) => {
        context.enqueue(() => this.active.add(handler));
        return { context, remove: () => context.enqueue(() => this.active.delete(handler)) };
      },
    };
  }
}

export interface Events {
  readonly changed: EventHandlers;
  readonly calculated: EventHandlers;
  readonly selected: EventHandlers;
}

export class Range extends ClientObject {
  readonly worksheet: Worksheet;

  constructor(
    context: FakeContext,
    private readonly find: () => Spot | undefined,
  ) {
    super(context, ['values', 'valueTypes', 'formulas', 'numberFormat', 'rowIndex', 'columnIndex', 'rowCount', 'columnCount']);
    this.worksheet = new Worksheet(context, () => this.spot().sheet);
  }

  spot(): Spot {
    const spot = this.find();
    if (!spot) throw new ExcelFault('ItemNotFound');
    const { row, column, rows, columns } = spot.place;
    if (row < 0 || column < 0 || rows < 1 || columns < 1 || row + rows > ROWS || column + columns > COLUMNS) throw new ExcelFault('InvalidArgument', 'The range is not on the sheet.');
    return spot;
  }

  protected override isNull(): boolean {
    return this.find() === undefined;
  }

  protected read(name: string): unknown {
    const { sheet, place } = this.spot();
    if (name === 'rowIndex') return place.row;
    if (name === 'columnIndex') return place.column;
    if (name === 'rowCount') return place.rows;
    if (name === 'columnCount') return place.columns;
    return Array.from({ length: place.rows }, (_row, r) =>
      Array.from({ length: place.columns }, (_column, c) => {
        const cell = sheet.cell(place.row + r, place.column + c);
        if (name === 'values') return cell.value;
        if (name === 'valueTypes') return cell.type;
        if (name === 'formulas') return cell.formula ?? cell.value;
        return sheet.looks.get(`${place.row + r},${place.column + c}`)?.numberFormat ?? 'General';
      }),
    );
  }

  protected override write(name: string, value: unknown): void {
    const { sheet, place } = this.spot();
    if (name === 'formulas' || name === 'values') sheet.write(place, value);
    else if (name === 'numberFormat') this.paint({ numberFormat: value });
    else return super.write(name, value);
    this.context.written.add(sheet.name);
  }

  paint(look: Record<string, unknown>): void {
    const { sheet, place } = this.spot();
    sheet.checkOpen();
    for (let r = 0; r < place.rows; r++) {
      for (let c = 0; c < place.columns; c++) {
        const key = `${place.row + r},${place.column + c}`;
        const own = Object.fromEntries(Object.entries(look).map(([part, value]) => [part, Array.isArray(value) ? (value as unknown[][])[r]?.[c] : value]));
        sheet.looks.set(key, { ...sheet.looks.get(key), ...own });
      }
    }
  }

  /** A part of the look where all cells share it, else null. */
  shared(part: string, otherwise: unknown): unknown {
    const { sheet, place } = this.spot();
    const found = new Set(Array.from({ length: place.rows * place.columns }, (_cell, i) => sheet.looks.get(`${place.row + Math.floor(i / place.columns)},${place.column + (i % place.columns)}`)?.[part] ?? otherwise));
    return found.size === 1 ? [...found][0] : null;
  }

  // As in Office.js, what is reached by a property is one object however often it is reached.
  private formatOf: Format | undefined;
  private validationOf: DataValidation | undefined;
  get format(): Format {
    return (this.formatOf ??= new Format(this.context, this));
  }
  get dataValidation(): DataValidation {
    return (this.validationOf ??= new DataValidation(this.context, this));
  }

  private derived(change: (place: Place) => Place): Range {
    return new Range(this.context, () => {
      const spot = this.spot();
      return { sheet: spot.sheet, place: change(spot.place) };
    });
  }
  getRow(row: number): Range {
    return this.derived((place) => ({ ...place, row: place.row + row, rows: 1 }));
  }
  getResizedRange(rows: number, columns: number): Range {
    return this.derived((place) => ({ ...place, rows: place.rows + rows, columns: place.columns + columns }));
  }
  getEntireColumn(): Range {
    return this.derived((place) => ({ ...place, row: 0, rows: ROWS }));
  }
  getIntersection(other: Range): Range {
    return this.derived((place) => {
      const { place: second } = other.spot();
      const [row, column] = [Math.max(place.row, second.row), Math.max(place.column, second.column)];
      return { row, column, rows: Math.min(place.row + place.rows, second.row + second.rows) - row, columns: Math.min(place.column + place.columns, second.column + second.columns) - column };
    });
  }
  getSpillParentOrNullObject(): Range {
    return new Range(this.context, () => {
      const { sheet, place } = this.spot();
      const anchor = sheet.looks.get(`${place.row},${place.column}`)?.spillParent as Place | undefined;
      return anchor && { sheet, place: anchor };
    });
  }
  select(): void {
    this.context.enqueue(() => {
      this.context.book.selection = this.spot();
      this.context.onSelected();
    });
  }
}

class Format extends ClientObject {
  readonly font: Font;
  readonly fill: Fill;
  constructor(
    context: FakeContext,
    private readonly range: Range,
  ) {
    super(context, ['columnWidth']);
    this.font = new Font(context, range);
    this.fill = new Fill(context, range);
  }
  protected read(): unknown {
    return this.range.shared('columnWidth', 48);
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
}

class Font extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Range,
  ) {
    super(context, ['bold']);
  }
  protected read(): unknown {
    return this.range.shared('bold', false);
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
}

class Fill extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Range,
  ) {
    super(context, ['color']);
  }
  protected read(): unknown {
    return this.range.shared('color', '#FFFFFF');
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
  clear(): void {
    this.context.enqueue(() => this.range.paint({ color: undefined }));
  }
}

class DataValidation extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly range: Range,
  ) {
    super(context, ['rule', 'type']);
  }
  protected read(name: string): unknown {
    const rule = this.range.shared('rule', undefined);
    return name === 'type' ? (rule ? 'List' : 'None') : (rule ?? {});
  }
  protected override write(name: string, value: unknown): void {
    this.range.paint({ [name]: value });
  }
  clear(): void {
    this.context.enqueue(() => this.range.paint({ rule: undefined }));
  }
}

class Protection extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly find: () => FakeSheet,
  ) {
    super(context, ['protected']);
  }
  protected read(): unknown {
    return this.find().protected;
  }
}

export class Worksheet extends ClientObject {
  readonly protection: Protection;

  constructor(
    context: FakeContext,
    private readonly find: () => FakeSheet,
  ) {
    super(context, ['id', 'name', 'visibility']);
    this.protection = new Protection(context, find);
  }
  protected read(name: string): unknown {
    return this.find()[name as 'name'];
  }
  getRangeByIndexes(row: number, column: number, rows: number, columns: number): Range {
    return new Range(this.context, () => ({ sheet: this.find(), place: { row, column, rows, columns } }));
  }
  getUsedRangeOrNullObject(_valuesOnly?: boolean): Range {
    return new Range(this.context, () => {
      const sheet = this.find();
      const place = sheet.used();
      return place && { sheet, place };
    });
  }
  activate(): void {
    this.context.enqueue(() => void this.find());
  }
  delete(): void {
    this.context.enqueue(() => this.context.book.removeSheet(this.find()));
  }
  get tables() {
    return {
      add: (range: Range, hasHeaders: boolean): Table => {
        let made: FakeTable | undefined;
        this.context.enqueue(() => {
          const sheet = this.find();
          sheet.checkOpen();
          if (!hasHeaders) throw new ExcelFault('InvalidArgument');
          made = { name: `Table${this.context.book.tables.length + 1}`, sheet, place: range.spot().place };
          this.context.book.tables.push(made);
        });
        return new Table(this.context, () => made!);
      },
    };
  }
}

export class Table extends ClientObject {
  readonly worksheet: Worksheet;

  constructor(
    context: FakeContext,
    private readonly find: () => FakeTable,
  ) {
    super(context, ['name', 'showHeaders']);
    this.worksheet = new Worksheet(context, () => this.find().sheet);
  }
  protected read(name: string): unknown {
    return name === 'showHeaders' ? true : this.find().name;
  }
  protected override write(name: string, value: unknown): void {
    if (name !== 'name') return super.write(name, value);
    const { book } = this.context;
    const taken = [...book.tables, ...book.names].some((other) => other !== this.find() && other.name.toLowerCase() === String(value).toLowerCase());
    if (taken) throw new ExcelFault('ItemAlreadyExists');
    this.find().name = String(value);
  }
  getRange(): Range {
    return new Range(this.context, () => this.find());
  }
  getDataBodyRange(): Range {
    return new Range(this.context, () => {
      const { sheet, place } = this.find();
      return { sheet, place: { ...place, row: place.row + 1, rows: place.rows - 1 } };
    });
  }
  convertToRange(): void {
    this.context.enqueue(() => {
      const table = this.find();
      this.context.book.tables = this.context.book.tables.filter((one) => one !== table);
    });
  }
  private columnsOf: TableColumns | undefined;
  get columns(): TableColumns {
    return (this.columnsOf ??= new TableColumns(this.context, this.find));
  }
  get rows() {
    const touch = (action: (table: FakeTable) => void): void =>
      this.context.enqueue(() => {
        const table = this.find();
        action(table);
        this.context.written.add(table.sheet.name);
      });
    return {
      add: (index?: number | null, values?: unknown): void => touch((table) => this.context.book.insertRows(table, index ?? null, values)),
      getItemAt: (row: number) => ({ delete: (): void => touch((table) => this.context.book.removeRow(table, row)) }),
    };
  }
}

class TableColumn extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly table: () => FakeTable,
    private readonly index: () => number,
  ) {
    super(context, ['name']);
  }
  protected read(): unknown {
    const { sheet, place } = this.table();
    return String(sheet.cell(place.row, place.column + this.index()).value);
  }
  getDataBodyRange(): Range {
    return new Range(this.context, () => {
      const { sheet, place } = this.table();
      return { sheet, place: { row: place.row + 1, column: place.column + this.index(), rows: place.rows - 1, columns: 1 } };
    });
  }
}

class TableColumns extends Collection<TableColumn> {
  constructor(
    context: FakeContext,
    private readonly find: () => FakeTable,
  ) {
    super(context);
  }
  protected list(): TableColumn[] {
    return Array.from({ length: this.find().place.columns }, (_column, index) => new TableColumn(this.context, this.find, () => index));
  }
  getItem(name: string): TableColumn {
    return new TableColumn(this.context, this.find, () => {
      const { sheet, place } = this.find();
      for (let c = 0; c < place.columns; c++) if (String(sheet.cell(place.row, place.column + c).value).toLowerCase() === name.toLowerCase()) return c;
      throw new ExcelFault('ItemNotFound');
    });
  }
}

class Tables extends Collection<Table> {
  protected list(): Table[] {
    return this.context.book.tables.map((table) => new Table(this.context, () => table));
  }
  getCount(): ClientResult<number> {
    return new ClientResult(this.context, () => this.context.book.tables.length);
  }
  getItem(name: string): Table {
    return new Table(this.context, () => this.context.book.table(name));
  }
  getItemAt(index: number): Table {
    return new Table(this.context, () => {
      const table = this.context.book.tables[index];
      if (!table) throw new ExcelFault('ItemNotFound');
      return table;
    });
  }
}

class Worksheets extends Collection<Worksheet> {
  constructor(
    context: FakeContext,
    private readonly events: Events,
  ) {
    super(context);
  }
  protected list(): Worksheet[] {
    return this.context.book.sheets.map((sheet) => new Worksheet(this.context, () => sheet));
  }
  getItem(name: string): Worksheet {
    return new Worksheet(this.context, () => this.context.book.sheet(name));
  }
  add(name: string): Worksheet {
    this.context.enqueue(() => this.context.book.addSheet(name));
    return this.getItem(name);
  }
  get onChanged() {
    return this.events.changed.at(this.context);
  }
  get onCalculated() {
    return this.events.calculated.at(this.context);
  }
}

class NamedItem extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly find: () => FakeBook['names'][number],
  ) {
    super(context, ['name']);
  }
  protected read(): unknown {
    return this.find().name;
  }
  getRange(): Range {
    return new Range(this.context, () => {
      const [sheet, address] = this.find().refersTo.split('!') as [string, string];
      return { sheet: this.context.book.sheet(sheet), place: parseRange(address.replaceAll('$', ''), sheet)! };
    });
  }
}

class Names extends Collection<NamedItem> {
  protected list(): NamedItem[] {
    return this.context.book.names.map((item) => new NamedItem(this.context, () => item));
  }
  getItem(name: string): NamedItem {
    return new NamedItem(this.context, () => {
      const found = this.context.book.names.find((item) => item.name.toLowerCase() === name.toLowerCase());
      if (!found) throw new ExcelFault('ItemNotFound');
      return found;
    });
  }
}

export class Workbook extends ClientObject {
  readonly worksheets: Worksheets;
  readonly tables: Tables;
  readonly names: Names;

  constructor(
    context: FakeContext,
    private readonly events: Events,
  ) {
    super(context, ['name']);
    this.worksheets = new Worksheets(context, events);
    this.tables = new Tables(context);
    this.names = new Names(context);
  }
  protected read(): unknown {
    return this.context.book.name;
  }
  getSelectedRange(): Range {
    return new Range(this.context, () => {
      const { selection } = this.context.book;
      if (!selection) throw new ExcelFault('InvalidSelection', 'The current selection is invalid for this operation.');
      return selection;
    });
  }
  get onSelectionChanged() {
    return this.events.selected.at(this.context);
  }
}
