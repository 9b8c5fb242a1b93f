/** Sheets that the builders make, put into a real spreadsheet engine and read back. */
import { describe, expect, it } from 'vitest';
import { readProject } from '../helpers/project';
import { judgementWords } from '../../src/core/balance';
import { isBlank, type Cell, type Edit } from '../../src/sheet';
import {
  balanceModels,
  caseEdits,
  clearCaseEdits,
  loadEdits,
  logEdits,
  logLines,
  logOf,
  newAirplaneSheets,
  newAllowancesSheet,
  newLoadingSheet,
  newLogSheet,
  USUAL_STATIONS,
  type BalanceModel,
} from '../../src/project';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../src/hosts/univer';
import { readGrowthAllowances } from '../../src/project/components';
import { readLog } from '../../src/project/log';

let number = 0;
async function openEmpty(): Promise<{ workbook: UniverWorkbook; make(edits: readonly Edit[]): Promise<void> }> {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `new-sheets-${number++}`;
  loadWorkbook(engine, { sheets: [{ name: 'Sheet1', cells: [], tables: [] }], names: [], styles: [] }, id, id);
  const workbook = new UniverWorkbook(engine, id, 'headless', id);
  return {
    workbook,
    async make(edits) {
      await workbook.apply('test', edits);
      await calculate(engine);
    },
  };
}

const write = (sheet: string, row: number, column: number, cells: Cell[][]): Edit => ({
  kind: 'write',
  range: { sheet, row, column, rows: cells.length, columns: cells[0]!.length },
  cells,
});
const airplane = {
  name: '',
  gear: 'tailwheel' as const,
  stations: [
    { name: 'Pilot', arm: 78, min: 110, max: 250 },
    { name: 'Baggage', arm: 118, min: 0, max: 80 },
    { name: 'Left tank', arm: 69, min: 9, max: 72, fuel: true },
    { name: 'Right tank', arm: 69, min: 9, max: 72, fuel: true },
  ],
  envelope: [
    [66.5, 800],
    [66.5, 1050],
    [69, 1320],
    [74.5, 1320],
    [74.5, 800],
  ].map(([arm, weight]) => ({ arm: arm!, weight: weight! })),
};

async function modelOf(workbook: UniverWorkbook): Promise<BalanceModel> {
  const { names, values } = await readProject(workbook);
  return balanceModels(values, names)[0]!;
}

describe('an airplane’s sheets', () => {
  it('wait without an error until they are filled', async () => {
    const { workbook, make } = await openEmpty();
    await make(newAirplaneSheets({ name: 'two', gear: 'nosewheel', stations: USUAL_STATIONS }));
    for (const { name } of await workbook.sheets()) {
      const used = await workbook.usedRange(name);
      const cells = used ? await workbook.read(used) : [];
      expect(cells.flat().filter((cell) => typeof cell === 'object' && cell !== null)).toEqual([]);
    }
    const { sheets, empty, judged } = await modelOf(workbook);
    expect([sheets.name, empty, judged]).toEqual(['two', undefined, undefined]);
    expect(await workbook.undo()).toBe(true);
    expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Sheet1']);
  });

  it('compute in their own cells what the model computes', async () => {
    const { workbook, make } = await openEmpty();
    await make(newAirplaneSheets(airplane));
    await make([
      write('Weighing', 18, 1, [
        [374.5, 4],
        [379, 4],
        [61.5, 15.5],
      ]),
      write('Weighing', 18, 4, [[58.25], [58.25], [243.5]]),
      write('Weighing', 9, 1, [[60], [54]]),
      write('Weighing', 27, 0, [['Fuel left', -12, 69]]),
      write('Loading', 11, 2, [[172], [20], [54], [54]]),
    ]);
    let model = await modelOf(workbook);
    await make(caseEdits(model.casesSheet!, 'Full', [172, 40, 72, 72]));
    await make(caseEdits((await modelOf(workbook)).casesSheet!, 'Too much', [250, 80, 72, 500]));
    model = await modelOf(workbook);
    const { weighing, judged, problems } = model;
    expect(problems).toEqual([]);
    const { weight: empty, arm: emptyArm, moment: emptyMoment, percentMac } = weighing!.result!;
    expect((await workbook.read({ sheet: 'Weighing', row: 14, column: 1, rows: 1, columns: 4 }))[0]).toEqual(
      [empty, emptyArm, emptyMoment, percentMac!].map((value) => expect.closeTo(value, 6)),
    );
    const now = judged!.now!.result;
    const expected = [now.takeoff, now.landing].map(({ weight, arm, moment, judgement }) => [
      expect.closeTo(weight, 6),
      expect.closeTo(arm, 6),
      expect.closeTo(moment, 4),
      judgementWords(judgement),
    ]);
    expect(await workbook.read({ sheet: 'Loading', row: 6, column: 1, rows: 2, columns: 4 })).toEqual(expected);
    const saved = await workbook.read({ sheet: 'Cases', row: 5, column: 5, rows: 3, columns: 6 });
    const ofCases = judged!.cases.map(({ result: { takeoff, landing } }) =>
      [takeoff, landing].flatMap(({ weight, arm, judgement }) => [
        expect.closeTo(weight, 6),
        expect.closeTo(arm, 6),
        judgementWords(judgement),
      ]),
    );
    expect(saved.slice(0, 2)).toEqual(ofCases);
    expect(saved[2]!.every(isBlank)).toBe(true);
    expect(judged!.cases.map(({ name }) => name)).toEqual(['Full', 'Too much']);
  });

  it('save a case over the one of its name, load one, and clear one', async () => {
    const { workbook, make } = await openEmpty();
    await make([...newAirplaneSheets(airplane)]);
    await make([write('Weighing', 18, 1, [[700, 0]]), write('Weighing', 18, 4, [[68]])]);
    const cases = async () => (await modelOf(workbook)).casesSheet!;
    await make(caseEdits(await cases(), 'Solo', [170, 0, 20, 20]));
    await make(caseEdits(await cases(), 'Two', [170, 60, 20, 20]));
    await make(caseEdits(await cases(), ' solo ', [120, 5, 30, 30]));
    expect((await cases()).cases.map(({ name, row, loads }) => [name, row, loads])).toEqual([
      ['solo', 5, [120, 5, 30, 30]],
      ['Two', 6, [170, 60, 20, 20]],
    ]);
    await make(loadEdits((await modelOf(workbook)).loading!, [170, 60, 20, 20]));
    expect((await modelOf(workbook)).judged!.now!.loads).toEqual([170, 60, 20, 20]);
    await make(clearCaseEdits(await cases(), 5));
    expect((await cases()).cases.map(({ name }) => name)).toEqual(['Two']);
  });

  it('take a typed empty weight where there is no weighing', async () => {
    const { workbook, make } = await openEmpty();
    await make([
      ...newLoadingSheet(airplane, true, false),
      write('Loading', 5, 1, [[780, 68.7]]),
      write('Loading', 11, 2, [[170], [0], [20], [20]]),
    ]);
    expect((await modelOf(workbook)).empty).toEqual({ weight: 780, arm: 68.7, from: 'loading' });
    const [cells] = await workbook.read({ sheet: 'Loading', row: 6, column: 1, rows: 1, columns: 2 });
    expect(cells).toEqual([990, expect.closeTo((780 * 68.7 + 170 * 78 + 40 * 69) / 990, 9)]);
  });
});

describe('the weight log', () => {
  it('takes a day’s entries below the last, and again the same day over its own', async () => {
    const { workbook, make } = await openEmpty();
    const lines = (weight: number) =>
      logLines(
        [
          { name: 'Wing', current: weight, forecast: weight * 1.1, budget: undefined },
          { name: 'Total', current: weight + 20, forecast: weight * 1.1 + 25, budget: 150 },
        ],
        'as drawn',
      );
    const read = async () => readLog((await readProject(workbook)).values)!;
    await make(newLogSheet());
    await make(logEdits(await read(), '2026-01-10', lines(80)));
    await make(logEdits(await read(), '2026-02-14', lines(82)));
    await make(logEdits(await read(), '2026-02-14', lines(83)));
    const { entries, problems } = await read();
    expect(problems).toEqual([]);
    expect(entries.map(({ date, component, weight, row }) => [date, component, weight, row])).toEqual([
      ['2026-01-10', 'Wing', 80, 5],
      ['2026-01-10', 'Total', 100, 6],
      ['2026-02-14', 'Wing', 83, 7],
      ['2026-02-14', 'Total', 103, 8],
    ]);
    expect(logOf(entries).map(({ note, budget }) => [note, budget])).toEqual([
      ['as drawn', 150],
      ['as drawn', 150],
    ]);
  });

  it('can be made and filled in one step', async () => {
    const { workbook, make } = await openEmpty();
    await make([...newLogSheet(), ...logEdits(undefined, '2026-01-10', [{ component: 'Total', weight: 100 }])]);
    expect(readLog((await readProject(workbook)).values)!.entries).toMatchObject([
      { date: '2026-01-10', component: 'Total', weight: 100, forecast: undefined },
    ]);
    expect(await workbook.undo()).toBe(true);
    expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Sheet1']);
  });
});

it('the allowances say the default figures and where they come from', async () => {
  const { workbook, make } = await openEmpty();
  await make(newAllowancesSheet());
  const { list, own, problems } = readGrowthAllowances((await readProject(workbook)).values);
  expect(list.map(({ status, fraction }) => [status, fraction])).toEqual([
    ['estimated', 0.25],
    ['laid out', 0.15],
    ['released', 0.05],
    ['existing', 0.03],
    ['weighed', 0],
  ]);
  expect([own, problems]).toEqual([false, []]);
  const cells = await workbook.read({ sheet: 'Allowances', row: 0, column: 0, rows: 3, columns: 1 });
  expect(cells.flat().join(' ')).toContain('a rule of thumb from memory, no source seen');
});
