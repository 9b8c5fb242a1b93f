/** Numbers as pictures print them. */
import { quantities, type Quantities } from '../core/quantity';

/** What every picture's data may say: how its weights and arms, given in lb and in, are shown. */
export interface Shown {
  /** Inches and pounds in English, where it is left out. */
  readonly quantities?: Quantities;
}

export const INCH_POUND = quantities('in-lb');

/** Decimals that tell weights of a size (lb) apart: two below 100, one below 1,000, none above. */
export const placesFor = (largest: number): number => (largest < 100 ? 2 : largest < 1000 ? 1 : 0);
