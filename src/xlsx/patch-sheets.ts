/** Sheets of a patched workbook renamed, removed and put in another order. */
import { changeAttributes, eachElement, replaceElements } from './elements';
import { withSheetNames } from '../sheet/formula';
import type { Package } from './package';
import type { WorkbookPart } from './workbook-part';
import { escapeXml, unescapeXml, XmlScanner } from './xml';

/** A sheet as it shall stand; `was` is its name in the file, left out for one that is new. */
export interface SheetPlace {
  readonly name: string;
  readonly was?: string;
}

interface Entry {
  readonly name: string;
  readonly text: string;
  readonly isPlanned: boolean;
}

/**
 * Gives the workbook's sheets their order and names. New ones are there already, under their names. Sheets of
 * other kinds (charts) stay behind the sheet that they follow.
 */
export function arrangeSheets(file: Package, workbook: WorkbookPart, order: readonly SheetPlace[]): void {
  const entries = readEntries(file, workbook);
  const arranged = arrange(entries, order);
  const places = new Map(entries.map((entry, index) => [index, arranged.findIndex((one) => one.from === entry)]));
  const removed = entries.filter((entry) => !arranged.some((one) => one.from === entry));
  rewriteWorkbook(file, workbook, arranged, places);
  for (const { name } of removed)
    removeSheet(file, workbook, workbook.sheets.find((sheet) => sheet.name === name)!.part);
  const renamed = new Map(
    order.flatMap(({ name, was }): [string, string][] =>
      was !== undefined && was !== name ? [[was.toLowerCase(), name]] : [],
    ),
  );
  if (renamed.size) renameReferences(file, renamed);
}

function readEntries(file: Package, workbook: WorkbookPart): Entry[] {
  const xml = file.text(workbook.part);
  const names: string[] = [];
  const extents = eachElement(xml, 'sheet', (scanner) => names.push(scanner.attribute('name') ?? ''));
  const others = new Set(workbook.others);
  return extents.map(({ start, end }, index) => {
    const name = names[index]!;
    return { name, text: xml.slice(start, end), isPlanned: !others.has(name) };
  });
}

interface Arranged {
  readonly from: Entry;
  readonly name: string;
}

function arrange(entries: readonly Entry[], order: readonly SheetPlace[]): Arranged[] {
  const followers = new Map<Entry | undefined, Entry[]>();
  let leader: Entry | undefined;
  for (const entry of entries) {
    if (entry.isPlanned) leader = entry;
    else followers.set(leader, [...(followers.get(leader) ?? []), entry]);
  }
  const asTheyAre = (list: readonly Entry[] | undefined): Arranged[] =>
    (list ?? []).map((from) => ({ from, name: from.name }));
  const placed = order.flatMap(({ name, was }): Arranged[] => {
    const from = entries.find((entry) => entry.name === (was ?? name));
    return from ? [{ from, name }, ...asTheyAre(followers.get(from))] : [];
  });
  const leaders = new Set(placed.map(({ from }) => from));
  const orphans = [...followers].flatMap(([of, list]) => (of && !leaders.has(of) ? list : []));
  return [...asTheyAre(followers.get(undefined)), ...placed, ...asTheyAre(orphans)];
}

function rewriteWorkbook(
  file: Package,
  workbook: WorkbookPart,
  arranged: readonly Arranged[],
  places: ReadonlyMap<number, number>,
): void {
  let xml = file.text(workbook.part);
  const elements = arranged
    .map(({ from, name }) => changeAttributes(from.text, 'sheet', () => new Map([['name', escapeXml(name)]])))
    .join('');
  const extents = eachElement(xml, 'sheet', () => undefined);
  xml = xml.slice(0, extents[0]!.start) + elements + xml.slice(extents.at(-1)!.end);
  xml = replaceElements(xml, 'definedName', (scanner) => {
    const local = scanner.attribute('localSheetId');
    return local !== undefined && (places.get(Number(local)) ?? -1) < 0 ? '' : undefined;
  });
  xml = changeAttributes(xml, 'definedName', (scanner) => {
    const local = scanner.attribute('localSheetId');
    return local === undefined ? undefined : new Map([['localSheetId', String(places.get(Number(local)))]]);
  });
  xml = changeAttributes(xml, 'workbookView', (scanner) => {
    const changes = ['activeTab', 'firstSheet'].flatMap((name): [string, string][] => {
      const before = scanner.attribute(name);
      return before === undefined ? [] : [[name, String(Math.max(0, places.get(Number(before)) ?? 0))]];
    });
    return changes.length ? new Map(changes) : undefined;
  });
  file.set(workbook.part, xml);
}

/** A sheet's part goes with all parts to which only it leads. */
function removeSheet(file: Package, workbook: WorkbookPart, part: string): void {
  file.unrelate(workbook.part, part);
  const targets = file.relationships(part).flatMap(({ target }) => target ?? []);
  file.removePart(part);
  for (const target of targets) removeUnreached(file, target);
}

function removeUnreached(file: Package, part: string): void {
  if (
    !file.has(part) ||
    file
      .parts()
      .some((other) => file.relationships(other).some(({ target }) => target?.toLowerCase() === part.toLowerCase()))
  )
    return;
  const targets = file.relationships(part).flatMap(({ target }) => target ?? []);
  file.removePart(part);
  for (const target of targets) removeUnreached(file, target);
}

/** Elements whose text is a formula, by the kind of part that has them; cells are the caller's. */
const FORMULA_ELEMENTS: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^\/?xl\/workbook\.xml$/i, ['definedName']],
  [/^\/?xl\/charts\/[^/]+\.xml$/i, ['f']],
  [/^\/?xl\/worksheets\/[^/]+\.xml$/i, ['formula', 'formula1', 'formula2']],
];

function renameReferences(file: Package, names: ReadonlyMap<string, string>): void {
  for (const part of file.parts()) {
    const elements = FORMULA_ELEMENTS.find(([pattern]) => pattern.test(part))?.[1];
    if (elements) {
      const before = file.text(part);
      const after = changeTexts(before, new Set(elements), (formula) => withSheetNames(formula, names));
      if (after !== before) file.set(part, after);
    } else if (/^\/?xl\/pivotCache\/pivotCacheDefinition[^/]*\.xml$/i.test(part)) {
      const before = file.text(part);
      const after = changeAttributes(before, 'worksheetSource', (scanner) => {
        const name = names.get((scanner.attribute('sheet') ?? '').toLowerCase());
        return name === undefined ? undefined : new Map([['sheet', escapeXml(name)]]);
      });
      if (after !== before) file.set(part, after);
    }
  }
}

/** A document in which the texts of some elements are changed. */
export function changeTexts(xml: string, elements: ReadonlySet<string>, change: (text: string) => string): string {
  const scanner = new XmlScanner(xml);
  let out = '';
  let at = 0;
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (token !== 'open' || !elements.has(scanner.name) || scanner.next() !== 'text') continue;
    const text = unescapeXml(xml.slice(scanner.start, scanner.end));
    const changed = change(text);
    if (changed === text) continue;
    out += xml.slice(at, scanner.start) + escapeXml(changed);
    at = scanner.end;
  }
  return out + xml.slice(at);
}
