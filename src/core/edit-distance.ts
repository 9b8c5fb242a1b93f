/** How far a mistyped word is from the ones that it may stand for, and which of them are near. */
import { nameKey } from './names';

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
