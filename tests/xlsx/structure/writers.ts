/** One invented workbook by four writers. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ExcelJS from 'exceljs';

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

function run(command: string, args: readonly string[]): void {
  const done = spawnSync(command, args, { encoding: 'utf8', timeout: 500_000 });
  if (done.status !== 0) throw new Error(`${command}: ${done.stderr || done.stdout}`);
}

export function byPython(python: string, writer: 'xlsxwriter' | 'openpyxl', folder: string): Uint8Array {
  run(python, [here('make.py'), writer, folder]);
  return new Uint8Array(readFileSync(join(folder, `${writer}.xlsx`)));
}

export async function byExceljs(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  book.created = book.modified = new Date(Date.UTC(2026, 2, 14));
  const parts = book.addWorksheet('Parts', { views: [{ state: 'frozen', xSplit: 1, ySplit: 1 }] });
  const lists = book.addWorksheet('Lists');
  const table = book.addWorksheet('Table of parts');
  parts.addRow(['part', 'length', 'width', 'area']);
  for (let row = 2; row < 10; row++) parts.addRow([`part ${row}`, row * 2, row / 4]);
  parts.fillFormula('D2:D9', 'B2*C2', [1, 2.25, 4, 6.25, 9, 12.25, 16, 20.25]);
  parts.getCell('D10').value = { formula: 'SUM(D2:D9)', result: 71 };
  parts.getCell('F2').value = { formula: 'COUNT($B$2:$B$9,C:C)+SUM(2:3)', result: 0 };
  parts.mergeCells('A12:C12');
  parts.mergeCells('A14:B15');
  for (const row of [2, 3, 4, 5])
    parts.getCell(`C${row}`).dataValidation = { type: 'list', formulae: ['Lists!$A$1:$A$3'] };
  parts.addConditionalFormatting({
    ref: 'D2:D9',
    rules: [{ type: 'expression', priority: 1, formulae: ['$D2>$B$3'], style: { font: { bold: true } } }],
  });
  parts.getCell('A11').value = { text: 'out', hyperlink: 'https://example.org/' };
  parts.autoFilter = 'A1:D9';
  parts.pageSetup.printArea = 'A1:E15';
  parts.getCell('A3').note = 'two of each';
  parts.getRow(7).hidden = true;
  parts.getRow(8).addPageBreak();
  for (const name of ['thin', 'thick', 'none']) lists.addRow([name]);
  lists.getCell('B1').value = { formula: 'Parts!D10', result: 71 };
  lists.getCell('B2').value = { formula: 'SUM(Parts!B2:B9)+Parts!$C$4', result: 0 };
  table.addTable({
    name: 'Sizes',
    ref: 'B2',
    headerRow: true,
    totalsRow: false,
    columns: [{ name: 'part' }, { name: 'length' }, { name: 'area' }],
    rows: [1, 2, 3, 4, 5].map((row) => [`part ${row}`, row, row * 2]),
  });
  table.getCell('F3').value = { formula: 'SUM(Sizes[length])+SUM(Sizes[area])', result: 0 };
  book.definedNames.add('Parts!$B$2:$B$9', 'Lengths');
  return new Uint8Array(await book.xlsx.writeBuffer());
}

export interface LibreOfficeJob {
  readonly from: Uint8Array;
  readonly edits: readonly unknown[];
}

/** What LibreOffice makes of workbooks with its own edits, in one run. */
export function byLibreOffice(
  office: { readonly python: string; readonly soffice: string; readonly profile: string },
  folder: string,
  jobs: ReadonlyMap<string, LibreOfficeJob>,
): Map<string, Uint8Array> {
  const names = [...jobs.keys()];
  const place = (index: number, what: string): string => join(folder, `${index}-${what}.xlsx`);
  names.forEach((name, index) => writeFileSync(place(index, 'in'), jobs.get(name)!.from));
  const list = names.map((name, index) => ({
    from: place(index, 'in'),
    to: place(index, 'out'),
    edits: jobs.get(name)!.edits,
  }));
  writeFileSync(join(folder, 'jobs.json'), JSON.stringify(list));
  run(office.python, [here('edit.py'), office.soffice, office.profile, join(folder, 'jobs.json')]);
  return new Map(names.map((name, index) => [name, new Uint8Array(readFileSync(place(index, 'out')))]));
}
