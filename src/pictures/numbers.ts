/** Numbers as pictures print them. */

/** "1,320.50", with a real minus sign. */
export const fixed = (value: number, places: number): string => {
  const rounded = Number(value.toFixed(places));
  return (Object.is(rounded, -0) ? 0 : rounded).toLocaleString('en-US', { minimumFractionDigits: places, maximumFractionDigits: places }).replace('-', '−');
};

/** Decimals that tell weights of a size apart: two below 100, one below 1,000, none above. */
export const placesFor = (largest: number): number => (largest < 100 ? 2 : largest < 1000 ? 1 : 0);
