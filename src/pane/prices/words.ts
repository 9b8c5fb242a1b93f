/** The trade's words for what the list holds in short codes. */
import { isoFromSerial, type PriceColumnKey, type PriceKind, type SaleUnit } from '../../core/price';
import { cellText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import type { GridColumnId } from './columns';
import { priceDigits } from './unit-price';

const PER: Readonly<Record<SaleUnit, string>> = { sheet: '/sheet', lb: '/lb', kg: '/kg', ft: '/ft', m: '/m', each: ' each', '100': '/100', '1000': '/1000', pack: '/pack' };

/** Money and what it is for: "USD/sheet", " each"; as it stands in the sheet where that is none of the list's units. */
export function perWords(line: PriceLine, places: Places): string {
  const text = cellText('soldBy', cellOf(line, places, 'soldBy'));
  return (currencyText(line, places) + (PER[line.row?.soldBy ?? (text as SaleUnit)] ?? ` ${text}`)).trim();
}

/** The price as it is shown: with its currency's decimals where it is a number. */
export function priceText(line: PriceLine, places: Places): string {
  const cell = cellOf(line, places, 'price');
  return typeof cell === 'number' ? priceDigits(cell, currencyText(line, places)) : cellText('price', cell);
}

export const currencyText = (line: PriceLine, places: Places): string => line.row?.currency ?? cellText('currency', cellOf(line, places, 'currency')).trim();

/** What has no column of its own at this width: the goods, under the item, and the quote, under the row. */
export function detailLines(line: PriceLine, places: Places, shown: ReadonlySet<GridColumnId>): { readonly goods: readonly string[]; readonly quote: readonly string[] } {
  const text = (key: PriceColumnKey): string => (shown.has(key) ? '' : cellText(key, cellOf(line, places, key)).trim());
  const from = text('from');
  return {
    goods: [text('kind'), text('contents') + (line.row?.soldBy === 'pack' && text('contents') ? ' pieces' : '')].filter(Boolean),
    quote: [from && from !== '0' ? `from ${from}` : '', text('supplier'), text('quotedOn')].filter(Boolean),
  };
}

export const dateText = (line: PriceLine, places: Places): string => {
  const cell = cellOf(line, places, 'quotedOn');
  return typeof cell === 'number' ? (isoFromSerial(cell) ?? String(cell)) : cellText('quotedOn', cell);
};

const BY_WEIGHT: Readonly<Record<PriceKind, (unit: string) => string>> = {
  sheet: (unit) => `Square inches in one ${unit}, or with ft² or m²`,
  bar: (unit) => `Length in one ${unit}: inches, or with ft, mm, cm or m`,
  rivet: (unit) => `Pieces in one ${unit}; blank: from the rivet's weight`,
  other: (unit) => `Pieces in one ${unit}; blank: used by weight`,
};

/** What Contents takes for an item of that kind sold by that unit; undefined where it is not needed. */
export function contentsHint(kind: string, soldBy: string): string | undefined {
  switch (soldBy) {
    case 'sheet':
      return 'Sheet size: 48 x 144, or with mm, cm, m, ft';
    case 'pack':
      return 'Pieces in a pack';
    case 'lb':
    case 'kg':
      return BY_WEIGHT[kind as PriceKind]?.(soldBy);
    case 'each':
      if (kind === 'sheet') return 'Sheet size: 48 x 144, or with mm, cm, m, ft';
      if (kind === 'bar') return 'Length of one: 12 ft, 144, 3660 mm';
      return undefined;
    default:
      return undefined;
  }
}
