/** FAA Advisory Circular 43.13-1B, chapter 4, section 4 (metal repair procedures): rivets. */
import { describe, expect, it } from 'vitest';
import { checkRivet, rivet } from '../../src/core/fastener';
import { shearDiameter } from '../../src/core/fastener/strength';
import { call, findDefinition } from '../../src/functions';
import type { Cell } from '../../src/sheet';

const tare = (name: string, ...args: Cell[]): Cell => call(findDefinition(name)!, args) as Cell;

describe('¶4-57a(4): names', () => {
  it('AN470 is superseded by MS20470, AN426 by MS20426', () => {
    expect(rivet('AN470AD4-4').designation).toBe('MS20470AD4-4');
    expect(rivet('AN426AD4-4').designation).toBe('MS20426AD4-4');
  });

  it('a half size is written MS20470 AD4-3.5: 7/32 in long', () =>
    expect(rivet('MS20470 AD4-3.5')).toMatchObject({ length: 7 / 32, dash: 4, alloy: 'AD' }));
});

describe('¶4-58g: splice of .032 clad 2024 over 10 in', () => {
  it('(2)(a): 3 × .032 = .096; 1/8 in is used and 5/32 would do', () => {
    for (const dash of [4, 5]) {
      const of = rivet(`MS20470AD${dash}-5`);
      const diameter = checkRivet({
        rivet: of,
        grip: 0.064,
        thickestSheet: 0.032,
        pitch: 6 * of.nominal,
        edge: 2 * of.nominal,
      }).filter(({ what }) => what.startsWith('diameter'));
      expect(diameter).toEqual([]);
    }
  });

  it('(2)(c): two rows at the minimum spacing of figure 4-5, 4D and 2D from the edge, have 40 rivets', () =>
    expect(tare('RIVET.COUNT', 10, 0.5, 0.25, 2)).toBe(40));

  it('(2)(c): two rows of 19 equally spaced are satisfactory: no rule is broken', () => {
    const pitch = tare('RIVET.PITCH', 10, 19, 0.25) as number;
    expect(tare('RIVET.COUNT', 10, pitch, 0.25, 2)).toBe(38);
    expect(
      checkRivet({ rivet: rivet('MS20470AD4-4'), grip: 0.064, thickestSheet: 0.032, pitch, edge: 0.25, rows: 2 }),
    ).toEqual([]);
  });
});

/**
 * Tables 4-10 and 4-11: AD rivets for each inch of width, "using nominal hole diameters for rivets". Where the sheet
 * fails in bearing at 160 % of its tensile stress, n = 1/(1.6 d); where the rivet shears at k of it, n = t/(k π/4 d²).
 * So the tables show which diameters were used. Table 4-10 leaves out its k; 50 % is what its numbers have.
 */
describe('tables 4-10 and 4-11: the nominal hole diameters', () => {
  it.each([
    [3, 6.5],
    [4, 4.9],
    [5, 3.9],
    [6, 3.3],
    [8, 2.4],
  ])('table 4-10, bearing, %s/32 in: %s an inch', (dash, printed) => {
    expect(Math.abs(1 / (1.6 * shearDiameter(dash)) - printed)).toBeLessThanOrEqual(0.05);
  });

  const shear = (k: number, dash: number, t: number): number => t / (k * (Math.PI / 4) * shearDiameter(dash) ** 2);

  it.each([
    [3, 0.032, 8.9],
    [3, 0.036, 10],
    [3, 0.04, 11.1],
    [4, 0.04, 6.2],
    [4, 0.051, 7.9],
    [4, 0.064, 9.9],
    [4, 0.081, 12.5],
    [5, 0.051, 5.1],
    [5, 0.064, 6.5],
    [5, 0.081, 8.1],
    [5, 0.102, 10.3],
    [6, 0.064, 4.5],
    [6, 0.091, 6.3],
    [6, 0.102, 7.1],
    [6, 0.128, 8.9],
    [8, 0.081, 3.1],
    [8, 0.102, 3.9],
    [8, 0.128, 4.9],
  ])('table 4-10, shear, %s/32 in through %s: %s an inch', (dash, t, printed) =>
    expect(Math.abs(shear(0.5, dash, t) - printed)).toBeLessThanOrEqual(0.1),
  );

  it.each([
    [3, 0.04, 7.9],
    [3, 0.051, 10.1],
    [3, 0.064, 12.7],
    [4, 0.064, 7],
    [4, 0.081, 8.9],
    [4, 0.102, 11.2],
    [5, 0.064, 4.6],
    [5, 0.102, 7.3],
    [5, 0.128, 9.2],
    [6, 0.091, 4.5],
    [6, 0.128, 6.4],
    [8, 0.102, 2.8],
    [8, 0.128, 3.5],
  ])('table 4-11, shear at 70 %, %s/32 in through %s: %s an inch', (dash, t, printed) =>
    expect(Math.abs(shear(0.7, dash, t) - printed)).toBeLessThanOrEqual(0.1),
  );
});

describe('¶4-57f(9): pull-type rivets', () => {
  it.each(['RIVET.SHEAR', 'RIVET.CHECK'])('the help of %s quotes it as it stands on p. 4-24', (name) => {
    expect(findDefinition(name)!.limits!.join(' ')).toMatch(
      /Common pull-type Pop rivets, produced for nonaircraft related applications, are not approved for use on certificated aircraft structures or components" \(AC 43.13-1B ¶4-57f\(9\)\)/,
    );
  });
});
