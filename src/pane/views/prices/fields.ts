/** Between a cell of the price list and the text of its field. */
import { CURRENCY_SIGNS, isoFromSerial, priceColumn, serialFromIso, type PriceColumnKey } from '../../../core/price';
import { decimalNumber, withDot } from '../../../core/quantity';
import type { Cell, CellInput } from '../../../sheet';
import { cellNumber, decimalSign, readNumber } from '../../locale';

/** A cell as a file has it: a date as year-month-day, decimals behind a dot. */
export function fileText(key: PriceColumnKey | undefined, cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell === 'object') return cell.code;
  if (key === 'quotedOn' && typeof cell === 'number') return isoFromSerial(cell) ?? String(cell);
  return String(cell);
}

/** What the grid and the field of a cell show: a formula as it is typed, numbers with the decimal sign of the place. */
export function fieldText(key: PriceColumnKey | undefined, cell: Cell, formula: string | null = null): string {
  if (formula !== null) return formula;
  if (typeof cell === 'number' && (key === 'contents' || isNumeric(key))) return cellNumber(cell);
  if (typeof cell === 'string' && key === 'contents') return shownContents(cell);
  return fileText(key, cell);
}

const isNumeric = (key: PriceColumnKey | undefined): key is PriceColumnKey =>
  key !== undefined && ['number', 'money'].includes(priceColumn(key).kind);

/**
 * The cell that a field's text stands for. Only the two number columns take a formula; elsewhere a
 * leading "=" is text. What cannot be read stays text, for the row's check to name; `wrong` says why.
 */
function readTyped(key: PriceColumnKey, text: string): { readonly cell: CellInput; readonly wrong?: string } {
  const trimmed = text.trim();
  if (trimmed === '') return { cell: null };
  if (key === 'contents') {
    const read = typedContents(text);
    return 'wrong' in read ? { cell: text, ...read } : { cell: readValue(key, read.text) };
  }
  if (!isNumeric(key)) return { cell: readValue(key, text) };
  if (trimmed.startsWith('=')) return { cell: { formula: trimmed } };
  const read = readNumber(key === 'price' ? typedPrice(trimmed).number : trimmed);
  return 'wrong' in read ? { cell: text, ...read } : { cell: read.value };
}

export const readField = (key: PriceColumnKey, text: string): CellInput => readTyped(key, text).cell;

/** Why a field's text cannot be read as a number, where a number belongs; undefined where it can. */
export const unreadField = (key: PriceColumnKey, text: string): string | undefined =>
  text.trim().startsWith('=') ? undefined : readTyped(key, text).wrong;

/** The cell for text that came from a file, which is never a formula. `decimalComma`: 12,5 is twelve and a half. */
export function readValue(key: PriceColumnKey, text: string, decimalComma = false): Cell {
  const { kind, choices } = priceColumn(key);
  const trimmed = text.trim();
  if (trimmed === '') return null;
  switch (kind) {
    case 'number':
    case 'money':
      return decimalNumber(withDot(trimmed, decimalComma ? 'mixed' : 'dot')) ?? text;
    case 'date':
      return serialFromIso(trimmed) ?? text;
    case 'choice': {
      const choice = choices?.find((one) => one === trimmed.toLowerCase()) ?? trimmed;
      // A list validation compares with the number that a spreadsheet makes of "100".
      return /^\d+$/.test(choice) ? Number(choice) : choice;
    }
    default:
      return key === 'contents' || key === 'note' ? numberIfLossless(text) : text;
  }
}

/** A number where it would be written the same again; a part number as 007 or 12.50 stays text. */
export function numberIfLossless(text: string): Cell {
  const number = decimalNumber(text);
  return number !== undefined && String(number) === text ? number : text;
}

// Contents as it is typed, "47,5 x 144" or "12 1/2 ft", and as the sheet has it, "47.5 x 144" and "12.5 ft": the price
// functions read decimals behind a dot, whatever the place.

/** A number with all that may stand in it: a whole part before a fraction, signs between thousands. */
const NUMBER = /(?:\d+[ -])?\d+\/\d+|[.,]\d+|\d(?:[\d.,'’]*\d)?(?:[ \u00a0\u202f]\d{3}(?!\d)(?:[.,]\d+)?)*/g;
const DOTTED = /(\d*)\.(\d+)/g;

/** The sheet's text for what was typed; `wrong` where a number in it can be read in two ways or in none. */
function typedContents(typed: string): { readonly text: string } | { readonly wrong: string } {
  let wrong: string | undefined;
  const text = typed.replace(NUMBER, (number) => {
    const read = readNumber(number);
    if ('wrong' in read) {
      wrong ??= read.wrong;
      return number;
    }
    // What is plain stays as it was typed: 12.50 with its nought.
    return decimalNumber(number) !== undefined ? number : cellNumber(read.value).replace(decimalSign(), '.');
  });
  return wrong === undefined ? { text } : { wrong };
}

const shownContents = (text: string): string => text.replace(DOTTED, `$1${decimalSign()}$2`);

// A price as it is typed with the sign of its money: "$82.60", "€ 82,60", "82.60 USD".

/** Currencies that a sign may mean. A sign that is not listed may mean any. */
const CURRENCIES: Readonly<Record<string, readonly string[]>> = {
  $: ['USD', 'CAD', 'AUD', 'NZD', 'MXN', 'SGD', 'HKD'],
  US$: ['USD'],
  CA$: ['CAD'],
  '€': ['EUR'],
  '£': ['GBP'],
  '¥': ['JPY', 'CNY'],
};
const SIGN = `(?:[A-Za-z]{0,3}[${CURRENCY_SIGNS}]|[A-Za-z]{3})`;
const BEFORE = new RegExp(`^(${SIGN})\\s*(?=[-+.,\\d])`);
const BEHIND = new RegExp(`(?<number>[\\d.,])\\s*(${SIGN})$`);

/**
 * The number of a price as it was typed, the sign before or behind it, and the currencies that this may mean: undefined
 * where there is no sign, or where what it means cannot be told.
 */
export function typedPrice(text: string): {
  readonly number: string;
  readonly sign?: string;
  readonly currencies?: readonly string[] | undefined;
} {
  const trimmed = text.trim();
  const before = BEFORE.exec(trimmed);
  const sign = (before?.[1] ?? BEHIND.exec(trimmed)?.[2])?.toUpperCase();
  if (sign === undefined) return { number: trimmed };
  const number = before ? trimmed.slice(before[0].length) : trimmed.replace(BEHIND, '$<number>');
  return { number, sign, currencies: CURRENCIES[sign] ?? (/^[A-Z]{3}$/.test(sign) ? [sign] : undefined) };
}
