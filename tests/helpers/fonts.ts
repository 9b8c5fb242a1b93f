/**
 * The fonts that the tests bring, so that no machine's own decide how a page is laid out: a wide one and a narrow one.
 * A browser's page shows all its texts in one of them, whatever the page's styles ask for.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { BrowserContext, CDPSession, Page } from 'playwright-core';

/** DejaVu Sans is wider than the interface font of every system that we know of; Roboto Condensed is narrower. */
export type TestFont = 'wide' | 'narrow';
export const TEST_FONTS: readonly TestFont[] = ['wide', 'narrow'];

interface Face {
  readonly font: TestFont;
  readonly weight: string;
  readonly data: string;
  readonly unicodeRange?: string;
}

const WIDE = '@fontsource/dejavu-sans/files/dejavu-sans-latin-{weight}-normal.woff2';
const NARROW = '@fontsource/roboto-condensed/files/roboto-condensed-{subset}-{weight}-normal.woff2';

const base64 = (path: string): string => readFileSync(createRequire(import.meta.url).resolve(path)).toString('base64');

/** Read when the first page asks for them. */
let read: readonly Face[] | undefined;
const faces = (): readonly Face[] =>
  (read ??= [
    ...['400', '700'].map((weight): Face => ({ font: 'wide', weight, data: base64(WIDE.replace('{weight}', weight)) })),
    ...['400', '600', '700'].flatMap((weight) =>
      (
        [
          ['latin', 'U+0000-00FF, U+2000-206F, U+20AC, U+2122, U+2212'],
          ['latin-ext', 'U+0100-02AF, U+1E00-1EFF'],
        ] as const
      ).map(([subset, unicodeRange]): Face => ({
        font: 'narrow',
        weight,
        unicodeRange,
        data: base64(NARROW.replace('{subset}', subset).replace('{weight}', weight)),
      })),
    ),
  ]);

interface FontSwitch {
  tarebookFont: (font: TestFont) => void;
}

/** Every page of the context, from now on, shows its texts in the font. */
export async function bringFonts(context: BrowserContext, font: TestFont = 'wide'): Promise<void> {
  await context.addInitScript(
    ({ given, first }) => {
      // Unpacking the fonts takes a good part of what a test takes: an empty page has no text to show.
      if (location.href === 'about:blank') return;
      const add = (family: string, { weight, unicodeRange, data }: Face): void => {
        const signs = atob(data);
        const bytes = new Uint8Array(signs.length);
        for (let at = 0; at < signs.length; at += 1) bytes[at] = signs.charCodeAt(at);
        document.fonts.add(new FontFace(family, bytes, { weight, ...(unicodeRange ? { unicodeRange } : {}) }));
      };
      const added = new Set<TestFont>();
      const bring = (chosen: TestFont): void => {
        if (added.has(chosen)) return;
        added.add(chosen);
        for (const face of given) if (face.font === chosen) add(`test ${chosen}`, face);
      };
      bring('wide');
      // No style sheet reaches what is drawn on a canvas: it takes the size and weight that it asks for, and the wide font.
      const { prototype } = CanvasRenderingContext2D;
      const { get, set } = Object.getOwnPropertyDescriptor(prototype, 'font')!;
      const instead = new Map<string, string>();
      Object.defineProperty(prototype, 'font', {
        configurable: true,
        get,
        set(this: CanvasRenderingContext2D, asked: string) {
          const known = instead.get(asked);
          set!.call(this, known ?? asked);
          if (known !== undefined) return;
          const taken = (get!.call(this) as string).replace(/(px) .*$/, '$1 "test wide"');
          instead.set(asked, taken);
          set!.call(this, taken);
        },
      });
      // A sheet of this kind is let in by every policy of a page.
      const sheet = new CSSStyleSheet();
      document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
      (window as unknown as FontSwitch).tarebookFont = (chosen) => {
        bring(chosen);
        sheet.replaceSync(
          `*, ::before, ::after, ::placeholder, ::marker { font-family: "test ${chosen}", "test wide" !important }`,
        );
      };
      (window as unknown as FontSwitch).tarebookFont(first);
    },
    { given: faces(), first: font },
  );
}

/** The page as it stands goes over to the font. */
export const setFont = (page: Page, font: TestFont): Promise<void> =>
  page.evaluate((chosen) => (window as unknown as FontSwitch).tarebookFont(chosen), font);

interface DomNode {
  readonly nodeId: number;
  readonly nodeType: number;
  readonly nodeName: string;
  readonly nodeValue: string;
  readonly children?: readonly DomNode[];
}

/** Elements that hold text themselves. */
function withText(node: DomNode, found: DomNode[] = []): DomNode[] {
  const children = node.children ?? [];
  if (children.some(({ nodeType, nodeValue }) => nodeType === 3 && nodeValue.trim() !== '')) found.push(node);
  for (const child of children) withText(child, found);
  return found;
}

/** Texts that were seen to be drawn with the tests' fonts: asking the browser for each costs as much as a test. */
const seen = new Set<string>();

/** None of a node that the page has taken away meanwhile: it shows nothing any more. */
async function fontsDrawn(session: CDPSession, { nodeId }: DomNode) {
  try {
    return (await session.send('CSS.getPlatformFontsForNode', { nodeId })).fonts;
  } catch (error) {
    if (error instanceof Error && error.message.includes('Could not find node')) return [];
    throw error;
  }
}

async function fontsOf(session: CDPSession, node: DomNode): Promise<string[]> {
  const text = (node.children ?? []).map(({ nodeValue }) => nodeValue).join('');
  const key = `${node.nodeName} ${text}`;
  if (seen.has(key)) return [];
  const fonts = await fontsDrawn(session, node);
  const foreign = fonts.filter(({ isCustomFont }) => !isCustomFont);
  if (foreign.length === 0) seen.add(key);
  return foreign.map(({ familyName }) => `${familyName}: ${text.slice(0, 60)}`);
}

/** Texts of the page that were drawn with a font of the machine, as the browser itself tells; one line each. */
export async function fontsNotBrought(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  try {
    await session.send('DOM.enable');
    await session.send('CSS.enable');
    const { root } = await session.send('DOM.getDocument', { depth: -1 });
    return (await Promise.all(withText(root as DomNode).map((node) => fontsOf(session, node)))).flat();
  } finally {
    await session.detach();
  }
}
