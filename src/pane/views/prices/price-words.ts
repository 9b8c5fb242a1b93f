/** The trade's words for what the list holds in short codes, and what one unit of use costs. */
import { piecesPerPound } from '../../../core/fastener';
import { InputError } from '../../../core/input-error';
import {
  openPriceBook,
  priceColumn,
  priceEach,
  SALE_UNITS,
  type Measure,
  type PriceColumnKey,
  type PriceRow,
  type SaleUnit,
} from '../../../core/price';
import { readUnit, type Dimension, type UnitSystem } from '../../../core/quantity';
import { mark, t, type Marked } from '../../locale';
import { quotedText } from '../../shared/quantities';
import type { GridColumnId } from './columns';
import { fieldText, fileText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';

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
  return typeof cell === 'number' ? quotedText(cell, currencyText(line, places)) : fileText('price', cell);
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

/** What Contents takes for goods of a kind that are sold by weight. */
const BY_WEIGHT: ReadonlyMap<string, Marked> = new Map([
  ['sheet', mark('Square inches in one {unit}, or with ft² or m²')],
  ['bar', mark('Length in one {unit}: inches, or with ft, mm, cm or m')],
  ['rivet', mark('Pieces in one {unit}; blank: from the rivet’s weight')],
  ['other', mark('Pieces in one {unit}; blank: used by weight')],
]);

/** What Contents takes for an item of that kind sold by that unit; undefined where it is not needed. */
export function contentsHint(kind: string, soldBy: string): string | undefined {
  if (soldBy === 'pack') return t('Pieces in a pack');
  if (soldBy === 'sheet' || (soldBy === 'each' && kind === 'sheet'))
    return t('Sheet size: 48 x 144, or with mm, cm, m, ft');
  if (soldBy === 'each' && kind === 'bar') return t('Length of one: 12 ft, 144, 3660 mm');
  const hint = soldBy === 'lb' || soldBy === 'kg' ? BY_WEIGHT.get(kind) : undefined;
  return hint && t(hint, { unit: soldBy });
}

/** Units in which the workbook counts what is used: a metric price for one mm² would be all noughts. */
const USED: Readonly<Record<UnitSystem, Readonly<Record<Exclude<Measure, 'pieces'>, string>>>> = {
  'in-lb': { area: 'in²', length: 'in', weight: 'lb' },
  'mm-kg': { area: 'm²', length: 'm', weight: 'kg' },
};

/** A changed row is a new object, so that a price can be kept by its row. */
const known = new WeakMap<PriceRow, number | undefined>();

/** Money for one in², in, piece or lb, as the worksheet functions count it; a solid rivet's by its computed weight. Undefined where it is not known. */
export function pricePerUse(row: PriceRow): number | undefined {
  if (known.has(row)) return known.get(row);
  let each: number | undefined;
  try {
    each = priceEach(openPriceBook({ rows: [row], problems: [] }, piecesPerPound).find(row.item));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
  known.set(row, each);
  return each;
}

/** Price of one unit of use in the workbook's units: of one in² or m², in or m, lb or kg, or piece; undefined where it is not known. */
export function unitPrice(row: PriceRow, units: UnitSystem): number | undefined {
  const each = pricePerUse(row);
  return each === undefined || row.measure === 'pieces'
    ? each
    : each * readUnit(USED[units][row.measure], row.measure satisfies Dimension)!.inInch;
}

/** "/in²", "/m", "each": what a unit price is for. */
export const perUse = (measure: Measure, units: UnitSystem): string =>
  measure === 'pieces' ? t('each') : `/${USED[units][measure]}`;

/** Why a row that is right has no unit price. */
export const noUnitPrice = (row: PriceRow): string | undefined =>
  pricePerUse(row) === undefined
    ? t(
        'Sold by weight. Name it by its designation, such as MS20470AD4-4, or type its pieces per {unit} under {column}.',
        { unit: row.soldBy, column: priceColumn('contents').label },
      )
    : undefined;

/** Decimals that give the smallest of some unit prices two digits: the same for all, so that they align. */
export function unitDigits(prices: readonly (number | undefined)[], units: UnitSystem): number {
  const least = prices.reduce<number>(
    (min, price) => (price !== undefined && price > 0 && price < min ? price : min),
    1,
  );
  return Math.min(6, Math.max(units === 'mm-kg' ? 2 : 4, Math.ceil(-Math.log10(least)) + 1));
}
