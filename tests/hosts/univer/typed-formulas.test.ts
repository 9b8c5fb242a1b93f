/** Formulas that are typed, filled, copied and moved by rows in the engine: their text stays, but for references. */
import { ICommandService } from '@univerjs/core';
import { SetRangeValuesCommand, SheetInterceptorService } from '@univerjs/sheets';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  calculate,
  loadWorkbook,
  calculatorHere,
  startEngine,
  UniverWorkbook,
  type Engine,
} from '../../../src/hosts/univer';
import type { Cell, CellModel, WorkbookModel } from '../../../src/sheet';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../../src/xlsx';

const value = (cell: Cell): CellModel => ({ value: cell });
const formula = (text: string, cell: Cell = null): CellModel => ({ value: cell, formula: text });

const MODEL: WorkbookModel = {
  styles: [{ numberFormat: 'yyyy-mm-dd' }],
  names: [],
  sheets: [
    {
      name: 'Parts',
      tables: [],
      cells: [
        [value('Diameter (in)'), value('Flat area (in²)')],
        [value(1), value(2)],
        [value(3), value(4)],
        [value(5), value(6)],
      ],
    },
    { name: 'Left wing', tables: [], cells: [[value(7)]] },
  ],
};

let opened = 0;
async function open(model = MODEL): Promise<{ engine: Engine; workbook: UniverWorkbook }> {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `typed ${(opened += 1)}`;
  loadWorkbook(engine, model, id, 'Book');
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  await calculate(engine);
  return { engine, workbook };
}

/** The command that the editor of cells sends, with what the interceptors of typed cells make of the text. */
async function type(
  { engine, workbook }: { engine: Engine; workbook: UniverWorkbook },
  row: number,
  column: number,
  text: string,
): Promise<void> {
  const book = engine.api.getWorkbook(workbook.id)!.getWorkbook();
  const sheet = book.getSheets()[0]!;
  const raw = sheet.getCellRaw(row, column) ?? {};
  const data = text.startsWith('=')
    ? { ...raw, f: text, si: null, v: null, p: null, t: undefined }
    : { ...raw, v: text, f: null, si: null, p: null, t: undefined };
  const typed = engine.injector.get(SheetInterceptorService).onWriteCell(book, sheet, row, column, data);
  const range = { startRow: row, endRow: row, startColumn: column, endColumn: column };
  engine.injector.get(ICommandService).syncExecuteCommand(SetRangeValuesCommand.id, {
    unitId: workbook.id,
    subUnitId: sheet.getSheetId(),
    range,
    value: typed,
  });
  await workbook.settled();
}

const number = fc.constantFrom('.02', '5.0', '0.020', '1', '12.50', '1E3', '1.0e-2', '007', '.5%', '100.');
const text = fc.constantFrom('"6061-T6"', '"thick"', '"5.0 in"', '""', '"a ""b"" .5"', '"A1"', '"it\'s"');
const reference = fc.constantFrom(
  'A2',
  '$B$3',
  'a4',
  'A$2:$B3',
  'B2:B4',
  "'Left wing'!A1",
  'Parts!A2',
  'A:A',
  '2:3',
  'A2#',
);
const name = fc.constantFrom('SUM', 'sum', 'If', 'COUNTIF', 'TARE.WEIGHT.SHEET', 'tare.area.rect', 'NOSUCH', 'MAX');
const space = fc.constantFrom('', '', '', ' ');
const operator = fc.constantFrom('+', '-', '*', '/', '^', '&', '>=', '<>', '=');

const { expression } = fc.letrec<{ expression: string }>((tie) => ({
  expression: fc.oneof(
    { maxDepth: 3, depthSize: 'small' },
    number,
    text,
    reference,
    fc.tuple(tie('expression'), space, operator, space, tie('expression')).map((parts) => parts.join('')),
    fc
      .tuple(name, space, fc.array(tie('expression'), { maxLength: 4 }), fc.constantFrom(',', ' , ', ', '))
      .map(([called, gap, args, comma]) => `${called}(${gap}${args.join(comma)})`),
    tie('expression').map((inner) => `(${inner})`),
    fc.constantFrom('{1.0,2.50;3,"x"}', 'TRUE', 'false', '#N/A', '-.5', 'Sizes[length]', '[@width]'),
  ),
}));

const asRead = (formulas: readonly (readonly (string | null)[])[]): (string | null)[] => formulas.flat();

describe('formulas as typed', () => {
  it('1,000 invented ones are read back as they were typed, saved, opened, taken back and made again', async () => {
    const seed = Number(process.env['TAREBOOK_SEED'] ?? 20);
    const typed = fc.sample(expression, { numRuns: 1000, seed }).map((one) => `=${one}`);
    const file = await writeWorkbook(MODEL);
    const loaded = readWorkbook(file);
    const book = await open(loaded);
    const { engine, workbook } = book;
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    const at = { sheet: 'Parts', row: 10, column: 4, rows: typed.length, columns: 1 };
    sheet.setRowCount(1100);
    // All in one command: each alone is the same, and takes a thousand calculations.
    engine.injector.get(ICommandService).syncExecuteCommand(SetRangeValuesCommand.id, {
      unitId: workbook.id,
      subUnitId: sheet.getSheetId(),
      range: { startRow: 10, endRow: 10 + typed.length - 1, startColumn: 4, endColumn: 4 },
      value: typed.map((f) => [{ f, v: null }]),
    });
    await workbook.settled();
    expect(asRead(await workbook.readFormulas(at))).toEqual(typed);
    const saved = patchWorkbook(file, difference(loaded, workbook.toModel(loaded)));
    const again = readWorkbook(saved).sheets[0]!.cells;
    expect(typed.map((_one, index) => again[10 + index]?.[4]?.formula?.toLowerCase())).toEqual(
      typed.map((one) => one.slice(1).toLowerCase()),
    );
    await workbook.undo();
    expect(asRead(await workbook.readFormulas(at)).every((one) => one === null)).toBe(true);
    await workbook.redo();
    await workbook.settled();
    expect(asRead(await workbook.readFormulas(at))).toEqual(typed);
    engine.univer.dispose();
  }, 300_000);

  it.each([
    ['=TARE.WEIGHT.SHEET(100*A4,.02,"6061-T6")', '=TARE.WEIGHT.SHEET(100*A5,.02,"6061-T6")'],
    ['=IF(A4>=5.0,"thick","A4")', '=IF(A5>=5.0,"thick","A4")'],
    ['=COUNTIF(A2:A9,5.0)&"x"', '=COUNTIF(A2:A10,5.0)&"x"'],
    ['=nosuch( a4 , .50 )', '=nosuch( A5 , .50 )'],
    ["='Left wing'!A4&.5&A$4", "='Left wing'!A4&.5&A$5"],
    ['=SUM(A4]&"A4"', '=SUM(A5]&"A4"'],
  ])('%s becomes %s when a row is put in above, and comes back when it is taken out', async (typed, moved) => {
    const book = await open();
    const { engine, workbook } = book;
    await type(book, 0, 5, typed);
    const formulaAt = async (row: number) =>
      (await workbook.readFormulas({ sheet: 'Parts', row, column: 5, rows: 1, columns: 1 }))[0]![0];
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    sheet.insertRowsBefore(3, 1);
    await workbook.settled();
    expect(await formulaAt(0)).toBe(moved);
    await workbook.undo();
    expect(await formulaAt(0)).toBe(typed);
    sheet.insertRowsBefore(3, 1);
    sheet.deleteRows(3, 1);
    expect((await formulaAt(0))?.toLowerCase()).toBe(typed.toLowerCase());
    engine.univer.dispose();
  });

  it('filled down and copied they change their references alone', async () => {
    const book = await open();
    const { engine, workbook } = book;
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    sheet.getRange(1, 6, 1, 1).setValue({ f: '=IF(A2>=5.0,"A2",$B$2*.50)', si: 'filled' });
    sheet.getRange(2, 6, 2, 1).setValues([[{ si: 'filled' }], [{ si: 'filled' }]]);
    await workbook.settled();
    expect(asRead(await workbook.readFormulas({ sheet: 'Parts', row: 1, column: 6, rows: 3, columns: 1 }))).toEqual([
      '=IF(A2>=5.0,"A2",$B$2*.50)',
      '=IF(A3>=5.0,"A2",$B$2*.50)',
      '=IF(A4>=5.0,"A2",$B$2*.50)',
    ]);
    engine.univer.dispose();
  });
});

describe('a formula that nobody can read', () => {
  const whole = { sheet: 'Parts', row: 0, column: 0, rows: 6, columns: 4 };

  it.each(['=SUM(M6]', '=#this row],a]*2', '=SUM(A2:A3', '=1+', '="open', '=NOSUCH(1)'])(
    '%s is an error in its cell alone, and gone after an undo',
    async (typo) => {
      const book = await open({
        ...MODEL,
        sheets: [
          { ...MODEL.sheets[0]!, cells: [...MODEL.sheets[0]!.cells, [formula('SUM(A2:A4)'), formula('A5*2')]] },
          MODEL.sheets[1]!,
        ],
      });
      const { engine, workbook } = book;
      const before = await workbook.read(whole);
      expect(before[4]).toEqual([9, 18, null, null]);
      await type(book, 5, 3, typo);
      const after = await workbook.read(whole);
      expect(after[5]![3]).toMatchObject({ code: expect.stringMatching(/^#(VALUE!|NAME\?)$/) });
      expect(after.slice(0, 5)).toEqual(before.slice(0, 5));
      expect(await workbook.explain('Parts', 5, 3)).toMatch(/\w/);
      await workbook.undo();
      await workbook.settled();
      expect(await workbook.read(whole)).toEqual(before);
      engine.univer.dispose();
    },
  );

  it('from a file keeps text and value, moves with its rows, and leaves workbooks opened later as they are', async () => {
    const rows = [
      [
        formula('#this row],a]*2', 12),
        formula('A5*2', 24),
        formula('NOSUCH.THING(A2,.50)', 7),
        formula('SUM(A2:A4)', 9),
      ],
    ];
    const model: WorkbookModel = {
      ...MODEL,
      sheets: [{ ...MODEL.sheets[0]!, cells: [...MODEL.sheets[0]!.cells, ...rows] }, MODEL.sheets[1]!],
    };
    const { engine, workbook } = await open(model);
    expect((await workbook.read(whole))[4]).toEqual([12, 24, 7, 9]);
    const uncalculated = workbook.uncalculated();
    expect(uncalculated).toContainEqual(
      expect.objectContaining({ row: 4, column: 2, reason: 'NOSUCH.THING is not known here' }),
    );
    expect(uncalculated).toContainEqual(expect.objectContaining({ row: 4, column: 0 }));
    expect(workbook.toModel(model).sheets[0]!.cells[4]).toEqual(rows[0]);
    engine.api.getActiveWorkbook()!.getSheetByName('Parts')!.insertRowsBefore(1, 1);
    await workbook.settled();
    expect(await workbook.read({ ...whole, row: 1 })).toMatchObject({ 4: [12, 24, 7, 9] });
    expect(await workbook.readFormulas({ ...whole, row: 5, rows: 1 })).toEqual([
      ['=#this row],a]*2', '=A6*2', '=NOSUCH.THING(A3,.50)', '=SUM(A3:A5)'],
    ]);
    // Typed over, it is like any other typed one; taken back, it keeps the file's value again.
    await workbook.apply('type', [
      {
        kind: 'write',
        range: { ...whole, row: 5, column: 2, rows: 1, columns: 1 },
        cells: [[{ formula: '=NOSUCH.THING(A3,.50)' }]],
      },
    ]);
    await workbook.settled();
    expect((await workbook.read({ ...whole, row: 5 }))[0]![2]).toMatchObject({ code: '#NAME?' });
    await workbook.undo();
    await workbook.settled();
    expect((await workbook.read({ ...whole, row: 5 }))[0]![2]).toBe(7);
    loadWorkbook(engine, MODEL, 'later', 'Later');
    const later = new UniverWorkbook(engine, 'later', 'headless', 'Later');
    await later.apply('sum', [
      { kind: 'write', range: { ...whole, row: 5, rows: 1, columns: 1 }, cells: [[{ formula: '=SUM(A2:B4)' }]] },
    ]);
    await later.settled();
    expect((await later.read({ ...whole, row: 5, rows: 1, columns: 1 }))[0]![0]).toBe(21);
    engine.univer.dispose();
  });
});

describe('a length that is typed as a fraction', () => {
  it.each([
    ['1/8', 0.125],
    ['3/32"', 0.09375],
    ['1 1/4', 1.25],
    ['1-1/4 in', 1.25],
    ['.125', 0.125],
  ])('%s is %d in a cell that takes a length', async (text, expected) => {
    const book = await open();
    await type(book, 5, 0, text);
    expect((await book.workbook.read({ sheet: 'Parts', row: 5, column: 0, rows: 1, columns: 1 }))[0]![0]).toBe(
      expected,
    );
    book.engine.univer.dispose();
  });

  it('is one where the unit stands in the cell behind it', async () => {
    const named = { ...MODEL.sheets[0]!, cells: [[value('Web gauge'), undefined, value('in')]] };
    const book = await open({ ...MODEL, sheets: [named, MODEL.sheets[1]!] });
    await type(book, 0, 1, '1/4');
    expect((await book.workbook.read({ sheet: 'Parts', row: 0, column: 1, rows: 1, columns: 1 }))[0]![0]).toBe(0.25);
    book.engine.univer.dispose();
  });

  it('takes a date’s format from its cell, and no other', async () => {
    const dated = { ...MODEL.sheets[0]!, cells: [...MODEL.sheets[0]!.cells, [{ value: 46030, style: 0 }]] };
    const book = await open({ ...MODEL, sheets: [dated, MODEL.sheets[1]!] });
    await type(book, 4, 0, '.125');
    const saved = book.workbook.toModel();
    const cell = saved.sheets[0]!.cells[4]![0]!;
    expect(cell.value).toBe(0.125);
    expect(saved.styles[cell.style ?? -1]?.numberFormat ?? 'General').toBe('General');
    book.engine.univer.dispose();
  });

  it('is left alone under an area, a note, or no label', async () => {
    const book = await open();
    await type(book, 5, 1, '1/8');
    await type(book, 5, 8, '1/8');
    const cells = (await book.workbook.read({ sheet: 'Parts', row: 5, column: 0, rows: 1, columns: 9 }))[0]!;
    expect([cells[1], cells[8]]).toEqual(['1/8', '1/8']);
    book.engine.univer.dispose();
  });
});

describe('a TARE formula over an ordinary one of a file', () => {
  it('is saved with its dynamic-array mark', async () => {
    const { unzipSync } = await import('fflate');
    const plain = await writeWorkbook({
      ...MODEL,
      sheets: [{ ...MODEL.sheets[0]!, cells: [...MODEL.sheets[0]!.cells, [{ ...formula('A2*B2', 2), plain: true }]] }],
    });
    const loaded = readWorkbook(plain);
    expect(loaded.sheets[0]!.cells[4]![0]).toMatchObject({ plain: true });
    const book = await open(loaded);
    await type(book, 4, 0, '=TARE.AREA.RECT(A2,B2)');
    const saved = patchWorkbook(plain, difference(loaded, book.workbook.toModel(loaded)));
    const xml = new TextDecoder().decode(unzipSync(saved)['xl/worksheets/sheet1.xml']);
    expect(xml).toMatch(/<c r="A5"[^>]* cm="1"[^>]*><f t="array" ref="A5">/);
    book.engine.univer.dispose();
  });
});
