/** Lengths in messages, in the units of whoever reads them. */

export type LengthText = (inches: number) => string;

const MM = 25.4;

/** ".125 in" */
export const inInches: LengthText = (inches) => `${Number(inches.toFixed(4))} in`;

/** "3.18 mm" */
export const inMillimetres: LengthText = (inches) => `${Number((inches * MM).toFixed(2))} mm`;

/** "0.125 in (3.18 mm)": where it is not known who reads it. */
export const inBoth: LengthText = (inches) => `${inInches(inches)} (${inMillimetres(inches)})`;
