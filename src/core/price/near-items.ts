/** Names like the one that was asked for, nearest first: what stands in the message of an unknown item. */
export function nearItems(wanted: string, names: readonly string[], most = 3): string[] {
  const target = wanted.toLowerCase();
  return names
    .map((name, index) => ({ name, index, distance: distance(target, name.toLowerCase()) }))
    .filter(({ name, distance: d }) => d <= Math.max(2, Math.floor(target.length * 0.4)) || (target.length > 2 && name.toLowerCase().includes(target)))
    .sort((a, b) => a.distance - b.distance || a.index - b.index)
    .slice(0, most)
    .map(({ name }) => name);
}

/** Levenshtein distance. */
function distance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const line = [i];
    for (let j = 1; j <= b.length; j++) {
      line[j] = Math.min(previous[j]! + 1, line[j - 1]! + 1, previous[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
    }
    previous = line;
  }
  return previous[b.length]!;
}
