import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { halfThickness, nacaSection } from '../../../src/core/geometry/naca';
import { nacaSurface } from '../../../src/core/geometry/surface';

describe('designations', () => {
  it.each([
    ['2412', 'NACA 2412', 'open'],
    ['NACA 0012', 'NACA 0012', 'open'],
    ['naca23012 closed', 'NACA 23012 closed', 'closed'],
    [' NACA-4415, open ', 'NACA 4415', 'open'],
  ])('%s', (typed, name, edge) => expect(nacaSection(typed)).toMatchObject({ name, trailingEdge: edge }));

  it.each([
    ['2400', 'The last two digits are the thickness'],
    ['2450', '01 to 40'],
    ['2012', 'The second digit is the place of the highest camber'],
    ['21112', 'reflexed, 21, 31, 41, 51'],
    ['26012', 'reflexed, 21, 31, 41, 51'],
    ['03012', 'reflexed, 21, 31, 41, 51'],
    ['64-212', 'For a section of another series give its coordinates'],
    ['63A415', 'takes a NACA 4- or 5-digit section'],
    ['Clark Y', 'takes a NACA 4- or 5-digit section'],
    ['', 'outline: got a blank'],
  ])('refuses "%s"', (typed, words) => expect(() => nacaSection(typed)).toThrow(words));
});

describe('thickness', () => {
  it('closes to a point where that is asked for', () => {
    expect(halfThickness(nacaSection('0012 closed'), 1)[0]).toBeCloseTo(0, 12);
    expect(halfThickness(nacaSection('0012'), 1)[0]).toBeCloseTo(0.00126, 9);
  });
});

const SECTIONS = ['0012', '2412', '4424', '9715', '21012', '23012', '25018', '22112', '24112 closed'];

describe('mean lines', () => {
  it.each(SECTIONS.filter((digits) => digits !== '0012'))(
    'NACA %s starts and ends on the chord and joins smoothly',
    (digits) => {
      const { meanLine, joint } = nacaSection(digits);
      // The forward and the aft equation of a 5-digit line meet to the digits of the report's constants.
      expect(meanLine(0).y).toBeCloseTo(0, 12);
      expect(Math.abs(meanLine(1).y)).toBeLessThan(2e-5);
      const [before, after] = [meanLine(joint! - 1e-9), meanLine(joint! + 1e-9)];
      expect(before.y).toBeCloseTo(after.y, 8);
      expect(before.slope).toBeCloseTo(after.slope, 7);
    },
  );
});

describe('surfaces', () => {
  it('the derivatives are those of the curve', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SECTIONS),
        fc.constantFrom<1 | -1>(1, -1),
        fc.double({ min: 0.02, max: 3.12, noNaN: true }),
        (digits, side, b) => {
          const surface = nacaSurface(nacaSection(digits), side);
          fc.pre(surface.breaks.every((place) => Math.abs(place - b) > 1e-3));
          const h = 1e-5;
          const [before, here, after] = [surface.at(b - h), surface.at(b), surface.at(b + h)];
          expect(Math.abs((after.x - before.x) / (2 * h) - here.dx)).toBeLessThan(1e-7);
          expect(Math.abs((after.y - before.y) / (2 * h) - here.dy)).toBeLessThan(1e-7);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('both surfaces of a symmetrical section mirror each other', () => {
    const [upper, lower] = [nacaSurface(nacaSection('0015'), 1), nacaSurface(nacaSection('0015'), -1)];
    for (const b of [0, 0.3, 1, 2, Math.PI]) {
      expect(upper.at(b).x).toBe(lower.at(b).x);
      expect(upper.at(b).y).toBe(-lower.at(b).y + 0);
    }
  });
});
