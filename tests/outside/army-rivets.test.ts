/** United States Army and Navy manuals on solid rivets, and the Army's specification of driven heads. */
import { describe, expect, it } from 'vitest';
import { checkRivet, pickRivet, rivet, SOLID_SIZES, type SolidRivet } from '../../src/core/fastener';
import { formedHeadHeight } from '../../src/core/fastener/layout';
import { call, findDefinition } from '../../src/functions';
import type { Cell } from '../../src/sheet';

const tare = (name: string, ...args: Cell[]): Cell => call(findDefinition(name)!, args) as Cell;

describe('TM 9-2320-387-24-2, table 33-3: 100° countersinks', () => {
  it.each([
    [4, 0.222, 0.228],
    [5, 0.283, 0.289],
    [6, 0.35, 0.356],
  ])('%s/32 in: the MS20426 head lies in the middle of %s to %s', (dash, least, greatest) => {
    expect(SOLID_SIZES.find((size) => size.dash === dash)!.flushHead).toBeCloseTo((least + greatest) / 2, 9);
  });
});

describe('NAVEDTRA 14018, chapter 13', () => {
  it('L = 1 1/2 D + G: two sheets of .050 and a 5/32 rivet need .334 in', () =>
    expect(tare('RIVET.LENGTH', 0.1, '5/32')).toBeCloseTo(0.334, 3));

  it('a spacing under three diameters is refused, three are allowed', () => {
    const at = (pitch: number): Cell => tare('RIVET.CHECK', 'MS20470AD4-4', 0.072, 0.04, pitch, 0.25);
    expect(at(0.36)).toMatch(/pitch .* is under 3D/);
    expect(at(0.375)).toBe('ok');
  });

  it('rivets under 3/32 in are not for structural parts', () =>
    expect(tare('RIVET.CHECK', 'MS20470AD2-3', 0.05, 0.02, 0.5, 0.15)).toMatch(/not for structure/));
});

describe('TM 10-5410-229-13&P ¶5-6', () => {
  it('the nearest standard length greater than the calculated sum', () => {
    expect(tare('RIVET.PICK', 'universal', 0.125, 0.07, 'longer')).toBe('MS20470AD4-5');
    expect(tare('RIVET.LENGTH', 0.07, 0.125)).toBeCloseTo(0.2575, 9);
  });

  it('edge distance never under two diameters', () => {
    expect(tare('RIVET.CHECK', 'MS20470AD5-5', 0.08, 0.05, 0.7, 0.3)).toMatch(
      /edge distance 0.3 in is under 2D = 0.3125 in/,
    );
    expect(tare('RIVET.CHECK', 'MS20470AD5-5', 0.08, 0.05, 0.7, 0.3125)).toBe('ok');
  });
});

describe('TM 9-2320-303-24-2, rivet patterns', () => {
  it('double row: 4D; triple or multiple row: 3D', () => {
    const findings = (rows: number): number =>
      checkRivet({ rivet: rivet('MS20470AD4-4'), grip: 0.072, thickestSheet: 0.04, pitch: 0.4, edge: 0.25, rows })
        .length;
    expect([1, 2, 3].map(findings)).toEqual([0, 1, 0]);
  });
});

/** The narrowest and thinnest driven head that passes: the metal that stands out of the sheets must be enough for it. */
describe('MIL-R-47196A, table III: driven heads', () => {
  it.each([
    [3, 0.122, 0.038],
    [4, 0.163, 0.05],
    [5, 0.203, 0.062],
  ])('%s/32 in: what is picked forms a head of %s × %s or more', (dash, width, thickness) => {
    for (let grip = 0.03; grip < 0.4; grip += 0.001) {
      const picked = pickRivet('universal', dash / 32, grip, 'nearest') as SolidRivet;
      const volume = formedHeadHeight(picked, grip) * (1.5 * picked.nominal) ** 2;
      expect(volume).toBeGreaterThan(thickness * width ** 2);
    }
  });
});
