import { describe, expect, it } from 'vitest';
import { findDefinition } from '../../../../src/functions';
import { recalculateCopy } from '../../../../src/calculation/recalculate-copy';
import { InsertStore } from '../../../../src/pane/views/formula/insert-store';
import { heldWords } from '../../../../src/pane/views/formula/formula-words';
import { parseRange, type Cell, type WorkbookModel } from '../../../../src/sheet';
import { FIRST, partsBook, ROWS } from './model';
import { openPane, started } from '../../open-pane';

async function open(name: string, model: WorkbookModel = partsBook()) {
  const {
    workbook,
    settings,
    pane,
    type: typed,
  } = await openPane(model, { loadRecalculate: () => Promise.resolve(recalculateCopy) });
  const store = await started(new InsertStore(pane));
  const range = (text: string) => {
    const [sheet, cells] = text.includes('!') ? text.split('!') : ['Parts', text];
    return parseRange(cells!, sheet!)!;
  };
  const select = async (text: string): Promise<void> => {
    await workbook.select(range(text));
    await expect.poll(() => store.state.selection).toEqual(range(text));
    await store.refresh();
  };
  const fill = async (values: Readonly<Record<string, string>>): Promise<void> => {
    for (const [parameter, text] of Object.entries(values)) store.type(parameter, text);
    await store.refresh();
  };
  const formula = (): string => store.state.form!.pieces.map(({ text }) => text).join('');
  const held = (parameter: string): string => heldWords(store.state.form!.fields[parameter]!.held);
  const read = async (text: string): Promise<Cell[][]> => workbook.read(range(text));
  const type = (text: string, value: number | string): void => {
    const { sheet, row, column } = range(text);
    typed(sheet, row, column, value);
  };
  await select('A1');
  store.open(findDefinition(name)!);
  await store.refresh();
  return { store, workbook, settings, select, fill, formula, held, read, type };
}

const CHANNEL = { web: 'B12', leg_a: 'C12', leg_b: 'D12', thickness: 'E12', radius: 'F12' };

describe('what stands in the form', () => {
  it('is read from the cells, and follows them', async () => {
    const { store, fill, held, type } = await open('FLAT.CHANNEL');
    await fill(CHANNEL);
    expect(held('web')).toBe('2.5');
    expect(store.state.form!.outcome).toEqual({ kind: 'value', cell: expect.closeTo(3.827275, 6) });
    type('B12', 3.5);
    await expect.poll(() => held('web')).toBe('3.5');
    expect(store.state.form!.outcome).toEqual({ kind: 'value', cell: expect.closeTo(4.827275, 6) });
  });

  it('says what is missing, before anything is wrong', async () => {
    const { store, fill } = await open('FLAT.CHANNEL');
    await fill({ web: '2.5' });
    expect(store.state.form!.outcome).toEqual({
      kind: 'missing',
      parameters: ['leg_a', 'leg_b', 'thickness', 'radius'],
    });
    expect(store.state.form!.formula).toBeUndefined();
  });

  it('names a wrong unit at its field in the function’s own words, while others are still blank', async () => {
    const { store, fill } = await open('FLAT.CHANNEL');
    await fill({ thickness: '20' });
    expect(store.state.form!.fields.thickness!.wrong).toMatch(
      /^thickness: got 20; takes inches above 0 and up to 1\. 20 looks like thousandths/,
    );
  });

  it('names the field that only the whole call shows to be wrong', async () => {
    const { store, fill } = await open('FLAT.CHANNEL');
    await fill({ web: '0.2', leg_a: '1', leg_b: '1', thickness: '0.025', radius: '0.125' });
    expect(store.state.form!.outcome).toEqual({ kind: 'wrong' });
    expect(store.state.form!.fields.web!.wrong).toMatch(/^web: /);
    expect(store.state.form!.formula).toBeUndefined();
  });

  it('takes ranges, columns of tables, names, other sheets and expressions', async () => {
    const { store, fill, held } = await open('WEIGHT.SHEET');
    await fill({ area: 'B12:B40', thickness: 'skin', material: '6061-T6' });
    expect(held('area')).toBe('29 cells: 2.5 · 2.6 · 2.7 …');
    expect(held('thickness')).toBe('0.025');
    expect(store.state.form!.outcome).toMatchObject({ kind: 'cells', errors: 0 });
    await fill({ area: 'Prices[Price]' });
    expect(held('area')).toBe('2 cells: 30 · 88');
    await fill({ area: 'Prices!E2' });
    expect(held('area')).toBe('30');
    await fill({ area: '=B12*2+SUM(C12:C13)' });
    expect(held('area')).toBe('6.5');
    await fill({ area: 'Nowhere!B5' });
    expect(store.state.form!.fields.area!.wrong).toMatch(/Nowhere/);
    await fill({ area: 'B:B' });
    expect(store.state.form!.fields.area!.wrong).toMatch(/whole column/);
  });

  it('of a column counts the errors and names the first', async () => {
    const { store, fill, type } = await open('FLAT.CHANNEL');
    type('B14', 'wide');
    type('B16', -1);
    const outcome = async (): Promise<unknown> => {
      await fill({ ...CHANNEL, web: 'B12:B40' });
      return store.state.form!.outcome;
    };
    await expect.poll(outcome).toMatchObject({
      kind: 'cells',
      errors: 2,
      firstError: { row: 2, message: expect.stringMatching(/^web: got "wide"/) },
    });
  });

  it('is metric where the workbook’s own sheets are, until the other is chosen', async () => {
    const metric: WorkbookModel = {
      sheets: [
        {
          name: 'Parts',
          cells: [['Part', 'Component', 'Weight (kg)', 'Arm (mm)'].map((value) => ({ value }))],
          tables: [],
        },
      ],
      names: [],
      styles: [],
    };
    const { store, fill, formula } = await open('AREA.RECT', metric);
    await expect.poll(() => store.state.units).toBe('mm-kg');
    store.setUnits('in-lb');
    await fill({ length: '1', width: '2' });
    expect(formula()).toBe('=TARE.AREA.RECT(1,2)');
  });

  it('in metric is read in millimetres and says so in the formula', async () => {
    const { store, settings, fill, formula } = await open('AREA.RECT');
    store.setUnits('mm-kg');
    await fill({ length: '100', width: '2 in' });
    expect(formula()).toBe('=TARE.AREA.RECT(100,50.8,"mm-kg")');
    expect(store.state.form!.outcome).toEqual({ kind: 'value', cell: expect.closeTo(5080, 9) });
    expect(settings.get('insert.units')).toBe('mm-kg');
  });
});

describe('the selection of the sheet', () => {
  it('goes into the current field, and names its sheet when the formula is to stand on another', async () => {
    const { store, select, formula } = await open('PRICE.COST');
    await select('A12');
    store.focus('item');
    await store.useSelection();
    await select('Prices!A1:G3');
    store.focus('prices');
    await store.useSelection();
    expect([store.textOf('item'), store.textOf('prices')]).toEqual(['Parts!A12', '$A$1:$G$3']);
    await select('H12');
    expect([store.textOf('item'), store.textOf('prices')]).toEqual(['A12', 'Prices!$A$1:$G$3']);
    await store.refresh();
    expect(formula()).toBe('=TARE.PRICE.COST(A12,quantity,Prices!$A$1:$G$3)');
  });

  it('is fixed and let go by $', async () => {
    const { store, fill } = await open('AREA.RECT');
    await fill({ length: 'B2' });
    const seen: string[] = [];
    for (let i = 0; i < 4; i++) {
      store.relock('length');
      await store.refresh();
      seen.push(store.textOf('length'));
    }
    expect(seen).toEqual(['$B$2', 'B$2', '$B2', 'B2']);
  });
});

describe('inserting', () => {
  it('fills the column as far as the list goes, in one step that undo takes back', async () => {
    const { store, workbook, select, fill, read } = await open('FLAT.CHANNEL');
    await fill({ ...CHANNEL, thickness: '$B$2' });
    await select(`G${FIRST}`);
    expect(store.state.fill).toMatchObject({ possible: true, listEnd: FIRST + ROWS - 1 });
    store.fillDown(true);
    await store.refresh();
    expect(store.state.target).toMatchObject({
      kind: 'fill',
      filled: 0,
      range: { row: FIRST - 1, rows: ROWS, columns: 1 },
    });
    await store.insert();
    expect(store.state.message).toEqual({
      tone: 'done',
      undoable: true,
      text: expect.stringContaining('Parts!G12:G40'),
    });
    expect(
      (await workbook.readFormulas({ sheet: 'Parts', row: FIRST + ROWS - 2, column: 6, rows: 2, columns: 1 })).flat(),
    ).toEqual(['=TARE.FLAT.CHANNEL(B40,C40,D40,$B$2,F40)', null]);
    await workbook.settled();
    const widths = (await read('G12:G40')).flat() as number[];
    widths.forEach((width, i) => expect(width).toBeCloseTo(3.827275 + 0.1 * i, 6));
    await store.undo();
    expect((await read('G12:G40')).flat().every((cell) => cell === null)).toBe(true);
    expect(store.state.recent.map(({ name }) => name)).toEqual(['FLAT.CHANNEL']);
  });

  it('to the row that was typed', async () => {
    const { store, select, fill } = await open('FLAT.CHANNEL');
    await fill(CHANNEL);
    await select('G12');
    store.fillTo(15);
    await store.refresh();
    expect(store.state.target!.range.rows).toBe(4);
  });

  it('asks before it writes over cells, and then does', async () => {
    const { store, select, fill, read, type, workbook } = await open('AREA.RECT');
    type('G12', 'kept');
    await fill({ length: 'B12', width: '2' });
    await select('G12');
    await expect.poll(() => store.state.target!.filled).toBe(1);
    await store.insert();
    expect(store.state.question).toBe(1);
    expect(await read('G12')).toEqual([['kept']]);
    await store.insert(true);
    await workbook.settled();
    expect(await read('G12')).toEqual([[5]]);
    expect(store.state.question).toBeUndefined();
  });

  it('of a column is one formula that spills; what is in its way is named, and nothing written', async () => {
    const { store, workbook, select, fill, read, type } = await open('FLAT.CHANNEL');
    await fill({ ...CHANNEL, web: 'B12:B40' });
    await select('G12');
    expect(store.state.target).toMatchObject({ kind: 'spill', range: { rows: ROWS, columns: 1 } });
    await store.insert();
    await workbook.settled();
    expect((await read('G40')).flat()[0]).toBeCloseTo(3.827275 + 2.8, 6);
    // Its own results below are no obstacle to writing it once more.
    await expect.poll(() => store.state.target).toMatchObject({ filled: 1 });
    expect(store.state.target!.problem).toBeUndefined();

    type('H15', 'note');
    await select('H12');
    await expect.poll(() => store.state.target!.problem).toMatch(/H12:H40.*H15/);
    await store.insert(true);
    expect(store.state.message!.tone).toBe('failed');
    expect(await read('H12')).toEqual([[null]]);
  });

  it('is refused on a protected sheet, in a circle, and where a table takes no spill', async () => {
    const { store, select, fill } = await open('AREA.RECT');
    await fill({ length: 'B12', width: '2' });
    await select('Locked!C3');
    expect(store.state.target!.problem).toMatch(/Locked is protected/);
    await select('B12');
    expect(store.state.target!.problem).toMatch(/circle/);
    await fill({ length: 'Parts!B12:B13' });
    await select('Prices!D2');
    expect(store.state.target!.problem).toMatch(/table Prices/);
    await select('Prices!J2');
    expect(store.state.target!.problem).toBeUndefined();
  });

  it('a row that reads the one above it goes in no circle', async () => {
    const { store, select, fill } = await open('AREA.RECT');
    await fill({ length: 'B12', width: '2' });
    await select('B13');
    store.fillTo(20);
    await store.refresh();
    expect(store.state.target!.problem).toBeUndefined();
    await fill({ length: '$B$15' });
    await select('B13');
    store.fillTo(20);
    await store.refresh();
    expect(store.state.fill.possible).toBe(false);
  });

  it('says which block would move along', async () => {
    const { store, select, fill } = await open('PRICE.COST');
    await fill({ item: 'A12', quantity: 'B12', prices: 'Prices!A1:G3' });
    await select('H12');
    store.fillDown(true);
    await store.refresh();
    expect(store.state.fill.strays).toEqual(['A1:G3']);
    store.relock('prices');
    await store.refresh();
    expect(store.state.fill.strays).toEqual([]);
  });
});

it('forgets nothing on the way back to the list, and remembers what was used last', async () => {
  const { store, fill, select, settings } = await open('AREA.RECT');
  await fill({ length: '3', width: '4' });
  store.close();
  store.open(findDefinition('AREA.CIRCLE')!);
  await store.refresh();
  await fill({ diameter: '2' });
  await select('J1');
  await store.insert();
  store.open(findDefinition('AREA.RECT')!);
  await store.refresh();
  expect(store.textOf('width')).toBe('4');
  await select('K1');
  await store.insert();
  expect(settings.get('insert.recent')).toBe('AREA.RECT AREA.CIRCLE');
});
