/**
 * TM 10-5410-221-14/1, table 4-3 (blind rivet selection chart), with TM 10-5410-223-24, table 2-3, for 3/16 in.
 * Rivets whose stem stays and is trimmed flush. The first prints every dimension a second time in centimetres, which is what is checked here, in mm-kg.
 */
import { describe, expect, it } from 'vitest';
import { rivet, type BlindRivet } from '../../src/core/fastener';
import { call, findDefinition } from '../../src/functions';
import type { Cell } from '../../src/sheet';

const tare = (name: string, ...args: Cell[]): Cell => call(findDefinition(name)!, args) as Cell;

/** Number, grip from and to, and body length, in centimetres as printed. */
const CENTIMETRES: readonly (readonly [number: string, from: number, to: number, length: number])[] = [
  ['32', 0.0508, 0.3175, 0.5385],
  ['34', 0.32, 0.635, 0.856],
  ['42', 0.16, 0.3175, 0.5893],
  ['43', 0.32, 0.475, 0.7468],
  ['44', 0.4775, 0.635, 0.9068],
  ['45', 0.6375, 0.7925, 1.0643],
  ['46', 0.795, 0.9525, 1.2217],
  ['48', 0.955, 1.27, 1.5951],
  ['52', 0.0508, 0.3175, 0.6452],
  ['53', 0.32, 0.475, 0.8026],
  ['54', 0.4775, 0.635, 0.9627],
  ['56', 0.6375, 0.9525, 1.2802],
];
const DIAMETERS: Readonly<Record<string, number>> = { 3: 2.4, 4: 3.2, 5: 4, 6: 4.8 };

describe('TM 10-5410-221-14/1 table 4-3, the centimetres', () => {
  it.each(CENTIMETRES)('%s is picked from %s to %s cm', (number, from, to) => {
    const diameter = DIAMETERS[number[0]!]!;
    for (const grip of [from * 10, (from + to) * 5, to * 10 - 0.01])
      expect(tare('RIVET.PICK', 'blind retained', diameter, grip, null, null, 'mm-kg')).toBe(`BLIND-AA-${number}R`);
  });

  it.each(CENTIMETRES)('%s, grip %s to %s, is %s cm long', (number, _from, _to, length) => {
    expect(Math.abs((rivet(`BLIND-AA-${number}R`) as BlindRivet).length * 2.54 - length)).toBeLessThanOrEqual(0.0002);
  });
});

describe('TM 10-5410-223-24 table 2-3, 3/16 in', () => {
  it.each([
    ['62', 0.125, 0.277],
    ['64', 0.25, 0.402],
    ['66', 0.375, 0.527],
    ['68', 0.5, 0.652],
    ['610', 0.625, 0.777],
    ['612', 0.75, 0.902],
  ])('%s: grip to %s, length %s', (number, greatest, length) => {
    expect(rivet(`BLIND-AA-${number}R`)).toMatchObject({ gripMax: greatest, length });
  });
});

describe('TM 10-5410-221-14/1 table 4-3, holes', () => {
  it.each([
    ['32', '#41', 0.096, 0.1],
    ['42', '#30', 0.128, 0.132],
    ['52', '#20', 0.16, 0.164],
  ])('%s: drill %s, hole %s to %s', (number, drill, least, greatest) => {
    expect(tare('RIVET.DRILL', `BLIND-AA-${number}R`)).toBe(drill);
    const hole = tare('RIVET.HOLE', `BLIND-AA-${number}R`) as number;
    expect(hole).toBeGreaterThanOrEqual(least);
    expect(hole).toBeLessThanOrEqual(greatest);
  });

  it("62: the drill #11 of the chart is a thousandth under the chart's own .192", () => {
    expect(tare('RIVET.DRILL', 'BLIND-AA-62R')).toBe('#11');
    expect(0.192 - (tare('RIVET.HOLE', 'BLIND-AA-62R') as number)).toBeCloseTo(0.001, 9);
  });
});
