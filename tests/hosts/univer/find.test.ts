/** Finding texts in cells, and replacing them as if a person typed. */
import { readFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { cellName, type RangeAddress } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';
import { openBook } from './open-book';

const wing = new Uint8Array(readFileSync('sample-workbooks/wing.xlsx'));
const partsIn = (bytes: Uint8Array) => readWorkbook(bytes).sheets.find(({ name }) => name === 'Parts')!;
const query = (text: string, more: object = {}) => ({
  text,
  matchCase: false,
  wholeCell: false,
  sheets: ['Parts'],
  ...more,
});
const names = (cells: readonly { row: number; column: number }[]) =>
  cells.map(({ row, column }) => cellName(row, column));

describe('a gauge of the sample wing', async () => {
  const { lists, workbook, read, saved } = await openBook(wing);
  const gauges: RangeAddress = { sheet: 'Parts', row: 5, column: 4, rows: 78, columns: 1 };
  const before = (await read(gauges)).flat();
  const thin = before.flatMap((gauge, index) => (gauge === 0.02 ? [index] : []));

  it('is found by what the cell shows, and in the formulas and results of others', async () => {
    const found = names(await lists.find(query('0.020', { wholeCell: true })));
    expect(found.length).toBeGreaterThan(4);
    expect(found.every((name) => name.startsWith('E'))).toBe(true);
    expect(names(await lists.find(query('sheet')))).toContain('K6');
    expect(names(await lists.find(query('webGAUGE')))).toEqual(['E6']);
    expect(await lists.find(query('webGAUGE', { matchCase: true }))).toEqual([]);
  });

  it('is replaced in the cells that hold it, and the weights follow', async () => {
    const typed = thin.filter((index) => partsIn(wing).cells[5 + index]![4]!.formula === undefined);
    const { count, left } = await lists.replace(query('0.020', { wholeCell: true }), '0.025');
    expect(count).toBe(typed.length);
    // Ribs take their gauge from the sheet Design.
    expect(new Set(left.map(({ why }) => why))).toEqual(new Set(['result']));
    const after = (await read(gauges)).flat();
    for (const [index, gauge] of after.entries()) expect(gauge).toBe(typed.includes(index) ? 0.025 : before[index]);
    const sheet = partsIn(await saved());
    expect(sheet.cells.slice(5, 83).map((line) => line[4]?.value ?? null)).toEqual(after);
    expect(sheet.cells[41]![12]!.value).toBeGreaterThan(partsIn(wing).cells[41]![12]!.value as number);
    await workbook.undo();
    expect((await read(gauges)).flat()).toEqual(before);
  });

  it('leaves cells that a formula fills, and says which', async () => {
    const weight = { sheet: 'Parts', row: 50, column: 12, rows: 1, columns: 1 };
    const [[value]] = (await read(weight)) as [[number]];
    const { count, left } = await lists.replace(query(String(value)), '1', [weight]);
    expect(count).toBe(0);
    expect(left).toEqual([{ ...weight, why: 'spill', formula: 'M6' }]);
  });

  it('keeps a list of choices', async () => {
    const { count, left } = await lists.replace(query('released'), 'done');
    expect(count).toBe(0);
    expect(left[0]).toMatchObject({ why: 'choices', text: 'done' });
  });

  it('takes what is not on a list that lets other texts be typed', async () => {
    const { left } = await lists.replace(query('6061-T6', { wholeCell: true }), '6082-T6');
    expect(left.filter(({ why }) => why === 'choices')).toEqual([]);
    expect((await workbook.read({ sheet: 'Parts', row: 5, column: 3, rows: 1, columns: 1 }))[0]![0]).toBe('6082-T6');
  });
});

describe('cells of several kinds', async () => {
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet('Parts');
  book.addWorksheet('More').getCell('A1').value = 'rib of more';
  sheet.addRow(['Rib (left)', '0100', 0.02, 'Length (in)']);
  sheet.getCell('A2').value = { formula: 'C1*.020+10', result: 10.0004 };
  sheet.getCell('D2').value = 0.5;
  sheet.getCell('A4').value = 'rib hidden';
  sheet.getRow(4).hidden = true;
  const bytes = new Uint8Array(await book.xlsx.writeBuffer());
  const { lists, saved, workbook } = await openBook(bytes);

  it('are searched on the sheets that are asked, hidden rows left out', async () => {
    expect(names(await lists.find(query('RIB')))).toEqual(['A1']);
    expect((await lists.find(query('rib', { sheets: ['Parts', 'More'] }))).map((one) => one.sheet)).toEqual(['Parts', 'More']); // prettier-ignore
    // What has a meaning in patterns is text here.
    expect(names(await lists.find(query('(left)')))).toEqual(['A1']);
    expect(await lists.find(query(''))).toEqual([]);
  });

  it('get their new text as if it was typed: formulas as they are written, digits in a text as digits', async () => {
    await lists.replace(query('.020'), '.025');
    await lists.replace(query('0100'), '0200');
    await lists.replace(query('0.5', { wholeCell: true }), '3/32');
    await lists.replace(query('Rib ('), '=(');
    const { cells } = partsIn(await saved());
    expect(cells[1]![0]!.formula).toBe('C1*.025+10');
    expect(cells[0]![1]!.value).toBe('0200');
    expect(cells[1]![3]!.value).toBe(3 / 32);
    expect(cells[0]![2]!.value).toBe(0.02);
    expect(await workbook.undo()).toBe(true);
    expect(partsIn(await saved()).cells[0]![0]!.value).toBe('Rib (left)');
  });
});
