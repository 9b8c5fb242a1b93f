/** Small changes to small parts: elements added, replaced and removed, everything else left as it was. */
import { replaced, type Replacement } from '../sheet/formula';
import { XlsxError } from './error';
import { escapeXml, unescapeXml, XmlScanner, type Token } from './xml';

/** An element as it stands in a document. */
export interface PlacedElement {
  readonly start: number;
  readonly end: number;
  /** Where its start tag ends. */
  readonly inside: number;
  /** Unescaped, by names with their prefixes. */
  readonly attributes: ReadonlyMap<string, string>;
}

/** Elements of a name, but none inside another of that name. */
export function elementsOf(xml: string, name: string): PlacedElement[] {
  const scanner = new XmlScanner(xml);
  const found: PlacedElement[] = [];
  for (const token of scanner.knownTags()) {
    if (scanner.name !== name) continue;
    const { start, end: inside } = scanner;
    const attributes = new Map<string, string>();
    scanner.attributes((key, value) => attributes.set(key, value));
    scanner.pass(token);
    found.push({ start, end: scanner.end, inside, attributes });
  }
  return found;
}

/** True at the start of the sheet's own cells, a child of the root. */
export const isCells = ({ name, depth }: XmlScanner, token: Token): boolean =>
  name === 'sheetData' && ((token === 'open' && depth === 2) || (token === 'empty' && depth === 1));

/** The text of an element; one that closes itself is given an end tag. */
export const opened = (xml: string): string => xml.replace(/^<([^\s>/]+)([^>]*?)\s*\/>$/, '<$1$2></$1>');

/** The prefix with which a tag names its element: "" or "x:". */
export const prefixOf = (tag: string): string => /^<([^\s>/:]*:)?/.exec(tag)?.[1] ?? '';

/** Generated elements under a prefix. Text in them is escaped, so that every "<" starts a tag. */
export const withPrefix = (elements: string, prefix: string): string =>
  prefix ? elements.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${prefix}`) : elements;

/** A document with elements put in as the last children of the first element named `parent`. */
export function insertLast(xml: string, parent: string, elements: string): string {
  const scanner = new XmlScanner(xml);
  for (const token of scanner.knownTags()) {
    if (scanner.name !== parent) continue;
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
      scanner.pass(token);
    }
  }
  throw new XlsxError('corrupt', `A part of the file cannot take the element ${name}`);
}

/** A document in which the elements that match are replaced; `replacement` undefined keeps one. */
export function replaceElements(
  xml: string,
  name: string,
  replacement: (element: PlacedElement) => string | undefined,
): string {
  const changes = elementsOf(xml, name).flatMap((element): Replacement[] => {
    const text = replacement(element);
    return text === undefined ? [] : [{ start: element.start, end: element.end, text }];
  });
  return replaced(xml, changes);
}

/** An element of a document with other contents, which are given escaped. */
export function withText(xml: string, { start, inside }: PlacedElement, text: string): string {
  const tag = xml.slice(start, inside).replace(/\/>$/, '>');
  return `${tag}${text}</${/^<([^\s>]+)/.exec(tag)![1]}>`;
}

/** A document without the lists of a name that are empty: programs call a file with one damaged. */
export const withoutEmpty = (xml: string, list: string): string =>
  replaceElements(xml, list, ({ start }) => (/^<[^>]*>\s*<\//.test(xml.slice(start)) ? '' : undefined));

/** A document in which start tags of a name get attributes changed or added; undefined keeps a tag. */
export function changeAttributes(
  xml: string,
  name: string,
  change: (scanner: XmlScanner) => ReadonlyMap<string, string> | undefined,
): string {
  const scanner = new XmlScanner(xml);
  const changed: Replacement[] = [];
  for (const _tag of scanner.knownTags()) {
    const changes = scanner.name === name ? change(scanner) : undefined;
    if (changes) changed.push({ start: scanner.start, end: scanner.end, text: tagWith(xml, scanner, changes) });
  }
  return replaced(xml, changed);
}

/** The scanner's current start tag with attributes changed or added; values are given escaped. */
function tagWith(xml: string, scanner: XmlScanner, changes: ReadonlyMap<string, string>): string {
  const left = new Map(changes);
  const changed: Replacement[] = [];
  scanner.attributes((name, _value, from, to) => {
    const value = left.get(name);
    if (value === undefined) return;
    changed.push({ start: from - scanner.start, end: to - scanner.start, text: ` ${name}="${value}"` });
    left.delete(name);
  });
  const added = [...left].map(([name, value]) => ` ${name}="${value}"`).join('');
  return replaced(xml.slice(scanner.start, scanner.end), changed).replace(/\s*\/?>$/, (end) => added + end);
}

/** A document with elements added to one of its lists, which is made where it is missing. */
export const addToList = (
  xml: string,
  list: string,
  child: string,
  elements: string,
  order: readonly string[] = SHEET_ORDER,
): string => recount(insertLast(withChild(xml, list, order), list, elements), list, child);

/** A document without some elements of a list, nor the list where none is left. */
export function dropFromList(
  xml: string,
  list: string,
  child: string,
  isGone: (element: PlacedElement) => boolean,
): string {
  const left = replaceElements(xml, child, (element) => (isGone(element) ? '' : undefined));
  return elementsOf(left, child).length ? recount(left, list, child) : replaceElements(left, list, () => '');
}

/** Sets the "count" of a list's start tag to the number of children it now has. */
export function recount(xml: string, list: string, child: string): string {
  let number = 0;
  const scanner = new XmlScanner(xml);
  for (const token of scanner.knownTags()) {
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

/** Order of a sheet's elements. Source: ECMA-376 part 1, 18.3.1.99 (worksheet). */
export const SHEET_ORDER: readonly string[] = [
  'sheetPr',
  'dimension',
  'sheetViews',
  'sheetFormatPr',
  'cols',
  'sheetData',
  'sheetCalcPr',
  'sheetProtection',
  'protectedRanges',
  'scenarios',
  'autoFilter',
  'sortState',
  'dataConsolidate',
  'customSheetViews',
  'mergeCells',
  'phoneticPr',
  'conditionalFormatting',
  'dataValidations',
  'hyperlinks',
  'printOptions',
  'pageMargins',
  'pageSetup',
  'headerFooter',
  'rowBreaks',
  'colBreaks',
  'customProperties',
  'cellWatches',
  'ignoredErrors',
  'smartTags',
  'drawing',
  'legacyDrawing',
  'legacyDrawingHF',
  'drawingHF',
  'picture',
  'oleObjects',
  'controls',
  'webPublishItems',
  'tableParts',
  'extLst',
];

/** Order of the workbook's elements. Source: ECMA-376 part 1, 18.2.27 (workbook). */
export const WORKBOOK_ORDER: readonly string[] = [
  ...[
    'fileVersion',
    'fileSharing',
    'workbookPr',
    'AlternateContent',
    'revisionPtr',
    'absPath',
    'workbookProtection',
    'bookViews',
    'sheets',
    'functionGroups',
  ],
  ...[
    'externalReferences',
    'definedNames',
    'calcPr',
    'oleSize',
    'customWorkbookViews',
    'pivotCaches',
    'smartTagPr',
    'smartTagTypes',
    'webPublishing',
  ],
  ...['fileRecoveryPr', 'webPublishObjects', 'extLst'],
];

/** A document in which the texts of some elements are changed. */
export function changeTexts(xml: string, elements: ReadonlySet<string>, change: (text: string) => string): string {
  const scanner = new XmlScanner(xml);
  const changes: Replacement[] = [];
  for (const token of scanner.tags()) {
    if (token !== 'open' || !elements.has(scanner.name) || scanner.next() !== 'text') continue;
    const { start, end } = scanner;
    const text = unescapeXml(xml.slice(start, end));
    const changed = change(text);
    if (changed !== text) changes.push({ start, end, text: escapeXml(changed) });
  }
  return replaced(xml, changes);
}
