/** A package taken apart without the code under test. */
import { readFileSync } from 'node:fs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

export const fixture = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`./fixtures/${name}.xlsx`, import.meta.url)));

/** Texts of all parts by name. */
export function partsOf(bytes: Uint8Array): Map<string, string> {
  return new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content, true)]));
}

export const partOf = (bytes: Uint8Array, name: string): string => new TextDecoder().decode(unzipSync(bytes)[name]);

/** Names of the parts that differ, that came and that went. */
export function changedParts(before: Uint8Array, after: Uint8Array): string[] {
  const old = partsOf(before);
  const now = partsOf(after);
  return [...new Set([...old.keys(), ...now.keys()])].filter((name) => old.get(name) !== now.get(name)).sort();
}

const HEAD = '<?xml version="1.0" encoding="UTF-8"?>';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const TYPES = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

const SMALLEST: Readonly<Record<string, string>> = {
  '[Content_Types].xml': `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPES}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${TYPES}.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPES}.styles+xml"/></Types>`,
  '_rels/.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
  'xl/workbook.xml': `<workbook ${MAIN} xmlns:r="${OFFICE}"><sheets><sheet name="Parts" sheetId="1" r:id="rId1"/></sheets></workbook>`,
  'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
  'xl/styles.xml': `<styleSheet ${MAIN}><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="14" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"><protection locked="0"/></xf></cellXfs></styleSheet>`,
};

/** A workbook of one sheet, Parts, with the given rows; `parts` are added or put in the place of others. */
export function workbookOf(rows: string, parts: Readonly<Record<string, string>> = {}): Uint8Array {
  const sheet = `<worksheet ${MAIN}><sheetData>${rows}</sheetData></worksheet>`;
  const all = { ...SMALLEST, 'xl/worksheets/sheet1.xml': sheet, ...parts };
  return zipSync(
    Object.fromEntries(
      Object.entries(all).map(([name, text]) => [
        name,
        strToU8(name === 'xl/worksheets/sheet1.xml' ? text : HEAD + text),
      ]),
    ),
  );
}

/** What stands inside sheetData. */
export const rowsOf = (bytes: Uint8Array): string =>
  /<sheetData>([^]*)<\/sheetData>/.exec(partOf(bytes, 'xl/worksheets/sheet1.xml'))![1]!;
