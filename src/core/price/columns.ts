/**
 * The price list's columns as data: the grid, the sheet's validations, CSV and the reader all follow
 * from this table, so that a column is described once.
 */

import { labelLetters, placesOf, type Places } from '../table';

/** What an item is, which settles the unit that it is used in. */
export const PRICE_KINDS = ['sheet', 'bar', 'rivet', 'other'] as const;
export type PriceKind = (typeof PRICE_KINDS)[number];

/** What the price is for. */
export const SALE_UNITS = ['sheet', 'lb', 'kg', 'ft', 'm', 'each', '100', '1000', 'pack'] as const;
export type SaleUnit = (typeof SALE_UNITS)[number];

export type PriceColumnKey =
  'item' | 'kind' | 'soldBy' | 'contents' | 'price' | 'currency' | 'from' | 'supplier' | 'quotedOn' | 'note';

export interface PriceColumn {
  readonly key: PriceColumnKey;
  /** The label in the header row. */
  readonly label: string;
  readonly kind: 'text' | 'choice' | 'number' | 'money' | 'date';
  /** The unit in words, where the column has one. */
  readonly unit?: string;
  readonly choices?: readonly string[];
  /** True where the header must be there and a blank cell is a problem. */
  readonly required: boolean;
  readonly help: string;
}

export const PRICE_COLUMNS: readonly PriceColumn[] = [
  {
    key: 'item',
    label: 'Item',
    kind: 'text',
    required: true,
    help: 'What is bought, as the parts list calls it; a rivet by its designation. Rows of one item with another From are its price breaks',
  },
  {
    key: 'kind',
    label: 'Kind',
    kind: 'choice',
    choices: PRICE_KINDS,
    required: true,
    help: 'sheet (used by area), bar (used by length: extrusion, tube, strip), rivet (used by the piece) or other',
  },
  {
    key: 'soldBy',
    label: 'Sold by',
    kind: 'choice',
    choices: SALE_UNITS,
    required: true,
    help: 'What the price is for: a sheet, a pound, a kilogram, a foot, a metre, one, a hundred, a thousand or a pack',
  },
  {
    key: 'contents',
    label: 'Contents',
    kind: 'text',
    required: false,
    help: 'What one sale unit holds: a sheet "48 x 144" (inches; mm, cm, m or ft behind it), a bar sold each "12 ft", a pack its pieces, sheet sold by the pound its in² per pound. Blank for a rivet sold by weight: its computed weight is used',
  },
  {
    key: 'price',
    label: 'Price',
    kind: 'money',
    unit: 'per sale unit',
    required: true,
    help: 'Price of one sale unit, above 0',
  },
  {
    key: 'currency',
    label: 'Currency',
    kind: 'text',
    unit: 'ISO 4217 code',
    required: false,
    help: 'Three letters, for example USD; blank: the currency of your own money, counted in hundredths',
  },
  {
    key: 'from',
    label: 'From',
    kind: 'number',
    unit: 'sale units',
    required: false,
    help: 'The price holds from this many sale units; blank: from the first',
  },
  { key: 'supplier', label: 'Supplier', kind: 'text', required: false, help: 'Who quoted the price' },
  {
    key: 'quotedOn',
    label: 'Quoted on',
    kind: 'date',
    required: false,
    help: 'Date of the quote: a spreadsheet date, or year-month-day as 2026-03-31',
  },
  { key: 'note', label: 'Note', kind: 'text', required: false, help: 'Anything else' },
];

/** The column of that key. */
export function priceColumn(key: PriceColumnKey): PriceColumn {
  return PRICE_COLUMNS.find((column) => column.key === key)!;
}

/** Columns by their labels, in whatever order a table has them. */
export const pricePlaces = (labels: readonly unknown[]): Places<PriceColumnKey> =>
  placesOf(PRICE_COLUMNS, labels, labelLetters);
