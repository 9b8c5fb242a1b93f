/** A cutting plan on paper: each pattern on a page of its own, drawn as large as the page, its cuts below. */
import { cutList, lengthText, patternSvg, type CuttingPlan } from '../../core/stock';
import { printPaper } from '../paper';
import { sizeWords, stepWords } from './plan-words';

const NAME = 'cutting-plan';
const STYLES = `@media print {
  .${NAME} { color: #000; background: #fff; font: 10pt sans-serif }
  .${NAME} section { break-after: page }
  .${NAME} svg { width: 100%; max-height: 62vh }
  .${NAME} table { border-collapse: collapse; columns: 2 }
  .${NAME} th, .${NAME} td { text-align: left; padding: 1pt 8pt 1pt 0; border-bottom: 0.5pt solid #888 }
}`;

const escape = (text: string): string => text.replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`);

/** The pages as HTML. @internal */
export function planPages(plan: CuttingPlan, name: string): string {
  const steps = cutList(plan);
  return plan.patterns
    .map((pattern, index) => {
      const rows = steps.filter((step) => step.pattern === index + 1).map((step) => `<tr><td>☐ ${escape(stepWords(step))}</td><td>${sizeWords(step)}</td><td>${lengthText(step.at)}</td></tr>`);
      return `<section><h1>${escape(name)}, pattern ${index + 1} of ${plan.patterns.length}: ${pattern.times} × ${escape(pattern.stock)}</h1>${patternSvg(pattern, { id: `paper-${index}` })}<table><thead><tr><th>Cut</th><th>Size (in)</th><th>At (in)</th></tr></thead><tbody>${rows.join('')}</tbody></table></section>`;
    })
    .join('');
}

export const printPlan = (plan: CuttingPlan, name: string): void => printPaper(planPages(plan, name), NAME, STYLES);
