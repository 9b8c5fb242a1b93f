/** A cutting plan on paper: each pattern on a page of its own, drawn as large as the page, its cuts below. */
import { escapeMarkup } from '../../../core/markup';
import type { UnitSystem } from '../../../core/quantity';
import { cutList, type CuttingPlan } from '../../../core/stock';
import { localeOf, t } from '../../locale';
import { printPaper } from '../../shared/paper';
import { patternDrawing, sizeWords, stepWords } from './plan-words';
import { sayIn } from '../../shared/quantities';
import { lengthWords } from './buying-words';

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
