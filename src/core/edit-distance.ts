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
