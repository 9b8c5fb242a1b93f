/** What the contract does not say of Excel: how often it is asked, what it makes of texts, older Excels, its events. */
import { describe, expect, it, vi } from 'vitest';
import type { ExcelWorkbook } from '../../../src/hosts/excel/workbook';
import type { Edit, RangeAddress, WorkbookChange } from '../../../src/sheet';
import { typedCell } from './fake/book';
import { open, ownClock } from './fake/open';

const at = (sheet: string, row: number, column: number, rows = 1, columns = 1): RangeAddress => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
const write = (sheet: string, row: number, column: number, cells: Extract<Edit, { kind: 'write' }>['cells']): Edit => ({
  kind: 'write',
  range: at(sheet, row, column, cells.length, cells[0]!.length),
  cells,
});

describe('the stand-in', () => {
  it('fails what was forgotten to be loaded, and what was loaded and not synced', async () => {
    await open();
    const values = (load: boolean, sync: boolean): Promise<unknown> =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem('Parts').getRangeByIndexes(0, 0, 1, 1);
        if (load) range.load('values');
        if (sync) await context.sync();
        return range.values as unknown;
      });
    await expect(values(false, true)).rejects.toMatchObject({ code: 'PropertyNotLoaded' });
    await expect(values(true, false)).rejects.toMatchObject({ code: 'PropertyNotLoaded' });
    expect(await values(true, true)).toEqual([['part']]);
  });

  it('does nothing before a sync, and nothing more after a failing action', async () => {
    const { book } = await open();
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem('Parts');
      sheet.getRangeByIndexes(0, 0, 1, 1).values = [['first']];
      expect(book.sheet('Parts').cell(0, 0).value).toBe('part');
      sheet.getRangeByIndexes(0, 0, 1, 1).values = [['too', 'wide']];
      sheet.getRangeByIndexes(0, 1, 1, 1).values = [['never']];
      await expect(context.sync()).rejects.toMatchObject({ code: 'InvalidArgument' });
    });
    expect(book.sheet('Parts').cell(0, 0).value).toBe('first');
    expect(book.sheet('Parts').cell(0, 1).value).toBe('width');
  });

  it('takes texts for numbers and days as Excel does', () => {
    expect(
      [typedCell('0012'), typedCell('3/32'), typedCell("'3/32"), typedCell('TRUE')].map((cell) => cell?.type),
    ).toEqual(['Double', 'Double', 'String', 'Boolean']);
  });
});

describe('requests to Excel', () => {
  it('says which system the workbook counts its days in', async () => {
    const { workbook, book } = await open();
    expect(await workbook.dates1904()).toBeUndefined();
    book.dates1904 = true;
    expect(await workbook.dates1904()).toEqual({ shown: [] });
  });

  it('are one for each question', async () => {
    const { workbook, syncs } = await open();
    expect(await syncs(() => workbook.sheets())).toBe(1);
    expect(await syncs(() => workbook.usedRange('Parts'))).toBe(1);
    expect(await syncs(() => workbook.read(at('Parts', 0, 0, 6, 4)))).toBe(1);
    expect(await syncs(() => workbook.readFormulas(at('Parts', 0, 0, 6, 4)))).toBe(1);
    expect(await syncs(() => workbook.selection())).toBe(1);
    expect(await syncs(() => workbook.select(at('Parts', 1, 1)))).toBe(1);
  });

  it('for the tables are one, and two whenever one was added', async () => {
    const { workbook, book, syncs } = await open();
    expect(await syncs(() => workbook.tables())).toBe(1);
    expect(await syncs(() => workbook.tables())).toBe(1);
    book.tables.push({ name: 'More', sheet: book.sheet('Blank'), place: { row: 0, column: 0, rows: 2, columns: 1 } });
    expect(await syncs(() => workbook.tables())).toBe(2);
    expect((await workbook.tables()).map(({ name }) => name)).toEqual(['Parts', 'More']);
  });

  it('survive a table that was taken away', async () => {
    const { workbook, book } = await open();
    await workbook.tables();
    book.tables = [];
    expect(await workbook.tables()).toEqual([]);
    await workbook.apply('write', [write('Parts', 0, 0, [['still']])]);
    expect(await workbook.read(at('Parts', 0, 0))).toEqual([['still']]);
  });

  it('are two for an action of many edits (a look, then the deed), one for its undo', async () => {
    const { workbook, syncs } = await open();
    await workbook.tables();
    const edits: Edit[] = [
      write('Parts', 1, 1, [[1], [2]]),
      { kind: 'insertTableRows', table: 'Parts', at: 1, cells: [['skin', 30, 1]] },
      { kind: 'removeTableRows', table: 'Parts', at: 0, count: 1 },
      { kind: 'format', range: at('Parts', 1, 1), numberFormat: '0.0', bold: true },
    ];
    expect(await syncs(() => workbook.apply('many', edits))).toBe(2);
    expect(await syncs(() => workbook.undo())).toBe(1);
    expect(await syncs(() => workbook.redo())).toBe(1);
    expect(await syncs(() => workbook.undo())).toBe(1);
  });

  it('are none where there is nothing to do', async () => {
    const { workbook, syncs } = await open();
    expect(await syncs(() => workbook.undo())).toBe(0);
  });

  it('carry a large range in pieces', async () => {
    const { workbook, syncs } = await open();
    await workbook.tables();
    const cells = Array.from({ length: 12_000 }, (_row, r) => Array.from({ length: 10 }, (_column, c) => r + c));
    expect(await syncs(() => workbook.apply('large', [write('Blank', 0, 0, cells)]))).toBe(1 + 3);
    expect(await syncs(async () => expect(await workbook.read(at('Blank', 0, 0, 12_000, 10))).toEqual(cells))).toBe(3);
  });
});

describe('texts', () => {
  const TEXTS = [
    '0012',
    '3/32',
    '1 1/4',
    '6061-T6',
    'MS20470AD4-5',
    'TRUE',
    '=A1',
    '+5',
    '-',
    '@name',
    "'quoted",
    '1e3',
    'Mar 5',
    '10%',
    '#N/A',
    'plain',
    'left, lower (aft)',
    'Ölkühler',
  ];

  it('stay the texts they are', async () => {
    const { workbook, book } = await open();
    await workbook.apply('texts', [
      write(
        'Blank',
        0,
        0,
        TEXTS.map((text) => [text]),
      ),
    ]);
    expect((await workbook.read(at('Blank', 0, 0, TEXTS.length, 1))).flat()).toEqual(TEXTS);
    expect(TEXTS.map((_text, row) => book.sheet('Blank').cell(row, 0).type)).toEqual(TEXTS.map(() => 'String'));
  });

  it('come back as texts when an edit over them, or the removal of their row, is taken back', async () => {
    const { workbook } = await open();
    await workbook.apply('texts', [write('Parts', 1, 0, [['3/32'], ['0012'], ['=x']])]);
    await workbook.apply('over', [write('Parts', 1, 0, [[1], [2], [3]])]);
    await workbook.undo();
    expect((await workbook.read(at('Parts', 1, 0, 3, 1))).flat()).toEqual(['3/32', '0012', '=x']);
    await workbook.apply('rows', [{ kind: 'removeTableRows', table: 'Parts', at: 0, count: 2 }]);
    await workbook.undo();
    expect((await workbook.read(at('Parts', 1, 0, 3, 1))).flat()).toEqual(['3/32', '0012', '=x']);
  });

  it('formulas come back as formulas', async () => {
    const { workbook } = await open();
    await workbook.apply('over', [write('Parts', 5, 1, [[1, 2, null]])]);
    expect(await workbook.readFormulas(at('Parts', 5, 1, 1, 3))).toEqual([[null, null, null]]);
    await workbook.undo();
    expect(await workbook.readFormulas(at('Parts', 5, 1, 1, 3))).toEqual([['=SUM(Widths)', '=1/0', null]]);
    expect((await workbook.read(at('Parts', 5, 3)))[0]).toEqual([true]);
  });
});

describe('tables', () => {
  it('keep one empty row when all are removed, and get all back', async () => {
    const { workbook } = await open();
    const before = await workbook.read(at('Parts', 0, 0, 6, 3));
    await workbook.apply('all', [{ kind: 'removeTableRows', table: 'Parts', at: 0, count: 3 }]);
    expect((await workbook.tables())[0]!.range.rows).toBe(2);
    expect(await workbook.read(at('Parts', 0, 0, 2, 3))).toEqual([
      ['part', 'width', 'count'],
      [null, null, null],
    ]);
    await workbook.undo();
    expect(await workbook.read(at('Parts', 0, 0, 6, 3))).toEqual(before);
  });

  it('that Excel cannot make leave a plain reason', async () => {
    const { workbook, book } = await open();
    const excelRefuses = vi.spyOn(book, 'insertRows').mockImplementation(() => {
      throw Object.assign(new Error('conflict'), { code: 'InsertDeleteConflict' });
    });
    await expect(
      workbook.apply('rows', [{ kind: 'insertTableRows', table: 'Parts', at: 0, cells: [['x', 1, 1]] }]),
    ).rejects.toMatchObject({
      name: 'WorkbookError',
      code: 'host',
      message: expect.stringContaining('a filter, a merged cell or another table is in the way') as string,
    });
    excelRefuses.mockRestore();
  });
});

describe('looks and choices', () => {
  it('are made and taken back', async () => {
    const { workbook, book } = await open();
    const cell = (): Record<string, unknown> => book.sheet('Parts').looks.get('1,1') ?? {};
    await workbook.apply('look', [
      { kind: 'format', range: at('Parts', 1, 1), numberFormat: '0.000', bold: true, fill: '#ffeeaa', columnWidth: 14 },
      { kind: 'choices', range: at('Parts', 1, 1), choices: ['AD4', 'AD5'] },
    ]);
    expect(cell()).toMatchObject({
      numberFormat: '0.000',
      bold: true,
      color: '#ffeeaa',
      columnWidth: (14 * 7 + 5) * 0.75,
      rule: { list: { inCellDropDown: true, source: 'AD4,AD5' } },
    });
    await workbook.undo();
    expect(cell()).toMatchObject({ numberFormat: 'General', bold: false, columnWidth: 48 });
    expect([cell().color, cell().rule]).toEqual([undefined, undefined]);
  });

  it('offer what stands in cells, and let other texts be typed', async () => {
    const { workbook, book } = await open();
    const cell = (): Record<string, unknown> => book.sheet('Parts').looks.get('1,1') ?? {};
    const range = at('Parts', 1, 1);
    await workbook.apply('open', [
      { kind: 'choices', range, choices: ['AD4'], from: at('Parts', 5, 0, 400), open: true },
    ]);
    expect(cell()).toMatchObject({
      rule: { list: { inCellDropDown: true, source: '=Parts!$A$6:$A$405' } },
      alert: { showAlert: false },
    });
    await workbook.apply('strict', [{ kind: 'choices', range, choices: ['AD4', 'AD5'] }]);
    expect(cell()).toMatchObject({ alert: { showAlert: true } });
    await workbook.undo();
    expect(cell()).toMatchObject({ alert: { showAlert: false } });
    await workbook.undo();
    expect([cell().rule, cell().alert]).toEqual([undefined, undefined]);
  });

  it('rows and columns are kept in view, and let go again', async () => {
    const { workbook, book } = await open();
    const frozen = () => book.sheet('Parts').frozen;
    await workbook.apply('header', [{ kind: 'freeze', sheet: 'Parts', rows: 1, columns: 0 }]);
    await workbook.apply('both', [{ kind: 'freeze', sheet: 'Parts', rows: 2, columns: 1 }]);
    expect(frozen()).toEqual({ rows: 2, columns: 1 });
    await workbook.undo();
    expect(frozen()).toEqual({ rows: 1, columns: 0 });
    await workbook.undo();
    expect(frozen()).toEqual({ rows: 0, columns: 0 });
    await expect(
      workbook.apply('locked', [{ kind: 'freeze', sheet: 'Locked', rows: 1, columns: 0 }]),
    ).rejects.toMatchObject({ code: 'protected' });
  });

  it('a list longer than Excel holds is left out', async () => {
    const { workbook, book } = await open();
    await workbook.apply('choices', [
      { kind: 'choices', range: at('Parts', 1, 0), choices: Array.from({ length: 60 }, (_none, i) => `choice ${i}`) },
    ]);
    expect(book.sheet('Parts').looks.get('1,0')?.rule).toBeUndefined();
  });
});

describe('events', () => {
  const told = ownClock();
  const listened = (workbook: ExcelWorkbook): WorkbookChange[] => {
    const changes: WorkbookChange[] = [];
    workbook.onChange((change) => changes.push(change));
    return changes;
  };

  it('an edit and what it recalculated are one change', async () => {
    const { excel, workbook } = await open();
    const changes = listened(workbook);
    excel.type('Parts', 1, 1, 3);
    excel.recalculated('Parts');
    excel.recalculated('Blank');
    await told();
    expect(changes).toEqual([{ by: 'user', sheets: ['Parts', 'Blank'] }]);
  });

  it('results alone are a recalculation', async () => {
    const { excel, workbook } = await open();
    const changes = listened(workbook);
    excel.recalculated('Blank');
    await told();
    expect(changes).toEqual([{ by: 'recalculation', sheets: ['Blank'] }]);
  });

  it('an edit of our own is told once, as the pane’s; its undo too', async () => {
    const { workbook } = await open();
    const changes = listened(workbook);
    await workbook.apply('write', [write('Parts', 1, 1, [[3]])]);
    await workbook.undo();
    await told();
    expect(changes).toEqual([
      { by: 'pane', sheets: ['Parts'] },
      { by: 'pane', sheets: ['Parts'] },
    ]);
  });

  it('an older Excel that does not say who edited gives no false edit of a person', async () => {
    const { workbook } = await open({ version: '1.12' });
    const changes = listened(workbook);
    await workbook.apply('write', [write('Parts', 1, 1, [[3]])]);
    await expect.poll(() => changes.map(({ by }) => by)).toEqual(['pane', 'recalculation']);
    // Nothing comes after them.
    await told();
    expect(changes).toHaveLength(2);
  });

  it('an Excel without these events works without them', async () => {
    const { excel, workbook } = await open({ version: '1.7' });
    const changes = listened(workbook);
    excel.type('Parts', 1, 1, 3);
    await workbook.apply('write', [write('Parts', 1, 1, [[4]])]);
    await told();
    expect(changes).toEqual([{ by: 'pane', sheets: ['Parts'] }]);
  });

  it('a row that a person inserts makes old places wrong: there is nothing to undo after it', async () => {
    const { excel, workbook } = await open();
    await workbook.apply('write', [write('Parts', 1, 1, [[3]])]);
    excel.insertRow('Parts', 0);
    await told();
    expect(await workbook.undo()).toBe(false);
  });

  it('a selected chart is no range', async () => {
    const { excel, workbook } = await open();
    excel.selectChart();
    expect(await workbook.selection()).toBeUndefined();
  });

  it('nobody is asked and nothing kept after dispose', async () => {
    const { excel, workbook } = await open();
    expect(excel.handlers).toBe(3);
    await workbook.dispose();
    expect(excel.handlers).toBe(0);
  });
});
