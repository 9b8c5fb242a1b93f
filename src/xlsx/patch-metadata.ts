/** The record that marks a formula as a dynamic array ([MS-XLSX] 2.3.12, XLDAPR), made where a file has none. */
import { elementsOf, insertLast, prefixOf, recount, withChild, withPrefix } from './elements';
import type { Package } from './package';
import type { WorkbookPart } from './workbook-part';
import { XmlScanner } from './xml';

const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
const ORDER = [
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
const EMPTY =
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"></metadata>';

/** The value of a cell's `cm` for a dynamic array, after seeing to it that the record exists. */
export function dynamicArrayRecord(file: Package, workbook: WorkbookPart): number {
  const part = workbook.metadata ?? 'xl/metadata.xml';
  if (!file.has(part)) {
    file.addPart(part, TYPE, EMPTY);
    file.relate(workbook.part, 'sheetMetadata', part);
  }
  const found = read(file.text(part));
  if (found.record) return found.record;
  let xml = file.text(part);
  if (!found.type) {
    xml = recount(
      insertLast(withChild(xml, 'metadataTypes', ORDER), 'metadataTypes', METADATA_TYPE),
      'metadataTypes',
      'metadataType',
    );
    xml = insertFuture(xml);
  }
  const type = found.type || found.types + 1;
  xml = recount(
    insertLast(withChild(xml, 'cellMetadata', ORDER), 'cellMetadata', `<bk><rc t="${type}" v="0"/></bk>`),
    'cellMetadata',
    'bk',
  );
  file.set(part, xml);
  return found.records + 1;
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

function read(xml: string): { type: number; types: number; record: number; records: number } {
  const scanner = new XmlScanner(xml);
  let types = 0;
  let type = 0;
  let records = 0;
  let record = 0;
  let inCells = false;
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (scanner.name === 'cellMetadata') inCells = token === 'open';
    if (token !== 'open' && token !== 'empty') continue;
    if (scanner.name === 'metadataType') {
      types++;
      if (scanner.attribute('name') === 'XLDAPR') type = types;
    } else if (inCells && scanner.name === 'bk') records++;
    else if (
      inCells &&
      scanner.name === 'rc' &&
      !record &&
      type &&
      Number(scanner.attribute('t')) === type &&
      scanner.attribute('v') === '0'
    )
      record = records;
  }
  return { type, types, record, records };
}
