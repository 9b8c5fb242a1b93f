/**
 * A new workbook from a model: an empty package, patched. One set of writers serves new files and saved
 * ones; exceljs, which would write new files, knows neither dynamic arrays nor our way to bind
 * functions, so that each of its sheets would have to be patched all the same.
 */
import type { WorkbookModel } from '../sheet';
import { patchWorkbook } from './patch';
import { writeArchive, type Codec } from './zip';
import { XlsxError } from './error';
import { unescapeText } from './read-strings';
import { Package, RELATIONSHIPS, SPREADSHEET, XML_HEAD } from './package';
import { XmlScanner } from './xml';

/**
 * The bytes of a new .xlsx file, with formulas in the form in which spreadsheet programs bind them and with their values.
 * @param calculateOnOpening true: whoever opens the file calculates every formula first. Else the values are taken as they are
 */
export const writeWorkbook = async (
  model: WorkbookModel,
  { calculateOnOpening = false }: { readonly calculateOnOpening?: boolean } = {},
): Promise<Uint8Array> =>
  patchWorkbook(emptyPackage(calculateOnOpening), {
    sheets: [],
    newSheets: model.sheets,
    names: model.names,
    styles: model.styles,
  });

const PACKAGE_RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** The version that new workbooks name. @internal */
export const VERSION = '0.2';
/** The first one named itself nowhere. */
const FIRST_VERSION = '0.1';

const PART = 'docProps/custom.xml';
const PROPERTY = 'Tarebook';

/** What a new package needs for it. Source: ECMA-376 part 1, 22.3 (custom properties) and 15.2.12.2 (their part). */
const MADE_BY = {
  part: PART,
  type: 'application/vnd.openxmlformats-officedocument.custom-properties+xml',
  relationship: 'custom-properties',
  xml: `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties" xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes"><property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="2" name="${PROPERTY}"><vt:lpwstr>${VERSION}</vt:lpwstr></property></Properties>`,
} as const;

const PARTS: readonly (readonly [string, string])[] = [
  [
    '[Content_Types].xml',
    `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/><Override PartName="/${MADE_BY.part}" ContentType="${MADE_BY.type}"/></Types>`,
  ],
  [
    '_rels/.rels',
    `<Relationships xmlns="${PACKAGE_RELATIONSHIPS}"><Relationship Id="rId1" Type="${RELATIONSHIPS}/officeDocument" Target="xl/workbook.xml"/><Relationship Id="rId2" Type="${RELATIONSHIPS}/${MADE_BY.relationship}" Target="${MADE_BY.part}"/></Relationships>`,
  ],
  [MADE_BY.part, MADE_BY.xml],
  [
    'xl/workbook.xml',
    `<workbook xmlns="${SPREADSHEET}"><bookViews><workbookView/></bookViews><sheets></sheets></workbook>`,
  ],
  [
    'xl/_rels/workbook.xml.rels',
    `<Relationships xmlns="${PACKAGE_RELATIONSHIPS}"><Relationship Id="rId1" Type="${RELATIONSHIPS}/styles" Target="styles.xml"/></Relationships>`,
  ],
  [
    'xl/styles.xml',
    `<styleSheet xmlns="${SPREADSHEET}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`,
  ],
];

function emptyPackage(calculateOnOpening: boolean): Uint8Array {
  // Source: ECMA-376 part 1, 18.2.2 calcPr.
  const part = (name: string, text: string): string =>
    calculateOnOpening && name === 'xl/workbook.xml'
      ? text.replace('</workbook>', '<calcPr fullCalcOnLoad="1"/></workbook>')
      : text;
  const encoder = new TextEncoder();
  return writeArchive(new Map(PARTS.map(([name, text]) => [name, encoder.encode(XML_HEAD + part(name, text))])));
}

/** "0.2": which version made a workbook; undefined for one that another program made. @internal */
export function madeBy(bytes: Uint8Array, codec?: Codec): string | undefined {
  const file = new Package(bytes, codec);
  return propertyIn(file) ?? (isOfFirst(file) ? FIRST_VERSION : undefined);
}

/** A sentence for a person who opens a workbook that another version made; undefined where this one did, or none of ours. */
export function otherVersionText(bytes: Uint8Array, codec?: Codec): string | undefined {
  const version = madeBy(bytes, codec);
  return version === undefined || version === VERSION
    ? undefined
    : `Made by Tarebook ${version}. Some functions give other numbers since then: the list of changes (CHANGELOG.md) has them.`;
}

/** Undefined also where the part is damaged: what a property says is not worth refusing a workbook for. */
function propertyIn(file: Package): string | undefined {
  if (!file.has(PART)) return undefined;
  try {
    const scanner = new XmlScanner(file.text(PART));
    let isOurs = false;
    for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
      if (token === 'open' && scanner.name === 'property') isOurs = scanner.attribute('name') === PROPERTY;
      else if (isOurs && token === 'text') return unescapeText(scanner.value).trim() || undefined;
    }
  } catch (error) {
    if (!(error instanceof XlsxError)) throw error;
  }
  return undefined;
}

/** Every other program describes the document; the first version did not, and its files have the functions' file names. */
function isOfFirst(file: Package): boolean {
  const parts = file.parts();
  return (
    !parts.some((name) => name.toLowerCase().startsWith('docprops/')) &&
    parts.some((name) => /^xl\/worksheets\/[^/]+\.xml$/i.test(name) && file.text(name).includes('_xldudf_TARE_'))
  );
}
