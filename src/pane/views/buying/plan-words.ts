/** A cutting plan and its making in words, its patterns drawn with them, and both on paper. */
import { escapeMarkup } from '../../../core/markup';
import type { Quantities, UnitSystem } from '../../../core/quantity';
import {
  cutList,
  patternSvg,
  type CuttingPlan,
  type CutStep,
  type PartCount,
  type Progress,
} from '../../../core/stock';
import { localeOf, mark, t, writeNumber, type Marked } from '../../locale';
import { printPaper } from '../../shared/paper';
import { moneyText, sayIn } from '../../shared/quantities';
import { lengthWords, quantityText, sizeText } from './buying-words';

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

/** What was found, by how the search ended. */
const FOUND: Readonly<Record<CuttingPlan['status'], Marked>> = {
  optimal: mark('This is the cheapest plan of its kind: {cost}.'),
  short: mark('The stock is not enough: {cost}.'),
  feasible: mark('The best plan found: {cost}; at least {bound}, gap {gap} %.'),
  'time limit': mark('The best plan found in the time allowed: {cost}; at least {bound}, gap {gap} %.'),
  cancelled: mark('The best plan when the search was ended: {cost}; at least {bound}, gap {gap} %.'),
};

export function statusWords(
  { status, cost, lowerBound, gap, usePercent, seconds }: CuttingPlan,
  terms: CostTerms,
): string {
  return [
    t(FOUND[status], {
      cost: planCostText(cost, terms),
      bound: planCostText(lowerBound, terms),
      gap: writeNumber(100 * gap, 1),
    }),
    t('{share} % of the stock becomes parts.', { share: writeNumber(usePercent, 0) }),
    t('{seconds} s.', { seconds: writeNumber(seconds, 1) }),
  ].join(' ');
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
