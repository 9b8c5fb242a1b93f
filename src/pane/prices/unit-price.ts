/** What one unit of use costs, as the list shows it beside the price of the sale unit. */
import { piecesPerPound } from '../../core/fastener';
import { InputError } from '../../core/input-error';
import { minorDigits, openPriceBook, priceEach, type Measure, type PriceRow } from '../../core/price';

export interface UnitPrice {
  /** Money for one in², in, piece or lb; undefined where `why` says why it is not known. */
  readonly each: number | undefined;
  readonly per: string;
  readonly why?: string;
}

const PER: Readonly<Record<Measure, string>> = { area: '/in²', length: '/in', pieces: 'each', weight: '/lb' };

/** Rows are read anew when they change, so that a row stands for its price. */
const known = new WeakMap<PriceRow, UnitPrice>();

/** Price of one unit of use of a row, as the worksheet functions count it; a solid rivet's by its computed weight. */
export function unitPrice(row: PriceRow): UnitPrice {
  const before = known.get(row);
  if (before) return before;
  const unit = compute(row);
  known.set(row, unit);
  return unit;
}

function compute(row: PriceRow): UnitPrice {
  const per = PER[row.measure];
  try {
    return { each: priceEach(openPriceBook({ rows: [row], problems: [] }, piecesPerPound).find(row.item)), per };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { each: undefined, per, why: `Sold by weight: name it by its designation, as MS20470AD4-4, or give its pieces per ${row.soldBy} under Contents.` };
  }
}

/** Decimals that give the smallest of some unit prices two digits: the same for all, so that they align. */
export function unitDigits(prices: readonly (number | undefined)[]): number {
  const least = prices.reduce<number>((min, price) => (price !== undefined && price > 0 && price < min ? price : min), 1);
  return Math.min(6, Math.max(4, Math.ceil(-Math.log10(least)) + 1));
}

/** A price with its currency's decimals, and more only where it was quoted with more. */
export function priceDigits(price: number, currency: string): string {
  const written = (String(price).split('.')[1] ?? '').length;
  return price.toFixed(Math.max(minorDigits(currency), Math.min(6, written)));
}
