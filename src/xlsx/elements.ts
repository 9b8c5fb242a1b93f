/** Small changes to small parts: elements added, replaced and removed, everything else left as it was. */
import { XlsxError } from './error';
import { XmlScanner, type Token } from './xml';

export interface Extent {
  readonly start: number;
  readonly end: number;
}

/**
 * Elements of a name, with start tag and whole extent; `depth` 1 is a child of the root. The scanner stands
 * at the start tag while `take` runs, which must not move it.
 */
export function eachElement(xml: string, name: string, take: (scanner: XmlScanner, tag: Extent) => void): Extent[] {
  const scanner = new XmlScanner(xml);
  const found: Extent[] = [];
  for (let token = scanner.nextKnown(); token !== 'end'; token = scanner.nextKnown()) {
    if ((token !== 'open' && token !== 'empty') || scanner.name !== name) continue;
    const tag = { start: scanner.start, end: scanner.end };
    take(scanner, tag);
    if (token === 'open') scanner.skip();
    found.push({ start: tag.start, end: scanner.end });
  }
  return found;
}

/** True at the start of the sheet's own cells, a child of the root. */
export const isCells = ({ name, depth }: XmlScanner, token: Token): boolean =>
  name === 'sheetData' && ((token === 'open' && depth === 2) || (token === 'empty' && depth === 1));

/** The prefix with which a tag names its element: "" or "x:". */
export const prefixOf = (tag: string): string => /^<([^\s>/:]*:)?/.exec(tag)?.[1] ?? '';

/** Generated elements under a prefix. Text in them is escaped, so that every "<" starts a tag. */
export const withPrefix = (elements: string, prefix: string): string =>
  prefix ? elements.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${prefix}`) : elements;

/** A document with elements put in as the last children of the first element named `parent`. */
export function insertLast(xml: string, parent: string, elements: string): string {
  const scanner = new XmlScanner(xml);
  for (let token = scanner.nextKnown(); token !== 'end'; token = scanner.nextKnown()) {
    if ((token !== 'open' && token !== 'empty') || scanner.name !== parent) continue;
    const tag = xml.slice(scanner.start, scanner.end);
    const prefix = prefixOf(tag);
    const added = withPrefix(elements, prefix);
    if (token === 'empty')
      return `${xml.slice(0, scanner.start)}${tag.replace(/\s*\/>$/, '>')}${added}</${prefix}${parent}>${xml.slice(scanner.end)}`;
    scanner.skip();
    return xml.slice(0, scanner.start) + added + xml.slice(scanner.start);
  }
  throw new XlsxError('corrupt', `A part of the file has no element ${parent}`);
}

/** A document with its element `name` given, put among the root's children in the schema's `order` where it is missing. */
export function withChild(xml: string, name: string, order: readonly string[]): string {
  const scanner = new XmlScanner(xml);
  const rank = order.indexOf(name);
  let prefix = '';
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    const ends = token === 'close' && scanner.depth === 0;
    if (token === 'text' || (token === 'close' && !ends)) continue;
    if (token === 'open' && scanner.depth === 1) prefix = prefixOf(xml.slice(scanner.start, scanner.end));
    else {
      if (!ends && scanner.name === name) return xml;
      if (ends || order.indexOf(scanner.name) > rank)
        return `${xml.slice(0, scanner.start)}<${prefix}${name}></${prefix}${name}>${xml.slice(scanner.start)}`;
      if (token === 'open') scanner.skip();
    }
  }
  throw new XlsxError('corrupt', `A part of the file cannot take the element ${name}`);
}

/** A document in which the elements that match are replaced; `replacement` undefined keeps one. */
export function replaceElements(
  xml: string,
  name: string,
  replacement: (scanner: XmlScanner, tag: Extent) => string | undefined,
): string {
  const texts: (string | undefined)[] = [];
  const extents = eachElement(xml, name, (scanner, tag) => texts.push(replacement(scanner, tag)));
  let out = '';
  let at = 0;
  extents.forEach(({ start, end }, index) => {
    const text = texts[index];
    if (text === undefined) return;
    out += xml.slice(at, start) + text;
    at = end;
  });
  return out + xml.slice(at);
}

/** A document in which start tags of a name get attributes changed or added; undefined keeps a tag. */
export function changeAttributes(
  xml: string,
  name: string,
  change: (scanner: XmlScanner) => ReadonlyMap<string, string> | undefined,
): string {
  const scanner = new XmlScanner(xml);
  let out = '';
  let at = 0;
  for (let token = scanner.nextKnown(); token !== 'end'; token = scanner.nextKnown()) {
    if ((token !== 'open' && token !== 'empty') || scanner.name !== name) continue;
    const changes = change(scanner);
    if (!changes) continue;
    out += xml.slice(at, scanner.start) + tagWith(xml, scanner, changes);
    at = scanner.end;
  }
  return out + xml.slice(at);
}

/** The scanner's current start tag with attributes changed or added; values are given escaped. */
function tagWith(xml: string, scanner: XmlScanner, changes: ReadonlyMap<string, string>): string {
  const left = new Map(changes);
  let out = '';
  let at = scanner.start;
  scanner.attributes((name, _value, from, to) => {
    const changed = left.get(name);
    if (changed === undefined) return;
    out += `${xml.slice(at, from)} ${name}="${changed}"`;
    at = to;
    left.delete(name);
  });
  const rest = xml.slice(at, scanner.end);
  const added = [...left].map(([name, value]) => ` ${name}="${value}"`).join('');
  return out + rest.replace(/\s*\/?>$/, (end) => added + end);
}

/** Sets the "count" of a list's start tag to the number of children it now has. */
export function recount(xml: string, list: string, child: string): string {
  let number = 0;
  const scanner = new XmlScanner(xml);
  for (let token = scanner.nextKnown(); token !== 'end'; token = scanner.nextKnown()) {
    if (token !== 'open' || scanner.name !== list) continue;
    for (let depth = 1; depth > 0;) {
      const inner = scanner.next();
      if ((inner === 'open' || inner === 'empty') && depth === 1 && scanner.name === child) number++;
      if (inner === 'open') depth++;
      else if (inner === 'close') depth--;
    }
    break;
  }
  return changeAttributes(xml, list, () => new Map([['count', String(number)]]));
}
