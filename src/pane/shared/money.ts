/** Money as the pane writes it: with its currency's decimals, in the place's way of writing numbers. */
import { minorDigits } from '../../core/price';
import { writeNumber } from '../locale';

/** "27.30": where the currency is said in the column's head. */
export const amountText = (amount: number, currency: string): string => writeNumber(amount, minorDigits(currency));

/** "27.30 USD" */
export const moneyText = (amount: number, currency: string): string =>
  `${amountText(amount, currency)} ${currency}`.trim();
