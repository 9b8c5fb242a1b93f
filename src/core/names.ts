/**
 * How names that people type compare: components, parts, items, suppliers, stations, lots. Case does not count,
 * nor do spaces at the ends, and a run of spaces counts as one. A letter and its accent count the same typed as
 * one character or as two (Unicode normal form C), and "Straße" is "STRASSE", since capitals have no ß.
 */
import { memoized } from './memoized';

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
  const first = new Map<string, string>();
  for (const name of names) {
    const key = nameKey(name);
    if (!first.has(key)) first.set(key, name.trim());
  }
  return [...first.values()];
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
    const key = nameKey(name);
    let entry = this.named.get(key);
    if (!entry) this.named.set(key, (entry = { name, value: this.create(name) }));
    this.spellings.set(spelling, entry.value);
    return entry.value;
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
