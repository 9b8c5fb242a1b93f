import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RollUpSum, Tally, type Point, type RollUp } from '../../../src/core/mass';

interface MassRow {
  readonly group: string;
  readonly weight: number;
  readonly at: Point;
  readonly quantity?: number;
}

function rollUp(rows: readonly MassRow[]): RollUp {
  const sum = new RollUpSum();
  for (const { group, weight, at, quantity = 1 } of rows) sum.add(group, weight * quantity, at[0], at[1], at[2]);
  return sum.result();
}

const part = (group: string, weight: number, x: number, quantity?: number): MassRow => ({
  group,
  weight,
  at: [x, 0, 0],
  ...(quantity === undefined ? {} : { quantity }),
});

describe('rolling up', () => {
  it('keeps groups in order of first appearance and adds what belongs together', () => {
    const { groups, total } = rollUp([part('Spar', 2, 10), part('Ribs', 1, 20, 3), part('Spar', 2, 14)]);
    expect(groups.map(({ group, weight, center }) => [group, weight, center?.[0]])).toEqual([
      ['Spar', 4, 12],
      ['Ribs', 3, 20],
    ]);
    expect(total).toMatchObject({ group: 'Total', weight: 7, moment: [108, 0, 0] });
  });

  it('takes names that differ in case or outer blanks as one, in the first spelling', () => {
    expect(rollUp([part('Wing tip', 1, 0), part(' wing TIP ', 1, 0)]).groups.map((one) => one.group)).toEqual([
      'Wing tip',
    ]);
  });

  it('gathers rows without a group', () => {
    expect(rollUp([part('', 1, 0), part('  ', 2, 0)]).groups).toMatchObject([{ group: '(no group)', weight: 3 }]);
  });

  it('has no arm where the weights cancel, also when rounding leaves a crumb', () => {
    const { groups, total } = rollUp([part('A', 0.1, 5), part('A', 0.2, 5), part('A', -0.3, 5)]);
    expect(groups[0]!.center).toBeUndefined();
    expect(total.center).toBeUndefined();
  });

  it('takes weight off with a negative one', () => {
    expect(rollUp([part('A', 10, 4), part('A', -4, 10)]).total.center).toEqual([0, 0, 0]);
  });

  it('of nothing is nothing', () =>
    expect(rollUp([])).toMatchObject({ groups: [], total: { weight: 0, center: undefined } }));
});

describe('any list', () => {
  const rows = fc.array(
    fc.record({
      group: fc.constantFrom('A', 'B', 'C'),
      weight: fc.integer({ min: 1, max: 1000 }),
      x: fc.integer({ min: -500, max: 500 }),
      quantity: fc.integer({ min: 1, max: 20 }),
    }),
    { minLength: 1 },
  );

  it('totals to the sum of its groups, and its centre lies within its arms', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const { groups, total } = rollUp(
          list.map(({ group, weight, x, quantity }) => part(group, weight, x, quantity)),
        );
        expect(groups.reduce((sum, one) => sum + one.weight, 0)).toBe(total.weight);
        expect(groups.reduce((sum, one) => sum + one.moment[0], 0)).toBe(total.moment[0]);
        const arms = list.map((one) => one.x);
        expect(total.center![0]).toBeGreaterThanOrEqual(Math.min(...arms) - 1e-9);
        expect(total.center![0]).toBeLessThanOrEqual(Math.max(...arms) + 1e-9);
      }),
    );
  });

  it('does not change when a quantity is written out as rows', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const short = rollUp(list.map(({ group, weight, x, quantity }) => part(group, weight, x, quantity)));
        const long = rollUp(
          list.flatMap(({ group, weight, x, quantity }) =>
            Array.from({ length: quantity }, () => part(group, weight, x)),
          ),
        );
        expect(long).toEqual(short);
      }),
    );
  });

  it('moves its centre with the datum', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: -300, max: 300 }), (list, shift) => {
        const at = (by: number): number =>
          rollUp(list.map(({ group, weight, x }) => part(group, weight, x + by))).total.center![0];
        expect(at(shift) - at(0)).toBeCloseTo(shift, 9);
      }),
    );
  });
});

describe('the sum', () => {
  it('merges tallies as if their rows had been added to one', () => {
    const [one, other, both] = [new Tally(), new Tally(), new Tally()];
    for (const tally of [one, both]) tally.add(2, 3, 4, 5);
    for (const tally of [other, both]) tally.add(-1, 7, -2, 1);
    one.merge(other);
    expect(one).toEqual(both);
  });

  it('of 100,000 rows is that of a hand-written loop', () => {
    const count = 100_000;
    const list = Array.from({ length: count }, (_, i) => part(`Group ${i % 40}`, (i % 97) / 10, i % 211, (i % 4) + 1));
    const byHand = (): number => {
      const groups = new Map<string, { weight: number; x: number; y: number; z: number }>();
      for (const { group, weight, at, quantity } of list) {
        let sum = groups.get(group);
        if (!sum) groups.set(group, (sum = { weight: 0, x: 0, y: 0, z: 0 }));
        const all = weight * (quantity ?? 1);
        sum.weight += all;
        sum.x += all * at[0];
        sum.y += all * at[1];
        sum.z += all * at[2];
      }
      return groups.size;
    };
    expect(rollUp(list).groups.length).toBe(byHand());
    const sum = new RollUpSum();
    for (const { group, weight, at, quantity = 1 } of list) sum.add(group, weight * quantity, at[0]);
    expect(sum.result()).toEqual(rollUp(list));
  });
});
