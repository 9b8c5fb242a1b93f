/**
 * What leaves the page: a file that is handed to the user, and a part of its own that is printed out of a page that shows
 * something else. The page is kept off the paper, and no window is opened, which a host may forbid.
 */

const PAPER = 'tarebook-paper';
const ONLY_PAPER = `@media screen { .${PAPER} { display: none } } @media print { html, body { height: auto !important; overflow: visible !important } body > *:not(.${PAPER}) { display: none !important } }`;

/** True while something is laid out for the printer. */
export const hasPaper = (): boolean => document.querySelector(`.${PAPER}`) !== null;

/**
 * Prints at once.
 * @param body   HTML that is made here, whose texts are escaped
 * @param name   class of the element around it, by which `styles` finds it
 */
export function printPaper(body: string, name: string, styles: string): void {
  const clear = layPaper(body, name, styles);
  try {
    window.print();
  } catch (error) {
    clear();
    throw error;
  }
}

/** Lays out what the next print shows; it goes when that is over. Returns what takes it away before. */
export function layPaper(body: string, name: string, styles: string): () => void {
  const paper = document.createElement('div');
  paper.className = `${PAPER} ${name}`;
  paper.innerHTML = body;
  const sheet = document.createElement('style');
  sheet.textContent = `${ONLY_PAPER} ${styles}`;
  document.head.append(sheet);
  document.body.append(paper);
  const clear = (): void => {
    paper.remove();
    sheet.remove();
  };
  window.addEventListener('afterprint', clear, { once: true });
  return clear;
}

/** Hands a file to the user as a download. */
export function download(name: string, file: Blob): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
