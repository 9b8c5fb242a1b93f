/** Quantities and money in words and digits: in the workbook's units and the pane's language. */
import type { Measure } from '../../../core/price';
import { inUnit, readUnit, unitIn, type Quantities, type UnitSystem } from '../../../core/quantity';
import type { ShoppingLine } from '../../../core/shopping';
import { t, writeNumber } from '../../locale';
import { amountText, sayIn } from '../../shared/quantities';

/** A number with at most that many decimals, and no noughts at its end: "48", "54.2". */
export function trimmed(value: number, most: number): string {
  const rounded = toPlaces(value, most);
  let places = 0;
  while (places < most && toPlaces(rounded, places) !== rounded) places++;
  return writeNumber(rounded, places);
}

const toPlaces = (value: number, places: number): number => Math.round(value * 10 ** places) / 10 ** places;

/** What people buy and cut by: a metric figure of the same size has a decimal more. */
const COUNTED: Readonly<
  Record<UnitSystem, Readonly<Record<Exclude<Measure, 'pieces'>, { readonly sign: string; readonly places: number }>>>
> = {
  'in-lb': { area: { sign: 'ft²', places: 1 }, length: { sign: 'ft', places: 1 }, weight: { sign: 'lb', places: 2 } },
  'mm-kg': { area: { sign: 'm²', places: 2 }, length: { sign: 'm', places: 2 }, weight: { sign: 'kg', places: 3 } },
};

/** "12.4 ft²", "36 ft", "201", "1.2 lb"; "1.15 m²" where the workbook is metric. @param value in in², in, pieces or lb */
export function quantityText(value: number, measure: Measure, units: UnitSystem): string {
  if (measure === 'pieces') return writeNumber(value, 0);
  const { sign, places } = COUNTED[units][measure];
  return `${trimmed(inUnit(value, readUnit(sign, measure)), places)} ${sign}`;
}

/** A length as a cut list has it: to a thousandth of an inch or a hundredth of a millimetre at most, without its unit. */
export const lengthWords = (inches: number, say: Quantities): string =>
  trimmed(say.to(inches, 'length'), say.places('length', 3));

/** "144 × 48 in", "144 in". */
export function sizeText(length: number, width: number | undefined, say: Quantities): string {
  const sides = width === undefined ? [length] : [length, width];
  return `${sides.map((side) => lengthWords(side, say)).join(' × ')} ${say.sign('length')}`;
}

/** A thickness as it tells sheet apart: "0.025 in", "0.635 mm", "0.8 mm". */
export function gaugeText(inches: number, units: UnitSystem): string {
  const unit = unitIn('length', units);
  const value = inUnit(inches, unit);
  return `${units === 'in-lb' ? writeNumber(value, 3) : trimmed(value, 3)} ${unit.sign}`;
}

/** "2 sheets", "3 lb", "4 × 100", "5". */
export function unitsText(units: number, soldBy: string): string {
  switch (soldBy) {
    case 'each':
      return writeNumber(units, 0);
    case 'sheet':
      return t('{count, plural, one {# sheet} other {# sheets}}', { count: units });
    case 'pack':
      return t('{count, plural, one {# pack} other {# packs}}', { count: units });
  }
  return /^\d+$/.test(soldBy)
    ? `${writeNumber(units, 0)} × ${writeNumber(Number(soldBy), 0)}`
    : `${writeNumber(units, 0)} ${soldBy}`;
}

/** What the line's quantity is made of. */
export function needWords({ needed, spares, bought, onHand, measure }: ShoppingLine, units: UnitSystem): string {
  const quantity = (value: number) => ({ quantity: quantityText(value, measure, units) });
  return [
    t('needs {quantity}', quantity(needed)),
    spares > 0 ? t('{quantity} spare', quantity(spares)) : '',
    bought > 0 ? t('bought {quantity}', quantity(bought)) : '',
    onHand > 0 ? t('on the shelf {quantity}', quantity(onHand)) : '',
  ]
    .filter(Boolean)
    .join(', ');
}

/** What the line leaves over; '' where it is nothing. */
export function leftWords(
  { leftOver, leftOverValue, measure, needed }: ShoppingLine,
  currency: string,
  units: UnitSystem,
): string {
  if (leftOver <= needed * 1e-9) return '';
  const quantity = quantityText(leftOver, measure, units);
  return leftOverValue === undefined
    ? t('left over {quantity}', { quantity })
    : t('left over {quantity}, worth {money}', { quantity, money: amountText(leftOverValue, currency) });
}

/** How many sheets or bars the cutting plan takes for the line, beside what area or length would come to; '' where no plan counts it. */
export function planWords({ planned, hardware, measure }: ShoppingLine, units: UnitSystem): string {
  if (!planned) return '';
  const sheets = hardware === 'sheet';
  const { pieces: count, size, byMeasure, besides } = planned;
  // Upwards: 1.04 sheets are not done with one.
  const values = { count, other: trimmed(Math.ceil((byMeasure ?? 0) * 10 - 1e-9) / 10, 1) };
  const words = [];
  if (count === 0) words.push(t('None: what is on the shelf covers the plan.'));
  else if (byMeasure === undefined)
    words.push(
      size
        ? t('{count, plural, one {# sheet} other {# sheets}} of {size} by the plan.', {
            count,
            size: sizeText(size.length, size.width, sayIn(units)),
          })
        : t('{count, plural, one {# bar} other {# bars}} by the plan.', values),
    );
  else if (byMeasure <= count)
    words.push(
      sheets
        ? t('{count, plural, one {# sheet} other {# sheets}} by the plan; by area with spare {other} would do.', values)
        : t('{count, plural, one {# bar} other {# bars}} by the plan; by length with spare {other} would do.', values),
    );
  else
    words.push(
      sheets
        ? t(
            '{count, plural, one {# sheet} other {# sheets}} by the plan; by area with spare it would be {other}.',
            values,
          )
        : t(
            '{count, plural, one {# bar} other {# bars}} by the plan; by length with spare it would be {other}.',
            values,
          ),
    );
  if (besides > 0)
    words.push(t('Plus {quantity} for what is not in the plan.', { quantity: quantityText(besides, measure, units) }));
  return words.join(' ');
}
