/** The first rows of a large file, against what reading the whole of it gives. */
import { describe, expect, it } from 'vitest';
import { readFirstRows, readWorkbook, writeWorkbook } from '../../src/xlsx';
import type { CellModel, WorkbookModel } from '../../src/sheet';
import { workbookOf } from './parts';

const ROWS = 30_000;
const LINES = Array.from({ length: ROWS }, (_, row): CellModel[] => [
  { value: `Rib ${row + 1}, port & starboard` },
  { value: row / 7, style: 1 },
  { value: row * 2, formula: `B${row + 1}*14`, plain: true },
  { value: null, style: 1 },
]);
const model: WorkbookModel = {
  styles: [{}, { numberFormat: '0.000', bold: true }],
  names: [],
  sheets: [
    { name: 'Hidden', hidden: true, cells: [[{ value: 'not this one' }]], tables: [] },
    { name: 'List', cells: LINES, columnWidths: [30], frozen: { rows: 1, columns: 0 }, tables: [] },
    { name: 'Last', cells: [[{ value: 1 }]], tables: [] },
  ],
};
const valuesOf = ({ sheets }: WorkbookModel, name: string, rows: number): unknown[][] =>
  sheets
    .find((sheet) => sheet.name === name)!
    .cells.slice(0, rows)
    .map((line) => Array.from(line ?? [], (cell) => cell && [cell.value, cell.style]));

describe('the first rows', () => {
  it('are those of the file, with their looks, on the first sheet that is shown, and no formula among them', async () => {
    const bytes = await writeWorkbook(model);
    const first = readFirstRows(bytes)!;
    const whole = readWorkbook(bytes);
    expect(first.sheets.map(({ name, hidden, cells }) => [name, hidden ?? false, cells.length])).toEqual([
      ['Hidden', true, 0],
      ['List', false, 100],
      ['Last', false, 0],
    ]);
    expect(valuesOf(first, 'List', 100)).toEqual(valuesOf(whole, 'List', 100));
    expect(first.styles).toEqual(whole.styles);
    const [shown, list] = [first, whole].map(({ sheets }) => sheets.find(({ name }) => name === 'List')!);
    expect(shown!.frozen).toEqual({ rows: 1, columns: 0 });
    expect(shown!.columnWidths).toEqual(list!.columnWidths);
    expect(shown!.cells.flat().some((cell) => cell?.formula !== undefined)).toBe(false);
  });

  it('have the shared texts that stand at the beginning, and nothing for others', () => {
    const TEXTS = 60_000;
    const relationship = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
    const bytes = workbookOf(
      Array.from({ length: TEXTS }, (_, row) => {
        // The second row names a text that stands far behind.
        const text = row === 1 ? TEXTS - 1 : row;
        return `<row r="${row + 1}" spans="1:2" ht="15"><c r="A${row + 1}" t="s"><v>${text}</v></c><c r="B${row + 1}"><v>${row}</v></c></row>`;
      }).join(''),
      {
        'xl/sharedStrings.xml': `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="${TEXTS}" uniqueCount="${TEXTS}">${Array.from({ length: TEXTS }, (_, index) => `<si><t>Text ${index} é</t></si>`).join('')}</sst>`,
        'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${relationship}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${relationship}/styles" Target="styles.xml"/><Relationship Id="rId3" Type="${relationship}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
      },
    );
    const values = readFirstRows(bytes)!.sheets[0]!.cells.map((line) => line.map((cell) => cell!.value));
    expect(values.slice(0, 3)).toEqual([
      ['Text 0 é', 0],
      ['', 1],
      ['Text 2 é', 2],
    ]);
    expect(values).toHaveLength(100);
  });

  it.each([
    [
      'a small file',
      () => writeWorkbook({ ...model, sheets: [{ name: 'List', cells: LINES.slice(0, 50), tables: [] }] }),
    ],
    ['no workbook', () => Promise.resolve(new Uint8Array([80, 75, 3, 4, 1, 2, 3]))],
    ['a file that is cut short', async () => (await writeWorkbook(model)).slice(0, 100_000)],
  ])('are not given of %s', async (_name, make) => {
    expect(readFirstRows(await make())).toBeUndefined();
  });
});
