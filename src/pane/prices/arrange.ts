/** Which rows are shown and in which order: a view, which never touches the sheet. */
import { PRICE_KINDS, type PriceColumnKey, type PriceKind } from '../../core/price';
import { cellText } from './fields';
import { cellOf, type Places, type PriceLine } from './lines';
import { ageWord } from './quote-age';
import { unitPrice } from './unit-price';

export type Show = 'all' | PriceKind | 'old' | 'mend';
export const SHOWS: readonly { readonly value: Show; readonly label: string }[] = [
  { value: 'all', label: 'All' },
  ...PRICE_KINDS.map((kind) => ({ value: kind, label: { sheet: 'Sheet', bar: 'Bar', rivet: 'Rivets', other: 'Other' }[kind] })),
  { value: 'old', label: 'Old quotes' },
  { value: 'mend', label: 'To mend' },
];

export type SortKey = PriceColumnKey | 'unit' | 'sheet';

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

/** The words of a line's age, where it has something to say. */
export const lineAge = (line: PriceLine, { today, oldAfter }: Ageing): string | undefined => (line.row ? ageWord(line.row.quotedOn, today, oldAfter) : undefined);

export const isOld = (line: PriceLine, ageing: Ageing): boolean => lineAge(line, ageing)?.startsWith('old') ?? false;

/** Lines that match every word of the text and the chosen kind, sorted; rows without a value come last. */
export function arrange(lines: readonly PriceLine[], places: Places, arrangement: Arrangement, ageing: Ageing): PriceLine[] {
  const words = arrangement.text.toLowerCase().split(/\s+/).filter(Boolean);
  const shown = lines.filter((line) => !line.blank && matchesShow(line, places, arrangement.show, ageing) && matchesWords(line, words));
  if (arrangement.sort === 'sheet') return arrangement.descending ? shown.reverse() : shown;
  const { sort, descending } = arrangement;
  const keyed = shown.map((line) => ({ line, value: sortValue(line, places, sort) }));
  keyed.sort((a, b) => compare(a.value, b.value, descending));
  return keyed.map(({ line }) => line);
}

function matchesShow(line: PriceLine, places: Places, show: Show, ageing: Ageing): boolean {
  if (show === 'all') return true;
  if (show === 'mend') return line.problems.size > 0;
  if (show === 'old') return isOld(line, ageing);
  return cellText('kind', cellOf(line, places, 'kind')).trim().toLowerCase() === show;
}

function matchesWords(line: PriceLine, words: readonly string[]): boolean {
  if (words.length === 0) return true;
  const text = line.cells.map((cell) => cellText(undefined, cell)).join('\n').toLowerCase() + (line.row ? `\n${line.row.quotedOn}` : '');
  return words.every((word) => text.includes(word));
}

function sortValue(line: PriceLine, places: Places, sort: Exclude<SortKey, 'sheet'>): string | number | undefined {
  if (sort === 'unit') return line.row ? unitPrice(line.row)?.each : undefined;
  const cell = cellOf(line, places, sort);
  if (sort === 'price' || sort === 'from') return typeof cell === 'number' ? cell : undefined;
  const text = cellText(sort, cell).trim();
  return text === '' ? undefined : text;
}

const byText = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

function compare(a: string | number | undefined, b: string | number | undefined, descending: boolean): number {
  if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
  const order = typeof a === 'number' && typeof b === 'number' ? a - b : byText.compare(String(a), String(b));
  return descending ? -order : order;
}
