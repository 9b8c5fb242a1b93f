/** What is wrong with the layout of a page as it stands: texts cut off or off the side, words broken inside, a page that scrolls sideways. */
import type { Page } from 'playwright-core';
import { setFont, TEST_FONTS } from './fonts';

/** One line a finding, about the elements within `within`. */
const layoutFaults = (page: Page, within = 'body'): Promise<string[]> =>
  page.evaluate((selector) => {
    const shown = (element: Element): boolean =>
      element.clientWidth > 0 && getComputedStyle(element).clipPath === 'none' && element.checkVisibility();
    const nameOf = (element: HTMLElement): string =>
      `${element.tagName.toLowerCase()} “${(element.innerText ?? '').trim().slice(0, 40)}”`;
    const textsOf = (element: Element): Text[] =>
      [...element.childNodes].filter(
        (node): node is Text => node.nodeType === Node.TEXT_NODE && node.textContent!.trim() !== '',
      );
    /** The box around a table that scrolls sideways to show it. */
    const scroller = (element: Element): Element | null => {
      for (let one: Element | null = element; one && one !== document.body; one = one.parentElement)
        if (/^(?:auto|scroll)$/.test(getComputedStyle(one).overflowX) && one.querySelector(':scope > table'))
          return one;
      return null;
    };
    const isCut = (element: HTMLElement): boolean => {
      // A long text scrolls in its field as it does in a cell of the sheet; a number must be seen whole.
      const field = element.matches('input, textarea, select') && element.inputMode !== 'decimal';
      const hides = getComputedStyle(element).overflowX !== 'visible';
      return !field && hides && element.scrollWidth > element.clientWidth + 1 && !scroller(element);
    };
    // One for all: a page has every range follow what it takes out, and a thousand of them made that slow.
    const range = document.createRange();
    /** Rectangles of a run of letters: more than one height is a word that is broken inside. */
    const isBroken = (node: Text, from: number, to: number): boolean => {
      range.setStart(node, from);
      range.setEnd(node, to);
      const tops = [...range.getClientRects()].filter(({ width }) => width > 0).map(({ top }) => top);
      return Math.max(...tops) - Math.min(...tops) > 4;
    };
    /** Words that are broken inside; one with a soft hyphen says itself where it may be divided, and code breaks anywhere. */
    const brokenWords = (element: HTMLElement): string[] =>
      element.matches('code, code *')
        ? []
        : textsOf(element)
            // A text on one line has no word on two: most are, and asking for each word takes long.
            .filter((node) => isBroken(node, 0, node.length))
            .flatMap((node) =>
              [...node.data.matchAll(/[\p{L}\p{M}\u00ad]{2,}|\d[\d.,]*\d/gu)]
                .filter(({ 0: word, index }) => !word.includes('\u00ad') && isBroken(node, index, index + word.length))
                .map(([word]) => word),
            );
    const faultsOf = (element: HTMLElement): string[] => {
      const cut = isCut(element) ? [`cut off: ${nameOf(element)}`] : [];
      if (textsOf(element).length === 0) return cut;
      const { left, right } = (scroller(element) ?? element).getBoundingClientRect();
      const off = right > innerWidth + 0.5 || left < -0.5 ? [`off the side: ${nameOf(element)}`] : [];
      return [...cut, ...off, ...brokenWords(element).map((word) => `broken inside: ${word} in ${nameOf(element)}`)];
    };
    const sideways = document.documentElement.scrollWidth > innerWidth ? ['the page scrolls sideways'] : [];
    const elements = [...document.querySelectorAll<HTMLElement>(`${selector} *`)];
    const looked = elements.filter((element) => shown(element) && !element.closest('svg'));
    const faults = looked.flatMap(faultsOf);
    range.setStart(document, 0);
    range.collapse();
    return [...new Set([...sideways, ...faults])];
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
