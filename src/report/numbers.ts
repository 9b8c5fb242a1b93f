/** Numbers as the report prints them. */
import { fixed } from '../pictures';

/** A dash where there is no number. */
export const orBlank = (value: number | undefined, places: number): string => (value === undefined ? '–' : fixed(value, places));
