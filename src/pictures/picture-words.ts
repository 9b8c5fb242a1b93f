/** The words and numbers of a picture, which whoever draws it can have in another language and other units. */
import { quantities, type Quantities } from '../core/quantity';

/** Gives a text, known by its English, with values in its {places}. */
export type Words = (english: string, values?: Readonly<Record<string, string | number>>) => string;

/** The text as it stands. */
export const inEnglish: Words = (english, values = {}) =>
  english.replace(/\{(\w+)\}/g, (place, name: string) => String(values[name] ?? place));

/** What every picture's data may say: how its weights and arms, given in lb and in, are shown. */
export interface Shown {
  /** Inches and pounds in English, where it is left out. */
  readonly quantities?: Quantities;
}

export const INCH_POUND = quantities('in-lb');

/** Decimals that tell weights of a size (lb) apart: two below 100, one below 1,000, none above. */
export const placesFor = (largest: number): number => (largest < 100 ? 2 : largest < 1000 ? 1 : 0);
