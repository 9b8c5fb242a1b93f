/** Quantities and money as the pane writes them: in the workbook's units, in the place's way of writing numbers. */
import { quantities, type Quantities, type UnitSystem } from '../../core/quantity';
import { minorDigits } from '../../core/price';
import { writeNumber } from '../locale';

export const sayIn = (units: UnitSystem): Quantities => quantities(units, writeNumber);

/** "27.30": where the currency is said in the column's head; a dash where there is none. */
export const amountText = (amount: number | undefined, currency: string): string =>
  amount === undefined ? '–' : writeNumber(amount, minorDigits(currency));

/** "27.30 USD" */
export const moneyText = (amount: number, currency: string): string =>
  `${amountText(amount, currency)} ${currency}`.trim();

/** A price with its currency's decimals, and more only where it was quoted with more. */
export function quotedText(price: number, currency: string): string {
  const quoted = (String(price).split('.')[1] ?? '').length;
  return writeNumber(price, Math.max(minorDigits(currency), Math.min(6, quoted)));
}
