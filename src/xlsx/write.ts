/**
 * A new workbook from a model: an empty package, patched. One set of writers serves new files and saved
 * ones; exceljs, which would write new files, knows neither dynamic arrays nor our way to bind
 * functions, so that each of its sheets would have to be patched all the same.
 */
import type { WorkbookModel } from '../sheet';
import { MADE_BY } from './made-by';
import { patchWorkbook } from './patch';
import { writeArchive } from './zip';

export interface WriteOptions {
  /** True: whoever opens the file calculates every formula first. Else the values are taken as they are. */
  readonly calculateOnOpening?: boolean;
}

/** The bytes of a new .xlsx file, with formulas in the form in which spreadsheet programs bind them and with their values. */
export async function writeWorkbook(
  model: WorkbookModel,
  { calculateOnOpening = false }: WriteOptions = {},
): Promise<Uint8Array> {
  return patchWorkbook(emptyPackage(calculateOnOpening), {
    sheets: [],
    newSheets: model.sheets,
    names: model.names,
    styles: model.styles,
  });
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

const PARTS: readonly (readonly [string, string])[] = [
  [
    '[Content_Types].xml',
    `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/><Override PartName="/${MADE_BY.part}" ContentType="${MADE_BY.type}"/></Types>`,
  ],
  [
    '_rels/.rels',
    `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/><Relationship Id="rId2" Type="${OFFICE}/${MADE_BY.relationship}" Target="${MADE_BY.part}"/></Relationships>`,
  ],
  [MADE_BY.part, MADE_BY.xml],
  ['xl/workbook.xml', `<workbook xmlns="${MAIN}"><bookViews><workbookView/></bookViews><sheets></sheets></workbook>`],
  [
    'xl/_rels/workbook.xml.rels',
    `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="rId1" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
  ],
  [
    'xl/styles.xml',
    `<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`,
  ],
];

function emptyPackage(calculateOnOpening: boolean): Uint8Array {
  const encoder = new TextEncoder();
  // Source: ECMA-376 part 1, 18.2.2 calcPr.
  const part = (name: string, text: string): string =>
    calculateOnOpening && name === 'xl/workbook.xml'
      ? text.replace('</workbook>', '<calcPr fullCalcOnLoad="1"/></workbook>')
      : text;
  return writeArchive(new Map(PARTS.map(([name, text]) => [name, encoder.encode(HEAD + part(name, text))])));
}
