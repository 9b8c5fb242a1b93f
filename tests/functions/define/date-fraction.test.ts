import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../../src/functions';
import { fractionOfDate } from '../../../src/functions/define/parameter';

describe('a fraction that was read as a date', () => {
  // Days from December 30, 1899, on: ECMA-376 part 1, 18.17.4.1.
  it.each([
    [46030, '1/8'],
    [46097, '3/16'],
    [46026, '1/4'],
    [11749, '3/32'],
    [46031, undefined],
    [46143, undefined],
    [20, undefined],
  ])('%d is %s', (serial, fraction) => expect(fractionOfDate(serial)).toBe(fraction));

  it('is guessed in the message', () => {
    const result = call(findDefinition('TARE.WEIGHT.SHEET')!, [10, 46030, '6061-T6']);
    expect(JSON.stringify(result)).toMatch(/1\/8 was read as a date/);
  });
});
