import { describe, expect, it } from 'vitest';
import { CellError } from '../../src/sheet';
import { ALLOWANCES, BUDGET, LOG, logOf, movedSince, PARTS, weightsModel, withBias } from '../../src/project';
import { sheet, valuesOf } from './sheets';

const parts = sheet(PARTS, [
  {
    component: 'Wing',
    part: 'skin',
    quantity: 2,
    material: '6061-T6',
    thickness: 0.025,
    area: 1000,
    status: 'released',
    weight: 4.877,
    arm: 80,
    tolerance: 0.05,
  },
  { component: 'Wing', part: 'spar', quantity: 1, each: 10, weighed: 10.3, status: 'weighed', weight: 10.3, arm: 75 },
  {
    component: 'WING',
    part: 'ribs',
    quantity: 10,
    each: 0.3,
    weighed: 3.12,
    status: 'weighed',
    weight: 3.12,
    arm: 78,
    tolerance: '1%',
  },
  { component: 'Tail', part: 'fin', quantity: 1, each: 4, status: '', weight: 4, arm: 200, tolerance: 10 },
]);
const budget = sheet(BUDGET, [
  { component: 'Wing', budget: 18 },
  { component: 'Tail', budget: 4.5 },
]);
const model = weightsModel(valuesOf({ Parts: parts, Budget: budget }))!;

describe('components', () => {
  it('stand against the budget with growth by status, and say which rows they are', () => {
    const [wing, tail] = model.components;
    expect(wing).toMatchObject({ name: 'Wing', budget: 18, rows: [2, 3, 4] });
    expect(wing!.current).toBeCloseTo(18.297, 9);
    expect(wing!.forecast).toBeCloseTo(4.877 * 1.05 + 13.42, 9);
    expect(wing!.margin).toBeCloseTo(18 - wing!.forecast, 9);
    expect(wing!.weighedPercent).toBeCloseTo((100 * 13.42) / 18.297, 9);
    // A blank status is the least that can be known: estimated, 25 %.
    expect(tail).toMatchObject({ current: 4, forecast: 5, budget: 4.5, margin: -0.5, rows: [5] });
    expect(model.total).toMatchObject({ name: 'Total', budget: 22.5, rows: [2, 3, 4, 5] });
  });

  it('name all of their rows, also those of which no weight is known', () => {
    const withoutWeights = sheet(PARTS, [
      { component: 'Wing', part: 'skin', quantity: 2, weight: 4.877, arm: 80 },
      { component: 'Wing', part: 'not calculated yet', quantity: 1 },
      { component: 'wing', part: 'in error', quantity: 1, weight: new CellError('#VALUE!') },
    ]);
    const { components, total } = weightsModel(valuesOf({ Parts: withoutWeights }))!;
    expect(components.map(({ name, rows }) => [name, rows])).toEqual([['Wing', [2, 3, 4]]]);
    expect(total).toMatchObject({ current: 4.877, rows: [2, 3, 4] });
  });

  it('carry the rows’ tolerances: root of the squares, and all the same way', () => {
    const [skin, ribs, fin] = [4.877 * 0.05, 3.12 * 0.01, 4 * 0.1];
    expect(model.components[0]!.rootSum).toBeCloseTo(Math.hypot(skin, ribs), 9);
    expect(model.components[0]!.worst).toBeCloseTo(skin + ribs, 9);
    expect(model.components[1]!.rootSum).toBeCloseTo(fin, 9);
    expect(model.tolerancedPercent).toBeCloseTo((100 * (4.877 + 3.12 + 4)) / 22.297, 9);
  });

  it('have no budget, and the total none, where there is no budget sheet', () => {
    const { components, total } = weightsModel(valuesOf({ Parts: parts }))!;
    expect([...components, total].map((one) => one.budget)).toEqual([undefined, undefined, undefined]);
  });
});

describe('heaviest parts', () => {
  it('come with their share and what they are together', () => {
    expect(model.heaviest.map(({ part, row }) => [part, row])).toEqual([
      ['spar', 3],
      ['skin', 2],
      ['fin', 5],
      ['ribs', 4],
    ]);
    expect(model.heaviest.at(-1)!.together).toBeCloseTo(100, 9);
    expect(model.heaviest[1]!.together).toBeCloseTo((100 * 15.177) / 22.297, 9);
  });
});

describe('the scale against the list', () => {
  it('gives each part’s difference and the bias of all', () => {
    expect(model.differences.map(({ part, computed, weighed }) => [part, computed, weighed])).toEqual([
      ['spar', 10, 10.3],
      ['ribs', 3, 3.12],
    ]);
    expect(model.bias!.fraction).toBeCloseTo(13.42 / 13 - 1, 12);
  });

  it('computes a sheet part from its area, thickness and material', () => {
    const { differences } = weightsModel(
      valuesOf({
        Parts: sheet(PARTS, [
          {
            component: 'a',
            part: 'b',
            quantity: 2,
            material: '6061-T6',
            thickness: 0.025,
            area: 1000,
            weighed: 5,
            weight: 5,
            status: 'weighed',
          },
        ]),
      }),
    )!;
    // 50 in³ of 2.70 g/cm³: 2.70 × 2.54³ / 453.59237 lb/in³.
    expect(differences[0]!.computed).toBeCloseTo((50 * 2.7 * 2.54 ** 3) / 453.59237, 9);
  });

  it('applies the bias to what has not been weighed, and to nothing else', () => {
    const [wing, tail, total] = withBias(model);
    const ratio = 13.42 / 13;
    expect(wing!.weight).toBeCloseTo(13.42 + 4.877 * ratio, 9);
    expect(tail!.weight).toBeCloseTo(4 * ratio, 9);
    expect(total!.weight).toBeCloseTo(wing!.weight + tail!.weight, 9);
    expect(
      withBias(weightsModel(valuesOf({ Parts: sheet(PARTS, [{ component: 'a', part: 'b', weight: 1 }]) }))!),
    ).toEqual([]);
  });
});

describe('allowances of the project’s own', () => {
  const withAllowances = (rows: readonly Record<string, number | string>[]) =>
    weightsModel(valuesOf({ Parts: parts, Budget: budget, Allowances: sheet(ALLOWANCES, rows) }))!;

  it('replace the default, and leave it where they say nothing', () => {
    const own = withAllowances([
      { status: 'estimated', growth: 0.5 },
      { status: 'released', growth: '10%' },
    ]);
    expect(own.components[1]!.forecast).toBeCloseTo(6, 9);
    expect(own.components[0]!.forecast).toBeCloseTo(4.877 * 1.1 + 13.42, 9);
    expect([own.allowances.own, own.problems]).toEqual([true, []]);
  });

  it('name the header that is repeated further down', () => {
    const labels = Object.fromEntries(ALLOWANCES.columns.map(({ key, label }) => [key, label]));
    expect(withAllowances([{ status: 'estimated', growth: 0.5 }, labels]).problems).toEqual([
      { sheet: 'Allowances', cell: 'A4', message: 'repeats the header: the row is left out' },
    ]);
  });

  it('refuse per cent typed as a whole number, with a guess', () => {
    const { problems, components } = withAllowances([{ status: 'estimated', growth: 25 }]);
    expect(problems).toEqual([
      {
        sheet: 'Allowances',
        cell: 'B3',
        message:
          'got 25; takes per cent from 0% to 200%. 25 looks like per cent: write 25%. The default allowance is used',
      },
    ]);
    expect(components[1]!.forecast).toBeCloseTo(5, 9);
  });
});

describe('problems', () => {
  it('are named by sheet and cell, and the rest still counts', () => {
    const { problems, total } = weightsModel(
      valuesOf({
        Parts: sheet(PARTS, [
          { component: 'a', part: 'b', weight: new CellError('#N/A', 'material: got "606"'), status: 'released' },
          { component: 'a', part: 'c', weight: 2, status: 'drawn' },
          { component: 'a', part: 'd', weight: 1, weighed: 1, status: 'laid out' },
          { component: 'a', part: 'e', weight: 1, tolerance: 0.5, status: 'released' },
        ]),
        Budget: sheet(BUDGET, [{ component: 'a', budget: 'ten' }]),
      }),
    )!;
    expect(total.current).toBe(4);
    expect(problems.map(({ sheet: name, cell, message }) => `${name}!${cell} ${message}`)).toEqual([
      'Parts!M3 is #N/A and is left out of the sum: material: got "606"',
      'Parts!P6 got 0.5; takes per cent from 0% to 30%. 0.5 reads as 50 %: write 0.5% if that is meant',
      'Parts!J4 got "drawn"; takes estimated, laid out, released, existing, weighed. It counts as estimated',
      'Parts!J5 is "laid out" though the row has been weighed: growth is still added to it',
      'Budget!B3 got "ten"; takes pounds, 0 or more',
    ]);
  });
});

describe('the log', () => {
  const log = sheet(LOG, [
    { date: '2026-01-10', component: 'Total', weight: 20, forecast: 25, budget: 30 },
    { date: 46032, component: 'Wing', weight: 15 },
    { date: '2026-02-14', component: '', weight: 21 },
    { date: '2026-02-14', component: 'Total', weight: 22 },
    { date: '2026-02-14', component: 'wing', weight: 16 },
    { date: 'soon', component: 'Total', weight: 23 },
    { date: '2026-03-01', component: 'Tail' },
  ]);
  const { log: read, problems, components, total } = weightsModel(valuesOf({ Parts: parts, Log: log }))!;

  it('is read by date; a blank component is the total, and the last of a day counts', () => {
    expect(logOf(read!.entries).map(({ date, weight }) => [date, weight])).toEqual([
      ['2026-01-10', 20],
      ['2026-02-14', 22],
    ]);
    expect(logOf(read!.entries, 'Wing').map(({ date, weight }) => [date, weight])).toEqual([
      ['2026-01-10', 15],
      ['2026-02-14', 16],
    ]);
  });

  it('names a row without date or weight', () => {
    expect(problems.map(({ cell, message }) => `${cell} ${message}`)).toEqual([
      'A8 got "soon"; takes a date, or year-month-day as 2026-03-31',
      'C9 is blank; takes pounds, 0 or more',
    ]);
  });

  it('tells what moved since a day, the largest change first', () => {
    const moved = movedSince(read!.entries, [...components, total], '2026-01-31');
    expect(moved.map(({ component, since, before }) => [component, since, before])).toEqual([
      ['Wing', '2026-01-10', 15],
      ['Total', '2026-01-10', 20],
    ]);
    expect(moved[0]!.by).toBeCloseTo(3.297, 9);
  });
});

it('gives nothing without a parts list', () => {
  expect(weightsModel(valuesOf({}))).toBeUndefined();
});
