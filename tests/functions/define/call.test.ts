import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../../src/functions';
import { CellError, type Argument, type Matrix } from '../../../src/sheet';

const rect = (...args: Argument[]) => call(findDefinition('TARE.AREA.RECT')!, args);
const message = (result: unknown): string => (result as CellError).message;

describe('cells and columns', () => {
  it('gives one value for single cells, however a host wraps them', () => {
    expect(rect(3, 2)).toBe(6);
    expect(rect([[3]], [[2]])).toBe(6);
  });

  it('lifts columns, rows and blocks, and mixes them with single cells', () => {
    expect(rect([[3], [4]], 2)).toEqual([[6], [8]]);
    expect(rect([[3, 4]], 2)).toEqual([[6, 8]]);
    expect(rect([[3], [4]], [[2], [5]])).toEqual([[6], [20]]);
    expect(
      rect(
        [
          [1, 2],
          [3, 4],
        ],
        2,
      ),
    ).toEqual([
      [2, 4],
      [6, 8],
    ]);
  });

  it('refuses columns of two lengths and says which', () => {
    expect(message(rect([[1], [2]], [[1], [2], [3]]))).toBe(
      'width: got 3 × 1 cells; takes one cell, or as many cells as length, which has 2 × 1',
    );
  });

  it('keeps a blank row blank and an error in its own row', () => {
    const result = rect([[3], [null], [''], [-1], [new CellError('#REF!')]], [[2], [''], [null], [2], [2]]) as Matrix;
    expect(result.slice(0, 3)).toEqual([[6], [''], ['']]);
    expect(message(result[3]![0])).toContain('length: got -1; takes inches above 0');
    expect(result[4]![0]).toEqual(new CellError('#REF!'));
  });

  it('takes the 0 that some hosts pass for a blank cell as blank when the whole row is', () => {
    expect(rect([[0], [3]], [[0], [2]])).toEqual([[''], [6]]);
    expect(message(rect(0, 2))).toContain('length: got 0; takes inches above 0');
  });

  it('names the blank in a row that is not blank', () => {
    expect(message(rect(3, null))).toBe('width: got a blank; takes inches above 0 and up to 12000');
  });
});

describe('units', () => {
  it('converts arguments and result', () => {
    expect(rect(25.4, 50.8, 'mm-kg')).toBeCloseTo(25.4 * 50.8, 9);
    expect(rect(3, 2, 'IN-LB')).toBe(6);
    expect(rect(3, 2, '')).toBe(6);
    expect(rect(3, 2, 0)).toBe(6);
  });

  it('refuses another word and lists the two', () => {
    expect(message(rect(3, 2, 'cm'))).toBe('units: got "cm"; takes "in-lb" or "mm-kg"');
  });

  it('says the limits in the units that were asked for', () => {
    expect(message(rect(-1, 2, 'mm-kg'))).toContain('length: got -1; takes millimetres above 0 and up to 304800');
  });
});

describe('numbers written as text', () => {
  it('knows no unit by a name that every object has', () => {
    expect(message(rect('3 constructor', 2))).toBe('length: got "3 constructor"; takes inches above 0 and up to 12000');
  });

  it('reads decimals, fractions and the unit itself', () => {
    expect(rect('3.5', '2')).toBe(7);
    expect(rect('1 1/4', '3/32')).toBeCloseTo(1.25 * 0.09375, 12);
    expect(rect('3"', '2 in')).toBe(6);
  });

  it('says what a unit measures that is none of a length', () => {
    expect(message(rect('20 kg', 2))).toBe(
      'length: got "20 kg"; takes inches above 0 and up to 12000. kg is a unit of weight',
    );
  });

  it('names another unit', () => {
    expect(message(rect('20 mm', 2))).toContain('For mm give the units "mm-kg"');
    expect(message(rect('2 ft', 2))).toContain('Convert from ft first: 2 ft is 24 in');
    expect(message(rect('5 cm', 2, 'mm-kg'))).toContain('Convert from cm first: 5 cm is 50 mm');
    expect(message(rect('2,5', 2))).toContain('Write the decimal point as a dot');
  });
});
