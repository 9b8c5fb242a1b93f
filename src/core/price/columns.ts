/** The columns of the price list, and how its Contents are read. */
import { labelLetters, placesOf, type Places, type TableCell } from '../table';
import { InputError, refuse } from '../input-error';
import { decimalNumber, leadingNumber } from '../quantity';

// The price list's columns as data: the grid, the sheet's validations, CSV and the reader all follow
// from this table, so that a column is described once.

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
export const priceColumn = (key: PriceColumnKey): PriceColumn => PRICE_COLUMNS.find((column) => column.key === key)!;

/** Columns by their labels, in whatever order a table has them. */
export const pricePlaces = (labels: readonly unknown[]): Places<PriceColumnKey> =>
  placesOf(PRICE_COLUMNS, labels, labelLetters);

// What one sale unit holds, in the unit that the item is used in: square inches of sheet, inches of
// bar, pieces, or pounds.

/** The unit in which an item is used: in², in, pieces or lb. */
export type Measure = 'area' | 'length' | 'pieces' | 'weight';

export interface Contents {
  readonly measure: Measure;
  /** in², in, pieces or lb in one sale unit; undefined for a rivet sold by weight whose pieces follow from its computed weight. */
  readonly amount: number | undefined;
  /** The sheet's own size in inches, as it was written. */
  readonly size?: { readonly length: number; readonly width: number };
}

/** Exact by definition: NIST SP 811, appendix B.8. */
export const POUNDS_IN_KILOGRAM = 1 / 0.45359237;
const INCHES: Readonly<Record<string, number>> = {
  in: 1,
  inch: 1,
  inches: 1,
  '"': 1,
  ft: 12,
  foot: 12,
  feet: 12,
  "'": 12,
  mm: 1 / 25.4,
  cm: 1 / 2.54,
  m: 1 / 0.0254,
};

/** Sale units that each kind of item is sold in. */
export const SOLD_AS: Readonly<Record<PriceKind, readonly SaleUnit[]>> = {
  sheet: ['sheet', 'each', 'lb', 'kg'],
  bar: ['each', 'ft', 'm', 'lb', 'kg'],
  rivet: ['each', '100', '1000', 'pack', 'lb', 'kg'],
  other: ['each', '100', '1000', 'pack', 'lb', 'kg', 'ft', 'm'],
};

/** Contents of one sale unit from the cell that says them; throws InputError for what cannot be read. */
export const readContents = (kind: PriceKind, soldBy: SaleUnit, cell: TableCell): Contents =>
  CONTENTS[soldBy](cell, kind);

const counted = (amount: number): Contents => ({ measure: 'pieces', amount });

/** What one of a kind of item holds. */
const EACH: Readonly<Record<PriceKind, (cell: TableCell) => Contents>> = {
  sheet: sheetSize,
  bar: (cell) => ({
    measure: 'length',
    amount: positive(cell, INCHES, 'the length of one bar: inches, or a number with ft, mm, cm or m'),
  }),
  rivet: () => counted(1),
  other: () => counted(1),
};

const CONTENTS: Readonly<Record<SaleUnit, (cell: TableCell, kind: PriceKind) => Contents>> = {
  sheet: sheetSize,
  each: (cell, kind) => EACH[kind](cell),
  ft: () => ({ measure: 'length', amount: 12 }),
  m: () => ({ measure: 'length', amount: INCHES.m! }),
  '100': () => counted(100),
  '1000': () => counted(1000),
  pack: (cell) => counted(pieces(cell)),
  lb: (cell, kind) => weightContents(kind, 'lb', cell),
  kg: (cell, kind) => weightContents(kind, 'kg', cell),
};

/** What one pound or kilogram holds. */
function weightContents(kind: PriceKind, soldBy: 'lb' | 'kg', cell: TableCell): Contents {
  const perWeight = soldBy === 'kg' ? 'kilogram' : 'pound';
  const blank = cell === null || cell === undefined || cell === '';
  if (kind === 'sheet')
    return {
      measure: 'area',
      amount: positive(cell, AREAS, `the area in one ${perWeight}: square inches, or a number with ft² or m²`),
    };
  if (kind === 'bar')
    return {
      measure: 'length',
      amount: positive(cell, INCHES, `the length in one ${perWeight}: inches, or a number with ft, mm, cm or m`),
    };
  if (kind === 'rivet' && blank) return { measure: 'pieces', amount: undefined };
  if (blank) return { measure: 'weight', amount: soldBy === 'kg' ? POUNDS_IN_KILOGRAM : 1 };
  return { measure: 'pieces', amount: positive(cell, {}, `the pieces in one ${perWeight}, or a blank`) };
}

const AREAS: Readonly<Record<string, number>> = {
  in2: 1,
  'sq in': 1,
  ft2: 144,
  'sq ft': 144,
  mm2: 1 / 645.16,
  cm2: 1 / 6.4516,
  m2: 1 / 0.00064516,
};

/** "48 x 144", "48 × 144 in", "1250 x 2500 mm", "4 ft x 12 ft". */
function sheetSize(cell: TableCell): Contents {
  const takes = 'length x width of the sheet: "48 x 144" in inches, or with mm, cm, m or ft';
  const sides = String(cell ?? '')
    .trim()
    .split(/\s*(?:[x×*]|\bby\b)\s*/i);
  if (sides.length !== 2) throw new InputError('Contents', cell, takes);
  const [first, last] = [measured(sides[0]!), measured(sides[1]!)];
  const one = first.value * (INCHES[first.unit || last.unit || 'in'] ?? NaN);
  const two = last.value * (INCHES[last.unit || first.unit || 'in'] ?? NaN);
  if (!(one > 0 && two > 0 && Number.isFinite(one * two))) throw new InputError('Contents', cell, takes);
  const size = { length: Math.max(one, two), width: Math.min(one, two) };
  if (size.length > LONGEST_SIDE)
    throw new InputError('Contents', cell, takes, 'Larger than any sheet: with millimetres write mm behind it');
  return { measure: 'area', amount: one * two, size };
}

/** Inches: a longer side is a coil, or millimetres without their unit. */
const LONGEST_SIDE = 600;

/** A number and the unit behind it, as the tables here spell units; NaN where the text begins with no number. */
function measured(text: string): { readonly value: number; readonly unit: string } {
  const { value, rest } = leadingNumber(text) ?? { value: Number.NaN, rest: '' };
  return {
    value,
    unit: rest
      .toLowerCase()
      .replace('²', '2')
      .replace('^2', '2')
      .replace(/\.$/, '')
      .replace(/[″”]/, '"')
      .replace(/[′’]/, "'"),
  };
}

function positive(cell: TableCell, units: Readonly<Record<string, number>>, takes: string): number {
  const typed = typeof cell === 'number' ? { value: cell, unit: '' } : measured(typeof cell === 'string' ? cell : '');
  const value = typed.value * (typed.unit === '' ? 1 : (units[typed.unit] ?? Number.NaN));
  return value > 0 && Number.isFinite(value) ? value : refuse('Contents', cell, takes);
}

/** The pieces in a pack. */
function pieces(cell: TableCell): number {
  const text = String(cell ?? '')
    .trim()
    .replace(/\s*(?:pieces?|pcs?\.?)$/i, '');
  const value = decimalNumber(text);
  if (value === undefined || !Number.isInteger(value) || value < 1)
    throw new InputError('Contents', cell, 'the pieces in a pack, a whole number of 1 or more');
  return value;
}
