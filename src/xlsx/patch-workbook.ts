/** The workbook's own part patched: sheets that come, and names. */
import type { NameModel, SheetModel } from '../sheet';
import {
  changeAttributes,
  elementsOf,
  withoutEmpty,
  withText,
  insertLast,
  replaceElements,
  withChild,
  WORKBOOK_ORDER,
} from './elements';
import { type IsName, toFile } from './formula-text';
import type { Package } from './package';
import type { WorkbookPart } from './workbook-part';
import { escapeXml } from './xml';

const R = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const WORKSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml';

/** Adds an empty sheet at the end and returns its part. */
export function addSheet(
  file: Package,
  workbook: WorkbookPart,
  name: string,
  sheet: Pick<SheetModel, 'hidden' | 'protected'>,
): string {
  const guard = sheet.protected ? '<sheetProtection sheet="1" objects="1" scenarios="1"/>' : '';
  const part = file.freeName('xl/worksheets/sheet', '.xml');
  file.addPart(
    part,
    WORKSHEET,
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}"><dimension ref="A1"/><sheetData/>${guard}</worksheet>`,
  );
  const id = file.relate(workbook.part, 'worksheet', part);
  const xml = file.text(workbook.part);
  const highest = Math.max(
    0,
    ...elementsOf(xml, 'sheet').map(({ attributes }) => Number(attributes.get('sheetId') ?? 0)),
  );
  const state = sheet.hidden ? ' state="hidden"' : '';
  file.set(
    workbook.part,
    insertLast(
      xml,
      'sheets',
      `<sheet xmlns:r="${file.inForm(R)}" name="${escapeXml(name)}" sheetId="${highest + 1}"${state} r:id="${id}"/>`,
    ),
  );
  return part;
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
  let xml = file.text(workbook.part);
  const positions = elementsOf(xml, 'sheet').map(({ attributes }) => attributes.get('name') ?? '');
  const places = new Map(names.map((one) => [key(one.name, scopeIndex(one, positions)), one]));
  const gone = new Set(removed.map((one) => key(one.name, scopeIndex(one, positions))));
  const stands = new Set<string>();
  const meaningOf = ({ refersTo, scope }: NameModel): string => escapeXml(toFile(refersTo, seenBy(scope)));
  xml = replaceElements(xml, 'definedName', (element) => {
    const { attributes } = element;
    const found = key(attributes.get('name') ?? '', attributes.get('localSheetId'));
    const changed = places.get(found);
    if (!changed) return gone.has(found) ? '' : undefined;
    stands.add(found);
    return withText(xml, element, meaningOf(changed));
  });
  const added = [...places]
    .filter(([place]) => !stands.has(place))
    .map(([, one]) => nameXml(one.name, meaningOf(one), scopeIndex(one, positions)));
  if (added.length) xml = insertLast(withChild(xml, 'definedNames', WORKBOOK_ORDER), 'definedNames', added.join(''));
  file.set(workbook.part, withoutEmpty(xml, 'definedNames'));
}

function scopeIndex({ scope }: NameKey, positions: readonly string[]): string | undefined {
  const index = scope === undefined ? -1 : positions.indexOf(scope);
  return index < 0 ? undefined : String(index);
}

const key = (name: string, scope: string | undefined): string => `${name.toLowerCase()} ${scope ?? ''}`;

const nameXml = (name: string, meaning: string, scope: string | undefined): string =>
  `<definedName name="${escapeXml(name)}"${scope === undefined ? '' : ` localSheetId="${scope}"`}>${meaning}</definedName>`;
