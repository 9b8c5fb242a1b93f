import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaOutline, outlineFromCoordinates, type Outline, type Point } from '../../../src/core/geometry';
import { outlineOf } from '../../../src/core/geometry/outline';
import { nacaSection } from '../../../src/core/geometry/naca';
import { nacaSurface } from '../../../src/core/geometry/surface';

const SECTIONS = ['0006', '0012 closed', '2412', '4415', '23012', '23024', '24112'];

describe('parts of the chord', () => {
  it('add up to the whole, in area and in girth', () => {
    fc.assert(
      fc.property(fc.constantFrom(...SECTIONS), fc.double({ min: 0.001, max: 0.999, noNaN: true }), (digits, at) => {
        const outline = nacaOutline(digits);
        expect(outline.area(0, at) + outline.area(at, 1)).toBeCloseTo(outline.area(), 11);
        expect(outline.girth(0, at) + outline.girth(at, 1)).toBeCloseTo(outline.girth(), 11);
        expect(outline.girth(0, at, 'upper') + outline.girth(0, at, 'lower')).toBeCloseTo(outline.girth(0, at), 12);
      }),
      { numRuns: 200 },
    );
  });

  it('the derivative of the area along the chord is the height', () => {
    fc.assert(
      fc.property(fc.constantFrom(...SECTIONS), fc.double({ min: 0.05, max: 0.95, noNaN: true }), (digits, at) => {
        const outline = nacaOutline(digits);
        const h = 1e-4;
        expect(outline.area(at - h, at + h) / (2 * h)).toBeCloseTo(outline.height(at), 6);
      }),
      { numRuns: 100 },
    );
  });

  it('refuses a part that ends before it begins', () => {
    expect(() => nacaOutline('2412').area(0.6, 0.5)).toThrow(
      'to: got 0.5; takes a fraction of chord greater than from, which is 0.6',
    );
    expect(() => nacaOutline('2412').girth(0.5, 0.5)).toThrow('to: got 0.5');
  });

  it('the nose of a cambered section, which reaches ahead of the leading edge, is in the first part', () => {
    const outline = nacaOutline('23024');
    expect(outline.girth(0, 0.001)).toBeGreaterThan(0);
    expect(outline.area(0, 0.001)).toBeGreaterThan(0);
    expect(outline.height(0)).toBe(0);
  });
});

describe('what was computed once is not computed again', () => {
  it('asks the surface nothing the second time', () => {
    let asked = 0;
    const counted = (side: 1 | -1) => {
      const surface = nacaSurface(nacaSection('2412'), side);
      return { ...surface, at: (s: number) => (asked++, surface.at(s)) };
    };
    const outline = outlineOf('counted', counted(1), counted(-1));
    const first = outline.girth(0.1, 0.6);
    const once = asked;
    expect(outline.girth(0.1, 0.6)).toBe(first);
    expect(asked).toBe(once);
    expect(nacaOutline('2412')).toBe(nacaOutline('2412'));
  });
});

const lists = (outline: Outline, count: number): { upper: Point[]; lower: Point[] } => ({
  upper: outline.points('upper', count),
  lower: outline.points('lower', count),
});

describe('coordinates', () => {
  const exact = nacaOutline('2412');
  const { upper, lower } = lists(exact, 41);
  const closed = lists(nacaOutline('2412 closed'), 41);
  const orders: Record<string, (Point | null)[]> = {
    'loop over the top first': [...[...upper].reverse(), ...lower.slice(1)],
    'loop along the bottom first': [...[...lower].reverse(), ...upper.slice(1)],
    'upper list, then lower list': [...upper, ...lower],
    'lower list, then upper list': [...lower, ...upper],
    'lists with their lengths ahead and a blank row between': [[41, 41], null, ...upper, null, ...lower],
    'loop from the leading edge over the top': [...upper, ...[...lower].reverse().slice(0, -1)],
    'loop from the leading edge, closed on it': [...upper, ...[...lower].reverse()],
    'loop from the leading edge along the bottom': [...lower, ...[...upper].reverse().slice(0, -1)],
  };

  it.each(Object.entries(orders))('%s', (_name, points) => {
    const read = outlineFromCoordinates(points);
    expect(Math.abs(read.area() / exact.area() - 1)).toBeLessThan(1e-5);
    expect(Math.abs(read.girth() / exact.girth() - 1)).toBeLessThan(1e-5);
    expect(Math.abs(read.girth(0, 1, 'upper') / exact.girth(0, 1, 'upper') - 1)).toBeLessThan(1e-5);
    expect(Math.abs(read.height(0.3) - exact.height(0.3))).toBeLessThan(1e-6);
    expect(Math.abs(read.area(0.1, 0.65) / exact.area(0.1, 0.65) - 1)).toBeLessThan(1e-5);
  });

  it.each<[string, (Point | null)[]]>([
    ['loop', [...[...closed.upper].reverse(), ...closed.lower.slice(1)]],
    ['lists', [...closed.upper, ...closed.lower]],
    ['loop from the leading edge', [...closed.upper, ...[...closed.lower].reverse().slice(1, -1)]],
  ])('a closed trailing edge as %s', (_name, points) => {
    const read = outlineFromCoordinates(points);
    expect(Math.abs(read.girth() / nacaOutline('2412 closed').girth() - 1)).toBeLessThan(1e-5);
    expect(read.height(1)).toBeCloseTo(0, 9);
  });

  it('a smooth curve through few points is closer than straight lines', () => {
    const coarse = lists(exact, 15);
    const loop = [...[...coarse.upper].reverse(), ...coarse.lower.slice(1)];
    const straight =
      Math.abs(
        loop.reduce(
          (sum, [x, y], i) => sum + x * loop[(i + 1) % loop.length]![1] - loop[(i + 1) % loop.length]![0] * y,
          0,
        ),
      ) / 2;
    const read = outlineFromCoordinates(loop).area();
    expect(Math.abs(read - exact.area())).toBeLessThan(Math.abs(straight - exact.area()) / 20);
  });

  it('a wedge keeps its corner: a diamond has the area and girth of its straight sides', () => {
    const side = (y: number): Point[] => [
      [0.1, y / 5],
      [0.2, (y * 2) / 5],
      [0.3, (y * 3) / 5],
      [0.4, (y * 4) / 5],
    ];
    const top: Point[] = [
      [0, 0],
      ...side(0.05),
      [0.5, 0.05],
      ...side(0.05)
        .reverse()
        .map(([x, y]): Point => [1 - x, y]),
      [1, 0],
    ];
    const bottom = top.map(([x, y]): Point => [x, -y]);
    const read = outlineFromCoordinates([...top, ...bottom]);
    expect(read.area()).toBeCloseTo(0.05, 9);
    expect(read.girth()).toBeCloseTo(4 * Math.hypot(0.5, 0.05), 9);
  });

  it.each(['0006', '2412', '23012', '4424'])(
    'a round nose stays round where the table of NACA %s begins at 1.25 %% of chord',
    (digits) => {
      const outline = nacaOutline(digits);
      const stations = [0, 0.0125, 0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1];
      const side = (which: 'upper' | 'lower'): Point[] => stations.map((x): Point => [x, outline.ordinate(which, x)]);
      const read = outlineFromCoordinates([...side('upper'), ...side('lower')]);
      expect(Math.abs(read.area() / outline.area() - 1)).toBeLessThan(2e-3);
      expect(Math.abs(read.girth() / outline.girth() - 1)).toBeLessThan(2e-3);
    },
  );

  const refused = (points: (Point | null)[], words: string): void =>
    expect(() => outlineFromCoordinates(points)).toThrow(words);
  const loop = orders['loop over the top first'] as Point[];

  it('refuses what is no outline of a unit chord', () => {
    refused(
      loop.map(([x, y]): Point => [x * 100, y * 100]),
      'x up to 100 looks like percent of chord',
    );
    refused(
      loop.map(([x, y]): Point => [x * 48, y * 48]),
      'Here x runs from 0 to 48',
    );
    refused(loop.slice(0, 5), '5 points are too few');
    refused([], '0 points are too few');
    refused(new Array<Point>(8).fill([0, 0]), 'Here x runs from 0 to 0');
  });

  it('refuses an outline that crosses itself and says where', () => {
    const crossed = upper.map(([x, y], i): Point => (i > 25 && i < 35 ? [x, -0.1] : [x, y]));
    refused([...crossed, ...lower], 'The outline crosses itself near x = ');
  });
});
