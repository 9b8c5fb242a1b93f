/** What the families of areas, airfoils and bends add to the core: cells, headings, units. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]) => call(findDefinition(name)!, args);
const message = (result: unknown): string => (result as CellError).message;

describe('airfoil outlines from cells', () => {
  const points = tare('AIRFOIL.POINTS', '2412', 1, 41) as Matrix;
  const area = tare('AIRFOIL.AREA', '2412', 48) as number;

  it('takes two columns of coordinates, with a heading or the name of the file ahead', () => {
    for (const cells of [
      points,
      [['x', 'y'], ...points],
      [['NACA 2412', ''], ...points],
      [['', ''], ['SOME 12 %', null], ...points],
    ] as Matrix[]) {
      expect(Math.abs((tare('AIRFOIL.AREA', cells, 48) as number) / area - 1)).toBeLessThan(1e-5);
    }
  });

  it('names the row of a cell that is no number', () => {
    const spoiled = points.map((row, i) => (i === 6 ? [row[0]!, 'x'] : row));
    expect(message(tare('AIRFOIL.AREA', spoiled, 48))).toContain('outline, row 7: got "x"');
  });

  it('takes a column of designations beside a column of chords, and errs in its own row only', () => {
    const result = tare('AIRFOIL.HEIGHT', [['2412'], ['Clark'], ['']], [[48], [48], ['']], 0.3) as Matrix;
    expect(result[0]![0]).toBeCloseTo(5.76341, 5);
    expect(message(result[1]![0])).toContain('outline: got "Clark"; takes a NACA 4- or 5-digit section');
    expect(result[2]![0]).toBe('');
  });

  it('takes a designation that the sheet made a number of, zeros lost', () => {
    expect(tare('AIRFOIL.AREA', 12, 48)).toBe(tare('AIRFOIL.AREA', '0012', 48));
    expect(tare('AIRFOIL.AREA', 2412, 48)).toBe(area);
    expect(tare('AIRFOIL.POINTS', [['0012']], 10)).toHaveLength(41);
  });

  it('gives points for AREA.POLYGON', () => {
    const fine = tare('AIRFOIL.POINTS', '2412', 48, 201) as Matrix;
    expect(Math.abs((tare('AREA.POLYGON', fine) as number) / area - 1)).toBeLessThan(1e-4);
    expect(tare('AIRFOIL.POINTS', '2412', 48, 11, 'lists')).toHaveLength(22);
  });

  it('scales in millimetres', () => {
    expect(tare('AIRFOIL.GIRTH', '2412', 1219.2, null, null, null, 'mm-kg')).toBeCloseTo(97.98728 * 25.4, 3);
    expect((tare('AIRFOIL.POINTS', '0012', 1000, 3, null, 'mm-kg') as Cell[][])[0]![0]).toBeCloseTo(1000, 9);
  });

  it('refuses a part that ends before it begins', () => {
    expect(message(tare('AIRFOIL.AREA', '2412', 48, 0.7, 0.2))).toBe(
      'to: got 0.2; takes a fraction of chord greater than from, which is 0.7',
    );
    expect(message(tare('AIRFOIL.AREA', '2412', 48, 15))).toContain(
      'from: got 15; takes a fraction of chord from 0 to 1',
    );
  });
});

describe('messages of relations between lengths show the numbers as typed', () => {
  it('in millimetres', () => {
    expect(message(tare('FLAT.CHANNEL', 50, 4, 25, 1, 4, 'mm-kg'))).toContain(
      'leg_a: got 4; takes 5 or more, the setback',
    );
    expect(message(tare('AREA.SLOT', 10, 12, 'mm-kg'))).toContain(
      'overall_length: got 10; takes the width (12) or more',
    );
    expect(message(tare('FLAT.PROFILE', [[25], [6], [25]], [[90], [90]], 1, 4, 'mm-kg'))).toContain(
      'mold_line_lengths, row 2: got 6; takes 10 or more',
    );
    expect(message(tare('AREA.HOLES', 50, 1, 30, 'mm-kg'))).toContain(
      'flange: got 30; takes at most half the diameter (25)',
    );
  });
  it('and the values are those of inches', () => {
    expect(tare('FLAT.CHANNEL', 50.8, 25.4, 25.4, 1.016, 4.064, 'mm-kg')).toBeCloseTo(3.758144 * 25.4, 9);
    expect(tare('FLAT.PROFILE', [[25.4], [50.8], [25.4]], [[90], [90]], 1.016, 4.064, 'mm-kg')).toBeCloseTo(
      3.758144 * 25.4,
      9,
    );
    expect(tare('BEND.MINRADIUS', '2024-T3', 1.016, null, 'mm-kg')).toBeCloseTo(0.2 * 25.4, 9);
    expect(tare('AREA.HOLES', 50.8, 5, null, 'mm-kg')).toBeCloseTo(5 * Math.PI * 25.4 ** 2, 6);
  });
});

describe('FLAT.PROFILE', () => {
  it('takes blanks behind the last number and none between', () => {
    expect(tare('FLAT.PROFILE', [[1], [2], [1], ['']], [[90], [90], [''], ['']], 0.04, 0.16)).toBeCloseTo(3.758144, 9);
    expect(message(tare('FLAT.PROFILE', [[1], [''], [1]], [[90], [90]], 0.04, 0.16))).toContain(
      'mold_line_lengths, row 2: got a blank',
    );
  });
  it('counts angles against sides', () => {
    expect(message(tare('FLAT.PROFILE', [[1], [2], [1]], [[90]], 0.04, 0.16))).toBe(
      'bend_angles: got 1; takes 2 angles, one fewer than the sides',
    );
  });
  it('names the side that is too short', () => {
    expect(message(tare('FLAT.PROFILE', [[1], [0.3], [1]], [[90], [90]], 0.04, 0.16))).toContain(
      'mold_line_lengths, row 2: got 0.3; takes 0.4 or more',
    );
  });
});

describe('bends in columns', () => {
  it('checks a column of bends, each with its own findings', () => {
    const result = tare('BEND.CHECK', [[1], [0.1], ['']], 0.04, [[0.2], [0.2], ['']], '2024-T3') as Matrix;
    expect(result[0]![0]).toBe('ok');
    expect(result[1]![0]).toContain('leg 0.1 in is shorter');
    expect(result[2]![0]).toBe('');
  });
  it('says #N/A for a metal that no chart lists', () => {
    expect((tare('BEND.MINRADIUS', 'brass', 0.04) as CellError).code).toBe('#N/A');
  });
});
