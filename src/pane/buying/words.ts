/** Quantities and money in words and digits. */
import { formatMoney, type Measure } from '../../core/price';
import type { ShoppingLine } from '../../core/shopping';

/** Bare digits, where the currency is said elsewhere. */
export const amount = (value: number | undefined, currency: string): string => (value === undefined ? '–' : formatMoney(value, currency).replace(/ .*$/, ''));

const grouped = (value: number, digits: number): string => value.toLocaleString('en-US', { maximumFractionDigits: digits });

/** "12.4 ft²", "36 ft", "201", "1.2 lb". */
export function quantityText(value: number, measure: Measure): string {
  switch (measure) {
    case 'area':
      return `${grouped(value / 144, 1)} ft²`;
    case 'length':
      return `${grouped(value / 12, 1)} ft`;
    case 'weight':
      return `${grouped(value, 2)} lb`;
    case 'pieces':
      return grouped(value, 0);
  }
}

const PLURAL: Readonly<Record<string, string>> = { sheet: 'sheets', pack: 'packs' };

/** "2 sheets", "3 lb", "4 × 100", "5". */
export function unitsText(units: number, soldBy: string): string {
  if (soldBy === 'each') return grouped(units, 0);
  if (/^\d/.test(soldBy)) return `${units} × ${soldBy}`;
  return `${grouped(units, 0)} ${units === 1 ? soldBy : (PLURAL[soldBy] ?? soldBy)}`;
}

/** What the line's quantity is made of. */
export function needWords({ needed, spares, bought, onHand, measure }: ShoppingLine): string {
  return [
    `takes ${quantityText(needed, measure)}`,
    spares > 0 ? `spares ${quantityText(spares, measure)}` : '',
    bought > 0 ? `bought ${quantityText(bought, measure)}` : '',
    onHand > 0 ? `on the shelf ${quantityText(onHand, measure)}` : '',
  ]
    .filter(Boolean)
    .join(', ');
}
