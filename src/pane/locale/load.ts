import type { Locale } from './locale';

type Texts = Readonly<Record<string, string>>;

/** The languages that there are, each fetched when it is asked for. */
const TRANSLATIONS: Readonly<Record<string, () => Promise<{ readonly default: Texts }>>> = {
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
  if (!tag) return { language: 'en', numbers: usable };
  try {
    return { language: tag, numbers: usable, texts: (await TRANSLATIONS[tag]!()).default };
  } catch {
    // A translation that cannot be fetched leaves a pane in English, which is better than none.
    return { language: 'en', numbers: usable };
  }
}

/** The tag of the list that is the wanted one, or the longest that is its beginning: "pt-BR" before "pt". @internal */
export function bestOf(wanted: string, tags: readonly string[]): string | undefined {
  const parts = wanted.toLowerCase().replaceAll('_', '-').split('-');
  for (let length = parts.length; length > 0; length -= 1) {
    const found = tags.find((tag) => tag.toLowerCase() === parts.slice(0, length).join('-'));
    if (found) return found;
  }
  return undefined;
}

function isTag(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length > 0;
  } catch {
    return false;
  }
}
