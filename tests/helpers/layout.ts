/** What is wrong with the layout of a page as it stands: texts cut off or off the side, words broken inside, a page that scrolls sideways. */
import type { Page } from 'playwright-core';
import { setFont, TEST_FONTS } from './fonts';

/** One line a finding, about the elements within `within`. */
export const layoutFaults = (page: Page, within = 'body'): Promise<string[]> =>
  page.evaluate((selector) => {
    const out = new Set<string>();
    if (document.documentElement.scrollWidth > innerWidth) out.add('the page scrolls sideways');
    const shown = (element: Element): boolean =>
      element.clientWidth > 0 && getComputedStyle(element).clipPath === 'none' && element.checkVisibility();
    /** A box that scrolls sideways to show what is in it. */
    const scroller = (element: Element): Element | null => {
      for (let one: Element | null = element; one && one !== document.body; one = one.parentElement)
        if (/^(?:auto|scroll)$/.test(getComputedStyle(one).overflowX) && one.querySelector(':scope > table'))
          return one;
      return null;
    };
    /** Rectangles of a run of letters: more than one height is a word that is broken inside. */
    const broken = (node: Text, from: number, to: number): boolean => {
      const range = document.createRange();
      range.setStart(node, from);
      range.setEnd(node, to);
      const tops = [...range.getClientRects()].filter(({ width }) => width > 0).map(({ top }) => top);
      return tops.length > 1 && Math.max(...tops) - Math.min(...tops) > 4;
    };
    for (const element of document.querySelectorAll<HTMLElement>(`${selector} *`)) {
      if (!shown(element) || element.closest('svg')) continue;
      const style = getComputedStyle(element);
      const name = `${element.tagName.toLowerCase()} “${(element.innerText ?? '').trim().slice(0, 40)}”`;
      const box = element.getBoundingClientRect();
      const field = element.tagName === 'INPUT' || element.tagName === 'TEXTAREA' || element.tagName === 'SELECT';
      // A long text scrolls in its field as it does in a cell of the sheet; a number must be seen whole.
      const scrolls = field && (element as HTMLInputElement).inputMode !== 'decimal';
      if (
        !scrolls &&
        !scroller(element) &&
        element.scrollWidth > element.clientWidth + 1 &&
        style.overflowX !== 'visible'
      )
        out.add(`cut off: ${name} ${element.getAttribute('aria-label') ?? ''}`);
      const texts = [...element.childNodes].filter(
        (node): node is Text => node.nodeType === Node.TEXT_NODE && node.textContent!.trim() !== '',
      );
      if (texts.length === 0) continue;
      const around = (scroller(element) ?? element).getBoundingClientRect();
      if (around.right > innerWidth + 0.5 || around.left < -0.5) out.add(`off the side: ${name}`);
      if (box.width === 0 || /monospace/.test(style.fontFamily)) continue;
      for (const node of texts)
        for (const { 0: word, index } of node.data.matchAll(/[\p{L}\p{M}\u00ad]{2,}|\d[\d.,]*\d/gu))
          // A word with a soft hyphen says itself where it may be divided.
          if (!word.includes('\u00ad') && broken(node, index, index + word.length))
            out.add(`broken inside: ${word} in ${name}`);
    }
    return [...out];
  }, within);

/** The faults at each width in each of the tests' fonts; the page is left as wide as at first, in the wide font. */
export async function layoutFaultsAt(page: Page, widths: readonly number[], within?: string): Promise<string[]> {
  const before = page.viewportSize()!;
  const all: string[] = [];
  for (const font of [...TEST_FONTS].reverse()) {
    await setFont(page, font);
    for (const width of widths) {
      await page.setViewportSize({ ...before, width });
      // What is laid out by its width is told of a new one, and answers in the next frame.
      await page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)))),
      );
      all.push(...(await layoutFaults(page, within)).map((fault) => `${font}, ${width} px: ${fault}`));
    }
  }
  await page.setViewportSize(before);
  return all;
}
