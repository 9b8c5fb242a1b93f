/** What one unit of use costs, as the list shows it beside the price of the sale unit. */
import { piecesPerPound } from '../../../core/fastener';
import { InputError } from '../../../core/input-error';
import { minorDigits, openPriceBook, priceColumn, priceEach, type Measure, type PriceRow } from '../../../core/price';
import { readUnit, type Dimension, type UnitSystem } from '../../../core/quantity';
import { t, writeNumber } from '../../locale';

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
  if (each === undefined || row.measure === 'pieces') return each;
  return each * readUnit(USED[units][row.measure], row.measure satisfies Dimension)!.inInch;
}

/** "/in²", "/m", "each": what a unit price is for. */
export const perUse = (measure: Measure, units: UnitSystem): string =>
  measure === 'pieces' ? t('each') : `/${USED[units][measure]}`;

/** Why a row that is right has no unit price. */
export function noUnitPrice(row: PriceRow): string | undefined {
  if (pricePerUse(row) !== undefined) return undefined;
  return t(
    'Sold by weight. Name it by its designation, such as MS20470AD4-4, or type its pieces per {unit} under {column}.',
    { unit: row.soldBy, column: priceColumn('contents').label },
  );
}

/** Decimals that give the smallest of some unit prices two digits: the same for all, so that they align. */
export function unitDigits(prices: readonly (number | undefined)[], units: UnitSystem): number {
  const least = prices.reduce<number>(
    (min, price) => (price !== undefined && price > 0 && price < min ? price : min),
    1,
  );
  return Math.min(6, Math.max(units === 'mm-kg' ? 2 : 4, Math.ceil(-Math.log10(least)) + 1));
}

/** A price with its currency's decimals, and more only where it was quoted with more. */
export function writePrice(price: number, currency: string): string {
  const written = (String(price).split('.')[1] ?? '').length;
  return writeNumber(price, Math.max(minorDigits(currency), Math.min(6, written)));
}
