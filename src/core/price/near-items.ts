import { editDistance } from '../edit-distance';
import { nameKey } from '../names';

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
