/** The few names of a list that a mistyped one may stand for. */

import { editDistance } from '../edit-distance';

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
