/** The trade's words for what the list holds in short codes. */
import { isoFromSerial, SALE_UNITS, type PriceColumnKey, type SaleUnit } from '../../../core/price';
import { t } from '../../locale';
import { fileText, fieldText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import type { GridColumnId } from './columns';
import { writePrice } from './unit-price';

/** Money and what it is for, by the sheet's own code: "USD/sheet", "USD each". */
export function perWords(line: PriceLine, places: Places): string {
  const unit = line.row?.soldBy ?? fileText('soldBy', cellOf(line, places, 'soldBy'));
  const currency = currencyText(line, places);
  if (unit === 'each') return currency ? t('{currency} each', { currency }) : t('each');
  return SALE_UNITS.includes(unit as SaleUnit) ? `${currency}/${unit}` : `${currency} ${unit}`.trim();
}

/** The price as it is shown: with its currency's decimals where it is a number. */
export function priceText(line: PriceLine, places: Places): string {
  const cell = cellOf(line, places, 'price');
  return typeof cell === 'number' ? writePrice(cell, currencyText(line, places)) : fileText('price', cell);
}

export const currencyText = (line: PriceLine, places: Places): string =>
  line.row?.currency ?? fileText('currency', cellOf(line, places, 'currency')).trim();

/** What has no column of its own at this width: the goods, under the item, and the quote, under the row. */
export function detailLines(
  line: PriceLine,
  places: Places,
  shown: ReadonlySet<GridColumnId>,
): { readonly goods: readonly string[]; readonly quote: readonly string[] } {
  const text = (key: PriceColumnKey): string =>
    shown.has(key) ? '' : fieldText(key, cellOf(line, places, key)).trim();
  const [from, contents] = [text('from'), text('contents')];
  return {
    goods: [
      text('kind'),
      line.row?.soldBy === 'pack' && contents ? t('{count} pieces', { count: contents }) : contents,
    ].filter(Boolean),
    quote: [from && from !== '0' ? t('from {count}', { count: from }) : '', text('supplier'), text('quotedOn')].filter(
      Boolean,
    ),
  };
}

export const dateText = (line: PriceLine, places: Places): string => {
  const cell = cellOf(line, places, 'quotedOn');
  return typeof cell === 'number' ? (isoFromSerial(cell) ?? String(cell)) : fileText('quotedOn', cell);
};

/** What Contents takes for an item of that kind sold by that unit; undefined where it is not needed. */
export function contentsHint(kind: string, soldBy: string): string | undefined {
  const byWeight = soldBy === 'lb' || soldBy === 'kg';
  if (soldBy === 'pack') return t('Pieces in a pack');
  if (soldBy === 'sheet' || (soldBy === 'each' && kind === 'sheet'))
    return t('Sheet size: 48 x 144, or with mm, cm, m, ft');
  if (soldBy === 'each' && kind === 'bar') return t('Length of one: 12 ft, 144, 3660 mm');
  if (!byWeight) return undefined;
  if (kind === 'sheet') return t('Square inches in one {unit}, or with ft² or m²', { unit: soldBy });
  if (kind === 'bar') return t('Length in one {unit}: inches, or with ft, mm, cm or m', { unit: soldBy });
  if (kind === 'rivet') return t('Pieces in one {unit}; blank: from the rivet’s weight', { unit: soldBy });
  return kind === 'other' ? t('Pieces in one {unit}; blank: used by weight', { unit: soldBy }) : undefined;
}
