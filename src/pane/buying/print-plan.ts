/** A cutting plan on paper: each pattern on a page of its own, drawn as large as the page, its cuts below. */
import { cutList, lengthText, patternSvg, type CuttingPlan } from '../../core/stock';
import { sizeWords, stepWords } from './plan-words';

const PAPER = 'tarebook-plan';
const STYLES = `@media screen { .${PAPER} { display: none } }
@media print {
  html, body { height: auto !important; overflow: visible !important }
  body > *:not(.${PAPER}) { display: none !important }
  .${PAPER} { color: #000; background: #fff; font: 10pt sans-serif }
  .${PAPER} section { break-after: page }
  .${PAPER} svg { width: 100%; max-height: 62vh }
  .${PAPER} table { border-collapse: collapse; columns: 2 }
  .${PAPER} th, .${PAPER} td { text-align: left; padding: 1pt 8pt 1pt 0; border-bottom: 0.5pt solid #888 }
}`;

const escape = (text: string): string => text.replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`);

/** The pages as HTML. */
export function planPages(plan: CuttingPlan, name: string): string {
  const steps = cutList(plan);
  return plan.patterns
    .map((pattern, index) => {
      const rows = steps.filter((step) => step.pattern === index + 1).map((step) => `<tr><td>☐ ${escape(stepWords(step))}</td><td>${sizeWords(step)}</td><td>${lengthText(step.at)}</td></tr>`);
      return `<section><h1>${escape(name)}, pattern ${index + 1} of ${plan.patterns.length}: ${pattern.times} × ${escape(pattern.stock)}</h1>${patternSvg(pattern, { id: `paper-${index}` })}<table><thead><tr><th>Cut</th><th>Size (in)</th><th>At (in)</th></tr></thead><tbody>${rows.join('')}</tbody></table></section>`;
    })
    .join('');
}

/** Prints without a window of its own, which a host may forbid. */
export function printPlan(plan: CuttingPlan, name: string): void {
  const paper = document.createElement('div');
  paper.className = PAPER;
  paper.innerHTML = planPages(plan, name);
  const styles = document.createElement('style');
  styles.textContent = STYLES;
  document.head.append(styles);
  document.body.append(paper);
  const clear = (): void => {
    paper.remove();
    styles.remove();
  };
  window.addEventListener('afterprint', clear, { once: true });
  try {
    window.print();
  } catch (error) {
    clear();
    throw error;
  }
}
