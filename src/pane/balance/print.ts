/** Prints a part of its own out of a page that shows something else: the page is kept off the paper, and no window is opened, which a host may forbid. */
import { RECORD_STYLES } from './weighing-record';

const PAPER = 'tarebook-paper';
const STYLES = `@media screen { .${PAPER} { display: none } } @media print { html, body { height: auto !important; overflow: visible !important } body > *:not(.${PAPER}) { display: none !important } } ${RECORD_STYLES}`;

/** @param body HTML that is made here, whose texts are escaped */
export function printPage(body: string): void {
  const paper = document.createElement('div');
  paper.className = `${PAPER} record`;
  paper.innerHTML = body;
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
