/** The words of a picture, which whoever draws it can have in another language. */

/** Gives a text, known by its English, with values in its {places}. */
export type Words = (english: string, values?: Readonly<Record<string, string | number>>) => string;

/** The text as it stands. */
export const inEnglish: Words = (english, values = {}) =>
  english.replace(/\{(\w+)\}/g, (place, name: string) => String(values[name] ?? place));
