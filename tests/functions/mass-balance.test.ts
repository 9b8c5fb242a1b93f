/** Columns as a parts list has them: blank rows, places of errors, units, and what the messages say. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix, type Result } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): Result => call(findDefinition(name)!, args);
const message = (result: unknown): string => (result as CellError).message;
const column = (...values: (number | string | null)[]): Matrix => values.map((value) => [value]);

describe('parts lists', () => {
  it('skip blank rows, however a host hands them over', () => {
    for (const blank of ['', null]) {
      expect(tare('MOMENT', column(2, blank, 3), column(10, blank, 20))).toBe(80);
      expect(tare('CG', column(2, blank, 2), column(10, 99, 20))).toBe(15);
      expect(tare('ROLLUP', column('A', blank, 'A'), column(1, blank, 2), column(3, blank, 6))).toEqual([
        ['A', 3, 5, 15],
        ['Total', 3, 5, 15],
      ]);
    }
    expect(tare('ROLLUP', column('A', 0, 'A'), column(1, 0, 2), column(3, 0, 6), column(1, 0, 1))).toEqual([
      ['A', 3, 5, 15],
      ['Total', 3, 5, 15],
    ]);
    expect(tare('ROLLUP', column('', ''), column('', ''), column('', ''))).toBe('');
  });

  it('name the row of an arm that is missing beside a weight', () => {
    expect(message(tare('MOMENT', column(2, 3), column(10, '')))).toBe(
      'arms, row 2: got a blank; takes an arm wherever there is a weight',
    );
    expect(
      message(
        tare('ROLLUP', column('A', 'B'), column(2, 3), [
          [1, 2, 3],
          [null, null, null],
        ]),
      ),
    ).toContain('arms, row 2');
    expect(
      message(
        tare('INERTIA', column(2, 3), [
          [1, 2, 3],
          ['', '', ''],
        ]),
      ),
    ).toContain('positions, row 2: got a blank; takes three arms');
    expect(
      message(
        tare('INERTIA', column(2, 3), [
          [1, 2, 3],
          [1, '', 3],
        ]),
      ),
    ).toContain('positions, row 2: got a blank; takes inches');
  });

  it('name the row of a quantity that is missing, a text, an error', () => {
    expect(message(tare('MOMENT', column(2, 3), column(1, 1), column(4, '')))).toContain(
      'quantities, row 2: got a blank; takes a number of pieces',
    );
    expect(message(tare('CG', column(2, 'heavy'), column(1, 1)))).toContain(
      'weights, row 2: got "heavy"; takes pounds',
    );
    expect(message(tare('CG', [[2], [new CellError('#N/A')]], column(1, 1)))).toContain('weights, row 2: got "#N/A"');
  });

  it('say which columns differ in length', () => {
    expect(message(tare('ROLLUP', column('A', 'A', 'B'), column(1, 2), column(1, 2, 3)))).toBe(
      'arms: got 3 × 1 cells; takes one cell, or as many rows as weights, which has 2',
    );
  });

  it('take one cell for every row', () => {
    expect(tare('MOMENT', 2.5, column(10, 20, '', 30))).toBe(150);
    // Three weights at one arm are hardly meant: a list of arms was forgotten.
    expect(tare('MOMENT', column(1, 2, 3), 10, 2)).toMatchObject({ code: '#VALUE!' });
    expect(tare('MOMENT', column(1, 2, 3), column(10, 10, 10), 2)).toBe(120);
    expect(tare('CG', [[1, 2, 3]], [[10, 20, 30]])).toBeCloseTo(140 / 6, 12);
  });

  it('gather rows without a group, and have no arm where weights cancel', () => {
    expect(tare('ROLLUP', column('A', '', 'A'), column(2, 5, -2), column(1, 2, 3))).toEqual([
      ['A', 0, '', -4],
      ['(no group)', 5, 2, 10],
      ['Total', 5, 1.2, 6],
    ]);
    expect(message(tare('CG', column(1, -1), column(1, 2)))).toContain(
      'weights: got 2 × 1 cells; takes weights whose sum is not 0',
    );
  });

  it('convert every column of the result', () => {
    const [row] = tare('ROLLUP', 'A', 0.45359237, [[25.4, 50.8, -25.4]], null, 'mm-kg') as Matrix;
    expect(row!.slice(1).map((one) => Number((one as number).toPrecision(9)))).toEqual([
      0.45359237, 25.4, 11.5212462, 50.8, 23.0424924, -25.4, -11.5212462,
    ]);
    const [inertia] = tare(
      'INERTIA',
      column(1, 1),
      [
        [0, 0, 0],
        [100, 0, 0],
      ],
      null,
      null,
      'mm-kg',
    ) as Matrix;
    expect(inertia![5]).toBeCloseTo(2 * 50 ** 2, 6);
  });
});

describe('bands, growth, budget and bias', () => {
  it('takes tolerances in pounds, and kilograms where the units say so', () => {
    expect(tare('ROLLUP.BAND', 'A', 10, 0.5, 4, null, 'weight')).toEqual([
      ['A', 40, 2, 2],
      ['Total', 40, 2, 2],
    ]);
    const [row] = tare('ROLLUP.BAND', 'A', 10, 0.5, 4, null, 'weight', 'mm-kg') as Matrix;
    expect(row!.slice(1).map((one) => Number((one as number).toFixed(9)))).toEqual([40, 2, 2]);
  });
  it('guesses at per cent', () => {
    expect(message(tare('ROLLUP.BAND', 'A', 10, 5))).toBe(
      'tolerances, row 1: got 5; takes fractions from 0 to 1. 5 looks like per cent: write 5% or 0.05',
    );
    expect(message(tare('GROWTH', 10, 'mine', [['mine', 25]]))).toContain('25 looks like per cent: write 25% or 0.25');
  });
  it('a status that is not listed is #N/A and names those that are', () => {
    const result = tare('GROWTH', column(1, 2), column('weighed', 'done')) as Matrix;
    expect(result[0]).toEqual([1]);
    expect((result[1]![0] as CellError).code).toBe('#N/A');
    expect(message(result[1]![0])).toContain('status: got "done"; takes "estimated", "laid out"');
  });
  it('a budget names the row of a status that is not listed', () => {
    expect(message(tare('BUDGET', column('A', 'A'), column(1, 2), column('weighed', 'done'), 'A', 5))).toContain(
      'statuses, row 2: got "done"; takes "estimated", "laid out"',
    );
  });
  it('a long table of allowances does not drown the message', () => {
    const table = Array.from({ length: 60 }, (_, row): Cell[] => [`${row} ${'x'.repeat(500)}`, 0.1]);
    const said = message(tare('GROWTH', 10, 'mine', table));
    expect(said).toContain('and 52 more');
    expect(said.length).toBeLessThan(500);
  });
  it('reads allowances with a header, per cent as text, and refuses an empty table', () => {
    expect(
      tare('GROWTH', 10, 'Mine', [
        ['Status', 'Growth'],
        ['mine', '12%'],
      ]),
    ).toBeCloseTo(11.2, 12);
    expect(
      message(
        tare('GROWTH', 10, 'mine', [
          ['status', 'growth'],
          ['', ''],
        ]),
      ),
    ).toContain('allowances');
    expect(
      message(
        tare('GROWTH', 10, 'mine', [
          ['mine', 0.1],
          ['other', 'much'],
        ]),
      ),
    ).toContain('allowances, row 2: got "much"');
  });
  it('a budget counts a blank status as estimated', () => {
    expect((tare('BUDGET', column('A', ''), column(10, ''), column('', ''), 'A', 15) as Matrix)[0]).toEqual([
      'A',
      10,
      12.5,
      15,
      2.5,
      expect.closeTo(50 / 3, 9),
      0,
    ]);
  });
  it('a bias leaves out parts that have not been weighed', () => {
    const [row] = tare('BIAS', column(10, 10, 5, 7), column(10.2, 10.4, '', 0)) as Matrix;
    expect(row!.slice(0, 3)).toEqual([2, 20, 20.6]);
    expect(message(tare('BIAS', column(10), column('')))).toContain('weighed: got');
  });
});

describe('inertia helpers', () => {
  it('leave blank rows blank and name what is missing', () => {
    expect(tare('INERTIA.PLATE', column(12, ''), 3, 4, 0)).toEqual([
      [16, 9, 25],
      ['', '', ''],
    ]);
    expect(message(tare('INERTIA.ROD', column(1, 1), column(1, ''), 'x'))).toContain('lengths, row 2: got a blank');
    expect(message(tare('INERTIA.ROD', 1, 1, 'w'))).toContain('axes, row 1: got "w"; takes "x", "y" or "z"');
    expect(message(tare('INERTIA.TUBE', 1, 10, 1, 0.6, 'x'))).toContain('walls');
  });
  it('feed TARE.INERTIA as they spill, blank rows and all', () => {
    const own = tare('INERTIA.PLATE', column(12, '', 12), 3, 4, 0);
    expect(
      (
        tare(
          'INERTIA',
          column(12, '', 12),
          [
            [0, 0, 0],
            ['', '', ''],
            [0, 0, 0],
          ],
          own as Matrix,
        ) as Matrix
      )[0]!.slice(4, 7),
    ).toEqual([32, 18, 50]);
  });
  it('a mirrored list feeds TARE.INERTIA', () =>
    expect(
      tare(
        'MIRROR',
        column(1, '', 2),
        [
          [1, 2, 3],
          ['', '', ''],
          [4, 0, 1],
        ],
        column('single', '', 'pair'),
      ),
    ).toEqual([
      [1, 1, 2, 3],
      [2, 4, 0, 1],
      [2, 4, 0, 1],
    ]));
});

const CORNERS: Matrix = [
  ['arm', 'weight'],
  [35, 1000],
  [47, 1000],
  [47, 2100],
  [41, 2100],
  [35, 1600],
  ['', ''],
];

describe('limits', () => {
  it('take a header row and blank rows in the envelope, also as 0 and 0', () => {
    expect(tare('BALANCE.LIMITS', 1850, CORNERS)).toEqual([[38, 47]]);
    expect(tare('BALANCE.LIMITS', 1850, [...CORNERS.slice(1, 6), [0, 0]])).toEqual([[38, 47]]);
  });
  it('outside the envelope’s weights say its range, in the user’s units', () => {
    expect(message(tare('BALANCE.LIMITS', 900, CORNERS))).toBe(
      'weight: got 900; takes a weight in the envelope’s range, 1,000.0 lb to 2,100.0 lb',
    );
    const metric = [
      [900, 450],
      [1200, 450],
      [1200, 950],
      [900, 950],
    ];
    expect(message(tare('BALANCE.LIMITS', 400, metric, 'mm-kg'))).toBe(
      'weight: got 400; takes a weight in the envelope’s range, 450.0 kg to 950.0 kg',
    );
  });
  it('in a column only the bad rows are errors', () => {
    const result = tare('BALANCE.LIMITS', column(1850, '', 900), CORNERS) as Matrix;
    expect(result.slice(0, 2)).toEqual([
      [38, 47],
      ['', ''],
    ]);
    expect(message(result[2]![0])).toContain('weight: got 900');
  });
  it('name the row and the column of a bad corner', () => {
    expect(
      message(
        tare('BALANCE.INSIDE', 1500, 40, [
          [35, 1000],
          [47, ''],
          [47, 2100],
        ]),
      ),
    ).toBe('envelope, row 2: got a blank; takes weight in pounds above 0 and up to 1000000');
    expect(message(tare('BALANCE.INSIDE', 1500, 40, [[35, 1000, 1]]))).toContain(
      'envelope: got 1 × 3 cells; takes two columns, arm (in) and weight (lb)',
    );
    expect(
      message(
        tare('BALANCE.INSIDE', 1500, 40, [
          [35, 1000],
          [47, 2000],
          [47, 1000],
          [35, 2000],
        ]),
      ),
    ).toContain('crosses');
  });
  it('are judged in words, in the user’s units', () => {
    expect(tare('BALANCE.JUDGE', 1850, 36.5, CORNERS)).toBe(
      'outside: 1.50 in forward of the forward limit, 38.00 in at 1,850.0 lb',
    );
    const metric = [
      [900, 450],
      [1200, 450],
      [1200, 950],
      [900, 950],
    ];
    expect(tare('BALANCE.JUDGE', 700, 1212.5, metric, 'mm-kg')).toBe(
      'outside: 12.5 mm aft of the aft limit, 1,200.0 mm at 700.0 kg',
    );
    expect(tare('BALANCE.INSIDE', column(700, 960), 1000, metric, 'mm-kg')).toEqual([[true], [false]]);
  });
});

describe('weighing, ballast and hinges', () => {
  it('a reading under its tare is refused in the user’s units', () => {
    expect(message(tare('BALANCE.WEIGHING', column(300, 2), column(0, 3), column(10, 90), 'mm-kg'))).toBe(
      'readings, row 2: got 2; takes a reading no less than its tare, 3.0 kg',
    );
    expect(message(tare('BALANCE.WEIGHING', column(300, 20), 0, column(10, '')))).toContain(
      'arms, row 2: got a blank; takes an arm for each reading',
    );
  });
  it('ballast on the wrong side says which side is right', () => {
    expect(message(tare('BALANCE.BALLAST', 1876, 32.2, 33, 20))).toBe(
      'ballast_arm: got 20; takes an arm aft of the target, 33.00 in, since the balance must move aft',
    );
    expect(message(tare('BALANCE.BALLAST', 1876, 34, 33, 33))).toContain('an arm forward of the target');
    expect(tare('BALANCE.BALLAST', 1876, 33, 33, 20)).toBe(0);
  });
  it('a hinge moment needs a distance for each weight', () => {
    expect(tare('HINGE.MOMENT', column(3, '', 2), column(4, '', -5))).toBe(2);
    expect(message(tare('HINGE.MOMENT', column(3, 2), column(4, '')))).toContain('arms, row 2');
  });
});
