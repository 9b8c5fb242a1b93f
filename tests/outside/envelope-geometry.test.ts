/**
 * The envelope against a general polygon library (the cross-sections of manifold-3d 3.5, which clip with Clipper2):
 * inside and outside from the area that a small square shares with the polygon, limits from the area of a thin slab.
 */
import fc from 'fast-check';
import Module, { type CrossSection, type ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  armsAt,
  contains,
  judge,
  makeEnvelope,
  reachableOutline,
  worstLoadings,
  type Airplane,
  type Envelope,
  type Load,
} from '../../src/core/balance';
import { armOnLine, stretches } from '../../src/core/balance/loading';
import { call, findDefinition } from '../../src/functions';
import type { Matrix } from '../../src/sheet';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await Module();
  kernel.setup();
});

/** Arms of 30 to 50 in and weights of 1,000 to 2,000 lb, both as 0 to 10, so that the library sees one scale. */
const toArm = (u: number): number => 30 + 2 * u;
const toWeight = (v: number): number => 1000 + 100 * v;
type Corner = readonly [u: number, v: number];

const envelopeOf = (corners: readonly Corner[]): Envelope =>
  makeEnvelope(corners.map(([u, v]) => ({ arm: toArm(u), weight: toWeight(v) })));

/** Counter-clockwise, as the library wants outer contours. */
function sectionOf(corners: readonly Corner[]): CrossSection {
  let twice = 0;
  corners.forEach(([x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % corners.length]!;
    twice += x * nextY - nextX * y;
  });
  const contour = corners.map(([x, y]): [number, number] => [x, y]);
  return new kernel.CrossSection([twice < 0 ? contour.reverse() : contour]);
}

/** Share of a small square around the point that the section covers: 1 inside, 0 outside, between on the edge. */
function covered(section: CrossSection, u: number, v: number, edge = 1e-3): number {
  const square = kernel.CrossSection.square([edge, edge], true).translate([u, v]);
  const share = section.intersect(square).area() / edge ** 2;
  return share > 0.99999 ? 1 : share < 1e-5 ? 0 : share;
}

/** Spread evenly, as fc.double is not: it is drawn to the smallest numbers there are. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const radius = between(0.5, 4.9);
/** A polygon seen whole from its middle; notched as often as not. */
const star = fc
  .array(radius, { minLength: 3, maxLength: 12 })
  .map((radii) =>
    radii.map((r, i): Corner => [
      5 + r * Math.cos((2 * Math.PI * i) / radii.length + 0.1),
      5 + r * Math.sin((2 * Math.PI * i) / radii.length + 0.1),
    ]),
  );
/** Corners on an ellipse: convex. */
const convex = fc
  .uniqueArray(fc.integer({ min: 0, max: 359 }), { minLength: 3, maxLength: 10 })
  .map((degrees) =>
    degrees
      .sort((a, b) => a - b)
      .map((degree): Corner => [
        5 + 4.5 * Math.cos((Math.PI * degree) / 180),
        5 + 3 * Math.sin((Math.PI * degree) / 180),
      ]),
  );
const place = between(0, 10);
const fraction = between(0, 1);

describe('inside and outside', () => {
  it.each([
    ['notched', star],
    ['convex', convex],
  ] as const)('%s polygons, points anywhere', (_label, polygons) => {
    fc.assert(
      fc.property(polygons, place, place, (corners, u, v) => {
        const share = covered(sectionOf(corners), u, v);
        fc.pre(share === 0 || share === 1);
        expect(contains(envelopeOf(corners), toWeight(v), toArm(u))).toBe(share === 1);
      }),
      { numRuns: 400 },
    );
  });

  it('corners, and points on edges, count as inside', () => {
    fc.assert(
      fc.property(fc.oneof(star, convex), fraction, (corners, along) => {
        const envelope = envelopeOf(corners);
        for (const { from, to } of envelope.edges) {
          expect(contains(envelope, from.weight, from.arm)).toBe(true);
          expect(
            contains(envelope, from.weight + along * (to.weight - from.weight), from.arm + along * (to.arm - from.arm)),
          ).toBe(true);
        }
      }),
    );
  });

  it('a hair outside an edge is outside: a thousandth of the width', () => {
    fc.assert(
      fc.property(convex, fraction, (corners, along) => {
        const envelope = envelopeOf(corners);
        const section = sectionOf(corners);
        corners.forEach(([x1, y1], i) => {
          const [x2, y2] = corners[(i + 1) % corners.length]!;
          const length = Math.hypot(x2 - x1, y2 - y1);
          // Counter-clockwise: outside lies to the right.
          const [u, v] = [
            x1 + along * (x2 - x1) + (0.01 * (y2 - y1)) / length,
            y1 + along * (y2 - y1) - (0.01 * (x2 - x1)) / length,
          ];
          expect(covered(section, u, v)).toBe(0);
          expect(contains(envelope, toWeight(v), toArm(u))).toBe(false);
          expect(judge(envelope, { weight: toWeight(v), arm: toArm(u) }).findings.length).toBeGreaterThan(0);
        });
      }),
    );
  });

  it('neither the direction of the corners nor the first of them matters', () => {
    fc.assert(
      fc.property(star, fc.nat(11), place, place, (corners, turn, u, v) => {
        const turned = [...corners.slice(turn % corners.length), ...corners.slice(0, turn % corners.length)];
        const inside = contains(envelopeOf(corners), toWeight(v), toArm(u));
        expect(contains(envelopeOf(turned), toWeight(v), toArm(u))).toBe(inside);
        expect(contains(envelopeOf([...corners].reverse()), toWeight(v), toArm(u))).toBe(inside);
      }),
    );
  });

  it('a convex envelope holds whatever lies between two points that it holds', () => {
    fc.assert(
      fc.property(convex, place, place, place, place, fraction, (corners, u1, v1, u2, v2, t) => {
        const envelope = envelopeOf(corners);
        const [a, b] = [
          { arm: toArm(u1), weight: toWeight(v1) },
          { arm: toArm(u2), weight: toWeight(v2) },
        ];
        fc.pre(contains(envelope, a.weight, a.arm) && contains(envelope, b.weight, b.arm));
        expect(contains(envelope, a.weight + t * (b.weight - a.weight), a.arm + t * (b.arm - a.arm))).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  it('TARE.BALANCE.INSIDE says the same, a column at a time', () => {
    fc.assert(
      fc.property(star, fc.array(fc.tuple(place, place), { minLength: 2, maxLength: 12 }), (corners, points) => {
        const envelope = envelopeOf(corners);
        const cells = corners.map(([u, v]) => [toArm(u), toWeight(v)]);
        const result = call(findDefinition('BALANCE.INSIDE')!, [
          points.map(([, v]) => [toWeight(v)]),
          points.map(([u]) => [toArm(u)]),
          cells,
        ]) as Matrix;
        expect(result).toEqual(points.map(([u, v]) => [contains(envelope, toWeight(v), toArm(u))]));
      }),
      { numRuns: 50 },
    );
  });
});

describe('limits at a weight', () => {
  it('the allowed arms are as wide as the slab that the library cuts, and end where it ends', () => {
    fc.assert(
      fc.property(fc.oneof(star, convex), place, (corners, v) => {
        const height = 1e-3;
        fc.pre(corners.every(([, y]) => Math.abs(y - v) > 2 * height));
        const slab = sectionOf(corners).intersect(
          kernel.CrossSection.square([10, height]).translate([0, v - height / 2]),
        );
        const ranges = armsAt(envelopeOf(corners), toWeight(v));
        const width = ranges.reduce((sum, range) => sum + (range.to - range.from) / 2, 0);
        expect(Math.abs(width - slab.area() / height)).toBeLessThan(1e-3);
        expect(slab.isEmpty() ? 0 : slab.decompose().length).toBe(ranges.length);
        if (ranges.length === 0) return;
        const { min, max } = slab.bounds();
        // The slab leans out by as much as the edge does over its height.
        const lean = Math.max(
          ...corners.map(([x, y], i) => {
            const [x2, y2] = corners[(i + 1) % corners.length]!;
            return (y - v) * (y2 - v) < 0 ? Math.abs((x2 - x) / (y2 - y)) * height : 0;
          }),
        );
        expect(Math.abs(ranges[0]!.from - toArm(min[0]))).toBeLessThan(2 * lean + 1e-4);
        expect(Math.abs(ranges.at(-1)!.to - toArm(max[0]))).toBeLessThan(2 * lean + 1e-4);
      }),
      { numRuns: 300 },
    );
  });

  it('every limit is on the envelope, and a point just past it is not', () => {
    fc.assert(
      fc.property(convex, fraction, (corners, t) => {
        const envelope = envelopeOf(corners);
        const { from, to } = envelope.weights;
        const weight = from + (0.001 + 0.998 * t) * (to - from);
        const [range] = armsAt(envelope, weight);
        expect(contains(envelope, weight, range!.from)).toBe(true);
        expect(contains(envelope, weight, range!.to)).toBe(true);
        expect(contains(envelope, weight, range!.from - 0.01)).toBe(false);
        expect(contains(envelope, weight, range!.to + 0.01)).toBe(false);
      }),
      { numRuns: 200 },
    );
  });

  it('lightest and heaviest are the library’s bounds', () => {
    fc.assert(
      fc.property(star, (corners) => {
        const { min, max } = sectionOf(corners).bounds();
        const { weights, arms } = envelopeOf(corners);
        expect([weights.from, weights.to, arms.from, arms.to]).toEqual(
          [toWeight(min[1]), toWeight(max[1]), toArm(min[0]), toArm(max[0])].map((one) => expect.closeTo(one, 3)),
        );
      }),
      { numRuns: 50 },
    );
  });
});

describe('a polygon that crosses itself', () => {
  it('is refused', () =>
    expect(() =>
      envelopeOf([
        [1, 1],
        [9, 9],
        [9, 1],
        [1, 9],
      ]),
    ).toThrow(/envelope: got 4 × 2 cells.*crosses/));
  it('is the only kind of polygon refused: the library’s hulls are all taken', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { minLength: 3, maxLength: 12 }), (points) => {
        const hull = kernel.CrossSection.hull([points.map(([u, v]): [number, number] => [u, v])]);
        fc.pre(hull.area() > 0.01);
        const [contour] = hull.toPolygons();
        expect(() => envelopeOf(contour!.map(([u, v]): Corner => [u, v]))).not.toThrow();
      }),
      { numRuns: 100 },
    );
  });
});

describe('lines of loading', () => {
  it('cut exactly where the library has them enter and leave', () => {
    fc.assert(
      fc.property(star, place, place, place, between(50, 600), (corners, u, v, burnt, burn) => {
        const envelope = envelopeOf(corners);
        const section = sectionOf(corners);
        const line = {
          start: { weight: toWeight(v), arm: toArm(u) },
          arm: toArm(burnt),
          endWeight: toWeight(v) - burn,
        };
        const parts = stretches(envelope, line);
        expect(parts[0]!.from).toBe(line.start.weight);
        expect(parts.at(-1)!.to).toBe(line.endWeight);
        for (const { from, to, inside } of parts) {
          for (const share of [0.1, 0.5, 0.9]) {
            const weight = from + share * (to - from);
            const seen = covered(section, (armOnLine(line, weight) - 30) / 2, (weight - 1000) / 100, 1e-4);
            if (seen === 0 || seen === 1) expect(inside).toBe(seen === 1);
          }
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('everything that can be loaded', () => {
  it('the outline holds every loading, as the library sees it, and its worst arms are the outline’s own', () => {
    const station = fc.record({
      arm: between(20, 80),
      min: fc.integer({ min: 0, max: 50 }),
      range: fc.integer({ min: 1, max: 300 }),
      fill: fraction,
    });
    fc.assert(
      fc.property(fc.array(station, { minLength: 1, maxLength: 6 }), (list) => {
        const airplane: Airplane = {
          empty: { weight: 1000, arm: 40 },
          stations: list.map(({ arm, min, range }, i) => ({ name: String(i), arm, min, max: min + range })),
          envelope: makeEnvelope(
            [
              [10, 500],
              [90, 500],
              [90, 9000],
              [10, 9000],
            ].map(([arm, weight]) => ({ arm: arm!, weight: weight! })),
          ),
        };
        // In weight and moment the outline is straight-sided, so that the library can judge it.
        const outline = reachableOutline(airplane).map((load): [number, number] => [
          load.weight / 1000,
          (load.weight * load.arm) / 100_000,
        ]);
        // A hair wider, so that a single station's line is an area too.
        const hair = 2e-4;
        const hull = kernel.CrossSection.hull([
          outline.flatMap(([x, y]): [number, number][] => [
            [x - hair, y - hair],
            [x + hair, y - hair],
            [x - hair, y + hair],
            [x + hair, y + hair],
          ]),
        ]);
        const loads: Load[] = list.map(({ arm, min, range, fill }) => ({ arm, weight: min + fill * range }));
        const weight = loads.reduce((sum, one) => sum + one.weight, 1000);
        const moment = loads.reduce((sum, one) => sum + one.weight * one.arm, 40_000);
        const point = kernel.CrossSection.square([1e-4, 1e-4], true).translate([weight / 1000, moment / 100_000]);
        expect(hull.intersect(point).area()).toBeGreaterThan(0.99e-8);
        const worst = worstLoadings(airplane);
        expect(worst.forward!.arm).toBeLessThanOrEqual(moment / weight + 1e-9);
        expect(worst.aft!.arm).toBeGreaterThanOrEqual(moment / weight - 1e-9);
        const arms = reachableOutline(airplane).map((load) => load.arm);
        expect(worst.forward!.arm).toBeCloseTo(Math.min(...arms), 9);
        expect(worst.aft!.arm).toBeCloseTo(Math.max(...arms), 9);
      }),
      { numRuns: 100 },
    );
  });
});
