/** Between a cell of the price list and the text of its field. */
import { isoFromSerial, priceColumn, serialFromIso, type PriceColumnKey } from '../../../core/price';
import { decimalNumber, withDot } from '../../../core/quantity';
import type { Cell, CellInput } from '../../../sheet';
import { cellNumber, readNumber } from '../../locale';
import { typedContents, shownContents } from './contents-text';
import { typedPrice } from './typed-price';

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
 * leading "=" is text. What cannot be read stays text, for the row's check to name.
 */
export function readField(key: PriceColumnKey, text: string): CellInput {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  if (isNumeric(key)) {
    if (trimmed.startsWith('=')) return { formula: trimmed };
    const read = readNumber(key === 'price' ? typedPrice(trimmed).number : trimmed);
    return 'wrong' in read ? text : read.value;
  }
  if (key === 'contents') {
    const read = typedContents(text);
    return 'wrong' in read ? text : readValue(key, read.text);
  }
  return readValue(key, text);
}

/** Why a field's text cannot be read as a number, where a number belongs; undefined where it can. */
export function unreadField(key: PriceColumnKey, text: string): string | undefined {
  const trimmed = text.trim();
  if (trimmed === '' || trimmed.startsWith('=')) return undefined;
  const bare = key === 'price' ? typedPrice(trimmed).number : trimmed;
  const read = isNumeric(key) ? readNumber(bare) : key === 'contents' ? typedContents(text) : undefined;
  return read && 'wrong' in read ? read.wrong : undefined;
}

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
