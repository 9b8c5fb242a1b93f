/** Which rows are shown and in which order, and whose quote is old: a view, which never touches the sheet. */
import type { PriceColumnKey, PriceKind } from '../../../core/price';
import { mark, textOrder, t, type Marked } from '../../locale';
import type { SortKey } from './columns';
import { fieldText, fileText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import { pricePerUse } from './price-words';

export type Show = 'all' | PriceKind | 'old' | 'mend';
export const SHOWS: readonly { readonly value: Show; readonly label: Marked }[] = [
  { value: 'all', label: mark('Show: All') },
  { value: 'sheet', label: mark('Show: Sheet') },
  { value: 'bar', label: mark('Show: Bar') },
  { value: 'rivet', label: mark('Show: Rivets') },
  { value: 'other', label: mark('Show: Other') },
  { value: 'old', label: mark('Show: Old quotes') },
  { value: 'mend', label: mark('Show: To fix') },
];

export interface Arrangement {
  readonly text: string;
  readonly show: Show;
  readonly sort: SortKey;
  readonly descending: boolean;
}

export const AS_IN_SHEET: Arrangement = { text: '', show: 'all', sort: 'sheet', descending: false };

export interface Ageing {
  readonly today: string;
  readonly oldAfter: number;
}

const ageOf = (line: PriceLine, { today, oldAfter }: Ageing): QuoteAge | undefined =>
  line.row ? quoteAge(line.row.quotedOn, today, oldAfter) : undefined;

/** The words of a line's age, where it has something to say. */
export const lineAge = (line: PriceLine, ageing: Ageing): string | undefined => ageWord(ageOf(line, ageing));

export const isOld = (line: PriceLine, ageing: Ageing): boolean => ageOf(line, ageing)?.kind === 'old';

/** Lines that match every word of the text and the chosen kind, sorted; rows without a value come last. */
export function arrange(
  lines: readonly PriceLine[],
  places: Places,
  { text, show, sort, descending }: Arrangement,
  ageing: Ageing,
): PriceLine[] {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  const keys = new Map([...places].map(([key, place]) => [place, key]));
  const shown = lines.filter(
    (line) => !line.blank && matchesShow(line, places, show, ageing) && matchesWords(line, keys, words),
  );
  if (sort === 'sheet') return descending ? shown.reverse() : shown;
  return shown
    .map((line) => ({ line, value: sortValue(line, places, sort) }))
    .sort((a, b) => compare(a.value, b.value, descending))
    .map(({ line }) => line);
}

function matchesShow(line: PriceLine, places: Places, show: Show, ageing: Ageing): boolean {
  if (show === 'all') return true;
  if (show === 'mend') return line.problems.size > 0;
  if (show === 'old') return isOld(line, ageing);
  return (
    fileText('kind', cellOf(line, places, 'kind'))
      .trim()
      .toLowerCase() === show
  );
}

/** Words are looked for in what is shown. */
function matchesWords(line: PriceLine, keys: ReadonlyMap<number, PriceColumnKey>, words: readonly string[]): boolean {
  if (words.length === 0) return true;
  const text = line.cells
    .map((cell, place) => fieldText(keys.get(place), cell))
    .join('\n')
    .toLowerCase();
  return words.every((word) => text.includes(word));
}

function sortValue(line: PriceLine, places: Places, sort: Exclude<SortKey, 'sheet'>): string | number | undefined {
  if (sort === 'unit') return line.row && pricePerUse(line.row);
  const cell = cellOf(line, places, sort);
  if (sort === 'price' || sort === 'from') return typeof cell === 'number' ? cell : undefined;
  const text = fileText(sort, cell).trim();
  return text === '' ? undefined : text;
}

function compare(a: string | number | undefined, b: string | number | undefined, descending: boolean): number {
  if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
  const order = typeof a === 'number' && typeof b === 'number' ? a - b : textOrder().compare(String(a), String(b));
  return descending ? -order : order;
}

// How old a quote is

/** Ages in months after which a quote counts as old; 0: never. */
export const OLD_AFTER = [3, 6, 12, 24, 0] as const;
export const OLD_AFTER_DEFAULT = 12;

/** Whole calendar months from one "year-month-day" to another; negative where `from` is the later. @internal */
export function monthsBetween(from: string, to: string): number {
  const [y1 = 0, m1 = 0, d1 = 0] = from.split('-').map(Number);
  const [y2 = 0, m2 = 0, d2 = 0] = to.split('-').map(Number);
  return (y2 - y1) * 12 + (m2 - m1) - (d2 < d1 ? 1 : 0);
}

/** What there is to say of a quote's age: at least `oldAfter` months old, or dated after today. */
type QuoteAge = { readonly kind: 'old'; readonly months: number } | { readonly kind: 'ahead' };

/** @internal */
export function quoteAge(quotedOn: string, today: string, oldAfter: number): QuoteAge | undefined {
  if (quotedOn === '') return undefined;
  if (quotedOn > today) return { kind: 'ahead' };
  const months = monthsBetween(quotedOn, today);
  return oldAfter === 0 || months < oldAfter ? undefined : { kind: 'old', months };
}

/** "old: 14 months" @internal */
export function ageWord(age: QuoteAge | undefined): string | undefined {
  if (!age) return undefined;
  if (age.kind === 'ahead') return t('dated ahead');
  return age.months < 36
    ? t('old: {months, plural, one {# month} other {# months}}', { months: age.months })
    : t('old: {years, plural, one {# year} other {# years}}', { years: Math.floor(age.months / 12) });
}
