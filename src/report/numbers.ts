/** Numbers as the report prints them. */

export const fixed = (value: number, places: number): string => {
  const rounded = Number(value.toFixed(places));
  return (Object.is(rounded, -0) ? 0 : rounded).toLocaleString('en-US', { minimumFractionDigits: places, maximumFractionDigits: places }).replace('-', '−');
};

/** A dash where there is no number. */
export const orBlank = (value: number | undefined, places: number): string => (value === undefined ? '–' : fixed(value, places));
