/**
 * MIL-HDBK-5, table 8.1.2(b): single shear of solid rivets, lb. AD of 3/32 and 1/8 are in MIL-HDBK-5F, of
 * 5/32 in MMPDS-09 (both second-hand); all others from memory: verify.
 */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';

const SIZES = [3, 4, 5, 6, 8];
const TABLE: Readonly<Record<string, readonly number[]>> = {
  B: [203, 363, 556, 802, 1450],
  AD: [217, 388, 596, 862, 1555],
  D: [247, 442, 675, 977, 1765],
  DD: [297, 531, 815, 1180, 2125],
};

describe('MIL-HDBK-5 table 8.1.2(b), from memory but for AD3, AD4 and AD5', () => {
  const rows = Object.entries(TABLE).flatMap(([alloy, values]) =>
    values.map((pounds, index) => [`MS20470${alloy}${SIZES[index]}-6`, pounds] as const),
  );
  it.each(rows)('%s: %s lb', (designation, pounds) => {
    const shear = call(findDefinition('RIVET.SHEAR')!, [designation]) as number;
    expect(Math.abs(shear / pounds - 1)).toBeLessThan(0.005);
  });
});

describe('what nobody has seen printed', () => {
  const OWN = [
    ['Rivet', 'Kind', 'Diameter (in)', 'Length (in)', '1000 bought (lb)', 'Hole (in)', 'Shear (lbf)'],
    ['MS20470DD4-6', 'universal', 0.125, 0.375, 0.7, 0.13, 500],
  ];
  const help = (name: string): string => {
    const { source, limits = [] } = findDefinition(name)!;
    return [source, ...limits].join(' ');
  };

  it('is said in the help, with what replaces it', () => {
    expect(help('RIVET.SHEAR')).toMatch(/from memory.*A row of the table rivets .* replaces/);
    expect(help('RIVET.WEIGHT')).toMatch(/from memory.*A row of the table rivets .* replaces/);
    expect(help('RIVET.HOLE')).toMatch(/from memory.*A row of the table rivets .* replaces/);
    expect(help('TOLERANCE.SHEET')).toMatch(/From memory.*type it in the column Tolerance/);
    expect(help('GROWTH')).toMatch(/from memory.*a table of your own replaces/);
    expect(help('BEND.MINRADIUS')).toMatch(/from memory.*the radius of every other function here is yours/);
    expect(help('MATERIAL.DENSITY')).toMatch(/from memory.*A density of your own/);
  });

  it('is replaced by a row of one’s own with the same label', () => {
    const tare = (name: string, ...args: unknown[]): unknown => call(findDefinition(name)!, args as never);
    expect(tare('RIVET.SHEAR', 'MS20470DD4-6', null, OWN)).toBe(500);
    expect(tare('RIVET.HOLE', 'MS20470DD4-6', null, OWN)).toBe(0.13);
    expect(tare('RIVET.WEIGHT', 'MS20470DD4-6', 1000, 'bought', null, OWN)).toBeCloseTo(0.7, 9);
    expect(tare('WEIGHT.SHEET', 144, 0.032, 0.1)).toBeCloseTo(144 * 0.032 * 0.1, 12);
  });
});
