/** How sheets that are made here come out of a printer. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { WorkbookModel } from '../../src/sheet';
import { difference, patchWorkbook, readWorkbook, shiftWorkbook, writeWorkbook } from '../../src/xlsx';
import { convertedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';
import { partOf, workbookOf } from './parts';
import { hasSchemas, ruleFaults, schemaFaults } from './structure/valid';

const FOLDER = new URL('../../sample-workbooks/', import.meta.url);
const samples = readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx'));
const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(name, FOLDER)));

const model = (sheet: string, frozen?: { rows: number; columns: number }): WorkbookModel => ({
  styles: [],
  names: [],
  sheets: [{ name: sheet, cells: [[{ value: 'Part' }]], tables: [], ...(frozen ? { frozen } : {}) }],
});
const titlesOf = (bytes: Uint8Array): string[] =>
  [
    ...partOf(bytes, 'xl/workbook.xml').matchAll(
      /<definedName name="_xlnm.Print_Titles" localSheetId="(\d+)">([^<]*)</g,
    ),
  ].map(([, sheet, text]) => `${sheet} ${text}`);

/** Pages of workbooks as LibreOffice prints them. */
const pages = (files: readonly Uint8Array[]): number[] =>
  convertedByLibreOffice(soffice()!, files, { to: 'pdf' }).map(
    (pdf) => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)!.length,
  );

/** The first rows of every sheet: each then takes one page, unless it is wider than one. */
const cutShort = ({ sheets, ...rest }: WorkbookModel): WorkbookModel => ({
  ...rest,
  names: [],
  sheets: sheets.map(({ cells, validations: _validations, ...sheet }) => ({
    ...sheet,
    cells: cells
      .slice(0, 20)
      .map((line) =>
        line.map((cell) => cell && { value: cell.value, ...(cell.style === undefined ? {} : { style: cell.style }) }),
      ),
    merges: [],
    tables: [],
  })),
});

describe('a sheet that is made here', () => {
  it('is set up to be printed, elements in the order of the standard', async () => {
    const xml = partOf(await writeWorkbook(model('My parts', { rows: 5, columns: 2 })), 'xl/worksheets/sheet1.xml');
    expect(xml).toContain('<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension');
    expect(xml).toMatch(
      /<pageMargins [^>]*><\/pageMargins><pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"><\/pageSetup><headerFooter><oddFooter>&amp;L&amp;F: &amp;A&amp;RPage &amp;P of &amp;N<\/oddFooter><\/headerFooter>/,
    );
  });

  it('repeats its header, the last of the rows in view', async () => {
    expect(titlesOf(await writeWorkbook(model('My parts', { rows: 5, columns: 2 })))).toEqual(["0 'My parts'!$5:$5"]);
    expect(titlesOf(await writeWorkbook(model('Parts')))).toEqual([]);
  });

  it('is set up too where it comes to a file, also under a name that another sheet had', async () => {
    const file = await writeWorkbook(model('Parts'));
    const before = readWorkbook(file);
    const made = patchWorkbook(
      file,
      difference(before, {
        ...before,
        sheets: [...model('Parts', { rows: 2, columns: 0 }).sheets, { ...before.sheets[0]!, name: 'Old' }],
        loadedAs: [undefined, 0],
      }),
    );
    expect(titlesOf(made)).toEqual(['0 Parts!$2:$2']);
    expect(readWorkbook(made).sheets.map(({ name }) => name)).toEqual(['Parts', 'Old']);
  });

  it('is set up where an empty sheet of a file is filled, and a setup that is there stays', () => {
    const filled = (sheet: string): string => {
      const file = workbookOf('', {
        'xl/worksheets/sheet1.xml': `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/>${sheet}</worksheet>`,
      });
      return partOf(
        patchWorkbook(file, difference(readWorkbook(file), model('Parts', { rows: 1, columns: 0 }))),
        'xl/worksheets/sheet1.xml',
      );
    };
    expect(filled('')).toContain('orientation="landscape"');
    const own = '<pageMargins left="1" right="1" top="1" bottom="1" header="1" footer="1"/>';
    expect(filled(own)).toContain(`${own}<pageSetup orientation="landscape"`);
    expect(filled(`${own}<pageSetup orientation="portrait"/>`)).not.toContain('landscape');
  });

  it('has its header repeated where it stands after rows came in above', () => {
    const wing = sample('wing.xlsx');
    const before = titlesOf(wing).find((one) => one.includes('Parts'));
    expect(before).toMatch(/ Parts!\$5:\$5$/);
    const shifted = shiftWorkbook(wing, [{ kind: 'insert', sheet: 'Parts', axis: 'rows', at: 1, count: 2 }]);
    expect(titlesOf(shifted).find((one) => one.includes('Parts'))).toMatch(/ Parts!\$7:\$7$/);
    const gone = shiftWorkbook(wing, [{ kind: 'delete', sheet: 'Parts', axis: 'rows', at: 4, count: 1 }]);
    expect(titlesOf(gone).find((one) => one.includes('Parts'))).toBeUndefined();
    const renamed = shiftWorkbook(wing, [{ kind: 'renameSheet', sheet: 'Parts', name: 'All parts' }]);
    expect(titlesOf(renamed).find((one) => one.includes('All parts'))).toMatch(/ 'All parts'!\$5:\$5$/);
  });
});

describe('the sample workbooks', () => {
  it.each(samples)('%s: every sheet is set up', (name) => {
    const bytes = sample(name);
    const { sheets } = readWorkbook(bytes);
    sheets.forEach((_sheet, index) =>
      expect(partOf(bytes, `xl/worksheets/sheet${index + 1}.xml`)).toMatch(
        /fitToPage="1".*orientation="landscape" fitToWidth="1" fitToHeight="0"/s,
      ),
    );
    expect(titlesOf(bytes)).toHaveLength(sheets.filter(({ frozen }) => frozen?.rows).length);
  });

  it.skipIf(!hasSchemas)('are valid', { timeout: 120_000 }, async () => {
    const all = new Map(samples.map((name) => [name, sample(name)]));
    expect(await schemaFaults(all)).toEqual([]);
    for (const bytes of all.values()) expect(ruleFaults(bytes)).toEqual([]);
  });

  it.skipIf(!soffice())('have no sheet that is wider than a page', { timeout: 180_000 }, async () => {
    const short = ['wing.xlsx', 'budget.xlsx'].map((name) => cutShort(readWorkbook(sample(name))));
    expect(pages(await Promise.all(short.map((model) => writeWorkbook(model))))).toEqual(
      short.map(({ sheets }) => sheets.length),
    );
  });
});
