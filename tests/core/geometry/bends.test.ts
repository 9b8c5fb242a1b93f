import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleSection,
  bendAllowance,
  bendDeduction,
  checkBend,
  develop,
  hatSection,
  minimumBendRadius,
  setback,
  webSection,
  type Leg,
} from '../../../src/core/geometry';

const thickness = fc.double({ min: 0.01, max: 0.25, noNaN: true });
const radius = fc.double({ min: 0, max: 0.5, noNaN: true });
const angle = fc.double({ min: 1, max: 150, noNaN: true });

describe('one bend', () => {
  it('always takes metal off the sum of the outside dimensions, and scales with the unit', () => {
    fc.assert(
      fc.property(radius, thickness, angle, (r, t, n) => {
        expect(bendDeduction(r, t, n)).toBeGreaterThan(0);
        expect(bendDeduction(r * 25.4, t * 25.4, n)).toBeCloseTo(bendDeduction(r, t, n) * 25.4, 9);
        expect(bendAllowance(r, t, n)).toBeGreaterThan(0);
      }),
    );
  });
});

describe('develop', () => {
  it('is the sum of the sides less a deduction a bend', () => {
    const side = fc.double({ min: 20, max: 40, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(side, angle), { minLength: 2, maxLength: 8 }), thickness, radius, (sides, t, r) => {
        const legs = sides.map(([length], i): Leg => ({ parameter: `leg ${i}`, length }));
        const angles = sides.slice(1).map(([, n]) => n);
        const expected =
          sides.reduce((sum, [length]) => sum + length, 0) - angles.reduce((sum, n) => sum + bendDeduction(r, t, n), 0);
        expect(develop(legs, angles, t, r).width).toBeCloseTo(expected, 9);
      }),
    );
  });

  it('takes a leg of exactly the setback and refuses a shorter one', () => {
    const legs = (leg: number) => webSection(2, leg, 1);
    expect(develop(legs(0.2), [90, 90], 0.04, 0.16).flats[0]).toBeCloseTo(0, 12);
    expect(() => develop(legs(0.19), [90, 90], 0.04, 0.16)).toThrow(
      'leg_a: got 0.19; takes 0.2 or more, the setback (radius + thickness) × tan(angle / 2) of its bend. A shorter side leaves no flat metal beside the bend',
    );
  });

  it('asks two setbacks of a web', () => {
    expect(() => develop(webSection(0.3, 1, 1), [90, 90], 0.04, 0.16)).toThrow(
      'web: got 0.3; takes 0.4 or more, the setback (radius + thickness) × tan(angle / 2) of its two bends',
    );
    expect(() => develop(hatSection(1, 0.3, 1), [90, 90, 90, 90], 0.04, 0.16)).toThrow(
      'side: got 0.3; takes 0.4 or more',
    );
  });

  it('a setback grows past all bounds towards a hem, so a sharp bend is refused', () => {
    expect(setback(0.16, 0.04, 170)).toBeGreaterThan(2);
    expect(() => develop(angleSection(1, 1), [170], 0.04, 0.16)).toThrow('leg_a: got 1');
  });
});

describe('minimumBendRadius', () => {
  it('reads designations as they are written', () => {
    for (const name of ['2024-T3', '2024 t3', 'Alclad 2024-T3', '2024-T351', '2024-T3 clad'])
      expect(minimumBendRadius(name, 0.04).radius).toBe(0.2);
    expect(minimumBendRadius('6061-0', 0.032)).toEqual(minimumBendRadius('6061-O', 0.032));
    expect(minimumBendRadius('6061-T651', 0.063).radius).toBe(0.126);
  });

  it.each([
    ['2024T3', '2024-T3'],
    ['Alclad 2024T351', '2024-T3'],
    ['6061T6', '6061-T6'],
    ['6061t651', '6061-T6'],
    ['6061O', '6061-O'],
    ['5052H32', '5052-H32'],
    ['7075 t6 sheet', '7075-T6'],
    ['aluminum 3003h14', '3003-H14'],
    ['4130N', '4130-N'],
    ['4130 n', '4130-N'],
    ['4130 normalized', '4130-N'],
    ['AISI 4130N steel', '4130-N'],
    ['4130 condition N', '4130-N'],
    ['4130 cond. N', '4130-N'],
    ['4130A', '4130-ANNEALED'],
    ['4130 annealed', '4130-ANNEALED'],
    ['304 stainless', '304'],
    ['type 304 stainless steel', '304'],
  ])('takes “%s” for %s', (written, listed) =>
    expect(minimumBendRadius(written, 0.05)).toEqual(minimumBendRadius(listed, 0.05)),
  );

  it('asks for the temper of an alloy that has several', () => {
    for (const name of ['2024', '60610', '2024-', '2024X9']) expect(() => minimumBendRadius(name, 0.04)).toThrow();
    expect(() => minimumBendRadius('2024', 0.04)).toThrow('Listed are 2024-O, 2024-T3, 2024-T4, 2024-T6');
  });

  it('takes the next thicker column between two, and a gauge thickness as the column it is named for', () => {
    expect(minimumBendRadius('2024-T3', 0.045, 'handbook').radius).toBe(0.19);
    for (const [gauge, column] of [
      [0.0201, 0.02],
      [0.0253, 0.025],
      [0.0403, 0.04],
      [0.0508, 0.05],
      [0.0641, 0.063],
      [0.0808, 0.08],
    ] as const) {
      expect(minimumBendRadius('2024-T3', gauge, 'handbook')).toEqual(minimumBendRadius('2024-T3', column, 'handbook'));
    }
  });

  it('never asks for less of a thicker sheet of the same metal', () => {
    for (const metal of ['2024-O', '2024-T3', '5052-H32', '6061-T4', '6061-T6', '7075-T6']) {
      let before = 0;
      for (const t of [
        0.012, 0.016, 0.02, 0.025, 0.032, 0.04, 0.05, 0.063, 0.071, 0.08, 0.09, 0.1, 0.125, 0.16, 0.19, 0.25,
      ]) {
        const { radius: least } = minimumBendRadius(metal, t);
        expect(least).toBeGreaterThanOrEqual(before);
        before = least;
      }
    }
  });

  it('goes on to the next chart that lists the metal, and names its source', () => {
    expect(minimumBendRadius('3003-H14', 0.125)).toMatchObject({
      radius: 0.125,
      source: expect.stringContaining('Aluminum Association'),
    });
    expect(minimumBendRadius('4130', 0.063)).toMatchObject({ source: 'common practice, no source' });
    expect(minimumBendRadius('5052-H36', 0.032).source).toContain('AC 43.13-1B');
  });

  it('names the tempers where one is missing, and says what is not listed', () => {
    expect(() => minimumBendRadius('2024', 0.04)).toThrow('Listed are 2024-O, 2024-T3, 2024-T4, 2024-T6');
    expect(() => minimumBendRadius('brass', 0.04)).toThrow('For other metal ask the maker');
    expect(() => minimumBendRadius('2024-T3', 0.5)).toThrow('thickness: got "0.5 in"; takes inches up to 0.258');
    expect(() => minimumBendRadius('3003-O', 0.04, 'handbook')).toThrow('that this chart lists');
  });
});

describe('checkBend', () => {
  const bend = { leg: 1, thickness: 0.04, radius: 0.16, angle: 90, material: '2024-T3' };
  it('passes what every chart passes', () => expect(checkBend({ ...bend, radius: 0.2 })).toBe('ok'));
  it('says of the handbook bend that it is within the range of AC 43.13-1B, and how far the charts are apart', () =>
    expect(checkBend(bend)).toMatch(
      /^radius 0\.16 in is in the range 0\.12 in to 0\.2 in of AC 43\.13-1B table 4-6, under its upper end; the charts go from 0\.16 in .* to 0\.2 in .*: bend a test piece$/,
    ));
  it('does not pass a sharp bend because a range begins at 0', () =>
    expect(checkBend({ ...bend, thickness: 0.016, radius: 0, material: '6061-T6' })).toMatch(
      /^radius 0 in is in the range 0 in to 0\.016 in of AC 43\.13-1B/,
    ));
  it('says that 6061-T6 of .020 bent to .03 passes one chart and not the others', () =>
    expect(checkBend({ ...bend, thickness: 0.02, radius: 0.03, material: '6061-T6' })).toMatch(
      /^ok; the charts go from 0\.02 in \(Aluminum Association.* to 0\.06 in \(extract of BAC5300/,
    ));
  it('finds a short leg', () =>
    expect(checkBend({ ...bend, leg: 0.19 })).toMatch(
      /^leg 0\.19 in is shorter than 0\.2 in, the setback radius \+ thickness \(FAA/,
    ));
  it('finds a small radius', () =>
    expect(checkBend({ ...bend, radius: 0.11 })).toMatch(/^radius 0\.11 in is under the minimum 0\.2 in \(AC 43/));
  it('joins two findings', () =>
    expect(
      checkBend({ ...bend, leg: 0.1, radius: 0.1 })
        .split('; ')
        .slice(0, 2),
    ).toEqual([expect.stringMatching(/^leg/), expect.stringMatching(/^radius/)]));
  it('says when it could not look', () =>
    expect(checkBend({ ...bend, material: 'tin' })).toContain('no minimum radius is listed for tin'));
  it('writes the unit that it is given', () =>
    expect(checkBend({ ...bend, radius: 2 / 25.4 }, { factor: 25.4, sign: 'mm' })).toContain(
      'radius 2 mm is under the minimum 5.08 mm',
    ));
});
