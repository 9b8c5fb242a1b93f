import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moved, onSheet, relocked } from '../../../src/sheet/formula';

describe('references that move', () => {
  it.each([
    ['A1+$A1+A$1+$A$1', 2, 1, 'B3+$A3+B$1+$A$1'],
    ['SUM(A1:B2,Parts!C3)', 1, 0, 'SUM(A2:B3,Parts!C4)'],
    ['\'A1 sheet\'!A1&"A1"', 1, 1, '\'A1 sheet\'!B2&"A1"'],
    ['SUM(A:B)+SUM(2:$3)', 1, 1, 'SUM(B:C)+SUM(3:$3)'],
    ['LOG10(A1)+A1B+Sizes[A1]+Q1!A1', 1, 0, 'LOG10(A2)+A1B+Sizes[A1]+Q1!A2'],
    ['A1', -1, 0, '#REF!'],
    ['B2', 0, -2, '#REF!'],
    ['1.5E3+A1', 1, 0, '1.5E3+A2'],
  ])('%s by %i, %i', (formula, rows, columns, to) => expect(moved(formula, rows, columns)).toBe(to));

  it('come back to where they were', () => {
    const cell = fc
      .tuple(
        fc.constantFrom('', '$'),
        fc.constantFrom('C', 'ZZ', 'ABC'),
        fc.constantFrom('', '$'),
        fc.integer({ min: 10, max: 9999 }),
      )
      .map((parts) => parts.join(''));
    const piece = fc.oneof(
      cell,
      cell.map((one) => `Parts!${one}`),
      fc.constantFrom('1.5', '"B2"', 'SUM(D9)', "'B 2'!B7", 'Sizes[B2]'),
    );
    fc.assert(
      fc.property(
        fc.array(piece, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 0, max: 20 }),
        (list, rows, columns) => {
          const formula = list.join('+');
          expect(moved(moved(formula, rows, columns), -rows, -columns)).toBe(formula);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('references seen from another sheet', () => {
  it.each([
    ['A1+$B$2', 'Parts!A1+Parts!$B$2'],
    ['SUM(A1:B2)+Tips!C3', 'SUM(Parts!A1:B2)+Tips!C3'],
    ['SUM(A:B)+2:3', 'SUM(Parts!A:B)+Parts!2:3'],
    ['\'A 1\'!A1&"A1"&Sizes[A1]', '\'A 1\'!A1&"A1"&Sizes[A1]'],
    ['LOG10(3)+TRUE+skin', 'LOG10(3)+TRUE+skin'],
  ])('%s', (formula, from) => expect(onSheet(formula, 'Parts')).toBe(from));

  it('name a sheet in quotes where that is needed', () => expect(onSheet('A1', 'Left wing')).toBe("'Left wing'!A1"));
});

describe('references that are fixed and let go', () => {
  it.each([
    ['B5', ['$B$5', 'B$5', '$B5', 'B5']],
    ['Prices!A1:J40*2', ['Prices!$A$1:$J$40*2', 'Prices!A$1:J$40*2', 'Prices!$A1:$J40*2', 'Prices!A1:J40*2']],
  ])('%s', (from, steps) => {
    let at = from;
    for (const step of steps) expect((at = relocked(at))).toBe(step);
  });

  it('leave a formula without any', () => expect(relocked('Parts[Area]*2')).toBe('Parts[Area]*2'));
});
