/**
 * Parts and stock as tables with a header row, as a sheet or a CSV file holds them: the columns as data,
 * and the readers. A width makes it a plan of sheets; without one it is a plan of bars.
 */
import { InputError } from '../input-error';
import { typedNumber } from '../quantity';
import { LIES } from './lie';
import type { BarPart, SheetPart, SheetStock, BarStock } from './plan';

export interface StockTableColumn<K extends string> {
  readonly key: K;
  /** The label in the header row. */
  readonly header: string;
  readonly kind: 'text' | 'length' | 'count' | 'money' | 'choice';
  readonly choices?: readonly string[];
  readonly required: boolean;
  readonly help: string;
}

export type PartKey = 'name' | 'length' | 'width' | 'quantity' | 'grain';
export type StockKey =
  'name' | 'length' | 'width' | 'cost' | 'available' | 'offcut' | 'material' | 'thickness' | 'note';

const PART_COLUMNS: readonly StockTableColumn<PartKey>[] = [
  { key: 'name', header: 'Name', kind: 'text', required: true, help: 'Part' },
  {
    key: 'length',
    header: 'Length',
    kind: 'length',
    required: true,
    help: 'Of a sheet part: along the strip, unless it may be turned',
  },
  { key: 'width', header: 'Width', kind: 'length', required: false, help: 'Of a sheet part; none for a bar' },
  { key: 'quantity', header: 'Quantity', kind: 'count', required: true, help: 'Pieces; blank: one' },
  {
    key: 'grain',
    header: 'Grain',
    kind: 'choice',
    choices: LIES,
    required: false,
    help: 'How the length lies to the grain, which runs along the sheet: along (blank), across, or any',
  },
];

const STOCK_COLUMNS: readonly StockTableColumn<StockKey>[] = [
  { key: 'name', header: 'Name', kind: 'text', required: true, help: 'Sheet, bar or leftover' },
  { key: 'length', header: 'Length', kind: 'length', required: true, help: 'Of a sheet: the way its grain runs' },
  { key: 'width', header: 'Width', kind: 'length', required: false, help: 'Of a sheet; none for a bar' },
  {
    key: 'cost',
    header: 'Cost',
    kind: 'money',
    required: false,
    help: 'Of one; 0: it costs nothing; no costs at all: the plan is for least material',
  },
  {
    key: 'available',
    header: 'Available',
    kind: 'count',
    required: false,
    help: 'Pieces on hand or to be had; blank: as many as are needed (of an offcut, one)',
  },
  {
    key: 'offcut',
    header: 'Offcut',
    kind: 'choice',
    choices: ['yes', 'no'],
    required: false,
    help: 'yes: a leftover on the shelf, spent first and at no cost',
  },
  {
    key: 'material',
    header: 'Material',
    kind: 'text',
    required: false,
    help: 'Designation: parts are cut from stock of their material',
  },
  { key: 'thickness', header: 'Thickness', kind: 'length', required: false, help: 'Of sheet, or of a wall' },
  { key: 'note', header: 'Note', kind: 'text', required: false, help: 'Anything else' },
];

export type TableCell = number | string | boolean | null | undefined;
type Cells = readonly (readonly TableCell[])[];

export interface TableProblem {
  readonly row: number;
  /** "parts, row 3, Length: got -2; takes a length above 0" */
  readonly message: string;
}

export interface PartsTable {
  readonly sheets: boolean;
  readonly parts: readonly (BarPart | SheetPart)[];
  readonly problems: readonly TableProblem[];
}

/** A row of stock with what a plan does not need but its owner does. */
export type StockRow = (BarStock | SheetStock) & {
  readonly row: number;
  readonly material: string;
  readonly thickness?: number;
  readonly note: string;
};

export interface StockTable {
  readonly stock: readonly StockRow[];
  readonly problems: readonly TableProblem[];
}

const isBlank = (cell: TableCell): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');
const label = (cell: TableCell): string =>
  String(cell ?? '')
    .toLowerCase()
    .replace(/[^a-z]/g, '');
const text = (cell: TableCell): string => (isBlank(cell) ? '' : String(cell).trim());

export function readPartTable(cells: Cells): PartsTable {
  const table = open('parts', cells, PART_COLUMNS);
  const parts: (BarPart | SheetPart)[] = [];
  const sheets = table.filled('width');
  table.rows((read) => {
    const quantity = read('quantity', (cell) => (isBlank(cell) ? 1 : count(cell)));
    const part = { name: read('name', named), length: read('length', measure), quantity };
    if (!sheets) parts.push(part);
    else {
      const lie = read('grain', (cell) => (isBlank(cell) ? undefined : oneOf(cell, LIES)));
      parts.push({ ...part, width: read('width', measure), ...(lie === undefined ? {} : { lie }) });
    }
  });
  return { sheets, parts, problems: table.problems };
}

/** @param sheets whether the plan is one of sheets, so that a width is asked for */
export function readStockTable(cells: Cells, sheets: boolean): StockTable {
  const table = open('stock', cells, STOCK_COLUMNS, sheets ? ['width'] : []);
  const stock: StockRow[] = [];
  table.rows((read, row) => {
    const available = read('available', (cell) => (isBlank(cell) ? undefined : count(cell)));
    const thickness = read('thickness', (cell) => (isBlank(cell) ? undefined : measure(cell)));
    stock.push({
      row,
      name: read('name', named),
      length: read('length', measure),
      ...(sheets ? { width: read('width', measure) } : {}),
      cost: read('cost', (cell) => (isBlank(cell) ? undefined : money(cell))),
      ...(available === undefined ? {} : { available }),
      offcut: read(
        'offcut',
        (cell) =>
          !isBlank(cell) &&
          cell !== 0 &&
          (cell === true ||
            oneOf(cell, ['yes', 'no', 'true', 'false']) === 'yes' ||
            text(cell).toLowerCase() === 'true'),
      ),
      material: read('material', text),
      ...(thickness === undefined ? {} : { thickness }),
      note: read('note', text),
    });
  });
  return { stock, problems: table.problems };
}

type Read<K extends string> = <T>(key: K, take: (cell: TableCell) => T) => T;

/** Finds the columns of a table by their labels, in any order and case, and reads it row by row. */
function open<K extends string>(
  name: string,
  cells: Cells,
  columns: readonly StockTableColumn<K>[],
  alsoRequired: readonly K[] = [],
) {
  const problems: TableProblem[] = [];
  const labels = (cells[0] ?? []).map(label);
  const places = new Map<K, number>();
  for (const { key, header, required } of columns) {
    const place = labels.indexOf(label(header));
    if (place >= 0) places.set(key, place);
    else if (required || alsoRequired.includes(key)) {
      const got = (cells[0] ?? []).map(text).filter(Boolean).join(', ');
      problems.push({
        row: 1,
        message: `${name}, header: got ${got ? `"${got}"` : 'a blank'}; takes a column "${header}"`,
      });
    }
  }
  const missing = problems.length > 0;
  return {
    problems,
    /** True where the column is there and not blank all the way down. */
    filled: (key: K): boolean => places.has(key) && cells.slice(1).some((row) => !isBlank(row[places.get(key)!])),
    rows(each: (read: Read<K>, row: number) => void): void {
      if (missing) return;
      cells.slice(1).forEach((row, index) => {
        if ([...places.values()].every((place) => isBlank(row[place]))) return;
        const read: Read<K> = (key, take) => {
          const place = places.get(key);
          try {
            return take(place === undefined ? null : row[place]);
          } catch (error) {
            if (!(error instanceof InputError)) throw error;
            const { header } = columns.find((column) => column.key === key)!;
            throw new InputError(header, error.got, error.takes, error.guess);
          }
        };
        try {
          each(read, index + 2);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          problems.push({ row: index + 2, message: `${name}, row ${index + 2}, ${error.message}` });
        }
      });
    },
  };
}

/** "12", "12.5", "3/4", "12 3/4 in". */
function numeric(cell: TableCell): number {
  if (typeof cell === 'number') return cell;
  const { value = Number.NaN, sign = 'in' } = typedNumber(text(cell)) ?? {};
  return sign === 'in' ? value : Number.NaN;
}

function measure(cell: TableCell): number {
  const value = numeric(cell);
  if (!(value > 0) || !Number.isFinite(value)) throw new InputError('', cell, 'a length above 0');
  return value;
}

function money(cell: TableCell): number {
  const value = numeric(cell);
  if (!(value >= 0) || !Number.isFinite(value)) throw new InputError('', cell, 'a cost of 0 or more, as a bare number');
  return value;
}

function count(cell: TableCell): number {
  const value = numeric(cell);
  if (!Number.isInteger(value) || value < 0) throw new InputError('', cell, 'a whole number of 0 or more');
  return value;
}

function named(cell: TableCell): string {
  const name = text(cell);
  if (name === '') throw new InputError('', cell, 'a name');
  return name;
}

function oneOf<const C extends readonly string[]>(cell: TableCell, choices: C): C[number] {
  const found = choices.find((choice) => choice === text(cell).toLowerCase());
  if (found === undefined)
    throw new InputError('', cell, `${choices.slice(0, -1).join(', ')} or ${choices[choices.length - 1]}`);
  return found;
}
