/**
 * The pane's language and its way of writing numbers. There is one pane to a page, and its host says
 * both once, before the pane is shown: so they are the module's and not handed from call to call.
 */
import { memoized } from '../../core/memoized';

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

const orderOf = memoized((language: string) => new Intl.Collator(language, { numeric: true, sensitivity: 'base' }));

/** The order of texts in the pane's language: numbers in them by their value, capitals and accents aside. */
export const textOrder = (): Intl.Collator => orderOf(localeOf().language);

/** The languages that there are, each fetched when it is asked for. */
const TRANSLATIONS: Readonly<Record<string, () => Promise<{ readonly default: Required<Locale>['texts'] }>>> = {
  de: () => import(/* webpackChunkName: "texts-de" */ './translations/de.json'),
};

/**
 * The locale for a host's tags. A language of which there is no translation is English.
 *
 * @param language BCP 47 tag of the texts: "de-CH" finds "de"
 * @param numbers  BCP 47 tag by which numbers are written; the language's own if left out
 */
export async function loadLocale(language: string, numbers: string = language): Promise<Locale> {
  const tag = bestOf(language, Object.keys(TRANSLATIONS));
  const usable = Intl.NumberFormat.supportedLocalesOf(isTag(numbers) ? numbers : [])[0] ?? 'en-US';
  const english: Locale = { language: 'en', numbers: usable };
  if (!tag) return english;
  // A translation that cannot be fetched leaves a pane in English, which is better than none.
  return TRANSLATIONS[tag]!().then(
    ({ default: texts }) => ({ language: tag, numbers: usable, texts }),
    () => english,
  );
}

/** The tag of the list that is the wanted one, or the longest that is its beginning: "pt-BR" before "pt". @internal */
export function bestOf(wanted: string, tags: readonly string[]): string | undefined {
  const parts = wanted.toLowerCase().replaceAll('_', '-').split('-');
  const beginnings = parts.map((_, left) => parts.slice(0, parts.length - left).join('-'));
  return beginnings.map((beginning) => tags.find((tag) => tag.toLowerCase() === beginning)).find(Boolean);
}

function isTag(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length > 0;
  } catch {
    return false;
  }
}
