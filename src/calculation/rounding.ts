/**
 * Rounding by the 15 digits that a spreadsheet shows: 1.005 to two places is 1.01 and 2.675 is 2.68, though their
 * binary values lie below. Source: OpenFormula 1.3, 6.17.5 (ROUND) with Microsoft's "Excel specifications and limits" (15 digits).
 */
function shift(value: number, places: number): number {
  const [mantissa, exponent] = value.toExponential(14).split('e');
  return Number(`${mantissa}e${Number(exponent) + places}`);
}

/** Rounds the size of a number at a decimal place, keeping its sign. */
export function roundAt(value: number, places: number, how: (x: number) => number): number {
  const digits = Math.trunc(places);
  if (digits > 300) return value;
  const shifted = shift(Math.abs(value), digits);
  if (!Number.isFinite(shifted)) return value;
  return Math.sign(value) * shift(how(shifted), -digits);
}

export const rounded = (value: number, places: number): number => roundAt(value, places, Math.round);

/** The nearest multiple of a step, up or down, without the dust of a division. */
export const multipleOf = (value: number, step: number, how: (x: number) => number): number =>
  step === 0 ? 0 : Number((how(Number((value / step).toPrecision(15))) * step).toPrecision(15));
