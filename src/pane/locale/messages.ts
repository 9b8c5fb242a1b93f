/**
 * The pane's texts. A text stands in English where it is shown and is looked up by that; places for values
 * and plurals are written as ICU messages: t('{count, plural, one {# row} other {# rows}} added', { count }).
 * An apostrophe that belongs to the text is ’: the plain one is the quoting mark of ICU messages.
 * `npm run texts` collects all of them for translators.
 */
import { IntlMessageFormat } from 'intl-messageformat';
import type { ReactNode } from 'react';
import { localeOf, type Locale } from './locale';

export type Values = Readonly<Record<string, string | number>>;

/** What stands for a value in a text with parts of its own: a node, or what is around a <tag>'s text. */
export type RichValues = Readonly<Record<string, string | number | ReactNode | ((inside: ReactNode[]) => ReactNode)>>;

const formats = new WeakMap<Locale, Map<string, IntlMessageFormat>>();

/** A text in the pane's language. */
export function t(english: string, values?: Values): string {
  if (!values) return translated(english);
  return format(english).format(values) as string;
}

/** A text with nodes in it: rich('See <link>the help</link>', { link: (inside) => <Link>{inside}</Link> }). */
export function rich(english: string, values: RichValues): ReactNode {
  return format(english).format<ReactNode>(values as Record<string, ReactNode>) as ReactNode;
}

/** Marks a text that is shown later by t(…), where it is written down before the language is known. */
export const mark = <T extends string>(english: T): T => english;

const translated = (english: string): string => localeOf().texts?.[english] ?? english;

/** Reading a message costs more than filling it in, so each is read once a language. */
function format(english: string): IntlMessageFormat {
  const locale = localeOf();
  let known = formats.get(locale);
  if (!known) formats.set(locale, (known = new Map()));
  let message = known.get(english);
  if (!message) known.set(english, (message = new IntlMessageFormat(translated(english), locale.language)));
  return message;
}
