import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix } from '../../src/sheet';

const compare = (...args: Argument[]): Matrix => {
  const result = call(findDefinition('RIVET.COMPARE')!, args);
  return Array.isArray(result) ? result : [[result]];
};
const one = (name: string, ...args: Argument[]): Cell => {
  const result = call(findDefinition(name)!, args);
  return Array.isArray(result) ? result[0]![0]! : result;
};
const PRICES: Matrix = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['MS20470AD4-4', 'rivet', 'lb', '', 30, 'USD', ''],
  ['MS20470AD4-5', 'rivet', 'lb', '', 29, 'USD', ''],
  ['MS20426AD4-4', 'rivet', 'lb', '', 33, 'USD', ''],
  ['BLIND-AA-42', 'rivet', '1000', '', 48, 'USD', ''],
];
const GRIPS = [[0.072], [0.12]];
const DIAMETERS = [[0.125], [0.125]];
const COUNTS = [[700], [500]];

describe('RIVET.COMPARE', () => {
  it('gives what RIVET.PICK, RIVET.WEIGHT and PRICE.BUY give', () => {
    const [solid, blind] = compare(GRIPS, DIAMETERS, COUNTS, [['solid'], ['blind AA 1/8']], PRICES, 12, 2);
    const picks = [one('RIVET.PICK', 'universal', 0.125, 0.072), one('RIVET.PICK', 'universal', 0.125, 0.12)];
    const weight = Number(one('RIVET.WEIGHT', picks[0], 700)) + Number(one('RIVET.WEIGHT', picks[1], 500));
    expect(solid![1]).toBeCloseTo(weight, 12);
    expect(blind![1]).toBeCloseTo(Number(one('RIVET.WEIGHT', 'BLIND-AA-42', 1200)), 12);
    expect(blind![2]).toBeCloseTo(Number(one('RIVET.WEIGHT', 'BLIND-AA-42', 1200, 'bought')), 12);
    expect([solid![3], blind![3]]).toEqual([59, 96]);
    expect(solid!.slice(4, 7)).toEqual([480, 539, 0]);
    expect(blind!.slice(4, 7)).toEqual([480, 576, 37]);
  });

  it('takes a mix by joint, and a row of the joints’ styles as designed', () => {
    const rows = compare(
      GRIPS,
      DIAMETERS,
      COUNTS,
      [
        ['flush', 'blind'],
        ['solid', 'solid'],
      ],
      PRICES,
    );
    expect(rows[0]![3]).toBe(33 + 48);
    expect(rows[0]![0]).toBe(1200);
  });

  it('passes over blank joints and blank options', () => {
    const rows = compare(
      [[0.072], [null], [0.12]],
      [[0.125], [''], [0.125]],
      [[700], [null], [500]],
      [['solid'], [null], ['blind']],
      PRICES,
      0,
      [[1], [null], [0.5]],
    );
    expect(rows[1]!.every((cell) => cell === '')).toBe(true);
    expect(rows[2]![7]).toBeLessThan(0);
  });

  it('never counts a missing price as nothing', () => {
    const [small, solid] = compare(GRIPS, DIAMETERS, COUNTS, [['solid 3/32'], ['solid']], PRICES);
    expect(small![0]).toBe(1200);
    for (const cell of [small![3], small![5], small![6]]) {
      expect(cell).toBeInstanceOf(CellError);
      expect((cell as CellError).message).toMatch(/^prices, item: got "MS20470AD3/);
    }
    expect(solid![5]).toBe(59);
    expect((solid![6] as CellError).message).toContain('first option');
  });

  it('keeps what cannot be done in its row', () => {
    const [solid, blind] = compare([[0.072], [0.6]], DIAMETERS, COUNTS, [['universal'], ['blind']], PRICES);
    expect(solid![0]).toBe(1200);
    expect((blind![0] as CellError).code).toBe('#N/A');
    expect((blind![0] as CellError).message).toMatch(/^grips, row 2: got 0\.6; takes/);
    const [metric] = compare([[1.8], [15]], [[3.175], [3.175]], COUNTS, [['blind']], PRICES, 0, null, 'mm-kg');
    expect((metric![0] as CellError).message).toMatch(/^grips, row 2: got 15; takes/);
  });

  it('works in millimetres and kilograms', () => {
    const inch = compare(GRIPS, DIAMETERS, COUNTS, [['solid']], PRICES, 12);
    const metric = compare(
      GRIPS.map(([g]) => [g! * 25.4]),
      [[3.175], [3.175]],
      COUNTS,
      [['solid']],
      PRICES,
      12,
      undefined,
      'mm-kg',
    );
    expect(metric[0]![1]).toBeCloseTo(Number(inch[0]![1]) * 0.45359237, 9);
    expect(metric[0]![5]).toBe(inch[0]![5]);
  });

  it.each<[string, Argument[], RegExp]>([
    ['lists of unequal length', [GRIPS, [[0.125]], COUNTS, 'solid', PRICES], /diameters/],
    [
      'a mix that is too narrow',
      [[[0.07], [0.07], [0.07]], [[0.125], [0.125], [0.125]], [[1], [1], [1]], [['solid', 'blind']], PRICES],
      /one a joint: 3/,
    ],
    ['as designed', [GRIPS, DIAMETERS, COUNTS, 'as designed', PRICES], /TRANSPOSE/],
    [
      'minutes that are too few',
      [GRIPS, DIAMETERS, COUNTS, [['solid'], ['blind'], ['flush']], PRICES, 0, [[1], [2]]],
      /minutes_each/,
    ],
    ['half a joint', [[[0.072], [null]], DIAMETERS, COUNTS, 'solid', PRICES], /grips, row 2/],
  ])('refuses %s', (_what, args, message) => {
    const [[cell] = []] = compare(...args);
    expect(cell).toBeInstanceOf(CellError);
    expect((cell as CellError).message).toMatch(message);
  });
});
