/**
 * A made-up language to test with: every text in ⟦ ⟧, with accents, and longer by about a third, as German and
 * Finnish are. What is shown without the brackets has not gone through the pane's texts.
 */
import { IntlMessageFormat } from 'intl-messageformat';
import type { Locale } from '../../../src/pane/locale';

type Element = ReturnType<IntlMessageFormat['getAst']>[number];

const ACCENTS: Readonly<Record<string, string>> = {
  a: 'áà',
  e: 'éè',
  i: 'íì',
  o: 'óò',
  u: 'úù',
  y: 'ý',
  A: 'Á',
  E: 'É',
  I: 'Í',
  O: 'Ó',
  U: 'Ú',
  c: 'ç',
  n: 'ñ',
  s: 'š',
  z: 'ž',
};

const spoil = (text: string): string => text.replace(/[a-z]/gi, (letter) => ACCENTS[letter] ?? letter);

/** The message again, with its places as they were. */
function print(elements: readonly Element[]): string {
  return elements
    .map((element) => {
      switch (element.type) {
        case 0:
          return spoil(element.value);
        case 1:
          return `{${element.value}}`;
        case 2:
          return `{${element.value}, number}`;
        case 5:
        case 6:
          return `{${element.value}, ${element.type === 6 ? 'plural' : 'select'}, ${Object.entries(element.options)
            .map(([key, { value }]) => `${key} {${print(value)}}`)
            .join(' ')}}`;
        case 7:
          return '#';
        case 8:
          return `<${element.value}>${print(element.children)}</${element.value}>`;
        default:
          throw new Error(`no pseudo text for what a message has in ${JSON.stringify(element)}`);
      }
    })
    .join('');
}

export const pseudoText = (english: string): string => `⟦${print(new IntlMessageFormat(english, 'en').getAst())}⟧`;

/** Numbers as in Germany, so that a decimal point gives itself away. */
export const pseudoLocale = (texts: Iterable<string>): Locale => ({
  language: 'en',
  numbers: 'de-DE',
  texts: Object.fromEntries([...texts].map((text) => [text, pseudoText(text)])),
});
