/** Quantities and money as the pane writes them: in the workbook's units, in the place's way of writing numbers. */
import { quantities, type Quantities, type UnitSystem } from '../../core/quantity';
import { minorDigits } from '../../core/price';
import { writeNumber } from '../locale';

export const sayIn = (units: UnitSystem): Quantities => quantities(units, writeNumber);

/** "27.30": where the currency is said in the column's head. */
export const amountText = (amount: number, currency: string): string => writeNumber(amount, minorDigits(currency));

/** "27.30 USD" */
export const moneyText = (amount: number, currency: string): string =>
  `${amountText(amount, currency)} ${currency}`.trim();
