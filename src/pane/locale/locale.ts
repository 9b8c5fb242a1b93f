/**
 * The pane's language and its way of writing numbers. There is one pane to a page, and its host says
 * both once, before the pane is shown: so they are the module's and not handed from call to call.
 */

export interface Locale {
  /** BCP 47 tag of the texts: "en", "de". */
  readonly language: string;
  /** BCP 47 tag by which numbers are written and read: "en-US", "de-CH". */
  readonly numbers: string;
  /** Translations by the English text; a text that has none is shown in English. */
  readonly texts?: Readonly<Record<string, string>>;
}

const ENGLISH: Locale = { language: 'en', numbers: 'en-US' };

let current = ENGLISH;

/** To be called before anything is shown; without it the pane is in English. */
export function setLocale(locale: Locale = ENGLISH): void {
  current = locale;
}

export const localeOf = (): Locale => current;

const known = new Map<string, Intl.Collator>();

/** The order of texts in the pane's language: numbers in them by their value, capitals and accents aside. */
export function textOrder(): Intl.Collator {
  const { language } = localeOf();
  let order = known.get(language);
  if (!order) known.set(language, (order = new Intl.Collator(language, { numeric: true, sensitivity: 'base' })));
  return order;
}
