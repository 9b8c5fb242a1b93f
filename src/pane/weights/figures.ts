/** Figures as they are written in this view. */

export type Write = (value: number | undefined) => string;

/** Pounds to the hundredth; figures of which none reaches a pound to the ten-thousandth. */
export const poundsLike = (values: readonly (number | undefined)[]): Write => {
  const places = values.every((value) => Math.abs(value ?? 0) < 1) ? 4 : 2;
  return (weight) => weight?.toFixed(places) ?? '';
};
export const pounds: Write = (weight) => weight?.toFixed(2) ?? '';
/** One part's, to the thousandth. */
export const partPounds: Write = (weight) => weight?.toFixed(3) ?? '';
export const inches = (arm: number | undefined): string => (arm === undefined ? '' : arm.toFixed(2));
export const moments = (moment: number | undefined): string => (moment === undefined ? '' : moment.toFixed(1));
export const money = (cost: number | undefined): string => (cost === undefined ? 'not known' : cost.toFixed(2));
export const percent = (value: number | undefined): string => (value === undefined ? '' : `${value.toFixed(0)}\u00a0%`);

/** With a sign, and a true minus; "0" in the places of `write` where it is none. */
export function signed(value: number | undefined, write: (value: number) => string): string {
  if (value === undefined) return '';
  const text = write(Math.abs(value));
  if (!/[1-9]/.test(text)) return text;
  return `${value > 0 ? '+' : '−'}${text}`;
}

/** "1 row", "3 rows" */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
