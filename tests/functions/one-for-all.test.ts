import { describe, expect, it } from 'vitest';
import { findDefinition } from '../../src/functions';
import { call } from '../../src/functions/define';
import { CellError, type Argument } from '../../src/sheet/cell';

const said = (name: string, ...args: Argument[]): unknown => {
  const result = call(findDefinition(name)!, args);
  return result instanceof CellError ? `${result.code} ${result.message}` : result;
};
const SCALES = [[420], [418], [62]];

describe('one cell for a whole column', () => {
  // Three wheels do not stand at one arm, nor do three scales carry the same chocks because one cell says so.
  it.each<[string, string, Argument[]]>([
    ['arms', 'BALANCE.WEIGHING', [SCALES, 0, 8]],
    ['tares', 'BALANCE.WEIGHING', [SCALES, 2, [[8], [8], [200]]]],
    ['readings', 'BALANCE.WEIGHING', [420, 0, [[8], [8], [200]]]],
    ['arms', 'MOMENT', [[[1], [2]], 8]],
    ['arms', 'MOMENT', [[[1], [2]], [[8, 0, 1]]]],
    ['arms', 'CG', [[[1], [2]], 8]],
    ['arms', 'ROLLUP', [[['a'], ['b']], [[1], [2]], 8]],
    ['arms', 'HINGE.MOMENT', [[[1], [2]], 8]],
    ['positions', 'INERTIA', [[[1], [2]], [[8, 0, 1]]]],
    [
      'own',
      'INERTIA',
      [
        [[1], [2]],
        [
          [8, 0, 1],
          [9, 0, 1],
        ],
        [[1, 1, 1]],
      ],
    ],
    ['positions', 'MIRROR', [[[1], [2]], [[8, 0, 1]]]],
    ['weights', 'BUDGET', [[['a'], ['b']], 10, 'weighed', 'a', 12]],
    ['budget_weights', 'BUDGET', [[['a'], ['b']], [[1], [2]], 'weighed', [['a'], ['b']], 12]],
    ['budget_groups', 'BUDGET', [[['a'], ['b']], [[1], [2]], 'weighed', 'a', [[1], [12]]]],
    ['weighed', 'BIAS', [[[1], [2]], 8]],
  ])('is refused for the %s of %s', (parameter, name, args) => {
    expect(said(name, ...args)).toMatch(
      new RegExp(`^#VALUE! ${parameter}: got .*; takes a column of [23] cells, one for each row`),
    );
  });

  it('holds where it can be meant', () => {
    expect(said('BALANCE.WEIGHING', SCALES, 0, [[8], [8], [200]])).toEqual([[900, 19_104 / 900, 19_104]]);
    // Eight equal ribs; two of each; all of one status; one component; one tolerance.
    expect(said('MOMENT', 0.5, [[10], [20], [30]])).toBe(30);
    expect(said('MOMENT', [[1], [2]], [[10], [20]], 2)).toBe(100);
    expect(said('ROLLUP', 'Wing', [[1], [2]], [[10], [20]])).toHaveLength(2);
    expect(said('ROLLUP.BAND', 'Wing', [[1], [2]], 0.04, 1)).toHaveLength(2);
    expect(said('BUDGET', [['a'], ['a']], [[1], [2]], 'weighed', 'a', 4)).toEqual([
      ['a', 3, 3, 4, 1, 25, 100],
      ['Total', 3, 3, 4, 1, 25, 100],
    ]);
    expect(
      said(
        'INERTIA',
        1,
        [
          [1, 0, 0],
          [-1, 0, 0],
        ],
        [[1, 1, 1]],
      ),
    ).toMatchObject([[2, 0, 0, 0, 2, 4, 4, 0, 0, 0]]);
    expect(said('BIAS', 1, [[1.1], [0.9]])).toMatchObject([[2, 2, 2, 0, expect.any(Number)]]);
  });
});

describe('a row that is a sum', () => {
  it.each([
    [
      'Total',
      'ROLLUP',
      [
        [['Wing'], ['total ']],
        [[1], [1]],
        [[1], [1]],
      ],
    ],
    [
      'Subtotal wing',
      'ROLLUP',
      [
        [['Wing'], ['Subtotal wing']],
        [[1], [1]],
        [[1], [1]],
      ],
    ],
    ['Grand total', 'BUDGET', [[['Wing'], ['Grand total']], [[1], [1]], 'weighed', 'Wing', 1]],
    ['Total', 'ROLLUP.BAND', [[['Wing'], ['TOTAL']], [[1], [1]], 0, 1]],
  ] as [string, string, Argument[]][])('%s is refused by %s, which would count it twice', (_name, name, args) => {
    expect(said(name, ...args)).toMatch(
      /^#VALUE! groups, row 2: got ".*"; takes the name of a component\. That row is a sum/,
    );
  });
  it('a part may have the word in its name', () => {
    expect(said('ROLLUP', 'Total pressure line', [[1], [2]], [[1], [1]])).toHaveLength(2);
  });
});
