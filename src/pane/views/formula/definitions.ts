/** The functions that can be inserted: grouped, searched, and with the fields of their form. */
import { catalogue, FAMILIES, unitsPlace, type Definition, type Family, type Parameter } from '../../../functions';
import { drawnFunctions } from '../../../functions/drawings';
import { mark, type Marked } from '../../locale';

export const FAMILY_WORDS: Readonly<Record<Family, Marked>> = {
  Areas: mark('Areas'),
  Airfoils: mark('Airfoils'),
  Bends: mark('Bends and flat patterns'),
  Material: mark('Material and weight'),
  Rivets: mark('Rivets'),
  Hardware: mark('Hardware'),
  Mass: mark('Mass'),
  Balance: mark('Balance'),
  Prices: mark('Prices'),
  Stock: mark('Stock'),
};

/** Excel takes no function name under three characters: one that is shorter is in the catalogue under a longer name too. */
const SHORTEST_NAME = 3;

const drawn = new Set(drawnFunctions);
export const isDrawn = ({ name }: Definition): boolean => drawn.has(name);

/** Every function, by family; in a family those with a drawing come first. @internal */
export const INSERTABLE: readonly Definition[] = FAMILIES.flatMap((family) => {
  const own = catalogue.filter((definition) => definition.family === family && definition.name.length >= SHORTEST_NAME);
  return [...own.filter(isDrawn), ...own.filter((definition) => !isDrawn(definition))];
});

const UNITS = 'units';

/** Parameters that have a field; `units` follows from the form's own choice. */
export const fieldsOf = ({ parameters }: Definition): readonly Parameter[] =>
  parameters.filter(({ name }) => name !== UNITS);

export const takesUnits = ({ parameters }: Definition): boolean => unitsPlace(parameters) >= 0;

/** More optional fields than these are folded away until they are asked for. */
const MOST_SHOWN = 2;

/** Fields that are shown at once, and those under "More". */
export function foldedFields(definition: Definition): {
  readonly shown: readonly Parameter[];
  readonly more: readonly Parameter[];
} {
  const all = fieldsOf(definition);
  const optional = all.filter((parameter) => parameter.optional);
  return optional.length > MOST_SHOWN
    ? { shown: all.filter((parameter) => !parameter.optional), more: optional }
    : { shown: all, more: [] };
}

/** The functions with the texts that are searched, the most telling first. */
const SEARCHED = INSERTABLE.map((definition) => {
  const fields = fieldsOf(definition);
  return {
    definition,
    texts: [
      definition.name,
      definition.summary,
      fields.map(({ name }) => name).join(' '),
      [definition.family, ...fields.map(({ help }) => help), ...(definition.limits ?? [])].join(' '),
    ].map((text) => text.toLowerCase()),
  };
});

/** Functions in which every word of the query begins a word, those with it in their name first; all for an empty query. */
export function search(query: string, family: Family | ''): readonly Definition[] {
  const words = query
    .toLowerCase()
    .replace(/^=?tare\./, '')
    .split(/[\s,(]+/)
    .filter(Boolean);
  const found = SEARCHED.flatMap(({ definition, texts }, place) => {
    if (family !== '' && definition.family !== family) return [];
    const ranks = words.map((word) => texts.findIndex((text) => begins(text, word)));
    return ranks.includes(-1) ? [] : [{ definition, place, rank: ranks.reduce((sum, rank) => sum + rank, 0) }];
  });
  return found.sort((a, b) => a.rank - b.rank || a.place - b.place).map(({ definition }) => definition);
}

function begins(text: string, word: string): boolean {
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1))
    if (at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1]!) || !/[\p{L}\p{N}]/u.test(word[0]!)) return true;
  return false;
}
