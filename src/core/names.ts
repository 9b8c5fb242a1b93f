/** How names that people type compare, and which names are near to a mistyped one. */
import { entryOf, memoized } from './memoized';

// How names that people type compare: components, parts, items, suppliers, stations, lots. Case does not count,
// nor do spaces at the ends, and a run of spaces counts as one. A letter and its accent count the same typed as
// one character or as two (Unicode normal form C), and "Straße" is "STRASSE", since capitals have no ß.

/** Printable ASCII without runs of spaces: the usual name, which needs no look at Unicode. */
const PLAIN = /^(?:[!-~]+(?: [!-~]+)*)?$/;

function keyOf(name: string): string {
  if (PLAIN.test(name)) return name.toLowerCase();
  // To lower case first: the capital ẞ has no upper case, and its lower case ß has SS.
  const folded = name.normalize('NFC').toLowerCase().toUpperCase().toLowerCase();
  return folded.normalize('NFC').replace(/\s+/g, ' ').trim();
}

/** A key that two names share exactly where they are the same name. It is never shown. */
export const nameKey = memoized(keyOf, 2048);

/** True where two names are the same. */
export const sameName = (one: string, other: string): boolean => one === other || nameKey(one) === nameKey(other);

/** Names once each, as each is spelled first. */
export function distinctNames(names: Iterable<string>): string[] {
  const first = new ByName((name) => name);
  for (const name of names) first.get(name);
  return first.entries().map(({ name }) => name);
}

/** Items gathered by a key, in the order in which the keys first come. */
export function gathered<K, T>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) entryOf(groups, keyOf(item), (): T[] => []).push(item);
  return groups;
}

/** One value for each name, made when the name first comes; in the order and the spelling of first appearance. */
export class ByName<T> {
  /** By every spelling that has been asked for: a long list asks for the same few. */
  private readonly spellings = new Map<string, T>();
  private readonly named = new Map<string, { readonly name: string; readonly value: T }>();

  /** @param unnamed what a blank name is gathered under */
  constructor(
    private readonly create: (name: string) => T,
    private readonly unnamed = '',
  ) {}

  get(spelling: string): T {
    const known = this.spellings.get(spelling);
    if (known !== undefined) return known;
    const name = spelling.trim() || this.unnamed;
    const { value } = entryOf(this.named, nameKey(name), () => ({ name, value: this.create(name) }));
    this.spellings.set(spelling, value);
    return value;
  }

  /** The value of a name that has come already. */
  known(spelling: string): T | undefined {
    return this.spellings.get(spelling) ?? this.named.get(nameKey(spelling.trim() || this.unnamed))?.value;
  }

  entries(): { readonly name: string; readonly value: T }[] {
    return [...this.named.values()];
  }
}

/** Order of designations: runs of digits by their number, so that -9 comes before -10; needs no locale of the machine. */
export function naturalOrder(a: string, b: string): number {
  const [left, right] = [a, b].map((text) => text.match(/\d+|\D+/g) ?? []);
  for (let at = 0; at < Math.min(left!.length, right!.length); at++) {
    const [one, other] = [left![at]!, right![at]!];
    const byNumber = /^\d/.test(one) && /^\d/.test(other) ? Number(one) - Number(other) : 0;
    if (byNumber !== 0) return byNumber;
    if (one !== other && !(/^\d/.test(one) && /^\d/.test(other))) return one < other ? -1 : 1;
  }
  return left!.length - right!.length;
}

// How far a mistyped word is from the ones that it may stand for, and which of them are near.

/** Changes between two short words: a letter more, less or other, or two neighbours swapped (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, index) => index)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    const above = rows[i - 1]!;
    for (let j = 1; j <= b.length; j++) {
      let least = Math.min(row[j - 1]! + 1, above[j]! + 1, above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, rows[i - 2]![j - 2]! + 1);
      row[j] = least;
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

const LONGEST_COMPARED = 24;

/** Up to three names nearest to what was written; none where nothing is near. */
export function nearest(written: string, names: readonly string[]): string[] {
  const plain = (text: string): string =>
    text
      .toUpperCase()
      .replace(/[^A-Z0-9]/g, '')
      .slice(0, LONGEST_COMPARED);
  const wanted = plain(written);
  if (wanted === '') return [];
  return names
    .map((name) => {
      const candidate = plain(name);
      const head = wanted.slice(0, candidate.length);
      return { name, far: Math.min(editDistance(wanted, candidate), editDistance(head, candidate) + 0.5) };
    })
    .filter(({ name, far }) => far <= Math.max(1.5, plain(name).length / 3))
    .sort((a, b) => a.far - b.far)
    .slice(0, 3)
    .map(({ name }) => name);
}

/** Names like the one that was asked for, nearest first: what stands in the message of an unknown item. */
export function nearItems(wanted: string, names: readonly string[], most = 3): string[] {
  const target = nameKey(wanted);
  return names
    .map((name, index) => ({ name, index, distance: editDistance(target, nameKey(name)) }))
    .filter(
      ({ name, distance: d }) =>
        d <= Math.max(2, Math.floor(target.length * 0.4)) || (target.length > 2 && nameKey(name).includes(target)),
    )
    .sort((a, b) => a.distance - b.distance || a.index - b.index)
    .slice(0, most)
    .map(({ name }) => name);
}
