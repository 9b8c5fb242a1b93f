/** Where a link of a file leads, and whether it may be followed: what other people wrote is not trusted. */
import { fullName, type NameModel, type RangeAddress } from '../../../sheet';
import { cellsOf, tryFormula } from '../../../sheet/formula';

export type LinkTarget =
  /** A page or a mail, by its whole address. */
  | { readonly kind: 'page'; readonly address: string }
  | { readonly kind: 'place'; readonly address: string; readonly range: RangeAddress }
  /** `reason` is a sentence. */
  | { readonly kind: 'refused'; readonly address: string; readonly reason: string };

/** What places of links may name. */
export interface LinkBook {
  readonly sheets: readonly string[];
  readonly names: readonly NameModel[];
  /** The sheet that the link is on. */
  readonly sheet: string;
}

const OPENED = new Set(['http:', 'https:', 'mailto:']);

/** @param written as the file has it, or as HYPERLINK gives it */
export function linkTarget(written: string, book: LinkBook): LinkTarget {
  const address = written.trim();
  if (address.startsWith('#')) return placeOf(decoded(address.slice(1)), book);
  const url = URL.canParse(address) ? new URL(address) : undefined;
  // "C:\plans" looks like an address of the kind "c:".
  if (!url || /^[a-z]:[\\/]/i.test(address))
    return { kind: 'refused', address, reason: 'It leads to a file. Open that file from its folder.' };
  if (OPENED.has(url.protocol)) return { kind: 'page', address: url.href };
  return {
    kind: 'refused',
    address,
    reason: `Links that begin with ${url.protocol} are not opened here, as they can do harm. Those to http, https and mailto are.`,
  };
}

function decoded(text: string): string {
  if (!text.includes('%')) return text;
  try {
    return decodeURI(text);
  } catch {
    return text;
  }
}

function placeOf(text: string, book: LinkBook, depth = 0): LinkTarget {
  const refused = (reason: string): LinkTarget => ({ kind: 'refused', address: `#${text}`, reason });
  const node = tryFormula(text);
  if (node?.kind === 'name' && depth < 2) {
    const name = book.names.find((one) => one.name.toLowerCase() === node.name.toLowerCase());
    if (name) return placeOf(name.refersTo, book, depth + 1);
  }
  if (node?.kind !== 'reference') return refused(`There is no cell or name ${text} in this workbook.`);
  const wanted = node.sheet ?? book.sheet;
  const sheet = book.sheets.find((one) => one.toLowerCase() === wanted.toLowerCase());
  if (sheet === undefined) return refused(`There is no sheet ${wanted} in this workbook.`);
  const range = { ...cellsOf(node, sheet), sheet };
  return { kind: 'place', address: fullName(range), range };
}
