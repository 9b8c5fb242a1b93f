/** The workbook's own part patched: sheets that come, and names. */
import type { NameModel, SheetModel } from '../sheet';
import {
  addToList,
  changeAttributes,
  elementsOf,
  insertLast,
  prefixOf,
  replaceElements,
  withChild,
  withoutEmpty,
  withPrefix,
  withText,
  WORKBOOK_ORDER,
} from './elements';
import { FILTER_NAME } from './filters';
import { toFile, type IsName } from './formula-text';
import { RELATIONSHIPS, SPREADSHEET, XML_HEAD, type Package } from './package';
import type { WorkbookPart } from './workbook-part';
import { escapeXml } from './xml';
import { XmlTree, type XmlElement } from './xml-tree';

const WORKSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml';

/** Adds the part of an empty sheet; returns the id by which the workbook's part leads to it. @param guard what stands behind its cells */
export function addSheetPart(file: Package, workbook: string, guard = ''): string {
  const part = file.freeName('xl/worksheets/sheet', '.xml');
  file.addPart(
    part,
    WORKSHEET,
    `${XML_HEAD}<worksheet xmlns="${SPREADSHEET}"><dimension ref="A1"/><sheetData/>${guard}</worksheet>`,
  );
  return file.relate(workbook, 'worksheet', part);
}

/** Adds an empty sheet at the end. */
export function addSheet(
  file: Package,
  workbook: WorkbookPart,
  name: string,
  sheet: Pick<SheetModel, 'hidden' | 'protected'>,
): void {
  const id = addSheetPart(
    file,
    workbook.part,
    sheet.protected ? '<sheetProtection sheet="1" objects="1" scenarios="1"/>' : '',
  );
  const xml = file.text(workbook.part);
  const ids = elementsOf(xml, 'sheet').map(({ attributes }) => Number(attributes.get('sheetId') ?? 0));
  const state = sheet.hidden ? ' state="hidden"' : '';
  const element = `<sheet xmlns:r="${file.inForm(RELATIONSHIPS)}" name="${escapeXml(name)}" sheetId="${Math.max(0, ...ids) + 1}"${state} r:id="${id}"/>`;
  file.set(workbook.part, insertLast(xml, 'sheets', element));
}

/** Hides a sheet, or shows it. */
export function setHidden(file: Package, workbook: WorkbookPart, part: string, hidden: boolean): void {
  const ids = new Set(file.relationships(workbook.part).flatMap(({ id, target }) => (target === part ? [id] : [])));
  const xml = changeAttributes(file.text(workbook.part), 'sheet', (scanner) => {
    let isIt = false;
    scanner.attributes((name, value) => (isIt ||= /(^|:)id$/.test(name) && ids.has(value)));
    return isIt ? new Map([['state', hidden ? 'hidden' : 'visible']]) : undefined;
  });
  file.set(workbook.part, xml);
}

type NameKey = Pick<NameModel, 'name' | 'scope'>;

/** Adds names, changes what they mean, and removes them. Two names that are spelled alike differ by their scope. */
export function setNames(
  file: Package,
  workbook: WorkbookPart,
  names: readonly NameModel[],
  removed: readonly NameKey[],
  seenBy: (sheet: string | undefined) => IsName,
): void {
  const before = file.text(workbook.part);
  const positions = elementsOf(before, 'sheet').map(({ attributes }) => attributes.get('name') ?? '');
  const places = new Map(names.map((one) => [key(one.name, scopeIndex(one, positions)), one]));
  const gone = new Set(removed.map((one) => key(one.name, scopeIndex(one, positions))));
  const stands = new Set<string>();
  const meaningOf = ({ refersTo, scope }: NameModel): string => escapeXml(toFile(refersTo, seenBy(scope)));
  let xml = replaceElements(before, 'definedName', (element) => {
    const { attributes } = element;
    const found = key(attributes.get('name') ?? '', attributes.get('localSheetId'));
    const changed = places.get(found);
    if (!changed) return gone.has(found) ? '' : undefined;
    stands.add(found);
    return withText(before, element, meaningOf(changed));
  });
  const added = [...places]
    .filter(([place]) => !stands.has(place))
    .map(([, one]) => nameXml(one.name, meaningOf(one), scopeIndex(one, positions)));
  if (added.length) xml = insertLast(withChild(xml, 'definedNames', WORKBOOK_ORDER), 'definedNames', added.join(''));
  xml = withoutEmpty(xml, 'definedNames');
  if (xml !== before) file.set(workbook.part, xml);
}

function scopeIndex({ scope }: NameKey, positions: readonly string[]): string | undefined {
  const index = scope === undefined ? -1 : positions.indexOf(scope);
  return index < 0 ? undefined : String(index);
}

const key = (name: string, scope: string | undefined): string => `${name.toLowerCase()} ${scope ?? ''}`;

const nameXml = (name: string, meaning: string, scope: string | undefined): string =>
  `<definedName name="${escapeXml(name)}"${scope === undefined ? '' : ` localSheetId="${scope}"`}${name === FILTER_NAME ? ' hidden="1"' : ''}>${meaning}</definedName>`;

const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
const METADATA_ORDER = [
  'metadataTypes',
  'metadataStrings',
  'mdxMetadata',
  'futureMetadata',
  'cellMetadata',
  'valueMetadata',
  'extLst',
];
const METADATA_TYPE =
  '<metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/>';
const PROPERTIES =
  '<xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/>';
/** The value of a cell's `cm` for a dynamic array, after seeing to it that the record exists. */
export function dynamicArrayRecord(file: Package, workbook: WorkbookPart): number {
  const part = workbook.metadata ?? 'xl/metadata.xml';
  if (!file.has(part)) {
    file.addPart(part, TYPE, `${XML_HEAD}<metadata xmlns="${SPREADSHEET}"></metadata>`);
    file.relate(workbook.part, 'sheetMetadata', part);
  }
  const xml = file.text(part);
  const { root } = new XmlTree(xml);
  const types = root.listed('metadataTypes', 'metadataType');
  // Types and records are counted from 1.
  const type = types.findLastIndex((one) => one.get('name') === 'XLDAPR') + 1;
  const records = root.listed('cellMetadata', 'bk');
  const isDynamic = (one: XmlElement): boolean => type > 0 && one.get('t') === String(type) && one.get('v') === '0';
  const record = records.findIndex((one) => one.named('rc').some(isDynamic)) + 1;
  if (record > 0) return record;
  const typed =
    type > 0 ? xml : insertFuture(addToList(xml, 'metadataTypes', 'metadataType', METADATA_TYPE, METADATA_ORDER));
  const added = `<bk><rc t="${type || types.length + 1}" v="0"/></bk>`;
  file.set(part, addToList(typed, 'cellMetadata', 'bk', added, METADATA_ORDER));
  return records.length + 1;
}

/** Puts in the type's own list, whose first block says "dynamic", after the lists of other types. */
function insertFuture(xml: string): string {
  const at = elementsOf(xml, 'metadataTypes')[0]!;
  const prefix = prefixOf(xml.slice(at.start, at.end));
  const block = withPrefix(
    '<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}">',
    prefix,
  );
  const end = withPrefix('</ext></extLst></bk></futureMetadata>', prefix);
  const [before] = ['futureMetadata', 'mdxMetadata', 'metadataStrings'].flatMap(
    (name) => elementsOf(xml, name).at(-1) ?? [],
  );
  const place = (before ?? at).end;
  return xml.slice(0, place) + block + PROPERTIES + end + xml.slice(place);
}
