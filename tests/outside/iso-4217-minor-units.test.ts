/** ISO 4217, currencies whose minor unit is not a hundredth, as Firefox's source has them (list of 2025-02-04). */
import { describe, expect, it } from 'vitest';
import { minorDigits } from '../../src/core/price';

const PRINTED: Readonly<Record<string, number>> = {
  ...{ BHD: 3, BIF: 0, CLF: 4, CLP: 0, DJF: 0, GNF: 0, IQD: 3, ISK: 0, JOD: 3, JPY: 0, KMF: 0, KRW: 0, KWD: 3 },
  ...{ LYD: 3, OMR: 3, PYG: 0, RWF: 0, TND: 3, UGX: 0, UYI: 0, UYW: 4, VND: 0, VUV: 0, XAF: 0, XOF: 0 },
};

describe('ISO 4217, digits of the minor unit', () => {
  it.each(Object.entries(PRINTED))('%s: %i', (code, digits) => expect(minorDigits(code)).toBe(digits));
  it('hundredths elsewhere', () => expect(['USD', 'EUR', 'GBP', 'CAD'].map(minorDigits)).toEqual([2, 2, 2, 2]));
});
