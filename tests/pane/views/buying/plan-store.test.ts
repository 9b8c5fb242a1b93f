import { afterEach, describe, expect, it } from 'vitest';
import { readProject } from '../../../helpers/project';
import { cutList } from '../../../../src/core/stock';
import { loadHighsSolver } from '../../../../src/core/stock/highs-solver';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../../src/hosts/univer';
import { unsizedArea } from '../../../../src/pane/views/buying/cutting-needs';
import { runPlan } from '../../../../src/pane/views/buying/plan-run';
import { PlanStore, type Planner } from '../../../../src/pane/views/buying/plan-store';
import {
  progressWords,
  sizeWords,
  statusWords,
  stepWords,
  planPages,
} from '../../../../src/pane/views/buying/buying-words';
import { buyingSheets, readBuyingSheets } from '../../../../src/pane/views/buying/buying-sheets';
import { sayIn } from '../../../../src/pane/shared/quantities';
import { setLocale } from '../../../../src/pane/locale';
import type { WorkbookModel } from '../../../../src/sheet';
import { buyingBook, metricBook } from './model';

const planner: Planner = (request, onProgress) => {
  const signal = { aborted: false };
  const end = (): void => void (signal.aborted = true);
  return {
    done: loadHighsSolver().then((solver) => runPlan(request, solver, { signal, progress: onProgress })),
    cancel: end,
    drop: end,
  };
};

afterEach(() => setLocale());

let number = 0;
async function open(model: WorkbookModel, plan: Planner = planner) {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `plan-${number++}`;
  loadWorkbook(engine, model, id, id);
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', id);
  const saved: { name: string; text: string }[] = [];
  const store = new PlanStore(
    {
      workbook,
      settings: { get: () => undefined, set: () => undefined },
      today: () => '2026-03-31',
      saveFile: (name, text) => saved.push({ name, text }),
    },
    plan,
  );
  return { store, saved, sheets: readBuyingSheets(await readProject(workbook, buyingSheets)) };
}

describe('what is to be cut', () => {
  it('is grouped by material and gauge, bars by their price item; rows without a size are counted by area', async () => {
    const { sheets } = await open(buyingBook());
    expect(sheets.groups.map(({ name, parts, unsized }) => [name, parts.length, unsized.length])).toEqual([
      ['6061-T6 0.025 in', 2, 1],
      ['Tube 1/2', 1, 0],
    ]);
    expect(unsizedArea(sheets.groups[0]!)).toBe(40);
  });
});

describe('a cutting plan', () => {
  it('of sheets cuts every sized part from the price list’s sheets, and is saved as CSV and DXF', async () => {
    const { store, saved, sheets } = await open(buyingBook());
    await store.make(sheets);
    const { plan, phase } = store.state;
    expect(phase).toBe('done');
    // 2 × 96 × 30 and 8 × 30 × 9 are 7920 in²: more than one sheet of 6912.
    expect(plan).toMatchObject({ kind: 'sheets', status: 'optimal', cost: 194.4, missing: [] });
    const parts = plan!.patterns.flatMap((pattern) =>
      'strips' in pattern
        ? pattern.strips.flatMap(({ pieces }) =>
            pieces.map(({ part }) => part).flatMap((part) => Array<string>(pattern.times).fill(part)),
          )
        : [],
    );
    expect(parts.filter((part) => part === 'Wing: Skin')).toHaveLength(2);
    expect(parts.filter((part) => part === 'Wing: Rib')).toHaveLength(8);
    expect(
      statusWords(plan!, { priced: store.priced, kind: 'sheets', currency: 'USD', say: sayIn('in-lb') }),
    ).toContain('This is the cheapest plan of its kind: 194.40 USD. 57 % of the stock becomes parts.');
    store.save('csv');
    store.save('dxf');
    expect(saved.map(({ name }) => name)).toEqual([
      'cutting-plan-6061-t6-0.025-in.csv',
      'cutting-plan-6061-t6-0.025-in.dxf',
    ]);
    expect(saved[0]!.text).toContain('Wing: Rib');
    expect(saved[1]!.text).toMatch(/EOF\s*$/);
    expect(planPages(plan!, 'Skin <1>', 'in-lb')).toContain('Skin &lt;1&gt;, pattern 1 of');
    expect(store.standing(sheets)).toBe('fresh');
    const other = { ...sheets, cutting: { ...sheets.cutting, kerf: 0.125 } };
    expect(store.standing(other)).toBe('stale');
  });

  it('spends the leftover on the shelf first', async () => {
    const { store, sheets } = await open(buyingBook({ stock: true }));
    await store.make(sheets);
    expect(store.state.plan!.stockUsed).toContainEqual(
      expect.objectContaining({ name: 'Rest of the tail', offcut: true, cost: 0 }),
    );
  });

  it('of bars', async () => {
    const { store, sheets } = await open(buyingBook());
    store.choose('Tube 1/2');
    await store.make(sheets);
    expect(store.state.plan).toMatchObject({
      kind: 'bars',
      cost: 21.8,
      patterns: [{ cuts: [{ part: 'Tail: Push rod' }, {}, {}] }],
    });
  });

  it('that is ended gives the best so far', async () => {
    const { store, sheets } = await open(buyingBook());
    const made = store.make(sheets);
    store.cancel();
    expect(store.state.phase).toBe('cancelling');
    await made;
    expect(store.state).toMatchObject({ phase: 'done', plan: { missing: [] } });
  });

  it('says what is missing where there is no stock, and passes on what is refused', async () => {
    const model = buyingBook();
    const { store, sheets } = await open({ ...model, sheets: model.sheets.filter(({ name }) => name !== 'Prices') });
    await store.make(sheets);
    expect(store.state).toMatchObject({
      phase: 'failed',
      wrong: expect.stringContaining('No stock of 6061-T6 0.025 in') as string,
    });
    const refused = await open(buyingBook(), () => ({
      done: Promise.reject(new Error('length of part "Rib": got 300')),
      cancel: () => undefined,
      drop: () => undefined,
    }));
    await refused.store.make(refused.sheets);
    expect(refused.store.state).toMatchObject({ wrong: 'length of part "Rib": got 300.', wrongLanguage: 'en' });
  });

  it('of a metric workbook is in millimetres and square metres, and saved in inches', async () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    const { store, saved, sheets } = await open(metricBook());
    expect(sheets.groups[0]!.name).toBe('6061-T6 0,8 mm');
    await store.make(sheets);
    const plan = store.state.plan!;
    const say = sayIn(sheets.units);
    const strip = cutList(plan).find(({ action }) => action === 'strip')!;
    expect([stepWords(strip), sizeWords(strip, say)]).toEqual(['Strip 1', '750 × 2.500']);
    const words = { priced: true, kind: 'sheets', currency: 'EUR', say } as const;
    expect(statusWords(plan, words)).toContain('2.281,00 EUR');
    expect(
      progressWords(
        { cost: undefined, lowerBound: (2500 * 1250) / 25.4 ** 2, seconds: 3 },
        { ...words, priced: false },
      ),
    ).toBe('3 s: no plan yet, at least 3,13 m² of stock');
    const page = planPages(plan, store.state.planned, sheets.units);
    expect(page).toContain('<th>Size (mm)</th>');
    expect(page).toContain('2.500 × 1.250 mm');
    store.save('csv');
    expect(saved[0]!.name).toBe('cutting-plan-6061-t6-0.8-mm.csv');
    expect(saved[0]!.text).toContain('29.528');
  });
});
