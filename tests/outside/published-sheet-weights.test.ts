/**
 * Weights of sheet and tube as aluminium stockholders print them, at .101 lb/in³ and 2.80 g/cm³ (alloy 2014):
 * whole sheets of 12 × 4 ft and of 2.5 × 1.25 m, tube by the foot and by the metre. Each to its last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import type { Cell } from '../../src/sheet';

const tare = (name: string, ...args: Cell[]): number => call(findDefinition(name)!, args) as number;

describe('a 12 × 4 ft sheet at .101 lb/in³, lb', () => {
  const sheet = (thickness: number): number => tare('WEIGHT.SHEET', tare('AREA.RECT', 144, 48), thickness, 0.101);

  it.each([
    [0.012, 8.38],
    [0.018, 12.57],
    [0.02, 13.96],
    [0.025, 17.45],
    [0.032, 22.34],
    [0.04, 27.92],
    [0.05, 34.91],
    [0.063, 43.98],
    [0.07, 48.87],
    [0.08, 55.85],
    [0.09, 62.83],
    [0.1, 69.81],
    [0.125, 87.26],
    [0.188, 131.25],
    [0.25, 174.53],
  ])('%s in: %s', (thickness, printed) => expect(Math.abs(sheet(thickness) - printed)).toBeLessThanOrEqual(0.0051));

  it('.016 in: half of the printed .032, where the list itself prints 11.19 for 11.17', () => {
    expect(sheet(0.016)).toBeCloseTo(22.34 / 2, 2);
    expect(11.19 - sheet(0.016)).toBeCloseTo(0.02, 3);
  });
});

describe('a 2.5 × 1.25 m sheet at 2.80 g/cm³, kg', () => {
  it.each([
    [0.3, 2.63],
    [0.4, 3.5],
    [0.5, 4.38],
    [0.6, 5.25],
    [0.8, 7],
    [1, 8.75],
    [1.2, 10.5],
    [1.27, 11.11],
    [1.6, 14],
    [2, 17.5],
    [2.5, 21.88],
    [3, 26.25],
    [4, 35],
    [5, 43.75],
    [6.35, 55.56],
  ])('%s mm: %s', (thickness, printed) => {
    const area = tare('AREA.RECT', 2500, 1250, 'mm-kg');
    expect(Math.abs(tare('WEIGHT.SHEET', area, thickness, '2014', 1, 'mm-kg') - printed)).toBeLessThanOrEqual(0.0051);
  });
});

describe('tube at .101 lb/in³, lb a foot', () => {
  it.each([
    [0.25, 0.02, 0.018],
    [0.25, 0.028, 0.024],
    [0.25, 0.036, 0.029],
    [0.375, 0.028, 0.037],
    [0.375, 0.036, 0.046],
    [0.375, 0.048, 0.06],
    [0.5, 0.028, 0.05],
    [0.5, 0.036, 0.064],
    [0.5, 0.048, 0.083],
    [0.625, 0.028, 0.064],
    [0.625, 0.036, 0.081],
  ])('%s × %s: %s', (od, wall, printed) =>
    expect(Math.abs(tare('WEIGHT.TUBE', od, wall, 12, 0.101) - printed)).toBeLessThanOrEqual(0.00051),
  );
});

describe('tube at 2.80 g/cm³, kg a metre', () => {
  it.each([
    [5, 0.5, 0.02],
    [8, 1, 0.062],
    [12, 1, 0.097],
    [14, 1.5, 0.165],
    [16, 1.2, 0.156],
    [20, 1, 0.167],
    [25, 1, 0.211],
    [32, 1, 0.273],
    [50, 0.8, 0.346],
    [50, 1, 0.431],
    [75, 1, 0.651],
    [100, 1.2, 1.043],
  ])('%s × %s mm: %s', (od, wall, printed) =>
    expect(Math.abs(tare('WEIGHT.TUBE', od, wall, 1000, 2.8, 1, 'mm-kg') - printed)).toBeLessThanOrEqual(0.00051),
  );
});
