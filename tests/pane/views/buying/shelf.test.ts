/** The shopping list by plans, and leftovers on the sheet Stock, over the embedded engine. */
import { afterEach, describe, expect, it } from 'vitest';
import { loadHighsSolver } from '../../../../src/core/stock/highs-solver';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../../src/hosts/univer';
import { BuyingStore } from '../../../../src/pane/views/buying/buying-store';
import { listByPlans } from '../../../../src/pane/views/buying/made-plans';
import { runPlan } from '../../../../src/pane/views/buying/plan-run';
import { PlanStore } from '../../../../src/pane/views/buying/plan-store';
import { planWords } from '../../../../src/pane/views/buying/buying-words';
import { type SheetModel, type WorkbookModel } from '../../../../src/sheet';
import { STOCK } from '../../../../src/project';
import { buyingBook, formSheet, metricBook } from './model';

const stops: (() => void)[] = [];
afterEach(() => stops.splice(0).forEach((stop) => stop()));

let number = 0;
async function open(model: WorkbookModel) {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `shelf-${number++}`;
  loadWorkbook(engine, model, id, id);
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', id);
  const pane = {
    workbook,
    settings: { get: () => undefined, set: () => undefined },
    today: () => '2026-03-31',
    saveFile: () => undefined,
  };
  const store = new BuyingStore(pane);
  const newPlans = (): PlanStore =>
    new PlanStore(pane, (request) => ({
      done: loadHighsSolver().then((solver) =>
        runPlan(request, solver, { signal: { aborted: false }, progress: () => undefined }),
      ),
      cancel: () => undefined,
      drop: () => undefined,
    }));
  store.start();
  stops.push(() => store.stop());
  await store.refresh();
  const plans = newPlans();
  const type = (sheet: string, row: number, column: number, value: number | string): void =>
    void engine.api.getWorkbook(id)!.getSheetByName(sheet)!.getRange(row, column).setValue(value);
  const sheets = () => store.state.sheets!;
  const list = () => listByPlans(sheets(), plans.state.made);
  const line = (item: string) =>
    [...list().orders.flatMap(({ lines }) => lines), ...list().met].find((one) => one.item === item)!;
  const shelve = (): Promise<void> => {
    const group = plans.groupOf(sheets())!;
    return store.shelve(plans.state.made.get(group.name)!, group, () => plans.markCut(group.name));
  };
  return { workbook, store, plans, newPlans, type, sheets, list, line, shelve };
}

describe('the shopping list', () => {
  it('goes by area until there is a plan, then by the plan, and by area again when the parts change', async () => {
    const { plans, newPlans, sheets, list, line, type } = await open(buyingBook({ stock: true }));
    expect(line('Tube 1/2')).toMatchObject({ planned: undefined, purchase: { units: 1 } });
    plans.choose('Tube 1/2');
    await plans.make(sheets());
    expect(line('Tube 1/2')).toMatchObject({ planned: { pieces: 1 }, spares: 0, purchase: { units: 1 } });
    expect(planWords(line('Tube 1/2'), 'in-lb')).toBe('1 bar by the plan; by length with spare 0.7 would do.');
    plans.choose('6061-T6 0.025 in');
    await plans.make(sheets());
    expect(line('Skin .025')).toMatchObject({ planned: { pieces: 2 }, purchase: { units: 2 } });
    expect(list().toBuy).toBe(261.7);
    // Another view was shown meanwhile.
    expect(newPlans().state).toMatchObject({ group: '6061-T6 0.025 in', plan: { kind: 'sheets' } });
    // A third and a fourth skin.
    type('Parts', 2, 2, 4);
    await expect.poll(() => line('Skin .025').planned).toBeUndefined();
    expect(line('Tube 1/2').planned).toBeDefined();
    expect(plans.standing(sheets())).toBe('stale');
  });

  it('takes more sheets by the plan than by area, and says so', async () => {
    const model = buyingBook();
    const { plans, sheets, line, type } = await open(model);
    // Skins of which a sheet holds one, though their area would let it hold two.
    const parts = model.sheets[0]!.cells[1]!.map((cell) => String(cell?.value));
    type('Parts', 2, parts.indexOf('Cut width (in)'), 36);
    type('Parts', 2, 2, 4);
    await expect.poll(() => sheets().groups[0]!.parts[0]).toMatchObject({ cutWidth: 36, quantity: 4 });
    await plans.make(sheets());
    expect(line('Skin .025')).toMatchObject({ planned: { pieces: 4 }, purchase: { units: 4 } });
    expect(planWords(line('Skin .025'), 'in-lb')).toBe('4 sheets by the plan; by area with spare 1.3 would do.');
  });
});

describe('stock that a plan tells apart', () => {
  it('is each row of the sheet Stock, also of one name and size, and is taken off by itself', async () => {
    const model = buyingBook();
    const rest = { name: 'Rest', material: '6061-T6', thickness: 0.025, length: 60, width: 30, offcut: 'yes' };
    const { plans, sheets, shelve } = await open({
      ...model,
      sheets: [...model.sheets, formSheet(STOCK, [rest, rest])],
    });
    await plans.make(sheets());
    expect(plans.state.plan!.stockUsed.filter(({ offcut }) => offcut).map(({ name, used }) => [name, used])).toEqual([
      ['Rest', 1],
      ['Rest (2)', 1],
    ]);
    await shelve();
    expect(sheets().stock!.pieces.filter(({ length, width }) => length === 60 && width === 30)).toEqual([]);
    expect(sheets().stock!.pieces.map(({ name }) => name)).not.toContain('Rest (2)');
  });

  it('is what takes off the list: a whole sheet on the shelf is not bought', async () => {
    const model = buyingBook();
    const { plans, sheets, line } = await open({
      ...model,
      sheets: [
        ...model.sheets,
        formSheet(STOCK, [
          {
            name: 'Skin .025',
            material: '6061-T6',
            thickness: 0.025,
            length: 144,
            width: 48,
            available: 1,
            // Owned already: a blank would say that nobody knows what it costs.
            cost: 0,
            off: 'yes',
          },
        ]),
      ],
    });
    await plans.make(sheets());
    expect(line('Skin .025')).toMatchObject({ planned: { pieces: 1 }, onHand: 144 * 48, purchase: { units: 1 } });
  });

  it('is of the item that it belongs to, where parts of one gauge name two', async () => {
    const model = buyingBook();
    const [parts, joints, prices] = model.sheets as [SheetModel, SheetModel, SheetModel];
    const at = parts.cells[1]!.findIndex((cell) => cell?.value === 'Price item');
    const cells = parts.cells.map((row, index) =>
      index === 3 ? row.map((cell, column) => (column === at ? { value: 'Half .025' } : cell)) : row,
    );
    const half = ['Half .025', 'sheet', 'sheet', '48 x 72', 55, 'USD', null, 'Lowmoor Sheet & Tube'].map((value) => ({
      value,
    }));
    const { plans, sheets, line } = await open({
      ...model,
      sheets: [{ ...parts, cells }, joints, { ...prices, cells: [...prices.cells, half], tables: [] }],
    });
    await plans.make(sheets());
    const used = plans.state.plan!.stockUsed;
    const count = (item: string): number =>
      used.filter(({ name }) => name.startsWith(item)).reduce((sum, one) => sum + one.used, 0);
    expect(count('Skin .025') + count('Half .025')).toBeGreaterThan(0);
    for (const item of ['Skin .025', 'Half .025'])
      expect([item, line(item).planned!.pieces, line(item).purchase?.units ?? 0]).toEqual([
        item,
        count(item),
        count(item),
      ]);
  });
});

describe('leftovers', () => {
  it('go on the sheet Stock and what was spent comes off it, as one step', async () => {
    const { store, plans, sheets, shelve, line, workbook } = await open(buyingBook({ stock: true }));
    await plans.make(sheets());
    const before = await workbook.read((await workbook.usedRange('Stock'))!);
    expect(plans.standing(sheets())).toBe('fresh');
    await shelve();
    expect(store.state.message).toMatchObject({
      tone: 'done',
      text: expect.stringContaining('1 piece taken off') as string,
    });
    const pieces = sheets().stock!.pieces;
    expect(pieces.some(({ length, width }) => length === 60 && width === 30)).toBe(false);
    expect(pieces.find(({ name, width }) => name === 'Skin .025' && width === 18)).toMatchObject({
      material: '6061-T6',
      thickness: 0.025,
      length: 144,
      offcut: true,
      available: 1,
      takesOff: false,
    });
    expect(sheets().problems).toEqual([]);
    // The plan was cut: what it took is still what the parts take.
    expect(plans.standing(sheets())).toBe('cut');
    expect(line('Skin .025')).toMatchObject({ planned: { pieces: 2 }, purchase: { units: 2 } });
    await store.undo();
    expect(await workbook.read((await workbook.usedRange('Stock'))!)).toEqual(before);
    expect(plans.standing(sheets())).toBe('fresh');
  });

  it('make the sheet Stock where there is none, in its units; bars are called by their item', async () => {
    const model = metricBook();
    const { store, plans, sheets, shelve } = await open({
      ...model,
      sheets: model.sheets.filter(({ name }) => name !== 'Stock'),
    });
    plans.choose('Tube 12');
    await plans.make(sheets());
    await shelve();
    const { form, pieces } = sheets().stock!;
    expect([form.units.length!.sign, pieces.map(({ name, available }) => [name, available])]).toEqual([
      'mm',
      [['Tube 12', 1]],
    ]);
    // 6000 less three times 800.
    expect(pieces[0]!.length * 25.4).toBeCloseTo(3600, 2);
    await store.undo();
    expect(sheets().stock).toBeUndefined();
  });

  it('of several equal pieces are taken off by their number', async () => {
    const { plans, sheets, shelve, type } = await open(buyingBook({ stock: true }));
    type('Stock', 2, 6, 5);
    await expect.poll(() => sheets().stock!.pieces[0]!.available).toBe(5);
    await plans.make(sheets());
    const used = plans.state.plan!.stockUsed.find(({ name }) => name === 'Rest of the tail')!.used;
    await shelve();
    const left = sheets().stock!.pieces.find(
      ({ length, width, name }) => name === 'Rest of the tail' && length === 60 && width === 30,
    );
    expect(used).toBeGreaterThan(0);
    expect(left?.available ?? 0).toBe(5 - used);
  });

  it('are refused where the sheet Stock holds something else', async () => {
    const model = buyingBook();
    const { store, plans, sheets, shelve } = await open({
      ...model,
      sheets: [...model.sheets, { name: 'Stock', cells: [[{ value: 'mine' }]], tables: [] }],
    });
    await plans.make(sheets());
    await shelve();
    expect(store.state.message).toMatchObject({
      tone: 'failed',
      text: expect.stringContaining('holds something else') as string,
    });
    expect(plans.standing(sheets())).toBe('fresh');
  });
});
