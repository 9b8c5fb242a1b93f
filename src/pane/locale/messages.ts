/**
 * The pane's texts. A text stands in English where it is shown and is looked up by that; places for values
 * and plurals are written as ICU messages: t('{count, plural, one {# row} other {# rows}} added', { count }).
 * An apostrophe that belongs to the text is ’: the plain one is the quoting mark of ICU messages.
 * `npm run texts` collects all of them for translators.
 */
import { IntlMessageFormat } from 'intl-messageformat';
import type { ReactNode } from 'react';
import { memoized } from '../../core/memoized';
import { localeOf, type Locale } from './locale';

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
  if (!values) return translated(english);
  return format(english).format(values) as string;
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
const formats = memoized((locale: Locale) =>
  memoized(
    (english: string) =>
      new IntlMessageFormat(translated(english), locale.language, undefined, { formatters: formatters(locale) }),
    Infinity,
  ),
);

const format = (english: string): IntlMessageFormat => formats(localeOf())(english);
