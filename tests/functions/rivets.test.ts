/** What the functions of rivets add to the core: units, columns, blanks, and the wording of findings. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Result } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]): Result => call(findDefinition(name)!, args);

describe('rivets on a sheet', () => {
  it('a column of grips gives a column of designations, blanks staying blank', () => {
    expect(tare('RIVET.PICK', 'universal', '1/8', [[0.057], [''], [0.12]])).toEqual([
      ['MS20470AD4-4'],
      [''],
      ['MS20470AD4-5'],
    ]);
  });

  it('columns of designations and counts give a column of weights', () => {
    const [first, second] = (
      tare('RIVET.WEIGHT', [['MS20470AD4-4'], ['MS20470AD4-6']], [[100], [200]]) as number[][]
    ).flat();
    expect(second! / first!).toBeGreaterThan(2);
  });

  it('the weight in kilograms is the weight in pounds', () => {
    const pounds = tare('RIVET.WEIGHT', 'MS20470AD4-6', 1000) as number;
    const kilograms = tare('RIVET.WEIGHT', 'MS20470AD4-6', 1000, null, 'mm-kg') as number;
    expect(kilograms / pounds).toBeCloseTo(0.45359237, 9);
    expect(tare('RIVET.PERPOUND', 'MS20470AD4-6', 'mm-kg')).toBeCloseTo(1000 / kilograms, 6);
  });

  it('a diameter of 4 is taken for the number of a designation, and refused', () => {
    expect((tare('RIVET.PICK', 'universal', 4, 0.07) as CellError).message).toMatch(/diameter: got 4; .*write 4\/32/);
  });

  it('a grip or a sheet in thousandths is refused with that guess, and in millimetres without it', () => {
    expect((tare('RIVET.LENGTH', 72, '1/8') as CellError).message).toMatch(
      /^grip: got 72; takes inches above 0 and up to 4\. 72 looks like thousandths of an inch: write 0\.072/,
    );
    expect((tare('RIVET.GRIP', [[0.02], [32]]) as CellError).message).toMatch(/thicknesses.*got 32; .*write 0\.032/);
    expect((tare('RIVET.LENGTH', 150, 3.2, null, 'mm-kg') as CellError).message).toBe(
      'grip: got 150; takes millimetres above 0 and up to 101.6',
    );
    expect((tare('WEIGHT.SHEET', 100, 30, '6061-T6', 1, 'mm-kg') as CellError).message).not.toMatch(/thousandths/);
  });

  it('a grip out of range says in both units from where to where the sizes go', () => {
    expect((tare('RIVET.PICK', 'blind', 3.2, 15, null, null, 'mm-kg') as CellError).toString()).toMatch(
      /^#N\/A grip: got 15; takes from 0.02 in \(0.51 mm\) to 0.5 in \(12.7 mm\)/,
    );
  });

  it('findings are written in the units of the call', () => {
    expect(tare('RIVET.CHECK', 'MS20470AD4-4', 1.8, 1, 25, 5, 'mm-kg')).toMatch(
      /^edge distance 5 mm is under 2D = 6.35 mm/,
    );
  });

  it('a blind rivet has no shear here, and the reason is said', () => {
    expect((tare('RIVET.SHEAR', 'BLIND-AA-42') as CellError).toString()).toMatch(
      /^#N\/A rivet: .*maker's.*certificated aircraft/,
    );
  });

  it('a grip of no sheets is an error', () => expect(tare('RIVET.GRIP', [[''], ['']])).toBeInstanceOf(CellError));
});
