import { describe, expect, it } from 'vitest';
import { readUnit } from '../../../src/core/quantity';
import { decimalsOf, measuredCell, moneyCell, piecesCell, thicknessCell } from '../../../src/project/match/cells';
import { fitOf, namedUnit, saidReadAs } from '../../../src/project/match/meanings';
import type { Cell } from '../../../src/sheet';

const LB = readUnit('lb', 'weight');
const KG = readUnit('kg', 'weight');
const INCH = readUnit('in', 'length');

describe('a cell of somebody’s own list', () => {
  it.each<[Cell, number]>([
    [3.2, 3.2],
    ['3.2', 3.2],
    ['3.2 lb', 3.2],
    ['12 oz', 0.75],
    ['2 lb 4 oz', 2.25],
    ['1 kg', 1 / 0.45359237],
    ['500 grams', 0.5 / 0.45359237],
    ['1,250.5 lb', 1250.5],
    ['~ 3.2 lbs.', 3.2],
    ['3.2#', 3.2],
  ])('%s is a weight of %f lb', (cell, pounds) =>
    expect(measuredCell(cell, 'weight', LB, 'dot')).toBeCloseTo(pounds, 9),
  );

  it.each<[Cell, number]>([
    ['510 mm', 510 / 25.4],
    ['18\' 6"', 222],
    ['5\'-6 1/2"', 66.5],
    ['FS 51.25', 51.25],
    ['Sta. 96', 96],
    ['-3.5', -3.5],
    ['−3.5', -3.5],
    ['3/32 in', 0.09375],
  ])('%s is a length of %f in', (cell, inches) =>
    expect(measuredCell(cell, 'length', INCH, 'dot')).toBeCloseTo(inches, 9),
  );

  it('with a decimal comma is read so where the list has one', () => {
    expect(decimalsOf(['1,250', 'x'])).toBe('dot');
    expect([decimalsOf(['1,250', '0,5', '3.400']), decimalsOf(['0,5', '12.75'])]).toEqual(['comma', 'mixed']);
    expect(measuredCell('3.400 lb', 'weight', LB, 'comma')).toBe(3400);
    expect(measuredCell('0.040', 'length', INCH, 'comma')).toBe(0.04);
    expect(measuredCell('3.400 lb', 'weight', LB, 'mixed')).toBe(3.4);
    expect(measuredCell('1,250 kg', 'weight', KG, 'comma')).toBeCloseTo(1.25 / 0.45359237, 9);
    expect(measuredCell('1.234,5', 'weight', LB, 'comma')).toBe(1234.5);
  });

  it('that says no number stays as it is, so that it is named; a dash is blank', () => {
    expect(measuredCell('see drawing', 'weight', LB, 'dot')).toBe('see drawing');
    expect(measuredCell('3 in', 'weight', LB, 'dot')).toBe('3 in');
    expect([measuredCell('–', 'weight', LB, 'dot'), piecesCell('n/a', 'dot')]).toEqual([null, null]);
  });

  it.each<[Cell, string, Cell]>([
    [20, 'gauge', 0.032],
    ['20 ga', 'in', 0.032],
    ['#20', 'gauge', 0.032],
    ['4/0', 'gauge', 0.46],
    [0.025, 'gauge', 0.025],
    ['0.020 in', 'gauge', 0.02],
    [0.8, 'mm', 0.8 / 25.4],
    [99, 'gauge', 99],
  ])('%s in %s is a thickness of %s in', (cell, unit, inches) => {
    const read = thicknessCell(cell, unit, 'dot');
    if (typeof inches === 'number') expect(read).toBeCloseTo(inches, 9);
  });

  it.each<[Cell, Cell]>([
    ['4 ea', 4],
    ['x4', 4],
    ['12 pcs', 12],
    [3, 3],
    ['A/R', 'A/R'],
  ])('%s is a quantity of %s', (cell, pieces) => expect(piecesCell(cell, 'dot')).toBe(pieces));

  it.each<[Cell, Cell]>([
    ['$12.50', 12.5],
    ['1,250.00 EUR', 1250],
    ['€ 3,50', '€ 3,50'],
  ])('%s is money of %s', (cell, money) => expect(moneyCell(cell, 'dot')).toBe(money));
});

describe('a header of somebody’s own list', () => {
  it.each([
    ['Weight each', 'each piece'],
    ['Unit weight (lb)', 'each piece'],
    ['lb/pc', 'each piece'],
    ['Weight (lb each)', 'each piece'],
    ['Stückgewicht', 'each piece'],
    ['Total weight', 'all pieces'],
    ['Weight', ''],
  ])('%s says "%s"', (header, said) => expect(saidReadAs(header)).toBe(said));

  it('names its unit in brackets or behind it', () => {
    expect(namedUnit('Mass kg', 'weight')?.sign).toBe('kg');
    expect(namedUnit('Station (mm)', 'length')?.sign).toBe('mm');
    expect(namedUnit('Weight in lb', 'weight')?.sign).toBe('lb');
    expect(namedUnit('Area, sq in', 'area')?.sign).toBe('in²');
    expect(namedUnit('Arm', 'length')).toBeUndefined();
  });

  it('fits the meaning that its words say best', () => {
    expect(fitOf('Part name', 'part')).toBeGreaterThan(fitOf('Part no', 'part'));
    expect(fitOf('Wt ea', 'weight')).toBeGreaterThan(0);
    expect(fitOf('Pieces', 'quantity')).toBeGreaterThan(0);
    expect(fitOf('Weight of pieces', 'quantity')).toBe(0);
    expect(fitOf('Remarks', 'part')).toBe(0);
    expect([fitOf('Each (lb)', 'weight'), fitOf('lbs', 'weight'), fitOf('mm', 'weight')]).toEqual([2, 2, 0]);
  });
});
