import Decimal from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extend, roundMoney, sumMoney } from '../../../src/core/price';

describe('rounding', () => {
  it.each([
    [1.005, 'USD', 1.01],
    [-1.005, 'USD', -1.01],
    [2.5, 'JPY', 3],
    [0.0005, 'KWD', 0.001],
    [1.004999, '', 1],
  ])('%s %s is %s', (amount, currency, wanted) => {
    expect(roundMoney(amount, currency)).toBe(wanted);
  });

  it('multiplies in decimals: 3 × 0.335 is 1.005', () => {
    expect(extend(0.335, 3, 'USD')).toBe(1.01);
  });
});

describe('sums', () => {
  it('are what decimals give, of any amounts', () => {
    const amount = fc.oneof(
      fc.integer({ min: -10_000_000, max: 10_000_000 }).map((cents) => cents / 100),
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e20, max: 1e20 }),
      fc.constantFrom(1e7, 1e15 / 10_000, 0.00005, -0, 123_456_789_012.34, 9_999_999.9999),
    );
    fc.assert(
      fc.property(fc.array(amount, { maxLength: 60 }), fc.constantFrom('USD', 'KWD', 'JPY', 'CLF'), (all, currency) => {
        const exact = all.reduce((sum, one) => sum.plus(one), new Decimal(0));
        expect(sumMoney(all, currency)).toBe(roundMoney(exact, currency));
      }),
      { numRuns: 2000 },
    );
  });

  it('reconcile to the cent', () => {
    expect(sumMoney([0.1, 0.2], 'USD')).toBe(0.3);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -1_000_000, max: 1_000_000 }), { maxLength: 200 }), (cents) => {
        expect(
          sumMoney(
            cents.map((cent) => cent / 100),
            'USD',
          ),
        ).toBe(cents.reduce((sum, cent) => sum + cent, 0) / 100 + 0);
      }),
    );
  });
});

describe('decimals', () => {
  it('agrees with whole cents', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -10_000_000, max: 10_000_000 }),
        fc.integer({ min: 0, max: 10_000 }),
        (mills, units) => {
          // mills × units, rounded half up to cents by whole numbers alone.
          const exact = mills * units;
          const cents = Math.sign(exact) * Math.floor((Math.abs(exact) + 5) / 10);
          expect(extend(mills / 1000, units, 'USD')).toBe(cents / 100 + 0);
        },
      ),
    );
  });
});
