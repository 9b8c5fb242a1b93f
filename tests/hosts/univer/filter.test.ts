/** Filters over lists: what they hide, what they do not change, and what is saved of them. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ExcelJS from 'exceljs';
import { afterAll, describe, expect, it } from 'vitest';
import { headText, loadKept, pieceKeys, pieceText, UniverWorkbook } from '../../../src/hosts/univer';
import type { RangeAddress } from '../../../src/sheet';
import { readWorkbook } from '../../../src/xlsx';
import { recalculatedByLibreOffice } from '../../helpers/libreoffice';
import { python, soffice } from '../../helpers/programs';
import { partsOf } from '../../xlsx/parts';
import { hasSchemas, ruleFaults, schemaFaults } from '../../xlsx/structure/valid';
import { openBook } from './open-book';

const PYTHON = python('openpyxl', 'xlsxwriter');
const OFFICE = soffice();
const folder = mkdtempSync(join(tmpdir(), 'tarebook-filter-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const script = fileURLToPath(new URL('filter.py', import.meta.url));

interface Seen {
  readonly ref: string | null;
  readonly columns: Record<string, unknown>;
  readonly tables: Record<string, unknown>;
  readonly hidden: readonly number[];
}

/** What openpyxl reads of a sheet's filter. */
function byOpenpyxl(bytes: Uint8Array, sheet: string): Seen {
  const path = join(folder, 'read.xlsx');
  writeFileSync(path, bytes);
  const done = spawnSync(PYTHON!, [script, 'read', path, sheet], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(done.stderr);
  const { ref, columns, tables, hidden } = JSON.parse(done.stdout) as Seen;
  return { ref, columns, tables, hidden };
}

const hiddenIn = (bytes: Uint8Array, sheet: string): number[] =>
  (readWorkbook(bytes).sheets.find(({ name }) => name === sheet)!.hiddenRows ?? []).map((row) => row + 1);

const rowsBut = (first: number, last: number, ...shown: number[]): number[] =>
  Array.from({ length: last - first + 1 }, (_none, index) => first + index).filter((row) => !shown.includes(row));

const wing = new Uint8Array(readFileSync('sample-workbooks/wing.xlsx'));

describe('one component of the sample wing', async () => {
  const { lists, workbook, read, saved } = await openBook(wing);
  const range: RangeAddress = { sheet: 'Parts', row: 4, column: 0, rows: 79, columns: 19 };
  const totals: RangeAddress = { sheet: 'Weights', row: 5, column: 0, rows: 20, columns: 5 };
  const before = await read(totals);
  const notRibs = rowsBut(6, 83, 20, 21, 22, 23, 24, 25, 26, 27, 28);

  it('is chosen of those that the column shows', async () => {
    expect((await lists.shownTexts(range, 0)).texts).toContain('Ribs');
    expect(await lists.filter({ range }, { kind: 'choose', column: 0, asked: { values: ['Ribs'] } })).toBeUndefined();
    expect(lists.filters('Parts')).toMatchObject([{ range, hidden: notRibs.length }]);
    expect(await read(totals)).toEqual(before);
  });

  it('is saved: the filter, its name and the hidden rows', { timeout: 180_000 }, async () => {
    const made = await saved();
    expect(hiddenIn(made, 'Parts')).toEqual(notRibs);
    expect(ruleFaults(made)).toEqual([]);
    const parts = partsOf(made);
    expect(parts.get('xl/workbook.xml')).toMatch(
      /<definedName name="_xlnm\._FilterDatabase" localSheetId="\d" hidden="1">Parts!\$A\$5:\$S\$83</,
    );
    if (hasSchemas) expect(await schemaFaults(new Map([['wing', made]]))).toEqual([]);
    if (PYTHON)
      expect(byOpenpyxl(made, 'Parts')).toEqual({ ref: 'A5:S83', columns: { 0: ['Ribs'] }, tables: {}, hidden: notRibs }); // prettier-ignore
    if (OFFICE) expect(hiddenIn(recalculatedByLibreOffice(OFFICE, made), 'Parts')).toEqual(notRibs);
  });

  it('takes a second column into account, and blanks', async () => {
    const statuses = await lists.shownTexts(range, 7);
    expect(statuses.blanks).toBe(true);
    await lists.filter({ range }, { kind: 'choose', column: 7, asked: { values: [], blanks: true } });
    expect(hiddenIn(await saved(), 'Parts')).toEqual(rowsBut(6, 83, 20, 22, 23, 24, 25, 26, 27, 28));
    await workbook.undo();
    expect(hiddenIn(await saved(), 'Parts')).toEqual(notRibs);
  });

  it('is the one filter of its sheet, as a file has it', async () => {
    const other: RangeAddress = { ...range, rows: 20 };
    expect(await lists.filter({ range: other }, { kind: 'choose', column: 0, asked: { values: ['Ribs'] } })).toBe(
      'This sheet has a filter on A5:S83, and a file has one for a sheet. Remove that one first.',
    );
  });

  it('goes by what numbers show', async () => {
    const gauges = await lists.shownTexts(range, 4);
    expect(gauges.texts).toContain('0.020');
  });

  it('is cleared, removed, and taken back', async () => {
    await lists.filter({ range }, { kind: 'clear' });
    let made = await saved();
    expect(hiddenIn(made, 'Parts')).toEqual([]);
    if (PYTHON) expect(byOpenpyxl(made, 'Parts')).toMatchObject({ ref: 'A5:S83', columns: {} });
    await lists.filter({ range }, { kind: 'remove' });
    made = await saved();
    expect(partsOf(made).get('xl/workbook.xml')).not.toContain('_FilterDatabase');
    if (PYTHON) expect(byOpenpyxl(made, 'Parts')).toMatchObject({ ref: null, hidden: [] });
    await workbook.undo();
    await workbook.undo();
    expect(hiddenIn(await saved(), 'Parts')).toEqual(notRibs);
  });
});

const files = new Map<string, Uint8Array>();
if (PYTHON) {
  const done = spawnSync(PYTHON, [script, 'write', folder], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(done.stderr);
  for (const name of ['openpyxl', 'xlsxwriter']) files.set(name, new Uint8Array(readFileSync(join(folder, `${name}.xlsx`)))); // prettier-ignore
}

describe.skipIf(!PYTHON).each([...files.keys()])('a filter that a file by %s brings', (name) => {
  const bytes = files.get(name)!;
  const range: RangeAddress = { sheet: 'Parts', row: 0, column: 0, rows: 6, columns: 3 };

  it('is seen, and saved as it was', async () => {
    const { lists, saved, workbook } = await openBook(bytes);
    expect(lists.filters('Parts')).toEqual([{ range, columns: [{ column: 0, values: ['rib'] }], hidden: 3 }]);
    await workbook.apply('edit', [{ kind: 'write', range: { ...range, row: 1, column: 1, rows: 1, columns: 1 }, cells: [[5]] }]); // prettier-ignore
    const made = await saved();
    for (const sheet of ['Parts', 'Others']) expect(byOpenpyxl(made, sheet)).toEqual(byOpenpyxl(bytes, sheet));
  });

  it('leaves totals of what is shown to those', async () => {
    const { lists, read } = await openBook(bytes);
    const total = async () => (await read({ sheet: 'Parts', row: 7, column: 0, rows: 1, columns: 1 }))[0]![0];
    expect(await total()).toBe(7);
    await lists.filter({ range }, { kind: 'choose', column: 0, asked: { values: ['skin', 'rib'] } });
    expect(await total()).toBe(20);
    await lists.filter({ range }, { kind: 'clear' });
    expect(await total()).toBe(27);
  });

  it('follows rows that come, and keeps hidden rows when those around them are deleted', async () => {
    const { book, saved, workbook, read } = await openBook(bytes);
    const sheet = book.getSheetByName('Parts')!;
    sheet.insertRowsBefore(1, 2);
    let made = await saved();
    expect(byOpenpyxl(made, 'Parts')).toMatchObject({ ref: 'A1:C8', columns: { 0: ['rib'] }, hidden: [5, 7, 8] });
    await workbook.undo();
    sheet.deleteRows(1, 3);
    await expect.poll(async () => (await read({ ...range, columns: 1 })).flat()).toEqual(['part', 'skin', 'strap', 'skin', null, '#'].map((one) => (one === '#' ? 0 : one))); // prettier-ignore
    made = await saved();
    expect(byOpenpyxl(made, 'Parts')).toMatchObject({ ref: 'A1:C4', hidden: [2, 3, 4] });
    await workbook.undo();
    made = await saved();
    expect(byOpenpyxl(made, 'Parts')).toEqual(byOpenpyxl(bytes, 'Parts'));
  });

  it('is kept where it asks what is not known here, beside a column that is chosen', async () => {
    const { lists, saved } = await openBook(bytes);
    const others = { ...range, sheet: 'Others' };
    const unknown = lists.filters('Others')[0]!.columns;
    expect(unknown.every(({ values }) => values === undefined)).toBe(true);
    await lists.filter({ range: others }, { kind: 'choose', column: 0, asked: { values: ['skin'] } });
    const made = await saved();
    const before = byOpenpyxl(bytes, 'Others');
    expect(byOpenpyxl(made, 'Others')).toEqual({ ...before, columns: { ...before.columns, 0: ['skin'] }, hidden: [2, 4, 5, 6] }); // prettier-ignore
    if (hasSchemas) expect(await schemaFaults(new Map([[name, made]]))).toEqual([]);
  });

  it('is there again in a workbook that was kept', async () => {
    const { engine, id, lists, saved } = await openBook(bytes);
    await lists.filter({ range }, { kind: 'choose', column: 0, asked: { values: ['strap'] } });
    const sheets = new Map(pieceKeys(engine, id).map((sheet) => [sheet, pieceText(engine, id, sheet)!]));
    const made = await saved();
    await loadKept(engine, { unit: `${id} again`, title: 'Book' }, headText(engine, id), sheets);
    const again = new UniverWorkbook(engine, `${id} again`, 'headless', 'Book');
    expect(byOpenpyxl(again.saved(bytes), 'Parts')).toEqual(byOpenpyxl(made, 'Parts'));
  });
});

describe('a filter by exceljs', () => {
  it('of a sheet hides nothing until something is chosen, and one of a table is the table’s', async () => {
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Parts');
    sheet.addTable({
      name: 'Sizes',
      ref: 'B2',
      headerRow: true,
      totalsRow: false,
      columns: [
        { name: 'part', filterButton: true },
        { name: 'length', filterButton: true },
      ],
      rows: [
        ['rib', 4],
        ['skin', 12],
        ['rib', 3],
      ],
    });
    const plain = book.addWorksheet('Plain');
    for (const row of [['part', 'length'], ['rib', 4], ['skin', 12]]) plain.addRow(row); // prettier-ignore
    plain.autoFilter = 'A1:B3';
    const bytes = new Uint8Array(await book.xlsx.writeBuffer());
    const { lists, saved } = await openBook(bytes);
    const list = lists.listAt({ sheet: 'Parts', row: 2, column: 1, rows: 1, columns: 1 })!;
    expect(list).toMatchObject({ table: 'Sizes', hasHeadings: true });
    await lists.filter(
      { range: list.range, table: 'Sizes' },
      { kind: 'choose', column: 0, asked: { values: ['skin'] } },
    );
    const plainList = { range: lists.filters('Plain')[0]!.range };
    await lists.filter(plainList, { kind: 'choose', column: 1, asked: { values: ['4'] } });
    const made = await saved();
    expect(ruleFaults(made)).toEqual([]);
    expect(hiddenIn(made, 'Parts')).toEqual([3, 5]);
    expect(hiddenIn(made, 'Plain')).toEqual([3]);
    if (PYTHON) expect(byOpenpyxl(made, 'Parts').tables).toEqual({ Sizes: { 0: ['skin'] } });
    const [first] = (await openBook(made)).lists.filters('Parts');
    expect(first).toMatchObject({ table: 'Sizes', hidden: 2 });
    await lists.filter({ range: list.range, table: 'Sizes' }, { kind: 'clear' });
    expect(hiddenIn(await saved(), 'Parts')).toEqual([]);
  });
});
