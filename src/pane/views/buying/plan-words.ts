/** A cutting plan and its making in words, and its patterns drawn with them. */
import {
  isPriced,
  patternSvg,
  type CuttingPlan,
  type CutStep,
  type PartCount,
  type Progress,
} from '../../../core/stock';
import { t, writeNumber } from '../../locale';
import { moneyText } from '../../shared/quantities';
import type { PlanRequest } from './cutting-needs';
import { lengthWords, quantityText, sizeText } from './buying-words';
import type { Quantities } from '../../../core/quantity';

/** A plan of stock without prices is for least material. */
export const hasPrices = (stock: PlanRequest['stock']): boolean => stock.some(isPriced);

/** How a plan's cost is said: as money, or as what it is where no stock has a price. */
export interface CostTerms {
  readonly priced: boolean;
  readonly kind: CuttingPlan['kind'];
  readonly currency: string;
  readonly say: Quantities;
}

export function planCostText(cost: number, { priced, kind, currency, say }: CostTerms): string {
  return priced
    ? moneyText(cost, currency)
    : t('{quantity} of stock', { quantity: quantityText(cost, kind === 'sheets' ? 'area' : 'length', say.system) });
}

export function statusWords(plan: CuttingPlan, terms: CostTerms): string {
  const { usePercent, seconds } = plan;
  return [
    foundWords(plan, terms),
    t('{share} % of the stock becomes parts.', { share: writeNumber(usePercent, 0) }),
    t('{seconds} s.', { seconds: writeNumber(seconds, 1) }),
  ].join(' ');
}

function foundWords({ status, cost, lowerBound, gap }: CuttingPlan, terms: CostTerms): string {
  const values = {
    cost: planCostText(cost, terms),
    bound: planCostText(lowerBound, terms),
    gap: writeNumber(100 * gap, 1),
  };
  switch (status) {
    case 'optimal':
      return t('This is the cheapest plan of its kind: {cost}.', values);
    case 'short':
      return t('The stock is not enough: {cost}.', values);
    case 'feasible':
      return t('The best plan found: {cost}; at least {bound}, gap {gap} %.', values);
    case 'time limit':
      return t('The best plan found in the time allowed: {cost}; at least {bound}, gap {gap} %.', values);
    case 'cancelled':
      return t('The best plan when the search was ended: {cost}; at least {bound}, gap {gap} %.', values);
  }
}

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

export const sizeWords = ({ size, by }: CutStep, say: Quantities): string =>
  (by === undefined ? [size] : [size, by]).map((side) => lengthWords(side, say)).join(' × ');

/** A pattern drawn to scale with its measures in the workbook's units and its words in the pane's language. */
type Pattern = CuttingPlan['patterns'][number];

/** @param id tells drawings on one page apart */
export function patternDrawing(pattern: Pattern, id: string, say: Quantities): string {
  const { stock, length, times } = pattern;
  const size = sizeText(length, 'strips' in pattern ? pattern.width : undefined, say);
  return patternSvg(pattern, {
    id,
    title: t('{stock}, {size}, {times, plural, one {once} other {# times}}', { stock, size, times }),
    measure: (inches) => lengthWords(inches, say),
  });
}
