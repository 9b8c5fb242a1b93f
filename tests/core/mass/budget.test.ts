import { describe, expect, it } from 'vitest';
import { NotListedError } from '../../../src/core/input-error';
import {
  budget,
  evenStations,
  forecastWeight,
  GROWTH_ALLOWANCES,
  growthAllowance,
  isWeighed,
  STATUSES,
} from '../../../src/core/mass';

describe('growth', () => {
  it.each([
    ['estimated', 0.25],
    ['laid out', 0.15],
    ['released', 0.05],
    ['existing', 0.03],
    ['weighed', 0],
  ])('%s: %f', (status, fraction) => expect(growthAllowance(status)).toBe(fraction));
  it('has an allowance for every status', () => expect(GROWTH_ALLOWANCES.map((one) => one.status)).toEqual(STATUSES));
  it('reads a status in any case, and "layout"', () => {
    expect(growthAllowance(' Weighed ')).toBe(0);
    expect(growthAllowance('Layout')).toBe(0.15);
    expect(growthAllowance('laid-out')).toBe(0.15);
    expect(isWeighed('WEIGHED')).toBe(true);
  });
  it('names the statuses it knows', () => {
    expect(() => growthAllowance('finished')).toThrow(NotListedError);
    expect(() => growthAllowance('finished')).toThrow(
      'status: got "finished"; takes "estimated", "laid out", "released", "existing", "weighed"',
    );
  });
  it('uses a table of your own', () =>
    expect(forecastWeight(10, 'drawn', [{ status: 'Drawn', fraction: 0.1 }])).toBeCloseTo(11, 12));
});

describe('budget', () => {
  const parts = [
    { group: 'Wing', weight: 40, status: 'weighed' },
    { group: 'wing', weight: 10, status: 'estimated' },
    { group: 'Canopy', weight: 8, status: '' },
  ];
  const goals = [
    { group: 'Tail', weight: 20 },
    { group: 'Wing', weight: 60 },
  ];

  it('lists the budget in its order, then what has none, then the total', () => {
    expect(budget(parts, goals).map((line) => line.group)).toEqual(['Tail', 'Wing', 'Canopy', 'Total']);
  });
  it('has current, forecast, margin and weighed share', () => {
    expect(budget(parts, goals)[1]).toEqual({
      group: 'Wing',
      current: 50,
      forecast: 52.5,
      budget: 60,
      margin: 7.5,
      marginPercent: 12.5,
      weighedPercent: 80,
    });
  });
  it('gives no margin where there is no budget, and no weighed share where there is no weight', () => {
    const [tail, , canopy] = budget(parts, goals);
    expect(canopy).toMatchObject({
      forecast: 10,
      budget: undefined,
      margin: undefined,
      marginPercent: undefined,
      weighedPercent: 0,
    });
    expect(tail).toMatchObject({ current: 0, margin: 20, weighedPercent: undefined });
  });
  it('counts weight without a budget against the total margin', () => {
    expect(budget(parts, goals).at(-1)).toMatchObject({ current: 58, forecast: 62.5, budget: 80, margin: 17.5 });
  });
  it('adds budget lines of one name', () =>
    expect(
      budget(
        [],
        [
          { group: 'A', weight: 1 },
          { group: 'a', weight: 2 },
        ],
      )[0],
    ).toMatchObject({ group: 'A', budget: 3 }));
});

describe('stations', () => {
  it('are spaced evenly, both ends as given', () => {
    expect(evenStations(10, 40, 4)).toEqual([10, 20, 30, 40]);
    expect(evenStations(0, 0.3, 4).at(-1)).toBe(0.3);
    expect(evenStations(40, 10, 3)).toEqual([40, 25, 10]);
  });
  it('of one is the first', () => expect(evenStations(5, 9, 1)).toEqual([5]));
});
