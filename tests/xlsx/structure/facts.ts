/** What a saved workbook says of cells, taken apart without the code under test: one text a fact, to be compared between programs. */
import { partsOf } from '../parts';

interface Found {
  readonly sheets: readonly { readonly name: string; readonly part: string }[];
  readonly parts: ReadonlyMap<string, string>;
}

export function open(bytes: Uint8Array): Found {
  const parts = partsOf(bytes);
  const workbook = parts.get('xl/workbook.xml')!;
  const links = relationships(parts, 'xl/workbook.xml');
  const sheets = [...workbook.matchAll(/<sheet\s[^>]*>/g)].map(([tag]) => ({
    name: plain(attribute(tag, 'name')!),
    part: links.get(attribute(tag, 'r:id')!)!.target,
  }));
  return { sheets, parts };
}

export const attribute = (tag: string, name: string): string | undefined =>
  new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1];

const plain = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&apos;', "'").replaceAll('&#39;', "'").replaceAll('&amp;', '&'); // prettier-ignore

export function relationships(
  parts: ReadonlyMap<string, string>,
  part: string,
): Map<string, { readonly type: string; readonly target: string }> {
  const text = parts.get(part.replace(/([^/]*)$/, '_rels/$1.rels')) ?? '';
  return new Map(
    [...text.matchAll(/<Relationship\s[^>]*>/g)].map(([tag]) => {
      const target = attribute(tag, 'Target')!;
      const base = target.startsWith('/') ? target.slice(1) : new URL(target, `https://part/${part}`).pathname.slice(1);
      return [attribute(tag, 'Id')!, { type: attribute(tag, 'Type')!.replace(/^.*\//, ''), target: base }];
    }),
  );
}

/** Formulas by cell; merges, rules, links, notes, breaks, names, tables, charts with the cells that they name. */
export function facts(bytes: Uint8Array): string[] {
  const { sheets, parts } = open(bytes);
  const found = sheets.flatMap(({ name, part }) =>
    [...cellFacts(parts.get(part)!), ...frameFacts(parts.get(part)!), ...aroundFacts(parts, part)].map(
      (one) => `${name}: ${one}`,
    ),
  );
  for (const [, tag, text] of parts.get('xl/workbook.xml')!.matchAll(/<definedName\s([^>]*)>([^<]*)</g))
    if (attribute(` ${tag!}`, 'name') !== '_xlnm._FilterDatabase')
      found.push(`${attribute(` ${tag!}`, 'name')} is ${spelled(plain(text!))}`);
  return found.sort();
}

function cellFacts(xml: string): string[] {
  return [...xml.matchAll(/<c r="([A-Z]+\d+)"[^>]*?(?<!\/)>(.*?)<\/c>/gs)].flatMap(([, cell, inner]) => {
    const formula = /<f\b[^>]*>([^<]*)<\/f>/.exec(inner!)?.[1];
    return formula === undefined ? [] : [`${cell} = ${spelled(plain(formula))}`];
  });
}

/** Elements without anything in them, by what is said of each. */
const FLAT: readonly (readonly [RegExp, (tag: string) => string])[] = [
  [/<mergeCell\s[^>]*>/g, (tag) => `merge ${attribute(tag, 'ref')}`],
  [/<brk\s[^>]*>/g, (tag) => `break ${attribute(tag, 'id')}`],
  [
    /<hyperlink\s[^>]*>/g,
    (tag) => `link ${attribute(tag, 'ref')} ${plain(attribute(tag, 'location') ?? '').replaceAll("'", '')}`,
  ],
  [/<row\s[^>]*hidden="(?:1|true)"[^>]*>/g, (tag) => `hidden ${attribute(tag, 'r')}`],
  [/<autoFilter\s[^>]*>/g, (tag) => `filter ${attribute(tag, 'ref')}`],
];

function frameFacts(xml: string): string[] {
  const found = FLAT.flatMap(([pattern, say]) => [...xml.matchAll(pattern)].map(([tag]) => say(tag)));
  const ruled = (name: string, formula: RegExp): string[] =>
    [...xml.matchAll(new RegExp(`<(${name}\\s[^>]*)>(.*?)</${name}>`, 'gs'))].flatMap(([, tag, inner]) =>
      (attribute(tag!, 'sqref') ?? '')
        .split(' ')
        .map((ref) => `${ref} ${[...inner!.matchAll(formula)].map(([, text]) => spelled(plain(text!))).join()}`),
    );
  found.push(...ruled('conditionalFormatting', /<formula>([^<]*)</g).map((one) => `look ${one}`));
  found.push(...ruled('dataValidation', /<formula1>([^<]*)</g).map((one) => `list ${one}`));
  return found;
}

function aroundFacts(parts: ReadonlyMap<string, string>, part: string): string[] {
  return [...relationships(parts, part).values()].flatMap(({ type, target }) => {
    const text = parts.get(target) ?? '';
    if (type === 'comments')
      return [...text.matchAll(/<comment\s[^>]*>/g)].map(([tag]) => `note ${attribute(tag, 'ref')}`);
    if (type === 'table') return [`table ${attribute(/<table\s[^>]*>/.exec(text)![0], 'ref')}`];
    return type === 'drawing' ? chartFacts(parts, target) : [];
  });
}

const chartFacts = (parts: ReadonlyMap<string, string>, drawing: string): string[] =>
  [...relationships(parts, drawing).values()].flatMap(({ target }) =>
    [...(parts.get(target) ?? '').matchAll(/<c:f>([^<]*)</g)].map(
      ([, formula]) => `chart ${spelled(plain(formula!)).replaceAll('$', '')}`,
    ),
  );

/** Programs quote sheets, and write single-cell ranges, each in its own way. */
const spelled = (formula: string): string =>
  formula
    .replaceAll("'", '')
    .replaceAll('#ref!', '#REF!')
    .replace(/\s+/g, '')
    .replaceAll(/\$?([A-Z]+)\$?1:\$?([A-Z]+)\$?1048576/g, '$1:$2')
    .replaceAll(/(\$?[A-Z]+\$?\d+):\1(?!\d)/g, '$1');
