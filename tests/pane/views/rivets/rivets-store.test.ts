import { describe, expect, it } from 'vitest';
import type { Compared, OptionResult } from '../../../../src/core/rivet-choice';
import { call, findDefinition } from '../../../../src/functions';
import { RivetsStore } from '../../../../src/pane/views/rivets/rivets-store';
import type { Cell, Matrix, WorkbookModel } from '../../../../src/sheet';
import { rivetBook } from './model';
import { openPane, started } from '../../open-pane';

async function open(model: WorkbookModel) {
  const { workbook, pane, type } = await openPane(model);
  const store = await started(new RivetsStore(pane));
  const read = async (sheet: string, row: number, column: number): Promise<Cell> =>
    (await workbook.read({ sheet, row, column, rows: 1, columns: 1 }))[0]![0]!;
  const option = (name: string): OptionResult => store.state.results.find((one) => one.name === name)!;
  const done = (name: string): Compared => {
    const result = option(name);
    if (!result.possible) throw new Error(`${name} is refused: ${result.refusals[0]!.error.message}`);
    return result;
  };
  return { workbook, store, type, read, option, done };
}
/** Places on the sheet that the view makes. */
const LABOUR: [row: number, column: number] = [4, 1];
const FIRST_OPTION = 14;

describe('the joints of a workbook', () => {
  it('compares the usual options without any sheet of options', async () => {
    const { store, option, done } = await open(rivetBook());
    expect(store.state.options.map(({ name }) => name)).toEqual([
      'As designed',
      'Solid 3/32',
      'Solid 1/8',
      'Blind aluminium',
      'Blind, steel stem',
    ]);
    expect(done('As designed').rivets).toBe(1480);
    expect(option('Solid 1/8').possible).toBe(false);
    expect(done('Blind aluminium').weightDifference).toBeLessThan(0);
    expect(done('Blind, steel stem').weightDifference).toBeGreaterThan(0);
  });

  it('gives the same numbers as RIVET.COMPARE', async () => {
    const { store, done } = await open(rivetBook({ options: true }));
    await store.change('rate', [
      {
        kind: 'write',
        range: { sheet: 'Rivet options', row: LABOUR[0], column: LABOUR[1], rows: 1, columns: 1 },
        cells: [[18]],
      },
    ]);
    const { joints } = store.state;
    const column = (of: (index: number) => number): Matrix => joints.map((_joint, index) => [of(index)]);
    const prices: Matrix = [
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
      ['MS20470AD4-4', 'rivet', 'lb', null, 30, 'USD', null],
      ['MS20426AD4-4', 'rivet', 'lb', null, 33, 'USD', null],
      ['BLIND-AA-42', 'rivet', '1000', null, 48, 'USD', null],
    ];
    const designed = done('As designed');
    const minutes = (designed.hours * 60) / designed.rivets;
    const table = call(findDefinition('RIVET.COMPARE')!, [
      column((i) => joints[i]!.grip),
      column((i) => joints[i]!.diameter),
      column((i) => joints[i]!.count),
      [
        ['universal', 'flush', 'blind'],
        ['blind AA', 'blind AA', 'blind AA'],
      ],
      prices,
      18,
      [[minutes], [0.75]],
    ]) as Matrix;
    for (const [index, name] of ['As designed', 'Blind aluminium'].entries()) {
      const { rivets, installed, bought, material, labour, total, costDifference, weightDifference } = done(name);
      [rivets, installed, bought, material.cost!, labour, total!, costDifference!, weightDifference!].forEach(
        (value, at) => expect(value).toBeCloseTo(Number(table[index]![at]), 9),
      );
    }
  });

  it('is narrowed to a component', async () => {
    const { store, done } = await open(rivetBook());
    store.choose('Wing');
    expect(done('As designed').rivets).toBe(1400);
    expect(done('Solid 1/8').total).toBeGreaterThan(0);
  });

  it('names joints that lack what a rivet is picked by', async () => {
    const { store } = await open(
      rivetBook({ joints: [{ joint: 'a', component: 'Wing', diameter: 0.125, count: 10 }] }),
    );
    expect(store.problems[0]!.message).toMatch(/grip/);
    expect(store.state.joints).toEqual([]);
  });

  it('follows a price that is typed in the sheet', async () => {
    const { type, done } = await open(rivetBook());
    const before = done('Blind aluminium').total!;
    type('Prices', 3, 4, 60);
    await expect.poll(() => done('Blind aluminium').total).toBe(before + 2 * 12);
  });
});

describe('the sheet of options', () => {
  it('is added by one step, reads as what was compared, and is taken back by undo', async () => {
    const { store, workbook, done } = await open(rivetBook());
    const before = done('As designed').total;
    await store.addSheet();
    expect(store.state.sheets.options?.problems).toEqual([]);
    expect(store.state.options).toHaveLength(5);
    expect(done('As designed').total).toBe(before);
    await store.undo();
    expect((await workbook.sheets()).map(({ name }) => name)).not.toContain('Rivet options');
    await expect.poll(() => store.state.sheets.options).toBeUndefined();
  });

  it('mixes an option by joint and takes it back', async () => {
    const { store, option, read } = await open(rivetBook({ options: true }));
    store.pick(2);
    const tip = store.state.joints[2]!;
    await store.except(tip, 'blind AA 1/8');
    expect(option('Solid 1/8').possible).toBe(true);
    expect(await read('Rivet options', FIRST_OPTION, 4)).toBe('Tip: Tip cap');
    await store.except(tip, '');
    expect(option('Solid 1/8').possible).toBe(false);
    expect(await read('Rivet options', FIRST_OPTION, 4)).toBeNull();
  });

  it('counts labour, tools and the maker’s shear that are typed', async () => {
    const { type, done } = await open(rivetBook({ options: true }));
    type('Rivet options', ...LABOUR, 30);
    ['Gun', 'solid', '', 100, '', 'no'].forEach(
      (cell, index) => cell !== '' && type('Rivet options', FIRST_OPTION, 7 + index, cell),
    );
    ['AA 1/8', 200].forEach((cell, index) => type('Rivet options', FIRST_OPTION, 14 + index, cell));
    await expect.poll(() => done('As designed').toolCost).toBe(100);
    // Solid: 0.5 + 2 × 1 minutes with a second person; blind 0.75.
    expect(done('As designed').labour).toBe((30 * (1400 * 2.5 + 80 * 0.75)) / 60);
    expect(done('Blind aluminium').lines[0]!.strength.ratio).toBeCloseTo(200 / 389.06, 4);
    expect(done('Blind, steel stem').lines[0]!.strength.ratio).toBeUndefined();
  });

  it('names a cell that cannot be read and leaves the rest', async () => {
    const { store, type } = await open(rivetBook({ options: true }));
    type('Rivet options', FIRST_OPTION + 1, 1, 'glued');
    await expect.poll(() => store.problems).toMatchObject([{ sheet: 'Rivet options', cell: 'B16' }]);
    expect(store.state.results).toHaveLength(4);
  });
});

describe('access', () => {
  it('adds its column where the sheet has none, and refuses solid rivets from then on', async () => {
    const { store, option, read } = await open(rivetBook({ access: false }));
    expect(option('Solid 1/8').possible).toBe(true);
    await store.setAccess(store.state.joints[0]!, true);
    expect(option('Solid 1/8').possible).toBe(false);
    expect(store.state.message?.text).toContain('Added the column Access');
    const column = store.state.sheets.joints!.form.columns.access!;
    expect([await read('Joints', 1, column), await read('Joints', 2, column)]).toEqual(['Access', 'one side only']);
    await store.setAccess(store.state.joints[0]!, false);
    expect(option('Solid 1/8').possible).toBe(true);
  });
});

it('says what no price list means: weights, and no money', async () => {
  const { store, done } = await open(rivetBook({ prices: false }));
  expect(store.state.sheets.priced).toBe(false);
  expect(done('As designed').total).toBeUndefined();
  expect(done('As designed').material.missing).toHaveLength(3);
});
