import { describe, expect, it } from 'vitest';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import { CellError, type WorkbookModel } from '../../../src/sheet';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../../src/xlsx';
import { Package } from '../../../src/xlsx/package';
import { workbookOf } from '../../xlsx/parts';

const parts: WorkbookModel = {
  styles: [
    {
      numberFormat: '0.000',
      bold: true,
      italic: true,
      size: 14,
      color: '#112233',
      fill: '#ddeeff',
      align: 'center',
      wrap: true,
      borderBottom: true,
    },
    { fill: '#ffffcc' },
  ],
  names: [
    { name: 'Lengths', refersTo: 'Parts!$A$2:$A$4' },
    { name: 'Local', refersTo: 'Parts!$A$2', scope: 'Parts' },
  ],
  sheets: [
    {
      name: 'Parts',
      cells: [
        [{ value: 'length', style: 0 }, { value: 'area' }],
        [
          { value: 3 },
          { value: 6, formula: 'TARE.AREA.RECT(Lengths,2)', spill: { rows: 3, columns: 1 }, style: 1 },
          { value: true },
        ],
        [{ value: -1 }, { value: new CellError('#VALUE!'), spilled: true }, { value: 0.1 + 0.2 }],
        [{ value: 5 }, { value: 10, spilled: true }],
        [undefined, undefined, undefined, { value: null, style: 1 }],
      ],
      columnWidths: [12.7109375, undefined, 30],
      frozen: { rows: 1, columns: 0 },
      merges: [{ sheet: 'Parts', row: 6, column: 0, rows: 1, columns: 2 }],
      tables: [
        { name: 'Lengthy', range: { sheet: 'Parts', row: 0, column: 0, rows: 4, columns: 1 }, columns: ['length'] },
      ],
      validations: [{ range: { sheet: 'Parts', row: 1, column: 3, rows: 3, columns: 1 }, choices: ['one', 'two'] }],
    },
    { name: 'Hidden one', hidden: true, protected: true, cells: [[{ value: 'kept' }]], tables: [] },
  ],
};

let opened = 0;

const open = async (model: WorkbookModel) => {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `model ${(opened += 1)}`;
  loadWorkbook(engine, model, id, 'Book');
  await calculate(engine);
  return { engine, workbook: new UniverWorkbook(engine, id, 'headless', 'Book') };
};

/** Without the parts that have no meaning: holes, and the message of an error. */
const plain = (model: WorkbookModel): unknown =>
  JSON.parse(
    JSON.stringify({ ...model, loadedAs: undefined }, (key, value: unknown) =>
      value instanceof CellError
        ? value.code
        : key === 'columnWidths' && Array.isArray(value) && value.every((one) => one === null || one === undefined)
          ? undefined
          : value,
    ),
  );

describe('the workbook as plain data', () => {
  it('is what was loaded', async () => {
    const { workbook } = await open(parts);
    const model = workbook.toModel(parts);
    expect(plain(model)).toEqual(plain(parts));
    expect(model.loadedAs).toEqual([0, 1]);
    expect((model.sheets[0]!.cells[2]![1]!.value as CellError).message).toContain('length: got -1');
  });

  it('follows edits, new sheets and tables that grew', async () => {
    const { workbook } = await open(parts);
    await workbook.apply('edit', [
      { kind: 'insertTableRows', table: 'Lengthy', at: 3, cells: [[7]] },
      { kind: 'addSheet', name: 'Prices' },
      { kind: 'write', range: { sheet: 'Prices', row: 0, column: 0, rows: 1, columns: 1 }, cells: [['item']] },
      {
        kind: 'format',
        range: { sheet: 'Prices', row: 0, column: 0, rows: 1, columns: 1 },
        bold: true,
        numberFormat: '0.00',
        columnWidth: 20,
      },
      { kind: 'choices', range: { sheet: 'Prices', row: 1, column: 0, rows: 4, columns: 1 }, choices: ['sheet'] },
    ]);
    const model = workbook.toModel(parts);
    expect(model.loadedAs).toEqual([0, 1, undefined]);
    expect(model.sheets[0]!.tables[0]!.range.rows).toBe(5);
    expect(model.sheets[0]!.cells[4]![0]!.value).toBe(7);
    const prices = model.sheets[2]!;
    expect(prices.cells[0]![0]!.value).toBe('item');
    expect(model.styles[prices.cells[0]![0]!.style!]).toEqual({ numberFormat: '0.00', bold: true });
    expect(prices.columnWidths?.[0]).toBe(20);
    expect(prices.validations).toEqual([
      { range: { sheet: 'Prices', row: 1, column: 0, rows: 4, columns: 1 }, choices: ['sheet'] },
    ]);
    await workbook.undo();
    expect(plain({ ...workbook.toModel(parts), sheets: workbook.toModel(parts).sheets.slice(1) })).toEqual(
      plain({ ...parts, sheets: parts.sheets.slice(1) }),
    );
  });
});

describe('rows and columns that stay in view', () => {
  it('are set, saved and taken back', async () => {
    const { workbook } = await open(parts);
    const frozen = () => workbook.toModel(parts).sheets[0]!.frozen;
    expect(frozen()).toEqual({ rows: 1, columns: 0 });
    await workbook.apply('keep the header', [{ kind: 'freeze', sheet: 'Parts', rows: 2, columns: 1 }]);
    expect(frozen()).toEqual({ rows: 2, columns: 1 });
    await workbook.apply('let go', [{ kind: 'freeze', sheet: 'Parts', rows: 0, columns: 0 }]);
    expect(frozen()).toBeUndefined();
    await workbook.undo();
    await workbook.undo();
    expect(frozen()).toEqual({ rows: 1, columns: 0 });
  });
});

describe('drop-down lists', () => {
  const list = (sheet: string, row: number, rows: number, choices: string[]) => ({
    range: { sheet, row, column: 3, rows, columns: 1 },
    choices,
  });

  it('move with their cells and their sheet, and come back with undo', async () => {
    const { workbook, engine } = await open(parts);
    const lists = () => workbook.toModel(parts).sheets[0]!.validations;
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    sheet.insertRowsBefore(0, 2);
    expect(lists()).toEqual([list('Parts', 3, 3, ['one', 'two'])]);
    sheet.setName('Pieces');
    expect(lists()).toEqual([list('Pieces', 3, 3, ['one', 'two'])]);
    await workbook.apply('other choices', [{ kind: 'choices', ...list('Pieces', 3, 3, ['three']) }]);
    expect(lists()).toEqual([list('Pieces', 3, 3, ['three'])]);
    await workbook.undo();
    expect(lists()).toEqual([list('Pieces', 3, 3, ['one', 'two'])]);
  });

  it('that moved are saved in their new place', async () => {
    const file = await writeWorkbook(parts);
    const loaded = readWorkbook(file);
    const { workbook, engine } = await open(loaded);
    engine.api.getActiveWorkbook()!.getSheetByName('Parts')!.insertRowsBefore(0, 1);
    const saved = patchWorkbook(file, difference(loaded, workbook.toModel(loaded)));
    expect(readWorkbook(saved).sheets[0]!.validations).toEqual([list('Parts', 2, 3, ['one', 'two'])]);
  });

  it('that take other texts, or have their choices in cells, are saved so and stay so', async () => {
    const file = await writeWorkbook(parts);
    const { workbook } = await open(readWorkbook(file));
    const from = { sheet: 'Parts', row: 0, column: 0, rows: 400, columns: 1 };
    const made = { ...list('Parts', 1, 3, ['one', 'two']), open: true as const };
    await workbook.apply('open', [
      { kind: 'choices', ...made },
      { kind: 'choices', ...made, range: { ...made.range, column: 4 }, from },
    ]);
    const saved = patchWorkbook(file, difference(readWorkbook(file), workbook.toModel(readWorkbook(file))));
    const xml = new Package(saved).text('xl/worksheets/sheet1.xml');
    expect(xml).toContain('sqref="E2:E4"><formula1>Parts!$A$1:$A$400</formula1>');
    expect(xml).not.toContain('showErrorMessage');
    const again = await open(readWorkbook(saved));
    expect(again.workbook.toModel(readWorkbook(saved)).sheets[0]!.validations).toMatchObject([
      { ...made },
      { range: { column: 4 }, open: true, from },
    ]);
  });
});

describe('explaining an error', () => {
  const at = (row: number, column: number, rows = 1) => ({ sheet: 'Parts', row, column, rows, columns: 1 });

  it('names the cell from which the error comes', async () => {
    const { workbook, engine } = await open(parts);
    await workbook.apply('dependents', [
      { kind: 'addSheet', name: 'Sums' },
      {
        kind: 'write',
        range: { sheet: 'Sums', row: 0, column: 0, rows: 3, columns: 1 },
        cells: [[{ formula: '=SUM(Parts!B2:B4)' }], [{ formula: '=A1*2' }], [{ formula: '=1/0' }]],
      },
    ]);
    await calculate(engine);
    expect(await workbook.explain('Sums', 0, 0)).toMatch(/^Parts!B3: length: got -1/);
    expect(await workbook.explain('Sums', 1, 0)).toMatch(/^Parts!B3: length: got -1/);
    expect(await workbook.explain('Sums', 2, 0)).toBeUndefined();
  });

  it('still holds after rows have moved', async () => {
    const { workbook, engine } = await open(parts);
    await workbook.apply('insert', [
      { kind: 'write', range: at(10, 0), cells: [[{ formula: '=TARE.AREA.RECT(-5,1)' }]] },
    ]);
    await calculate(engine);
    engine.api.getWorkbook(workbook.id)!.getSheetByName('Parts')!.insertRowsBefore(10, 1);
    await expect.poll(() => workbook.explain('Parts', 11, 0)).toContain('length: got -5');
    expect(await workbook.explain('Parts', 10, 0)).toBeUndefined();
    expect(await workbook.explain('Parts', 2, 1)).toContain('length: got -1');
  });
});

describe('functions of a file that are not known here', () => {
  const model: WorkbookModel = {
    styles: [],
    names: [],
    sheets: [
      {
        name: 'Parts',
        tables: [],
        cells: [
          [
            { value: 3, formula: 'LOFT.GIRTH(1)+SUM(1,2)' },
            { value: 6, formula: 'A1*2' },
            { value: 2, formula: 'TARE.AREA.RECT(1,2)' },
          ],
        ],
      },
    ],
  };

  it('are named, and their cells keep value and formula, for those that depend on them too', async () => {
    const { workbook } = await open(model);
    expect(workbook.uncalculated()[0]).toMatchObject({
      sheet: 'Parts',
      row: 0,
      column: 0,
      reason: 'LOFT.GIRTH is not known here',
    });
    expect(await workbook.explain('Parts', 0, 0)).toBe(
      'Not recalculated. LOFT.GIRTH is not known here: A1 keeps the file’s value.',
    );
    const row = { sheet: 'Parts', row: 0, column: 0, rows: 1, columns: 3 };
    expect(await workbook.read(row)).toEqual([[3, 6, 2]]);
    expect(await workbook.readFormulas(row)).toEqual([['=LOFT.GIRTH(1)+SUM(1,2)', '=A1*2', '=TARE.AREA.RECT(1,2)']]);
    expect(plain(workbook.toModel(model))).toEqual(plain(model));
  });

  it('go when something else is put there', async () => {
    const { workbook } = await open(model);
    await workbook.apply('write', [
      { kind: 'write', range: { sheet: 'Parts', row: 0, column: 0, rows: 1, columns: 1 }, cells: [[3]] },
    ]);
    expect(workbook.toModel(model).sheets[0]!.cells[0]![0]).toEqual({ value: 3 });
    await workbook.undo();
    expect(workbook.toModel(model).sheets[0]!.cells[0]![0]).toEqual({ value: 3, formula: 'LOFT.GIRTH(1)+SUM(1,2)' });
  });
});

describe('a table in the grid', () => {
  it('takes in a row that is typed under it, and gives it back on undo', async () => {
    const { workbook, engine } = await open(parts);
    const rows = async (): Promise<number> => (await workbook.tables())[0]!.range.rows;
    const sheet = engine.api.getWorkbook(workbook.id)!.getSheetByName('Parts')!;
    sheet.getRange(4, 0).setValue(9);
    expect(await rows()).toBe(5);
    sheet.getRange(4, 0).setValue(8);
    sheet.getRange(6, 2).setValue('elsewhere');
    expect(await rows()).toBe(5);
    for (let step = 0; step < 3; step++) await workbook.undo();
    expect(await rows()).toBe(4);
    await workbook.redo();
    expect(await rows()).toBe(5);
  });

  it('follows rows that are inserted and removed in the sheet', async () => {
    const { workbook, engine } = await open(parts);
    const sheet = engine.api.getWorkbook(workbook.id)!.getSheetByName('Parts')!;
    const range = async () => (await workbook.tables())[0]!.range;
    sheet.insertRowsBefore(2, 2);
    await expect.poll(() => range()).toMatchObject({ row: 0, rows: 6 });
    sheet.insertRowsBefore(0, 1);
    await expect.poll(() => range()).toMatchObject({ row: 1, rows: 6 });
    sheet.deleteRows(2, 3);
    await expect.poll(() => range()).toMatchObject({ row: 1, rows: 3 });
    await workbook.undo();
    expect(await range()).toMatchObject({ row: 1, rows: 6 });
  });
});

describe('an empty sheet that is to make room', () => {
  it('stays where its file has a picture or a chart on it', async () => {
    const drawing = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/drawing" Target="../drawings/drawing1.xml"/></Relationships>`;
    for (const [parts, sheets] of [
      [{ 'xl/worksheets/_rels/sheet1.xml.rels': drawing }, ['Parts', 'Prices']],
      [{}, ['Prices']],
    ] as const) {
      const engine = startEngine({ calculator: calculatorHere });
      const id = `room ${sheets.length}`;
      loadWorkbook(engine, readWorkbook(workbookOf('', parts)), id, id);
      const workbook = new UniverWorkbook(engine, id, 'headless', id);
      await workbook.apply('room', [
        { kind: 'addSheet', name: 'Prices' },
        { kind: 'removeSheet', name: 'Parts' },
      ]);
      expect((await workbook.sheets()).map(({ name }) => name)).toEqual(sheets);
    }
  });
});
