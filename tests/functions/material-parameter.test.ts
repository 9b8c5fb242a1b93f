/** The parameter `material`, through the functions that take it. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Result } from '../../src/sheet';

const density = (...args: Argument[]): Result => call(findDefinition('MATERIAL.DENSITY')!, args);
const message = (result: Result): string =>
  result instanceof CellError ? `${result.code} ${result.message}` : String(result);

describe('a material', () => {
  it('in a number cell that is a designation is the designation', () => {
    expect(density(6061)).toBe(density('6061-T6'));
    expect(density(4130)).toBeCloseTo(0.2836, 5);
    expect(density(304)).toBe(density('304'));
    expect(density(2024, 'mm-kg')).toBeCloseTo(2.78, 9);
  });

  it('as a number is a density in the units of the call', () => {
    expect(density(0.101)).toBe(0.101);
    expect(density('0.101')).toBe(0.101);
    expect(density(2.7, 'mm-kg')).toBeCloseTo(2.7, 9);
  });

  it('with its unit written out is taken at its word', () => {
    expect(density('0.1 lb/in³')).toBeCloseTo(0.1, 12);
    expect(density('2.7 g/cm3')).toBe(density('6061'));
    expect(density('2700 kg/m^3', 'mm-kg')).toBeCloseTo(2.7, 9);
    expect(density('172.8 lb/ft3')).toBeCloseTo(0.1, 12);
    expect(density('0.1 lb/in3', 'mm-kg')).toBeCloseTo(2.768, 3);
  });

  it.each([
    [[2.7], /^#VALUE! material: got 2.7; takes a designation .* looks like g\/cm³ \(write 0.0975/],
    [[2700], /looks like kg\/m³ \(write 0.0975/],
    [[2700, 'mm-kg'], /takes a designation .* g\/cm³.*looks like kg\/m³ \(write 2.7\)/],
    [[168.5], /looks like lb\/ft³ \(write 0.0975.*\) or kg\/m³/],
    [[-0.1], /^#VALUE! material: got -0.1/],
    [['2700 g/cm3'], /^#VALUE! material/],
    [[true], /^#VALUE! material: got TRUE/],
    [['6016-T6'], /^#N\/A material: got "6016-T6".*Nearest: 6061/],
    [['not a material'], /^#N\/A/],
  ] as [Argument[], RegExp][])('%j is refused', (args, text) => expect(message(density(...args))).toMatch(text));

  it('in a column is wrong only where it is wrong', () => {
    const column = density([['6061-T6'], [''], [2.7], ['7075']]) as Result[][];
    expect(column.map(([cell]) => (cell instanceof CellError ? cell.code : typeof cell))).toEqual([
      'number',
      'string',
      '#VALUE!',
      'number',
    ]);
  });

  it('a number that a computation refuses is shown in the units of the call', () => {
    const tube = (units: string): string =>
      message(call(findDefinition('WEIGHT.TUBE')!, [25, 15, 300, '6061', 1, units]));
    expect(tube('mm-kg')).toMatch(/^#VALUE! wall: got 15; takes less than half of outside_diameter/);
  });
});

describe('four digits that are no designation', () => {
  it('are told the nearest designation, and the density that they may be', () => {
    expect(message(density('6016'))).toContain(
      'Nearest: 6061. For another material give its density. 6016 looks like kg/m³ (write 0.2173)',
    );
    expect(message(density(2700))).toMatch(/lb\/in³\. 2700 looks like kg\/m³ \(write 0\.09754\)$/);
  });
});
