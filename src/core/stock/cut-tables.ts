/**
 * Parts and stock as tables with a header row, as a CSV file holds them. A width of the parts makes it a plan of
 * sheets; without one it is a plan of bars.
 */
import { alternatives, InputError, unlessRefused, refuse } from '../input-error';
import { typedNumber } from '../quantity';
import {
  isBlankCell,
  labelLetters,
  placesOf,
  tableText,
  type Places,
  type TableCell,
  type TableCells,
  type TableColumn,
} from '../table';
import { LIES } from './lie';
import type { BarPart, BarStock, SheetPart, SheetStock } from './plan';

const PART_COLUMNS = [
  { key: 'name', label: 'Name' },
  { key: 'length', label: 'Length' },
  { key: 'width', label: 'Width' },
  { key: 'quantity', label: 'Quantity' },
  { key: 'grain', label: 'Grain' },
] as const;

const STOCK_COLUMNS = [
  { key: 'name', label: 'Name' },
  { key: 'length', label: 'Length' },
  { key: 'width', label: 'Width' },
  { key: 'cost', label: 'Cost' },
  { key: 'available', label: 'Available' },
  { key: 'offcut', label: 'Offcut' },
] as const;

type PartKey = (typeof PART_COLUMNS)[number]['key'];

/** What is cut, and from what. */
export type CutLists =
  | { readonly kind: 'bars'; readonly parts: readonly BarPart[]; readonly stock: readonly BarStock[] }
  | { readonly kind: 'sheets'; readonly parts: readonly SheetPart[]; readonly stock: readonly SheetStock[] };

/** Rows that cannot be read are left out and named: "parts, row 3, Length: got -2; takes a length above 0". */
export function readCutLists(
  partCells: TableCells,
  stockCells: TableCells,
): CutLists & { readonly problems: Readonly<Record<'parts' | 'stock', readonly string[]>> } {
  const parts = new CutTable('parts', partCells, PART_COLUMNS);
  const stock = new CutTable('stock', stockCells, STOCK_COLUMNS);
  const problems = { parts: parts.problems, stock: stock.problems };
  return parts.isFilled('width')
    ? {
        kind: 'sheets',
        parts: parts.read(['name', 'length', 'quantity'], sheetPart),
        stock: stock.read(['name', 'length', 'width'], (cell) => ({
          ...barStock(cell),
          width: cell('width', measure),
        })),
        problems,
      }
    : {
        kind: 'bars',
        parts: parts.read(['name', 'length', 'quantity'], barPart),
        stock: stock.read(['name', 'length'], barStock),
        problems,
      };
}

/** Gives what a column's cell of the row holds; throws InputError with the column's label. */
type ReadCell<K extends string> = <T>(key: K, take: (cell: TableCell) => T) => T;

const barPart = (cell: ReadCell<PartKey>): BarPart => ({
  name: cell('name', named),
  length: cell('length', measure),
  quantity: cell('quantity', (typed) => (isBlankCell(typed) ? 1 : count(typed))),
});

function sheetPart(cell: ReadCell<PartKey>): SheetPart {
  const lie = cell('grain', (typed) => (isBlankCell(typed) ? undefined : oneOf(typed, LIES)));
  return { ...barPart(cell), width: cell('width', measure), ...(lie === undefined ? {} : { lie }) };
}

function barStock(cell: ReadCell<(typeof STOCK_COLUMNS)[number]['key']>): BarStock {
  const available = cell('available', (typed) => (isBlankCell(typed) ? undefined : count(typed)));
  return {
    name: cell('name', named),
    length: cell('length', measure),
    cost: cell('cost', (typed) => (isBlankCell(typed) ? undefined : money(typed))),
    ...(available === undefined ? {} : { available }),
    offcut: cell('offcut', isOffcut),
  };
}

/** A table whose first row is its header; columns are found by their labels, in any order and case. */
class CutTable<K extends string> {
  readonly problems: string[] = [];
  private readonly places: Places<K>;

  constructor(
    private readonly name: string,
    private readonly cells: TableCells,
    private readonly columns: readonly TableColumn<K>[],
  ) {
    this.places = placesOf(columns, cells[0] ?? [], labelLetters);
  }

  /** True where the column is there and not blank all the way down. */
  isFilled(key: K): boolean {
    return this.places.has(key) && this.cells.slice(1).some((row) => !isBlankCell(row[this.places.get(key)!]));
  }

  /** The rows that are not blank, read. @param needed columns without which none is */
  read<T>(needed: readonly K[], readRow: (cell: ReadCell<K>) => T): T[] {
    const got = (this.cells[0] ?? []).map(tableText).filter(Boolean).join(', ');
    for (const { key, label } of this.columns)
      if (needed.includes(key) && !this.places.has(key))
        this.problems.push(new InputError(`${this.name}, header`, got, `a column "${label}"`).message);
    if (this.problems.length > 0) return [];
    return this.cells.slice(1).flatMap((row, index) => {
      if ([...this.places.values()].every((place) => isBlankCell(row[place]))) return [];
      return unlessRefused(
        () => [readRow((key, take) => this.take(key, row, take))],
        (error) => {
          this.problems.push(`${this.name}, row ${index + 2}, ${error.message}`);
          return [];
        },
      );
    });
  }

  private take<T>(key: K, row: readonly TableCell[], take: (cell: TableCell) => T): T {
    return unlessRefused(
      () => take(row[this.places.get(key) ?? -1]),
      (error): never => {
        throw error.at(this.columns.find((column) => column.key === key)!.label);
      },
    );
  }
}

/** "12", "12.5", "3/4", "12 3/4 in". */
function numeric(cell: TableCell): number {
  if (typeof cell === 'number') return cell;
  const { value = Number.NaN, sign = 'in' } = typedNumber(tableText(cell)) ?? {};
  return sign === 'in' ? value : Number.NaN;
}

/** Reads a number of a kind; throws InputError with what it takes for any other. */
const numberThat =
  (fits: (value: number) => boolean, takes: string) =>
  (cell: TableCell): number => {
    const value = numeric(cell);
    return fits(value) ? value : refuse('', cell, takes);
  };

const measure = numberThat((value) => value > 0 && Number.isFinite(value), 'a length above 0');
const money = numberThat((value) => value >= 0 && Number.isFinite(value), 'a cost of 0 or more, as a bare number');
const count = numberThat((value) => Number.isInteger(value) && value >= 0, 'a whole number of 0 or more');

const named = (cell: TableCell): string => tableText(cell) || refuse('', cell, 'a name');

/** A spreadsheet's own TRUE and FALSE count as yes and no. */
function isOffcut(cell: TableCell): boolean {
  const typed = cell === 0 ? '' : tableText(cell).toLowerCase();
  return typed !== '' && typed !== 'false' && (typed === 'true' || oneOf(cell, ['yes', 'no']) === 'yes');
}

const oneOf = <const C extends readonly string[]>(cell: TableCell, choices: C): C[number] =>
  choices.find((choice) => choice === tableText(cell).toLowerCase()) ?? refuse('', cell, alternatives(choices));
