/** What an ICU message is made of. */
import { IntlMessageFormat } from 'intl-messageformat';

export type Parts =
  | { /** Names of its values and tags, each once, sorted. */ readonly names: readonly string[] }
  | { readonly wrong: string };

type Element = ReturnType<IntlMessageFormat['getAst']>[number];

export function partsOf(message: string): Parts {
  try {
    return { names: [...new Set(namesIn(new IntlMessageFormat(message, 'en').getAst()))].sort() };
  } catch (error) {
    return { wrong: error instanceof Error ? error.message : String(error) };
  }
}

function namesIn(elements: readonly Element[]): string[] {
  return elements.flatMap((element) => {
    // Text and the # of a plural have no name of their own.
    if (element.type === 0 || element.type === 7) return [];
    const inside =
      'options' in element && element.options
        ? Object.values(element.options).flatMap(({ value }) => namesIn(value))
        : [];
    return [element.value, ...inside, ...('children' in element ? namesIn(element.children) : [])];
  });
}
