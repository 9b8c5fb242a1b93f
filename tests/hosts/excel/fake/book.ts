/** A workbook as Excel keeps it, far enough for the add-in's calls: cells, sheets, tables, looks. It is calculated by `calculate`. */
import { CellError, isErrorCode, type WorkbookModel } from '../../../../src/sheet';

/** An error as Excel gives it, with its code. */
export class ExcelFault extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message);
  }
}

type CellType = 'Empty' | 'String' | 'Double' | 'Boolean' | 'Error';
export interface FakeCell {
  readonly value: string | number | boolean;
  readonly type: CellType;
  readonly formula?: string;
}
export interface Place {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

const EMPTY: FakeCell = { value: '', type: 'Empty' };
/** What Excel makes of a typed fraction or date is a number of days; which one is of no matter here. */
const SOME_DAY = 45_000;

/** A cell from what is typed or written into `formulas`; undefined where null leaves the cell as it is. */
export function typedCell(input: unknown): FakeCell | undefined {
  if (input === null || input === undefined) return undefined;
  if (typeof input === 'number') return { value: input, type: 'Double' };
  if (typeof input === 'boolean') return { value: input, type: 'Boolean' };
  if (typeof input !== 'string') throw new ExcelFault('InvalidArgument', `a cell cannot hold ${JSON.stringify(input)}`);
  if (input === '') return EMPTY;
  if (input.startsWith("'")) return { value: input.slice(1), type: 'String' };
  if (input.startsWith('=')) return { value: 0, type: 'Double', formula: input };
  if (isErrorCode(input)) return { value: input, type: 'Error' };
  if (/^(true|false)$/i.test(input)) return { value: input.toLowerCase() === 'true', type: 'Boolean' };
  if (/^[+-]?[\d.,]+%?$/.test(input)) return { value: Number.parseFloat(input.replaceAll(',', '')), type: 'Double' };
  if (/^(\d+[/-]\d+([/-]\d+)?|[A-Z][a-z]{2,8} \d+)$/.test(input)) return { value: SOME_DAY, type: 'Double' };
  return { value: input, type: 'String' };
}

export interface FakeChart {
  name: string;
  title: string;
  readonly type: string;
  readonly source: Place;
  at?: Place;
  isReversed: boolean;
}

export class FakeSheet {
  readonly cells = new Map<string, FakeCell>();
  /** Looks by "row,column", and column widths. */
  readonly looks = new Map<string, Record<string, unknown>>();
  protected = false;
  frozen = { rows: 0, columns: 0 };
  readonly charts: FakeChart[] = [];
  /** What was set of the page that it is printed on, by the properties' names. */
  readonly page: Record<string, unknown> = {};
  visibility: 'Visible' | 'Hidden' = 'Visible';

  constructor(
    readonly id: string,
    public name: string,
  ) {}

  cell(row: number, column: number): FakeCell {
    return this.cells.get(`${row},${column}`) ?? EMPTY;
  }

  set(row: number, column: number, cell: FakeCell | undefined): void {
    if (!cell) return;
    if (cell.type === 'Empty') this.cells.delete(`${row},${column}`);
    else this.cells.set(`${row},${column}`, cell);
  }

  /** Refuses what a protected sheet refuses. */
  checkOpen(): void {
    if (this.protected) throw new ExcelFault('AccessDenied', 'The sheet is protected.');
  }

  write(place: Place, block: unknown): void {
    this.checkOpen();
    if (
      !Array.isArray(block) ||
      block.length !== place.rows ||
      block.some((line: unknown) => !Array.isArray(line) || line.length !== place.columns)
    ) {
      throw new ExcelFault(
        'InvalidArgument',
        'The number of rows or columns in the input array does not match the size of the range.',
      );
    }
    (block as unknown[][]).forEach((line, r) =>
      line.forEach((input, c) => this.set(place.row + r, place.column + c, typedCell(input))),
    );
  }

  used(): Place | undefined {
    const places = [...this.cells.keys()].map((key) => key.split(',').map(Number) as [number, number]);
    if (places.length === 0) return undefined;
    // Not Math.min(...): a large sheet has more cells than a call takes arguments.
    let [top, left, bottom, right] = [Infinity, Infinity, 0, 0];
    for (const [row, column] of places) {
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    }
    return { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  /** Moves the cells of some columns, from a row on, down or (negative) up. */
  shift(fromRow: number, column: number, columns: number, by: number): void {
    const moved = [...this.cells].filter(([key]) => {
      const [row, at] = key.split(',').map(Number) as [number, number];
      return row >= fromRow && at >= column && at < column + columns;
    });
    for (const [key] of moved) this.cells.delete(key);
    for (const [key, cell] of moved) {
      const [row, at] = key.split(',').map(Number) as [number, number];
      if (row + by >= fromRow + Math.min(by, 0)) this.cells.set(`${row + by},${at}`, cell);
    }
  }
}

export interface FakeTable {
  name: string;
  readonly sheet: FakeSheet;
  /** With the header row. */
  place: Place;
}

export class FakeBook {
  /** The code with which Excel says that there is no such table. */
  noSuchTable = 'ItemNotFound';
  readonly name = 'wing.xlsx';
  sheets: FakeSheet[] = [];
  tables: FakeTable[] = [];
  names: { name: string; refersTo: string }[] = [];
  selection: { sheet: FakeSheet; place: Place } | undefined;
  dates1904 = false;
  private made = 0;

  static of(model: WorkbookModel): FakeBook {
    const book = new FakeBook();
    book.dates1904 = model.dates1904 ?? false;
    for (const sheetModel of model.sheets) {
      const sheet = book.addSheet(sheetModel.name);
      sheet.visibility = sheetModel.hidden ? 'Hidden' : 'Visible';
      sheet.protected = sheetModel.protected ?? false;
      sheetModel.cells.forEach((line, r) =>
        line.forEach((cell, c) => {
          if (!cell || cell.value === null) return;
          const { value } = cell;
          const plain: FakeCell =
            value instanceof CellError
              ? { value: value.code, type: 'Error' }
              : {
                  value,
                  type: typeof value === 'number' ? 'Double' : typeof value === 'boolean' ? 'Boolean' : 'String',
                };
          sheet.set(r, c, cell.formula === undefined ? plain : { ...plain, formula: `=${cell.formula}` });
        }),
      );
      for (const { name, range } of sheetModel.tables) book.tables.push({ name, sheet, place: range });
    }
    book.names = model.names.map(({ name, refersTo }) => ({ name, refersTo }));
    book.selection = { sheet: book.sheets[0]!, place: { row: 0, column: 0, rows: 1, columns: 1 } };
    return book;
  }

  addSheet(name: string): FakeSheet {
    if (this.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase()))
      throw new ExcelFault('ItemAlreadyExists');
    const sheet = new FakeSheet(`{${++this.made}}`, name);
    this.sheets.push(sheet);
    return sheet;
  }

  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    if (!found) throw new ExcelFault('ItemNotFound', 'The requested resource does not exist.');
    return found;
  }

  removeSheet(sheet: FakeSheet): void {
    this.sheets = this.sheets.filter((one) => one !== sheet);
    this.tables = this.tables.filter((table) => table.sheet !== sheet);
  }

  table(name: string): FakeTable {
    const found = this.tables.find((table) => table.name.toLowerCase() === name.toLowerCase());
    if (!found) throw new ExcelFault('ItemNotFound', 'The requested resource does not exist.');
    return found;
  }

  insertRows(table: FakeTable, at: number | null, block: unknown): void {
    const { sheet, place } = table;
    sheet.checkOpen();
    if (!Array.isArray(block) || block.some((line: unknown) => !Array.isArray(line) || line.length !== place.columns))
      throw new ExcelFault('InvalidArgument', 'The rows are not as wide as the table.');
    const index = at ?? place.rows - 1;
    if (index < 0 || index > place.rows - 1) throw new ExcelFault('InvalidArgument', 'The row is not in the table.');
    const row = place.row + 1 + index;
    sheet.shift(row, place.column, place.columns, block.length);
    followRows(this, sheet, row, block.length);
    this.moveTablesBelow(table, block.length);
    sheet.write({ row, column: place.column, rows: block.length, columns: place.columns }, block);
    table.place = { ...place, rows: place.rows + block.length };
  }

  removeRow(table: FakeTable, at: number): void {
    const { sheet, place } = table;
    sheet.checkOpen();
    if (at < 0 || at >= place.rows - 1) throw new ExcelFault('InvalidArgument', 'The row is not in the table.');
    const row = place.row + 1 + at;
    for (let column = place.column; column < place.column + place.columns; column++) sheet.set(row, column, EMPTY);
    // The last row of a table stays, empty.
    if (place.rows === 2) return;
    sheet.shift(row + 1, place.column, place.columns, -1);
    followRows(this, sheet, row + 1, -1);
    this.moveTablesBelow(table, -1);
    table.place = { ...place, rows: place.rows - 1 };
  }

  private moveTablesBelow(table: FakeTable, by: number): void {
    for (const other of this.tables) {
      if (other !== table && other.sheet === table.sheet && other.place.row >= table.place.row + table.place.rows)
        other.place = { ...other.place, row: other.place.row + by };
    }
  }
}

/** Formulas of all sheets after rows of one came or went: references from `row` (from 0) on move with their cells. */
function followRows(book: FakeBook, moved: FakeSheet, row: number, by: number): void {
  for (const sheet of book.sheets) {
    for (const [key, cell] of sheet.cells) {
      const formula = cell.formula?.replace(
        /(?:(\w+)!)?(\$?[A-Z]{1,3}\$?)(\d+)\b(?!\()/g,
        (text, of: string | undefined, column: string, at: string) =>
          (of ?? sheet.name) === moved.name && Number(at) > row
            ? `${of ? `${of}!` : ''}${column}${Number(at) + by}`
            : text,
      );
      if (formula !== cell.formula) sheet.cells.set(key, { ...cell, ...(formula === undefined ? {} : { formula }) });
    }
  }
}
