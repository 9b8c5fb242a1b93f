/**
 * A made-up kit with six rivets of its own, from an empty workbook on: its rivets brought in from a file in millimetres,
 * picked, weighed, priced and checked by the joints' own formulas, compared, and bought.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BuyingStore } from '../../../../src/pane/views/buying/buying-store';
import { RivetsStore } from '../../../../src/pane/views/rivets/rivets-store';
import { makeReady } from '../../../../src/pane/views/start/make';
import { CellError, type Cell, type WorkbookModel } from '../../../../src/sheet';
import { JOINTS } from '../../../../src/project';
import { openPane } from '../../open-pane';

const EMPTY: WorkbookModel = { sheets: [{ name: 'Sheet1', cells: [], tables: [] }], names: [], styles: [] };
const GRAM = 1 / 453.59237;

/** Other words and another order than the table's, millimetres, grams, decimal commas; one row is wrong, one comes twice. */
const FILE = [
  'Rivets of an invented kit',
  'Kind;Label;Max grip (mm);Min grip (mm);Diameter (mm);1000 bought (g);1000 installed (g);Shear (N);Material;Length (mm);Colour',
  'blind;KP-42;3,2;1,0;3,2;680;281;1150;;;grey',
  'blind;KP-43;4,8;3,2;3,2;720;300;1150;;;grey',
  'blind retained;KR-42;3,2;1,0;1/8 in;900;700;;;;',
  'universal;KS-4-5;;;3,175;;;;AD;7,9375;',
  'flush;KF-3-3;1,2;0,4;2,38125;160;160;;;;',
  'universal;KS-3-4;;;2,38125;;;;2117;6,35;',
  'blind;KP-99;2;1;thick;1;1;;;;',
  'blind;kp-42;3;1;3,2;1;1;;;;',
].join('\r\n');

describe('a kit of six rivets', () => {
  let pane: Awaited<ReturnType<typeof openPane>>;
  let rivets: RivetsStore;
  const read = async (sheet: string): Promise<Cell[][]> => pane.workbook.read((await pane.workbook.usedRange(sheet))!);
  const write = (sheet: string, row: number, column: number, cells: Cell[][]): Promise<void> =>
    pane.workbook.apply('test', [
      { kind: 'write', range: { sheet, row, column, rows: cells.length, columns: cells[0]!.length }, cells },
    ]);
  const joint = async (row: number): Promise<Record<string, Cell>> => {
    const line = (await read('Joints'))[4 + row]!;
    return Object.fromEntries(JOINTS.columns.map(({ key }, column) => [key, line[column] ?? null]));
  };

  beforeAll(async () => {
    pane = await openPane(EMPTY);
    await makeReady(pane.pane, 'in-lb', false);
    await pane.workbook.apply('prices', [
      {
        kind: 'insertTableRows',
        table: 'Prices',
        at: 0,
        cells: [
          ['KP-42', 'rivet', 1000, null, 52, 'USD', null, null, null, null],
          ['KS-4-5', 'rivet', 'lb', null, 30, 'USD', null, null, null, null],
          ['KF-3-3', 'rivet', 100, null, 4, 'USD', null, null, null, null],
        ],
      },
    ]);
    rivets = new RivetsStore(pane.pane);
    rivets.start();
    await rivets.refresh();
    await rivets.openFile('kit.csv', Promise.resolve(new TextEncoder().encode(FILE).buffer));
  }, 60_000);

  afterAll(() => rivets.stop());

  it('is looked at before it is brought in: what is added, what is refused and why', () => {
    const plan = rivets.foreseen!;
    expect(plan.missing).toEqual([]);
    expect(plan.add).toHaveLength(6);
    expect(plan.refused).toEqual([
      { number: 9, label: 'KP-99', why: expect.stringMatching(/^Diameter: got "thick"; takes inches/) },
      { number: 10, label: 'kp-42', why: expect.stringMatching(/^Rivet: got "kp-42"; takes another label/) },
    ]);
  });

  it('stands in the table in its units after one step', async () => {
    await rivets.bringIn();
    expect(rivets.state.message?.text).toBe('6 rivets added, 0 changed, 2 refused.');
    const [first] = (await read('Rivets')).slice(1);
    expect(first!.slice(0, 3)).toEqual(['KP-42', 'blind', expect.closeTo(3.2 / 25.4, 9)]);
    expect(rivets.state.sheets.own!.rivets.rivets.map(({ designation }) => designation)).toEqual([
      'KP-42',
      'KP-43',
      'KR-42',
      'KS-4-5',
      'KF-3-3',
      'KS-3-4',
    ]);
    expect(rivets.state.sheets.own!.problems).toEqual([]);
    // What the row lacks is computed and named.
    expect(rivets.state.sheets.own!.rivets.find('KS-4-5')!.computed.join()).toMatch(/weight as bought: from length/);
  });

  it('takes the weight of a sample as the table reads it, once, and none from a row that is wrong', async () => {
    const header = (await read('Rivets'))[0]!.map(String);
    const at = (label: RegExp): number => header.findIndex((one) => label.test(one));
    const row = 6;
    await write('Rivets', row, at(/^Sample pieces/), [['50']]);
    await write('Rivets', row, at(/^Sample \(g\)/), [['6.5']]);
    await write('Rivets', row, at(/^Head/), [['wide']]);
    await rivets.refresh();
    expect(rivets.samples).toEqual([]);
    await write('Rivets', row, at(/^Head/), [[null]]);
    await rivets.refresh();
    expect(rivets.samples).toHaveLength(1);
    await rivets.fillSamples();
    expect(rivets.state.message?.text).toBe('1 weight filled in from samples.');
    expect((await read('Rivets'))[row]![at(/^1000 bought/)]).toBeCloseTo(130 * GRAM, 5);
    await rivets.refresh();
    expect(rivets.samples).toEqual([]);
  });

  it('is picked, weighed, priced and checked by the joints of the new workbook', async () => {
    await write('Joints', 5, 0, [
      ['Rib', 'Wing', 0.032, 0.032, null, 'blind', 0.125, 20, 1, 0.3, 1, 2, 60],
      ['Spar', 'Wing', 0.04, 0.04, null, 'universal', 0.125, 30, 1, 0.3, 1, 1, 50],
      ['Skin', 'Wing', null, null, null, 'flush', '3/32', 10, 1, 0.3, 1, 1, 60],
    ]);
    await write('Joints', 7, 23, [['dimpled', '0.016+0.016', '2024-T3']]);
    await pane.settle();
    const [rib, spar, skin] = [await joint(1), await joint(2), await joint(3)];
    expect([rib.rivet, rib.count, rib.check]).toEqual(['KP-42', 40, 'ok']);
    expect(rib.weight).toBeCloseTo((40 / 1000) * 281 * GRAM, 9);
    expect(rib.cost).toBeCloseTo(2.08, 9);
    expect([spar.rivet, spar.check]).toEqual(['KS-4-5', 'ok']);
    expect([skin.rivet, skin.grip, skin.check]).toEqual(['KF-3-3', expect.closeTo(0.032, 12), 'ok']);
    expect(skin.weight).toBeCloseTo((10 / 1000) * 160 * GRAM, 9);
    expect((await read('Joints')).flat().filter((cell) => cell instanceof CellError)).toEqual([]);
  });

  it('is compared with others, each joint by its own sheets', async () => {
    await rivets.refresh();
    expect(rivets.state.joints.map(({ own }) => own?.designation)).toEqual(['KP-42', 'KS-4-5', 'KF-3-3']);
    expect(rivets.state.joints[2]).toMatchObject({ grip: 0.032, thickestSheet: 0.016, sheetMaterial: '2024-T3' });
    const [designed, , , blind] = rivets.state.results;
    if (!designed?.possible || !blind?.possible) throw new Error('refused');
    expect(designed.failing).toEqual([]);
    // A domed blind head does not go where the sheet is dimpled for a flush one.
    expect(blind.failing.map(({ joint: { name } }) => name)).toContain('Wing: Skin');
    expect(designed.material.missing).toEqual([]);
  });

  it('is bought: whole thousands, pounds and hundreds, with spares', async () => {
    const buying = new BuyingStore(pane.pane);
    buying.start();
    await buying.refresh();
    const lines = buying.state.sheets!.list.orders.flatMap((order) => order.lines);
    expect(lines.map(({ item, hardware, needed, spares }) => [item, hardware, needed, spares])).toEqual(
      expect.arrayContaining([
        ['KP-42', 'blind rivet', 40, 4],
        ['KF-3-3', 'solid rivet', 10, 2],
      ]),
    );
    expect(buying.state.sheets!.list.unpriced).toEqual([]);
    buying.stop();
  });
});
