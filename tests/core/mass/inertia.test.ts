import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bothSides,
  inertiaAbout,
  massProperties,
  plateInertia,
  rodInertia,
  tubeInertia,
  type Body,
  type Inertia,
} from '../../../src/core/mass';
import { NO_INERTIA } from '../../../src/core/mass/inertia';

const KEYS = ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const;
const near = (got: Inertia, wanted: Inertia, within = 1e-6): void => {
  for (const key of KEYS)
    expect(Math.abs(got[key] - wanted[key]), key).toBeLessThanOrEqual(within * Math.max(1, Math.abs(wanted[key])));
};
const coordinate = fc.integer({ min: -200, max: 200 });
const point = fc.tuple(coordinate, coordinate, coordinate);
const bodies = fc.array(
  fc.record({
    weight: fc.integer({ min: 1, max: 50 }),
    at: point,
    own: fc.record({ xx: coordinate, yy: coordinate, zz: coordinate, xy: coordinate, xz: coordinate, yz: coordinate }),
  }),
  { minLength: 1, maxLength: 12 },
);

describe('inertia of bodies', () => {
  it('about a point is that about the centre of gravity moved there', () => {
    fc.assert(
      fc.property(bodies, point, (list, about) => {
        const { weight, center, inertia } = massProperties(list)!;
        near(inertiaAbout(list, about), inertiaAbout([{ weight, at: center, own: inertia }], about));
      }),
    );
  });

  it('is least about the centre of gravity', () => {
    fc.assert(
      fc.property(bodies, point, (list, about) => {
        const { inertia } = massProperties(list)!;
        const elsewhere = inertiaAbout(list, about);
        for (const key of ['xx', 'yy', 'zz'] as const)
          expect(elsewhere[key]).toBeGreaterThanOrEqual(inertia[key] - 1e-6);
      }),
    );
  });

  it('does not depend on where the datum is', () => {
    fc.assert(
      fc.property(bodies, point, (list, by) => {
        const moved = list.map((body): Body => ({
          ...body,
          at: [body.at[0] + by[0], body.at[1] + by[1], body.at[2] + by[2]],
        }));
        near(massProperties(moved)!.inertia, massProperties(list)!.inertia);
      }),
    );
  });

  it('keeps its digits far from the datum', () => {
    const far = [-1, 1].map((x): Body => ({ weight: 1, at: [1e7 + x, 1e7, 1e7] }));
    near(massProperties(far)!.inertia, { ...NO_INERTIA, yy: 2, zz: 2 }, 1e-12);
  });

  it('of weights that cancel is undefined', () =>
    expect(
      massProperties([
        { weight: 1, at: [0, 0, 0] },
        { weight: -1, at: [1, 0, 0] },
      ]),
    ).toBeUndefined());
});

describe('parts on both sides', () => {
  it('put the centre on the plane of symmetry and leave no product with y', () => {
    fc.assert(
      fc.property(bodies, (list) => {
        const { center, inertia } = massProperties(list.flatMap((body) => bothSides(body, 'pair')))!;
        expect(center[1]).toBe(0);
        expect(inertia.xy).toBe(0);
        expect(inertia.yz).toBe(0);
      }),
    );
  });

  it('are mirrored twice back to themselves', () => {
    fc.assert(
      fc.property(bodies, ([body]) => {
        const mirrored = (of: Body): Body => bothSides(of, 'pair')[1]!;
        expect(mirrored(mirrored(body!))).toEqual(body);
      }),
    );
  });

  it('a part off the plane is a pair, one on it is single, and either can be said', () => {
    const [off, on]: Body[] = [
      { weight: 1, at: [0, 3, 0] },
      { weight: 1, at: [0, 0, 2] },
    ];
    expect([
      bothSides(off!).length,
      bothSides(on!).length,
      bothSides(off!, 'single').length,
      bothSides(on!, 'pair').length,
    ]).toEqual([2, 1, 1, 2]);
  });
});

describe('own inertia', () => {
  it('of a plate: two thin axes add up to the third', () => {
    const { xx, yy, zz } = plateInertia(7, 3, 5, 0);
    expect(xx + yy).toBeCloseTo(zz, 12);
  });
  it('of a tube is that of the rod less that of its bore', () => {
    const [outside, bore] = [rodInertia(9, 10, 'y', 3), rodInertia(4, 10, 'y', 2)];
    // Weights in proportion to 3² and 2²: the tube weighs 5.
    const middle = [0, 0, 0] as const;
    near(
      inertiaAbout(
        [
          { weight: 5, at: middle, own: tubeInertia(5, 10, 3, 0.5, 'y') },
          { weight: 4, at: middle, own: bore },
        ],
        middle,
      ),
      outside,
      1e-12,
    );
  });
  it('of a tube with a wall of half its diameter is that of a rod', () =>
    near(tubeInertia(5, 10, 3, 1.5, 'z'), rodInertia(5, 10, 'z', 3), 1e-12));
  it('of a rod runs along the axis that is named', () => {
    expect(rodInertia(12, 2, 'x')).toMatchObject({ xx: 0, yy: 4, zz: 4 });
    expect(rodInertia(12, 2, 'y')).toMatchObject({ xx: 4, yy: 0, zz: 4 });
    expect(rodInertia(12, 2, 'z')).toMatchObject({ xx: 4, yy: 4, zz: 0 });
  });
});
