/** What a cell shows as a text: its value in the form that its number format gives it. */
import { formattedNumber, formattedText, numberText } from '../../calculation';
import { CellError, type Cell } from '../../sheet';

/** @param numberFormat the cell's; '' where it has none */
export function shownText(value: Cell, numberFormat = ''): string {
  if (value === null) return '';
  if (value instanceof CellError) return value.code;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return numberFormat ? formattedText(value, numberFormat) : value;
  return (numberFormat && formattedNumber(value, numberFormat)) || numberText(value);
}
