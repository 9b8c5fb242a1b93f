/**
 * Stations spaced evenly from first to last, both included (ribs, formers).
 * @param count whole number of 1 or more; 1 gives the first alone
 */
export function evenStations(first: number, last: number, count: number): number[] {
  if (count === 1) return [first];
  // The last one is set and not computed, so that it is the number that was given.
  return Array.from({ length: count }, (_, index) =>
    index === count - 1 ? last : first + ((last - first) * index) / (count - 1),
  );
}
