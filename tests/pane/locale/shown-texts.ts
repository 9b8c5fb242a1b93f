/** What a page shows and speaks that has not gone through the pane's texts. Runs in Node; `untranslated` reads the page. */
import type { Page } from 'playwright-core';

const ATTRIBUTES = ['aria-label', 'aria-description', 'aria-valuetext', 'title', 'placeholder', 'alt'];

export interface Shown {
  readonly text: string;
  /** Where it stands: "button", "input placeholder". */
  readonly place: string;
}

/**
 * Texts outside ⟦ ⟧, those in elements that say of themselves that they are in another language (lang) or not to be
 * translated (translate="no") left out. Brackets may reach over several elements, where a text has nodes in it.
 */
export const outsideBrackets = (page: Page): Promise<Shown[]> =>
  page.evaluate((attributes) => {
    const found: { text: string; place: string }[] = [];
    const root = document.getElementById('pane')!;
    const foreign = (element: Element): boolean => {
      const marked = element.closest('[lang], [translate=no]');
      return marked !== null && marked !== root.querySelector('[lang]');
    };
    // What is in a choice, or names a part of a picture, is read out though it has no box of its own.
    const boxed = (element: Element): Element =>
      element.closest('select') ?? element.closest('title, desc')?.parentElement ?? element;
    const shown = (element: Element): boolean => boxed(element).checkVisibility({ visibilityProperty: true });
    let depth = 0;
    const outside = (text: string): string => {
      let rest = '';
      for (const sign of text) {
        if (sign === '⟦') depth += 1;
        if (depth === 0) rest += sign;
        if (sign === '⟧') depth -= 1;
      }
      return rest;
    };
    const keep = (text: string, place: string): void => {
      if (/\p{L}/u.test(text)) found.push({ text: text.trim(), place });
    };
    // A name that is too long for one line of a picture stands in several, below each other.
    let lastLine: Element | undefined;
    const readText = (data: string, element: Element, place: string): void => {
      const text = outside(data);
      const above = found.at(-1);
      const goesOn = lastLine !== undefined && element.previousElementSibling === lastLine && /\p{L}/u.test(text);
      const kept = !foreign(element);
      if (above && place === 'text' && goesOn) above.text += ` ${text.trim()}`;
      else if (kept) keep(text, place);
      lastLine = place === 'text' && kept && /\p{L}/u.test(text) ? element : undefined;
    };
    const readAttributes = (element: Element, place: string): void => {
      const before = depth;
      for (const name of attributes) {
        depth = 0;
        const value = element.getAttribute(name);
        if (value !== null && !foreign(element)) keep(outside(value), `${place} ${name}`);
      }
      depth = before;
    };
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node instanceof Element ? node : node.parentElement!;
      if (element.closest('style, script') || !shown(element)) continue;
      const place = element.tagName.toLowerCase();
      if (node instanceof Text) readText(node.data, element, place);
      else readAttributes(element, place);
    }
    return found;
  }, ATTRIBUTES);

/** What stays as it is in every language: units, codes, names of functions and rivets, places of cells. */
const SIGNS = new Set([
  'in',
  'in²',
  'in³',
  'ft',
  'ft²',
  'lb',
  'oz',
  'mm',
  'mm²',
  'cm',
  'm',
  'm²',
  'kg',
  'g',
  'x',
  'CG',
  'MAC',
  'USD',
  'EUR',
  'TARE',
]);
const CODE = /^(?:[A-Z]+[A-Z\d-]*\d|#[A-Z/0!?]+|TARE(?:\.[A-Z0-9]+)*)$/;

/** Of the texts, those that are neither from the workbook nor the same in every language. */
export function foreignTexts(shown: readonly Shown[], known: Iterable<string>): string[] {
  // Longer ones first: "Price list" before "Price".
  const ours = [...new Set(known)].filter((text) => /\p{L}/u.test(text)).sort((a, b) => b.length - a.length);
  const left = shown.filter(({ text }) => {
    let rest = text;
    for (const one of ours)
      if (rest.includes(one))
        rest = rest.replaceAll(
          new RegExp(`(?<![\\p{L}\\p{N}])${one.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')}(?![\\p{L}\\p{N}])`, 'gu'),
          ' ',
        );
    return rest
      .split(/[\s,;:!?()[\]·/"“”']+/)
      .some((word) => /\p{L}/u.test(word) && !SIGNS.has(word.replace(/\.$/, '')) && !CODE.test(word));
  });
  return [...new Set(left.map(({ text, place }) => `${place}: ${text}`))];
}
