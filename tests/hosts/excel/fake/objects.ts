/** Ranges, sheets and tables. Each is a path to a place, looked up when the request is carried out. */
import { ExcelFault, type FakeSheet, type FakeTable, type Place } from './book';
import { ClientObject, ClientResult, Collection, type FakeContext } from './client-object';
import { DataValidation, Format, type Painted } from './looks';

const ROWS = 1_048_576;
const COLUMNS = 16_384;

interface Spot {
  readonly sheet: FakeSheet;
  readonly place: Place;
}

export class Range extends ClientObject implements Painted {
  readonly worksheet: Worksheet;

  constructor(
    context: FakeContext,
    private readonly find: () => Spot | undefined,
  ) {
    super(context, [
      'values',
      'valueTypes',
      'formulas',
      'numberFormat',
      'rowIndex',
      'columnIndex',
      'rowCount',
      'columnCount',
    ]);
    this.worksheet = new Worksheet(context, () => this.spot().sheet);
  }

  spot(): Spot {
    const spot = this.find();
    if (!spot) throw new ExcelFault('ItemNotFound');
    const { row, column, rows, columns } = spot.place;
    if (row < 0 || column < 0 || rows < 1 || columns < 1 || row + rows > ROWS || column + columns > COLUMNS)
      throw new ExcelFault('InvalidArgument', 'The range is not on the sheet.');
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
        const own = Object.fromEntries(
          Object.entries(look).map(([part, value]) => [
            part,
            Array.isArray(value) ? (value as unknown[][])[r]?.[c] : value,
          ]),
        );
        sheet.looks.set(key, { ...sheet.looks.get(key), ...own });
      }
    }
  }

  shared(part: string, otherwise: unknown): unknown {
    const { sheet, place } = this.spot();
    const found = new Set(
      Array.from(
        { length: place.rows * place.columns },
        (_cell, i) =>
          sheet.looks.get(`${place.row + Math.floor(i / place.columns)},${place.column + (i % place.columns)}`)?.[
            part
          ] ?? otherwise,
      ),
    );
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
      return {
        row,
        column,
        rows: Math.min(place.row + place.rows, second.row + second.rows) - row,
        columns: Math.min(place.column + place.columns, second.column + second.columns) - column,
      };
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
    super(context, ['id', 'name', 'visibility', 'position']);
    this.protection = new Protection(context, find);
  }
  protected read(name: string): unknown {
    return name === 'position' ? this.context.book.sheets.indexOf(this.find()) : this.find()[name as 'name'];
  }
  protected override write(name: string, value: unknown): void {
    if (name !== 'position') return super.write(name, value);
    const sheet = this.find();
    const { book } = this.context;
    book.sheets = book.sheets.filter((one) => one !== sheet);
    book.sheets.splice(Number(value), 0, sheet);
  }
  get shapes() {
    return { getCount: () => new ClientResult(this.context, () => 0) };
  }
  get charts() {
    return { getCount: () => new ClientResult(this.context, () => 0) };
  }
  get freezePanes() {
    const freeze = (rows: () => number, columns: () => number): void =>
      this.context.enqueue(() => (this.find().frozen = { rows: rows(), columns: columns() }));
    return {
      getLocationOrNullObject: (): Range =>
        new Range(this.context, () => {
          const sheet = this.find();
          const { rows, columns } = sheet.frozen;
          return rows + columns > 0
            ? { sheet, place: { row: 0, column: 0, rows: rows || ROWS, columns: columns || COLUMNS } }
            : undefined;
        }),
      freezeAt: (range: Range): void =>
        freeze(
          () => range.spot().place.rows,
          () => range.spot().place.columns,
        ),
      freezeRows: (count: number): void =>
        freeze(
          () => count,
          () => 0,
        ),
      freezeColumns: (count: number): void =>
        freeze(
          () => 0,
          () => count,
        ),
      unfreeze: (): void =>
        freeze(
          () => 0,
          () => 0,
        ),
    };
  }
  getRangeByIndexes(row: number, column: number, rows: number, columns: number): Range {
    return new Range(this.context, () => ({ sheet: this.find(), place: { row, column, rows, columns } }));
  }
  getUsedRangeOrNullObject(_valuesOnly?: boolean): Range {
    return new Range(this.context, () => {
      // Nothing, of an …OrNullObject that found none.
      const sheet = this.find() as FakeSheet | undefined;
      const place = sheet?.used();
      return place && { sheet: sheet!, place };
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
    const taken = [...book.tables, ...book.names].some(
      (other) => other !== this.find() && other.name.toLowerCase() === String(value).toLowerCase(),
    );
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
      add: (index?: number | null, values?: unknown): void =>
        touch((table) => this.context.book.insertRows(table, index ?? null, values)),
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
      return {
        sheet,
        place: { row: place.row + 1, column: place.column + this.index(), rows: place.rows - 1, columns: 1 },
      };
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
    return Array.from(
      { length: this.find().place.columns },
      (_column, index) => new TableColumn(this.context, this.find, () => index),
    );
  }
  getItem(name: string): TableColumn {
    return new TableColumn(this.context, this.find, () => {
      const { sheet, place } = this.find();
      for (let c = 0; c < place.columns; c++)
        if (String(sheet.cell(place.row, place.column + c).value).toLowerCase() === name.toLowerCase()) return c;
      throw new ExcelFault('ItemNotFound');
    });
  }
}
