/**
 * The pane's language, its texts in it, and its way of writing numbers. There is one pane to a page, and its host says
 * both once, before the pane is shown: so they are the module's and not handed from call to call.
 */
import { IntlMessageFormat } from 'intl-messageformat';
import type { ReactNode } from 'react';
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

// The pane's texts. A text stands in English where it is shown and is looked up by that; places for values and plurals are
// written as ICU messages: t('{count, plural, one {# row} other {# rows}} added', { count }). An apostrophe that belongs to
// the text is ’: the plain one is the quoting mark of ICU messages. `npm run texts` collects all of them for translators.

/** A number that stands alone is written as {name, number}, or is made a text by writeNumber before. */
export type Values = Readonly<Record<string, string | number>>;

declare const marked: unique symbol;
/** A text that is among the texts to be translated, to be shown by t(…) when the language is known. */
export type Marked = string & { readonly [marked]: true };

/** Refuses a text of which the collection of texts cannot know. */
type Known<T extends string> = T &
  (string extends T ? 'a text that is no literal is to be mark()ed where it is written, and typed as Marked' : unknown);

/** A text in the pane's language. */
export function t<T extends string>(english: Known<T>, values?: Values): string {
  return values ? (format(english).format(values) as string) : translated(english);
}

/** A text that stands below the pane, where texts are collected too: in the pictures. */
export const translate = (english: string, values?: Values): string => t(english as Marked, values);

/**
 * A text with nodes in it: rich('See <link>the help</link>', { link: (inside) => <Link>{inside}</Link> }). A value of a
 * text with parts of its own is a node, or what is around a <tag>'s text.
 */
export function rich<T extends string>(
  english: Known<T>,
  values: Readonly<Record<string, string | number | ReactNode | ((inside: ReactNode[]) => ReactNode)>>,
): ReactNode {
  return format(english).format<ReactNode>(values as Record<string, ReactNode>) as ReactNode;
}

/** Marks a text that is shown later by t(…), where it is written down before the language is known. */
export const mark = (english: string): Marked => english as Marked;

const translated = (english: string): string => localeOf().texts?.[english] ?? english;

/** Plurals go by the language, the digits in them by the way of writing numbers. */
const formatters = ({ language, numbers }: Locale) => ({
  getNumberFormat: (_: unknown, options?: Intl.NumberFormatOptions) => new Intl.NumberFormat(numbers, options),
  getDateTimeFormat: (_: unknown, options?: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(numbers, options),
  getPluralRules: (_: unknown, options?: Intl.PluralRulesOptions) => new Intl.PluralRules(language, options),
});

/** Reading a message costs more than filling it in, so each is read once a language. */
const messages = memoized((locale: Locale) =>
  memoized(
    (english: string) =>
      new IntlMessageFormat(translated(english), locale.language, undefined, { formatters: formatters(locale) }),
    Infinity,
  ),
);

const format = (english: string): IntlMessageFormat => messages(localeOf())(english);
