/**
 * Mass properties of solids: a geometry kernel (manifold-3d 3.5) builds them, their tetrahedra are summed
 * exactly, and the functions must agree from weights, places and own inertia alone. Beside it, the closed
 * forms that mechanics handbooks print.
 */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  inertiaAbout,
  massProperties,
  plateInertia,
  rodInertia,
  tubeInertia,
  type Body,
  type MassProperties,
  type Point,
} from '../../src/core/mass';
import { call, findDefinition } from '../../src/functions';
import type { Argument, Matrix } from '../../src/sheet';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await Module();
  kernel.setup();
  kernel.setCircularSegments(360);
});

/** lb/in³ */
const ALUMINIUM = 0.1;
/** The bar for every solid: 0.1 %. */
const WITHIN = 1e-3;

const matrix = (name: string, ...args: Argument[]): Matrix => {
  const result = call(findDefinition(name)!, args);
  expect(Array.isArray(result), String(result)).toBe(true);
  return result as Matrix;
};

/** Volume, centre and inertia of a closed mesh: the sum over the tetrahedra from the origin to each face. */
function summed(solid: Manifold, density = ALUMINIUM): MassProperties {
  const { triVerts, vertProperties, numProp } = solid.getMesh();
  let volume = 0;
  const first = [0, 0, 0];
  const second = { xx: 0, yy: 0, zz: 0, xy: 0, xz: 0, yz: 0 };
  for (let t = 0; t < triVerts.length; t += 3) {
    const corners = [0, 1, 2].map((i) => [0, 1, 2].map((axis) => vertProperties[triVerts[t + i]! * numProp + axis]!));
    const [a, b, c] = corners as [number[], number[], number[]];
    const v =
      (a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) -
        a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!) +
        a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!)) /
      6;
    volume += v;
    for (let axis = 0; axis < 3; axis++) first[axis]! += (v / 4) * (a[axis]! + b[axis]! + c[axis]!);
    // ∫ p·q over a tetrahedron with one corner at the origin: V/20 × (Σp·Σq + Σ p·q).
    const of = (p: number, q: number): number => {
      const [sp, sq] = [a[p]! + b[p]! + c[p]!, a[q]! + b[q]! + c[q]!];
      return (v / 20) * (sp * sq + a[p]! * a[q]! + b[p]! * b[q]! + c[p]! * c[q]!);
    };
    second.xx += of(0, 0);
    second.yy += of(1, 1);
    second.zz += of(2, 2);
    second.xy += of(0, 1);
    second.xz += of(0, 2);
    second.yz += of(1, 2);
  }
  const center = first.map((moment) => moment / volume) as unknown as Point;
  const [x, y, z] = center;
  const weight = volume * density;
  const central = (integral: number, product: number): number => integral * density - weight * product;
  const [xx, yy, zz] = [central(second.xx, x * x), central(second.yy, y * y), central(second.zz, z * z)];
  return {
    weight,
    center,
    inertia: {
      xx: yy + zz,
      yy: xx + zz,
      zz: xx + yy,
      xy: central(second.xy, x * y),
      xz: central(second.xz, x * z),
      yz: central(second.yz, y * z),
    },
  };
}

/** Every number to 0.1 % of the largest of its kind. */
function agrees(got: MassProperties, exact: MassProperties): void {
  expect(Math.abs(got.weight / exact.weight - 1)).toBeLessThan(WITHIN);
  const size = Math.max(1, ...exact.center.map(Math.abs));
  got.center.forEach((one, axis) => expect(Math.abs(one - exact.center[axis]!)).toBeLessThan(WITHIN * size));
  const most = Math.max(exact.inertia.xx, exact.inertia.yy, exact.inertia.zz);
  for (const key of ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const) {
    expect(Math.abs(got.inertia[key] - exact.inertia[key]), key).toBeLessThan(WITHIN * most);
  }
}

const fromRow = ([weight, x, y, z, xx, yy, zz, xy, xz, yz]: Matrix[number]): MassProperties =>
  ({ weight, center: [x, y, z], inertia: { xx, yy, zz, xy, xz, yz } }) as unknown as MassProperties;

const plate = (x: number, y: number, z: number, at: Point): Body => {
  const weight = x * y * z * ALUMINIUM;
  return { weight, at, own: plateInertia(weight, x, y, z) };
};

describe('single parts', () => {
  it('block: TARE.INERTIA.PLATE through TARE.INERTIA', () => {
    const solid = kernel.Manifold.cube([12, 4, 0.5]).translate([30, 2, 1]);
    const weight = 12 * 4 * 0.5 * ALUMINIUM;
    const own = matrix('INERTIA.PLATE', weight, 12, 4, 0.5);
    agrees(fromRow(matrix('INERTIA', weight, [[36, 4, 1.25]], own)[0]!), summed(solid));
  });

  it.each([
    ['x', [0, 90, 0]],
    ['y', [90, 0, 0]],
    ['z', [0, 0, 0]],
  ] as const)('rod along %s: TARE.INERTIA.ROD', (axis, turn) => {
    const solid = kernel.Manifold.cylinder(20, 1.5, 1.5, 0, true).rotate([...turn]);
    const weight = Math.PI * 1.5 ** 2 * 20 * ALUMINIUM;
    const own = matrix('INERTIA.ROD', weight, 20, axis, 3);
    agrees(fromRow(matrix('INERTIA', weight, [[0, 0, 0]], own)[0]!), summed(solid));
  });

  it.each([
    ['x', [0, 90, 0]],
    ['y', [90, 0, 0]],
    ['z', [0, 0, 0]],
  ] as const)('tube along %s: TARE.INERTIA.TUBE', (axis, turn) => {
    const { Manifold } = kernel;
    const solid = Manifold.cylinder(36, 1, 1, 0, true)
      .subtract(Manifold.cylinder(40, 0.935, 0.935, 0, true))
      .rotate([...turn])
      .translate([5, -7, 3]);
    const weight = Math.PI * (1 - 0.935 ** 2) * 36 * ALUMINIUM;
    const own = matrix('INERTIA.TUBE', weight, 36, 2, 0.065, axis);
    agrees(fromRow(matrix('INERTIA', weight, [[5, -7, 3]], own)[0]!), summed(solid));
  });
});

describe('built-up parts', () => {
  it('channel of three plates', () => {
    const parts = [
      plate(0.04, 60, 3, [0.02, 30, 1.5]),
      plate(1, 60, 0.04, [0.54, 30, 0.02]),
      plate(1, 60, 0.04, [0.54, 30, 2.98]),
    ];
    const { Manifold } = kernel;
    const solid = Manifold.union([
      Manifold.cube([0.04, 60, 3]),
      Manifold.cube([1, 60, 0.04]).translate([0.04, 0, 0]),
      Manifold.cube([1, 60, 0.04]).translate([0.04, 0, 2.96]),
    ]);
    agrees(massProperties(parts)!, summed(solid));
  });

  it('rib web with three lightening holes, taken off as negative weights', () => {
    const t = 0.025;
    const { Manifold } = kernel;
    let solid = Manifold.cube([30, t, 5]);
    const parts = [plate(30, t, 5, [15, t / 2, 2.5])];
    for (const x of [6, 14, 22]) {
      solid = solid.subtract(Manifold.cylinder(1, 1.25, 1.25, 0, true).rotate([90, 0, 0]).translate([x, 0, 2.5]));
      const weight = -Math.PI * 1.25 ** 2 * t * ALUMINIUM;
      parts.push({ weight, at: [x, t / 2, 2.5], own: rodInertia(weight, t, 'y', 2.5) });
    }
    agrees(massProperties(parts)!, summed(solid));
  });

  it('an L of unlike legs has a product of inertia, with the sign that is stated', () => {
    const parts = [plate(4, 1, 0.1, [2, 0.5, 0.05]), plate(1, 6, 0.1, [0.5, 4, 0.05])];
    const { Manifold } = kernel;
    const exact = summed(Manifold.cube([4, 1, 0.1]).add(Manifold.cube([1, 6, 0.1]).translate([0, 1, 0])));
    agrees(massProperties(parts)!, exact);
    expect(exact.inertia.xy).toBeLessThan(0);
  });

  it('spar tube with ribs at stations, both wings: TARE.STATIONS, TARE.MIRROR and TARE.INERTIA', () => {
    const { Manifold } = kernel;
    const right = [Manifold.cylinder(90, 1.5, 1.5).rotate([-90, 0, 0]).translate([20, 22, 10])];
    const stations = matrix('STATIONS', 30, 110, 5).map(([y]) => y as number);
    for (const y of stations) right.push(Manifold.cube([40, 0.25, 5], true).translate([30, y, 15]));
    const exact = summed(Manifold.union([...right, ...right.map((part) => part.mirror([0, 1, 0]))]));

    const tube = Math.PI * 1.5 ** 2 * 90 * ALUMINIUM;
    const rib = 40 * 0.25 * 5 * ALUMINIUM;
    const both = matrix(
      'MIRROR',
      [[tube], ...stations.map(() => [rib])],
      [[20, 67, 10], ...stations.map((y) => [30, y, 15])],
    );
    const own = both.map(([weight]) =>
      weight === tube
        ? matrix('INERTIA.ROD', weight, 90, 'y', 3)[0]!
        : matrix('INERTIA.PLATE', weight, 40, 0.25, 5)[0]!,
    );
    const got = fromRow(
      matrix(
        'INERTIA',
        both.map(([weight]) => [weight!]),
        both.map((one) => one.slice(1)),
        own,
      )[0]!,
    );
    agrees(got, exact);
    expect(Math.abs(got.center[1])).toBeLessThan(1e-9);
    expect(Math.abs(got.inertia.xy)).toBeLessThan(1e-6);
  });

  it('a turned block, its own products moved by the parallel axis theorem to the datum', () => {
    const solid = kernel.Manifold.cube([10, 2, 1], true).rotate([20, 30, 40]);
    const own = summed(solid);
    const moved = summed(solid.translate([50, -8, 6]));
    const about = matrix(
      'INERTIA',
      own.weight,
      [[50, -8, 6]],
      [[own.inertia.xx, own.inertia.yy, own.inertia.zz, own.inertia.xy, own.inertia.xz, own.inertia.yz]],
      [[0, 0, 0]],
    )[0]!;
    const exact = inertiaAbout([{ weight: moved.weight, at: moved.center, own: moved.inertia }], [0, 0, 0]);
    for (const [index, key] of (['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const).entries())
      expect(Math.abs((about[4 + index] as number) / exact[key] - 1)).toBeLessThan(WITHIN);
  });
});

describe('a part cut into small cubes', () => {
  const size = [6, 4, 2] as const;
  const cubes = (edge: number, own: boolean): Body[] => {
    const bodies: Body[] = [];
    const weight = edge ** 3 * ALUMINIUM;
    for (let x = edge / 2; x < size[0]; x += edge)
      for (let y = edge / 2; y < size[1]; y += edge)
        for (let z = edge / 2; z < size[2]; z += edge) {
          bodies.push({ weight, at: [x, y, z], ...(own ? { own: plateInertia(weight, edge, edge, edge) } : {}) });
        }
    return bodies;
  };
  const whole = plateInertia(size[0] * size[1] * size[2] * ALUMINIUM, ...size);

  it('with their own inertia the cubes give the block exactly', () => {
    const got = massProperties(cubes(0.5, true))!;
    expect(got.center).toEqual([3, 2, 1].map((one) => expect.closeTo(one, 9)));
    for (const key of ['xx', 'yy', 'zz'] as const) expect(got.inertia[key]).toBeCloseTo(whole[key], 9);
  });
  it('as points they fall short by what each leaves out, w·edge²/6, and no more', () => {
    for (const edge of [1, 0.5, 0.25]) {
      const bodies = cubes(edge, false);
      const got = massProperties(bodies)!;
      expect(whole.xx - got.inertia.xx).toBeCloseTo((got.weight * edge ** 2) / 6, 6);
    }
  });
});

describe('closed forms of the handbooks', () => {
  const first = (name: string, ...args: Argument[]): Matrix[number] => matrix(name, ...args)[0]!;
  it('bar of 4 kg over 2 m with .3 kg at each end, about its middle: 1.933', () => {
    const bar = first('INERTIA.ROD', 4, 2, 'y');
    expect(
      first(
        'INERTIA',
        [[4], [0.3], [0.3]],
        [
          [0, 0, 0],
          [0, 1, 0],
          [0, -1, 0],
        ],
        [bar, [0, 0, 0], [0, 0, 0]],
      )[4],
    ).toBeCloseTo(1.933, 3);
  });
  it('the same about an axis along the bar, .5 m beside it: 1.15', () => {
    expect(call(findDefinition('INERTIA.PARALLEL')!, [0, 4.6, 0.5])).toBeCloseTo(1.15, 12);
    expect(
      first(
        'INERTIA',
        [[4], [0.3], [0.3]],
        [
          [0, 0, 0],
          [0, 1, 0],
          [0, -1, 0],
        ],
        [
          [0, 0, 0],
          [0, 0, 0],
          [0, 0, 0],
        ],
        [[0.5, 0, 0]],
      )[5],
    ).toBeCloseTo(1.15, 12);
  });
  it('slender rod about its end: mL²/3', () => {
    const rod = first('INERTIA.ROD', 3, 7, 'x');
    expect(call(findDefinition('INERTIA.PARALLEL')!, [rod[2]!, 3, 3.5])).toBeCloseTo((3 * 49) / 3, 12);
  });
  it('rectangular lamina, sides 2a and 2b: Mb²/3, Ma²/3, M(a² + b²)/3', () =>
    expect(first('INERTIA.PLATE', 5, 6, 8, 0)).toEqual(
      [(5 * 16) / 3, (5 * 9) / 3, (5 * 25) / 3].map((one) => expect.closeTo(one, 12)),
    ));
  it('disc of radius a: Ma²/4, Ma²/4, Ma²/2', () => expect(first('INERTIA.ROD', 2, 0, 'z', 6)).toEqual([4.5, 4.5, 9]));
  it('thin ring of radius a: Ma² along, Ma²/2 across', () => {
    const ring = tubeInertia(2, 0, 6, 1e-9, 'z');
    expect(ring.zz).toBeCloseTo(18, 6);
    expect(ring.xx).toBeCloseTo(9, 6);
  });
  it('annulus of radii b < a: M(a² + b²)/2', () =>
    expect(first('INERTIA.TUBE', 2, 0, 6, 1, 'z')[2]).toBeCloseTo((2 * (9 + 4)) / 2, 12));
  it('solid cube of edge s about a corner: 2Ms²/3, products Ms²/4', () => {
    const own = first('INERTIA.PLATE', 3, 2, 2, 2);
    const [, , , , xx, yy, zz, xy, xz, yz] = first('INERTIA', 3, [[1, 1, 1]], [own], [[0, 0, 0]]);
    expect([xx, yy, zz]).toEqual([8, 8, 8].map((one) => expect.closeTo(one, 12)));
    expect([xy, xz, yz]).toEqual([3, 3, 3]);
  });
});

describe('any heap of blocks', () => {
  it('agrees with the kernel', () => {
    const number = fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(fc.array(fc.tuple(number, number, number), { minLength: 1, maxLength: 6 }), (sizes) => {
        // Side by side along x, so that none overlaps another.
        let edge = -10;
        const solids: Manifold[] = [];
        const bodies: Body[] = [];
        for (const [x, y, z] of sizes) {
          solids.push(kernel.Manifold.cube([x, y, z]).translate([edge, 1, -2]));
          bodies.push(plate(x, y, z, [edge + x / 2, 1 + y / 2, -2 + z / 2]));
          edge += x + 0.5;
        }
        agrees(massProperties(bodies)!, summed(kernel.Manifold.union(solids)));
      }),
      { numRuns: 40 },
    );
  });
});
