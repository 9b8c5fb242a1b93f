/**
 * The geometry kernel manifold-3d builds rivets as solids from balls, cylinders and cones; their volumes, and the
 * weights that the functions give, agree to .1 %. (It checks the formulas; the shapes are models, see weight.ts.)
 */
import Module, { type Manifold as Solid, type ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { rivetWeight, SOLID_SIZES } from '../../src/core/fastener';
import { BLIND_SIZES, FLUSH_HEAD_ANGLE, UNIVERSAL_HEAD } from '../../src/core/fastener/sizes';
import { blindRivet, solidRivet } from '../../src/core/fastener/designation';
import { blindVolumes, flushHeadHeight, solidVolume } from '../../src/core/fastener/weight';
import { call, findDefinition } from '../../src/functions';

/** A circle of so many sides has .01 % less area. */
const SEGMENTS = 256;
const LENGTHS = [4, 6.5];
let kernel: ManifoldToplevel;

beforeAll(async () => {
  kernel = await Module();
  kernel.setup();
});

const cylinder = (diameter: number, from: number, to: number): Solid =>
  kernel.Manifold.cylinder(to - from, diameter / 2, diameter / 2, SEGMENTS).translate([0, 0, from]);

const caps = new Map<string, Solid>();

/** The part of a ball above z = 0, `height` high and `diameter` wide there. */
function cap(diameter: number, height: number): Solid {
  const key = `${diameter} ${height}`;
  const radius = ((diameter / 2) ** 2 + height ** 2) / (2 * height);
  const made =
    caps.get(key) ??
    kernel.Manifold.sphere(radius, SEGMENTS)
      .translate([0, 0, height - radius])
      .trimByPlane([0, 0, 1], 0);
  caps.set(key, made);
  return made;
}

const agree = (got: number, solid: Solid): void => expect(Math.abs(got / solid.volume() - 1)).toBeLessThan(0.001);

describe('solid rivets', () => {
  const rows = SOLID_SIZES.flatMap((size) =>
    LENGTHS.map((length) => ({ size, length, name: `${size.dash}-${length}` })),
  );

  it.each(rows)('universal head AD$name', ({ size, length }) => {
    const head = cap(UNIVERSAL_HEAD.diameter * size.shank, UNIVERSAL_HEAD.height * size.shank);
    const solid = head.add(cylinder(size.shank, -length / 16, 0));
    agree(solidVolume(solidRivet('universal', 'AD', size.dash, length)), solid);
    const weight = call(findDefinition('RIVET.WEIGHT')!, [
      `MS20470AD${size.dash}-${length}`,
      1,
      null,
      'mm-kg',
    ]) as number;
    expect(Math.abs(weight / (solid.volume() * 25.4 ** 3 * 2.75e-6) - 1)).toBeLessThan(0.001);
  });

  it.each(rows)('flush head AD$name', ({ size, length }) => {
    // A cone cut off by the two faces of the head, its angle being the only thing known of it.
    const slope = Math.tan(((FLUSH_HEAD_ANGLE / 2) * Math.PI) / 180);
    const apex = size.flushHead / 2 / slope;
    const cone = kernel.Manifold.cylinder(apex, 0, size.flushHead / 2, SEGMENTS).translate([0, 0, -apex]);
    const solid = cone.add(cylinder(size.shank, -length / 16, 0)).trimByPlane([0, 0, 1], -length / 16);
    agree(solidVolume(solidRivet('flush', 'AD', size.dash, length)), solid);
    expect(flushHeadHeight(size)).toBeLessThan(apex);
  });
});

describe('blind rivets', () => {
  const grip: Readonly<Record<number, number>> = { 3: 2, 4: 2, 5: 4, 6: 6 };
  const middle = ({ max, min }: { max: number; min: number }): number => (max + min) / 2;

  it.each(BLIND_SIZES)('body, mandrel head and stem, $dash/32 in', (size) => {
    const of = blindRivet('AS', size.dash, grip[size.dash]!);
    const volumes = blindVolumes(of);
    const bore = cylinder(size.mandrel, -of.length, size.head.height);
    const body = cap(middle(size.head), size.head.height)
      .add(cylinder(middle(size.body), -of.length, 0))
      .subtract(bore);
    agree(volumes.body, body);
    const head = kernel.Manifold.cylinder(size.blindSide, size.body.min / 2, size.mandrel / 2, SEGMENTS);
    agree(volumes.mandrelHead, head);
    const stem = cylinder(size.mandrel, -of.length, size.head.height + size.protrusion);
    agree(volumes.stem, stem);
    // Aluminium body 5052 (2.68 g/cm³), mandrel of low-carbon steel (.284 lb/in³).
    const body5052 = body.volume() * 2.68 * (2.54 ** 3 / 453.59237);
    const bought = body5052 + (head.volume() + stem.volume()) * 0.284;
    const installed = body5052 + head.volume() * 0.284;
    expect(Math.abs(rivetWeight(of, 'bought') / bought - 1)).toBeLessThan(0.001);
    expect(Math.abs(rivetWeight(of, 'installed') / installed - 1)).toBeLessThan(0.001);
  });
});
