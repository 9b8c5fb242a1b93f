/**
 * Quantities and money in words and digits, in the workbook's units and the pane's language; and a cutting plan and its
 * making in words, its patterns drawn with them, and both on paper.
 */
import { escapeMarkup } from '../../../core/markup';
import type { Measure } from '../../../core/price';
import { inUnit, readUnit, unitIn, type Quantities, type UnitSystem } from '../../../core/quantity';
import type { ShoppingLine } from '../../../core/shopping';
import {
  cutList,
  patternSvg,
  type CutStep,
  type CuttingPlan,
  type PartCount,
  type Progress,
} from '../../../core/stock';
import { localeOf, mark, t, writeNumber, type Marked } from '../../locale';
import { printPaper } from '../../shared/paper';
import { amountText, moneyText, sayIn } from '../../shared/quantities';

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
export const sizeText = (length: number, width: number | undefined, say: Quantities): string =>
  `${sidesText(length, width, say)} ${say.sign('length')}`;

const sidesText = (length: number, width: number | undefined, say: Quantities): string =>
  (width === undefined ? [length] : [length, width]).map((side) => lengthWords(side, say)).join(' × ');

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

// A cutting plan

/** How a plan's cost is said: as money, or as what it is where no stock has a price. */
export interface CostTerms {
  readonly priced: boolean;
  readonly kind: CuttingPlan['kind'];
  readonly currency: string;
  readonly say: Quantities;
}

export const planCostText = (cost: number, { priced, kind, currency, say }: CostTerms): string =>
  priced
    ? moneyText(cost, currency)
    : t('{quantity} of stock', { quantity: quantityText(cost, kind === 'sheets' ? 'area' : 'length', say.system) });

/** What was found, by how the search ended. */
const FOUND: Readonly<Record<CuttingPlan['status'], Marked>> = {
  optimal: mark('This is the cheapest plan of its kind: {cost}.'),
  short: mark('The stock is not enough: {cost}.'),
  feasible: mark('The best plan found: {cost}; at least {bound}, gap {gap} %.'),
  'time limit': mark('The best plan found in the time allowed: {cost}; at least {bound}, gap {gap} %.'),
  cancelled: mark('The best plan when the search was ended: {cost}; at least {bound}, gap {gap} %.'),
};

export const statusWords = (
  { status, cost, lowerBound, gap, usePercent, seconds }: CuttingPlan,
  terms: CostTerms,
): string =>
  [
    t(FOUND[status], {
      cost: planCostText(cost, terms),
      bound: planCostText(lowerBound, terms),
      gap: writeNumber(100 * gap, 1),
    }),
    t('{share} % of the stock becomes parts.', { share: writeNumber(usePercent, 0) }),
    t('{seconds} s.', { seconds: writeNumber(seconds, 1) }),
  ].join(' ');

export function progressWords(progress: Progress | undefined, terms: CostTerms): string {
  if (!progress) return t('Starting…');
  const values = { seconds: writeNumber(progress.seconds, 0), bound: planCostText(progress.lowerBound, terms) };
  return progress.cost === undefined
    ? t('{seconds} s: no plan yet, at least {bound}', values)
    : t('{seconds} s: best so far {cost}, at least {bound}', { ...values, cost: planCostText(progress.cost, terms) });
}

/** "2 × Wing: Rib, 1 × Tail: Clip" */
export const countsText = (list: readonly PartCount[]): string =>
  list.map(({ part, quantity }) => `${writeNumber(quantity, 0)} × ${part}`).join(', ');

/** "Strip 2", "Rib", "Trim Rib", "Leftover, keep". */
export function stepWords({ action, strip, part, turned }: CutStep): string {
  if (action === 'strip') return t('Strip {strip, number}', { strip });
  if (action === 'leftover') return t('Leftover, keep');
  if (action === 'trim') return turned ? t('Trim {part} (turned)', { part }) : t('Trim {part}', { part });
  return turned ? t('{part} (turned)', { part }) : part;
}

export const sizeWords = ({ size, by }: CutStep, say: Quantities): string => sidesText(size, by, say);

/**
 * A pattern drawn to scale with its measures in the workbook's units and its words in the pane's language.
 * @param id tells drawings on one page apart
 */
export function patternDrawing(pattern: CuttingPlan['patterns'][number], id: string, say: Quantities): string {
  const { stock, length, times } = pattern;
  const size = sizeText(length, 'strips' in pattern ? pattern.width : undefined, say);
  return patternSvg(pattern, {
    id,
    title: t('{stock}, {size}, {times, plural, one {once} other {# times}}', { stock, size, times }),
    measure: (inches) => lengthWords(inches, say),
  });
}

// On paper: each pattern on a page of its own, drawn as large as the page, its cuts below.

const NAME = 'cutting-plan';
const STYLES = `@media print {
  .${NAME} { color: #000; background: #fff; font: 10pt sans-serif }
  .${NAME} section { break-after: page }
  .${NAME} svg { width: 100%; max-height: 62vh }
  .${NAME} table { border-collapse: collapse; columns: 2 }
  .${NAME} th, .${NAME} td { text-align: left; padding: 1pt 8pt 1pt 0; border-bottom: 0.5pt solid #888 }
}`;

/** The pages as HTML. @internal */
export function planPages(plan: CuttingPlan, name: string, units: UnitSystem): string {
  const steps = cutList(plan);
  const say = sayIn(units);
  const heads = [
    t('Cut'),
    t('Size ({unit})', { unit: say.sign('length') }),
    t('At ({unit})', { unit: say.sign('length') }),
  ];
  return plan.patterns
    .map((pattern, index) => {
      const rows = steps
        .filter((step) => step.pattern === index + 1)
        .map(
          (step) =>
            `<tr><td>☐ ${escapeMarkup(stepWords(step))}</td><td>${sizeWords(step, say)}</td><td>${lengthWords(step.at, say)}</td></tr>`,
        );
      const title = t('{name}, pattern {number, number} of {count, number}: {times, number} × {stock}', {
        name,
        number: index + 1,
        count: plan.patterns.length,
        times: pattern.times,
        stock: pattern.stock,
      });
      return `<section lang="${escapeMarkup(localeOf().language)}"><h1>${escapeMarkup(title)}</h1>${patternDrawing(pattern, `paper-${index}`, say)}<table><thead><tr>${heads.map((head) => `<th>${escapeMarkup(head)}</th>`).join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></section>`;
    })
    .join('');
}

export const printPlan = (plan: CuttingPlan, name: string, units: UnitSystem): void =>
  printPaper(planPages(plan, name, units), NAME, STYLES);
