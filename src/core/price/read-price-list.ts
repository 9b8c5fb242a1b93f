/** From cells with a header row to price rows and the problems in them. */
import { alternatives, InputError, unlessRefused, refuse } from '../input-error';
import { nameKey } from '../names';
import { decimalNumber } from '../quantity';
import { findHeader, isBlankCell, labelLetters, tableText, type TableCell, type TableCells } from '../table';
import {
  PRICE_COLUMNS,
  PRICE_KINDS,
  SALE_UNITS,
  priceColumn,
  readContents,
  SOLD_AS,
  type PriceColumnKey,
  type PriceKind,
  type SaleUnit,
  type Measure,
} from './columns';

/**
 * Dates as spreadsheets hold them: days counted from 30 December 1899, which gives the 1900 date
 * system's serials from 1 March 1900 on (ECMA-376 part 1, 18.17.4.1).
 */
const DAY = 86_400_000;
const EPOCH = Date.UTC(1899, 11, 30);
const FIRST = 61;
/** 31 December 9999, the last day of the date system. */
const LAST = 2_958_465;

/** "2026-03-31" for a date serial; undefined where the number is no date. */
export function isoFromSerial(serial: number): string | undefined {
  const day = Math.floor(serial);
  return day >= FIRST && day <= LAST ? new Date(EPOCH + day * DAY).toISOString().slice(0, 10) : undefined;
}

/** Date serial of "2026-03-31"; undefined where the text is no date. */
export function serialFromIso(text: string): number | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:T.*)?$/.exec(text.trim());
  if (!match) return undefined;
  const time = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  const iso = new Date(time).toISOString().slice(0, 10);
  return iso === match.slice(1, 4).join('-') ? Math.round((time - EPOCH) / DAY) : undefined;
}

export type PriceCell = TableCell;

/** One row of the price list, read. */
export interface PriceRow {
  /** Row in the range it was read from; the range's first row is 1. */
  readonly row: number;
  readonly item: string;
  readonly kind: PriceKind;
  readonly soldBy: SaleUnit;
  /** The unit in which the item is used. */
  readonly measure: Measure;
  /** in², in, pieces or lb in one sale unit; undefined where the pieces follow from a rivet's computed weight. */
  readonly contents: number | undefined;
  /** Size of a sheet, inches, longer side first. */
  readonly size?: { readonly length: number; readonly width: number };
  /** Price of one sale unit. */
  readonly price: number;
  /** ISO 4217 code in capitals, or ''. */
  readonly currency: string;
  /** The price holds from this many sale units; 0 for a price without a condition. */
  readonly from: number;
  readonly supplier: string;
  /** "year-month-day", or ''. */
  readonly quotedOn: string;
  readonly note: string;
}

/** What is wrong with one cell, in the form in which it is shown. */
export interface PriceProblem {
  readonly row: number;
  readonly column: PriceColumnKey;
  /** The item of the row where it has one, so that a look-up can say why it is not priced. */
  readonly item: string;
  /** "row 4, Price: got -3; takes a price above 0" */
  readonly message: string;
}

export interface PriceList {
  readonly rows: readonly PriceRow[];
  readonly problems: readonly PriceProblem[];
}

/** One row's cells by column. */
export type RawPriceRow = Partial<Readonly<Record<PriceColumnKey, PriceCell>>>;

/** Some hosts hand over 0 for a blank cell; no column of the list takes 0 for anything but a blank. */
const isBlank = (cell: PriceCell): boolean => cell === 0 || isBlankCell(cell);
const text = (cell: PriceCell): string => (isBlank(cell) ? '' : tableText(cell));

/**
 * Reads a range with a header row. Columns are found by their label, in any order and case; others are
 * passed over; blank rows too. A row with a problem is left out of `rows` and named in `problems`.
 */
export function readPriceList(cells: TableCells): PriceList {
  const head = findHeader(PRICE_COLUMNS, cells, ['item', 'price'], labelLetters);
  const required = PRICE_COLUMNS.filter((column) => column.required);
  if (!head) {
    const got = (cells[0] ?? []).map(text).filter(Boolean).join(', ');
    const error = new InputError(
      'header',
      got,
      `the labels ${required.map(({ label }) => label).join(', ')} in one row`,
    );
    return { rows: [], problems: [problem(1, 'item', '', error)] };
  }
  const { header, places } = head;
  const problems = required.flatMap(({ key, label }) =>
    places.has(key) ? [] : [problem(header + 1, key, '', new InputError('header', null, `a column "${label}"`))],
  );
  if (problems.length > 0) return { rows: [], problems };

  const rows: PriceRow[] = [];
  const seen = new Map<string, number>();
  for (let index = header + 1; index < cells.length; index++) {
    const raw: Partial<Record<PriceColumnKey, PriceCell>> = {};
    for (const [key, place] of places) raw[key] = cells[index]![place];
    const read = validatePriceRow(raw, index + 1);
    if (!read) continue;
    problems.push(...read.problems);
    const { row } = read;
    if (!row) continue;
    const offer = `${nameKey(row.item)}|${nameKey(row.supplier)}|${row.soldBy}|${row.contents ?? ''}|${row.currency}|${row.from}`;
    const first = seen.get(offer);
    if (first === undefined) {
      seen.set(offer, row.row);
      rows.push(row);
    } else {
      problems.push(
        problem(
          row.row,
          'from',
          row.item,
          new InputError('From', row.from, `another quantity than row ${first}, which prices the same item`),
        ),
      );
    }
  }
  return { rows, problems };
}

/** One row read and checked; undefined where it is blank. `row` is missing where there is a problem. */
export function validatePriceRow(
  raw: RawPriceRow,
  number = 1,
): { readonly row?: PriceRow; readonly problems: readonly PriceProblem[] } | undefined {
  if (PRICE_COLUMNS.every(({ key }) => isBlank(raw[key]))) return undefined;
  const item = text(raw.item);
  const problems: PriceProblem[] = [];
  const attempt = <T>(column: PriceColumnKey, read: () => T): T | undefined =>
    unlessRefused(read, (error) => {
      problems.push(problem(number, column, item, error));
      return undefined;
    });
  attempt('item', () => {
    if (item === '' || typeof raw.item === 'boolean')
      throw new InputError('Item', raw.item, 'the name of what is bought');
  });
  const kind = attempt('kind', () => oneOf('kind', raw.kind, PRICE_KINDS));
  const soldBy = attempt('soldBy', () => saleUnit(raw.soldBy, kind));
  const contents =
    kind && soldBy
      ? attempt('contents', () => readContents(kind, soldBy, isBlank(raw.contents) ? null : raw.contents))
      : undefined;
  const price = attempt('price', () => amount('price', raw.price, 'a price above 0, as a bare number'));
  const currency = attempt('currency', () => currencyCode(raw.currency));
  const from = attempt('from', () =>
    isBlank(raw.from) ? 0 : amount('from', raw.from, 'a number of sale units, or a blank'),
  );
  const quotedOn = attempt('quotedOn', () => date(raw.quotedOn));
  if (problems.length > 0) return { problems };
  const row: PriceRow = {
    row: number,
    item,
    kind: kind!,
    soldBy: soldBy!,
    measure: contents!.measure,
    contents: contents!.amount,
    ...(contents!.size ? { size: contents!.size } : {}),
    price: price!,
    currency: currency!,
    // "From 1" is how a first break is often written, and means the same as none.
    from: from! <= 1 ? 0 : from!,
    supplier: text(raw.supplier),
    quotedOn: quotedOn!,
    note: text(raw.note),
  };
  return { row, problems };
}

const problem = (row: number, column: PriceColumnKey, item: string, error: InputError): PriceProblem => ({
  row,
  column,
  item,
  message: `row ${row}, ${error.message}`,
});

function oneOf<const C extends readonly string[]>(key: PriceColumnKey, cell: PriceCell, choices: C): C[number] {
  const wanted = text(cell).toLowerCase();
  return (
    choices.find((choice) => choice === wanted || (wanted.endsWith('s') && choice === wanted.slice(0, -1))) ??
    refuse(priceColumn(key).label, cell, alternatives(choices))
  );
}

/** Other ways to write a sale unit. */
const SAME_UNIT: Readonly<Record<string, SaleUnit>> = {
  pound: 'lb',
  pounds: 'lb',
  lbs: 'lb',
  kilogram: 'kg',
  foot: 'ft',
  feet: 'ft',
  metre: 'm',
  meter: 'm',
  piece: 'each',
  pc: 'each',
  '1': 'each',
  hundred: '100',
  thousand: '1000',
  '1,000': '1000',
  package: 'pack',
  bag: 'pack',
  box: 'pack',
};

function saleUnit(cell: PriceCell, kind: PriceKind | undefined): SaleUnit {
  const typed = text(cell)
    .toLowerCase()
    .replace(/^per\s+/, '');
  const choices = kind ? SOLD_AS[kind] : SALE_UNITS;
  const unit = SAME_UNIT[typed] ?? typed;
  return (
    choices.find((choice) => choice === unit) ??
    refuse(
      'Sold by',
      cell,
      kind
        ? `${alternatives(choices)} for a ${kind === 'other' ? 'thing of kind "other"' : kind}`
        : alternatives(choices),
    )
  );
}

/**
 * Signs of currencies, spelled out: the engine that runs functions in Excel may not know classes of characters.
 * Source: Unicode 17, general category Sc, of the basic plane.
 */
export const CURRENCY_SIGNS =
  '$\u00a2-\u00a5\u058f\u060b\u07fe\u07ff\u09f2\u09f3\u09fb\u0af1\u0bf9\u0e3f\u17db\u20a0-\u20c1\ua838\ufdfc\ufe69\uff04\uffe0\uffe1\uffe5\uffe6';
const SIGN = new RegExp(`^(?:[a-z]{0,3}[${CURRENCY_SIGNS}]|[a-z]{3}(?=\\s*\\d))`, 'i');

function amount(key: PriceColumnKey, cell: PriceCell, takes: string): number {
  const typed = typeof cell === 'string' ? cell.trim() : cell;
  const value = (typeof typed === 'string' ? decimalNumber(typed) : typeof typed === 'number' ? typed : NaN) ?? NaN;
  if (!(value > 0 && value <= 1e12)) {
    const sign = typeof typed === 'string' ? SIGN.exec(typed)?.[0] : undefined;
    throw new InputError(
      priceColumn(key).label,
      cell,
      takes,
      sign && key === 'price' ? `Leave out ${sign} and name the currency in its own column` : undefined,
    );
  }
  return value;
}

const SYMBOLS: Readonly<Record<string, string>> = {
  $: 'USD, CAD, AUD or NZD',
  US$: 'USD',
  '€': 'EUR',
  '£': 'GBP',
  '¥': 'JPY or CNY',
};

function currencyCode(cell: PriceCell): string {
  const typed = text(cell);
  if (typed === '' || /^[a-z]{3}$/i.test(typed)) return typed.toUpperCase();
  const codes = SYMBOLS[typed.toUpperCase()];
  throw new InputError(
    'Currency',
    cell,
    'the three letters of an ISO 4217 code, or a blank',
    codes ? `${typed} may be ${codes}` : undefined,
  );
}

function date(cell: PriceCell): string {
  if (isBlank(cell)) return '';
  return (
    (typeof cell === 'number'
      ? isoFromSerial(cell)
      : typeof cell === 'string' && serialFromIso(cell) !== undefined
        ? cell.trim().slice(0, 10)
        : undefined) ?? refuse('Quoted on', cell, 'a spreadsheet date, or year-month-day as 2026-03-31')
  );
}
