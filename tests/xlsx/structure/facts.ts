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
      const base = target.startsWith('/') ? target.slice(1) : new URL(target, `file:///${part}`).pathname.slice(1);
      return [attribute(tag, 'Id')!, { type: attribute(tag, 'Type')!.replace(/^.*\//, ''), target: base }];
    }),
  );
}

/** Formulas by cell; merges, rules, links, notes, breaks, names, tables, charts with the cells that they name. */
export function facts(bytes: Uint8Array): string[] {
  const { sheets, parts } = open(bytes);
  const found: string[] = [];
  for (const { name, part } of sheets) {
    const xml = parts.get(part)!;
    const say = (text: string): void => void found.push(`${name}: ${text}`);
    for (const [, cell, inner] of xml.matchAll(/<c r="([A-Z]+\d+)"[^>]*?(?<!\/)>(.*?)<\/c>/gs)) {
      const formula = /<f\b[^>]*>([^<]*)<\/f>/.exec(inner!)?.[1];
      if (formula !== undefined) say(`${cell} = ${spelled(plain(formula))}`);
    }
    for (const [tag] of xml.matchAll(/<mergeCell\s[^>]*>/g)) say(`merge ${attribute(tag, 'ref')}`);
    for (const [tag] of xml.matchAll(/<brk\s[^>]*>/g)) say(`break ${attribute(tag, 'id')}`);
    for (const [tag] of xml.matchAll(/<hyperlink\s[^>]*>/g))
      say(`link ${attribute(tag, 'ref')} ${plain(attribute(tag, 'location') ?? '').replaceAll("'", '')}`);
    for (const [tag] of xml.matchAll(/<row\s[^>]*hidden="(?:1|true)"[^>]*>/g)) say(`hidden ${attribute(tag, 'r')}`);
    for (const [tag] of xml.matchAll(/<autoFilter\s[^>]*>/g)) say(`filter ${attribute(tag, 'ref')}`);
    for (const [, tag, inner] of xml.matchAll(/<(conditionalFormatting\s[^>]*)>(.*?)<\/conditionalFormatting>/gs))
      for (const ref of attribute(tag!, 'sqref')?.split(' ') ?? [])
        say(
          `look ${ref} ${[...inner!.matchAll(/<formula>([^<]*)</g)].map(([, text]) => spelled(plain(text!))).join()}`,
        );
    for (const [, tag, inner] of xml.matchAll(/<(dataValidation\s[^>]*)>(.*?)<\/dataValidation>/gs))
      for (const ref of attribute(tag!, 'sqref')!.split(' '))
        say(`list ${ref} ${spelled(plain(/<formula1>([^<]*)</.exec(inner!)?.[1] ?? ''))}`);
    for (const { type, target } of relationships(parts, part).values()) {
      const text = parts.get(target) ?? '';
      if (type === 'comments')
        for (const [tag] of text.matchAll(/<comment\s[^>]*>/g)) say(`note ${attribute(tag, 'ref')}`);
      if (type === 'table') say(`table ${attribute(/<table\s[^>]*>/.exec(text)![0], 'ref')}`);
      if (type === 'drawing')
        for (const chart of relationships(parts, target).values())
          for (const [, formula] of (parts.get(chart.target) ?? '').matchAll(/<c:f>([^<]*)</g))
            say(`chart ${spelled(plain(formula!)).replaceAll('$', '')}`);
    }
  }
  for (const [, tag, text] of parts.get('xl/workbook.xml')!.matchAll(/<definedName\s([^>]*)>([^<]*)</g))
    if (attribute(` ${tag!}`, 'name') !== '_xlnm._FilterDatabase')
      found.push(`${attribute(` ${tag!}`, 'name')} is ${spelled(plain(text!))}`);
  return found.sort();
}

/** Programs quote sheets, and write single-cell ranges, each in its own way. */
const spelled = (formula: string): string =>
  formula
    .replaceAll("'", '')
    .replace(/\s+/g, '')
    .replaceAll(/\$?([A-Z]+)\$?1:\$?([A-Z]+)\$?1048576/g, '$1:$2')
    .replaceAll(/(\$?[A-Z]+\$?\d+):\1(?!\d)/g, '$1');
