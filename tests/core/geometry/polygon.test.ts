import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { polygonArea, type Point } from '../../../src/core/geometry';
import { findCrossing } from '../../../src/core/geometry/plane-areas';

const message = (points: (Point | null)[]): string => {
  try {
    return String(polygonArea(points));
  } catch (error) {
    return (error as Error).message;
  }
};

describe('polygonArea', () => {
  it('takes either direction, a repeated first corner, blanks and repeated corners', () => {
    const square: Point[] = [
      [0, 0],
      [3, 0],
      [3, 2],
      [0, 2],
    ];
    expect(polygonArea(square)).toBe(6);
    expect(polygonArea([...square].reverse())).toBe(6);
    expect(polygonArea([...square, [0, 0]])).toBe(6);
    expect(polygonArea([[0, 0], null, [3, 0], [3, 0], [3, 2], null, [0, 2], null])).toBe(6);
  });

  it('keeps its digits far from the datum', () => {
    const [x, y] = [1e6, 2e6];
    expect(
      polygonArea([
        [x, y],
        [x + 0.5, y],
        [x + 0.5, y + 0.25],
        [x, y + 0.25],
      ]),
    ).toBe(0.125);
  });

  it('names the two edges that cross', () => {
    expect(
      message([
        [0, 0],
        [2, 2],
        [2, 0],
        [0, 2],
      ]),
    ).toBe(
      'points: got 4 × 2 cells; takes three or more points in order around the outline, no edge crossing or touching another. The edge from point 1 to point 2 crosses the edge from point 3 to point 4',
    );
  });

  it('counts the rows as they stand, blanks and all', () => {
    expect(message([null, [0, 0], [2, 2], null, [2, 0], [0, 2]])).toContain(
      'The edge from point 2 to point 3 crosses the edge from point 5 to point 6',
    );
  });

  it('refuses an edge that touches another, one that folds back, and a corner on an edge', () => {
    expect(
      message([
        [0, 0],
        [4, 0],
        [4, 3],
        [2, 0],
        [0, 3],
      ]),
    ).toContain('touches the edge from point ');
    expect(
      message([
        [0, 0],
        [4, 0],
        [2, 0],
        [2, 3],
      ]),
    ).toContain('touches');
    expect(
      message([
        [0, 0],
        [1, 1],
        [2, 2],
      ]),
    ).toContain('touches');
    expect(
      message([
        [0, 0],
        [2, 2],
        [4, 0],
        [2, 2],
        [0, 4],
      ]),
    ).toContain('touches');
  });

  it('refuses fewer than three different points', () => {
    expect(
      message([
        [0, 0],
        [0, 0],
        [1, 1],
      ]),
    ).toContain('Only 2 of them differ');
    expect(message([])).toContain('Only 0 of them differ');
  });

  const coordinate = fc.integer({ min: -20, max: 20 });
  const points = fc.array(fc.tuple(coordinate, coordinate), { minLength: 4, maxLength: 12 });

  it('the sweep finds a crossing exactly where trying all pairs of edges does', () => {
    fc.assert(
      fc.property(points, (corners) => {
        const distinct = corners.filter(([x, y], i) => {
          const [px, py] = corners[(i + corners.length - 1) % corners.length]!;
          return x !== px || y !== py;
        });
        const turn = (a: Point, b: Point, c: Point): number =>
          Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
        const n = distinct.length;
        let crosses = false;
        for (let i = 0; i < n; i++) {
          for (let j = i + 1; j < n; j++) {
            const [a, b, c, d] = [distinct[i]!, distinct[(i + 1) % n]!, distinct[j]!, distinct[(j + 1) % n]!];
            if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) crosses = true;
          }
        }
        expect(findCrossing(corners) !== undefined).toBe(crosses);
      }),
      { numRuns: 500 },
    );
  });

  it('is the sum of its two parts when a star is cut in two, and does not change when it is moved, turned or started elsewhere', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1, max: 5, noNaN: true }), { minLength: 5, maxLength: 30 }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.nat(),
        (radii, turn, start) => {
          const star = radii.map((r, i): Point => [
            r * Math.cos((2 * Math.PI * i) / radii.length),
            r * Math.sin((2 * Math.PI * i) / radii.length),
          ]);
          const whole = polygonArea(star);
          const fan = star.reduce((sum, [x, y], i) => {
            const [nx, ny] = star[(i + 1) % star.length]!;
            return sum + Math.abs(x * ny - nx * y) / 2;
          }, 0);
          expect(whole).toBeCloseTo(fan, 9);
          const k = start % star.length;
          const moved = [...star.slice(k), ...star.slice(0, k)].map(([x, y]): Point => [
            7 + x * Math.cos(turn) - y * Math.sin(turn),
            x * Math.sin(turn) + y * Math.cos(turn) - 3,
          ]);
          expect(polygonArea(moved)).toBeCloseTo(whole, 8);
        },
      ),
    );
  });

  it('takes 2,000 corners', () => {
    const many = Array.from({ length: 2000 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 2000;
      const r = 10 + Math.sin(40 * angle);
      return [r * Math.cos(angle), r * Math.sin(angle)];
    });
    expect(polygonArea(many)).toBeGreaterThan(300);
  });
});
