/** Undo of the pane in Excel: one step a deed, and never over what a person typed after it. */
import { describe, expect, it } from 'vitest';
import { firstTyped } from '../../../src/hosts/excel/events';
import type { Edit, RangeAddress } from '../../../src/sheet';
import { open, ownClock } from './fake/open';

const at = (sheet: string, row: number, column: number, rows = 1, columns = 1): RangeAddress => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
const write = (sheet: string, row: number, column: number, value: string): Edit => ({
  kind: 'write',
  range: at(sheet, row, column),
  cells: [[value]],
});

const told = ownClock();

describe('taking back', () => {
  it('leaves what was typed into the same cell after it, and says where that is', async () => {
    const { workbook, excel } = await open();
    await workbook.apply('write', [write('Blank', 2, 1, 'ours')]);
    excel.type('Blank', 2, 1, 'theirs');
    await told();
    await expect(workbook.undo()).rejects.toMatchObject({
      code: 'typed-since',
      message: expect.stringMatching(/^Blank!B3 was changed in the sheet after this step/) as string,
    });
    expect(await workbook.read(at('Blank', 2, 1))).toEqual([['theirs']]);
  });

  it('goes on where another cell was typed into', async () => {
    const { workbook, excel } = await open();
    await workbook.apply('write', [write('Blank', 2, 1, 'ours')]);
    excel.type('Blank', 3, 1, 'theirs');
    await told();
    expect(await workbook.undo()).toBe(true);
    expect(await workbook.read(at('Blank', 2, 1, 2))).toEqual([[null], ['theirs']]);
  });

  it('does not take a sheet away on which somebody has typed', async () => {
    const { workbook, excel } = await open();
    await workbook.apply('add', [{ kind: 'addSheet', name: 'New' }, write('New', 0, 0, 'label')]);
    excel.type('New', 5, 3, 'theirs');
    await told();
    await expect(workbook.undo()).rejects.toMatchObject({ code: 'typed-since' });
    expect(await workbook.read(at('New', 5, 3))).toEqual([['theirs']]);
  });

  it('does not take a row out of a table in which somebody has typed, and takes out one beside it', async () => {
    const { workbook, excel } = await open();
    const [table] = await workbook.tables();
    const row = table!.range.row + 1;
    const insert: Edit = { kind: 'insertTableRows', table: table!.name, at: 0, cells: [['ours', 1, 2]] };
    await workbook.apply('row', [insert]);
    excel.type('Parts', row + 1, 0, 'the next row');
    await told();
    expect(await workbook.undo()).toBe(true);
    await workbook.apply('row', [insert]);
    excel.type('Parts', row, 1, 'in ours');
    await told();
    await expect(workbook.undo()).rejects.toMatchObject({ code: 'typed-since' });
    expect(await workbook.read(at('Parts', row, 1))).toEqual([['in ours']]);
  });

  it('does not hold an edit of our own against itself', async () => {
    const { workbook } = await open();
    await workbook.apply('one', [write('Blank', 2, 1, 'one')]);
    await workbook.apply('two', [write('Blank', 2, 1, 'two')]);
    await told();
    expect([await workbook.undo(), await workbook.undo()]).toEqual([true, true]);
    expect(await workbook.redo()).toBe(true);
    expect(await workbook.read(at('Blank', 2, 1))).toEqual([['one']]);
  });

  it('is careful where rows were moved, or the place is told in another form', () => {
    const name = (id: string): string | undefined => (id === 'one' ? 'Parts' : undefined);
    const tables = [{ name: 'Parts', range: at('Parts', 4, 0, 5, 3), columns: ['a', 'b', 'c'] }];
    const cells = { kind: 'cells', range: at('Parts', 20, 0), cells: [['x']] } as const;
    const rows = { kind: 'removeRows', table: 'Parts', at: 1, last: false, count: 2 } as const;
    const touch = (address: string, worksheetId = 'one') => [{ worksheetId, address }];
    expect(firstTyped([cells], touch('A20'), name, tables)).toBeUndefined();
    expect(firstTyped([cells], touch('A1:C30'), name, tables)).toEqual({ sheet: 'Parts', address: 'A1:C30' });
    expect(firstTyped([cells], touch('20:22'), name, tables)).toBeDefined();
    expect(firstTyped([cells], touch('A21', 'gone'), name, tables)).toBeUndefined();
    expect(firstTyped([rows], touch('A7'), name, tables)).toBeDefined();
    expect(firstTyped([rows], touch('A9'), name, tables)).toBeUndefined();
    expect(firstTyped([rows, cells], touch('A9'), name, tables)).toBeDefined();
  });
});

describe('a deed', () => {
  it.each([
    ['1.20', true],
    ['1.19', false],
  ])('is one step of Excel’s own undo at ExcelApi %s: %s', async (version, merges) => {
    const { workbook, excel } = await open({ version });
    excel.options.length = 0;
    await workbook.apply('write', [write('Blank', 0, 0, 'a')]);
    await workbook.undo();
    expect(excel.options.map((given) => (given as { mergeUndoGroup?: boolean }).mergeUndoGroup ?? false)).toEqual([
      merges,
      merges,
    ]);
    await workbook.sheets();
    expect(excel.options.at(-1)).not.toHaveProperty('mergeUndoGroup');
  });
});

describe('a table that was deleted', () => {
  it.each(['ItemNotFound', 'InvalidArgument', 'GeneralException'])(
    'is no fault of the reading, though Excel reports %s',
    async (code) => {
      const { workbook, book } = await open();
      expect(await workbook.tables()).toHaveLength(1);
      book.tables = [];
      book.noSuchTable = code;
      expect(await workbook.tables()).toEqual([]);
      await workbook.apply('write', [write('Blank', 0, 0, 'still')]);
      expect(await workbook.read(at('Blank', 0, 0))).toEqual([['still']]);
    },
  );
});
