/** Decimal digits of a number, rounded half away from zero by its 15 digits: 1.005 to two places is 1.01. */

export interface Decimal {
  /** Digits before the point without leading zeros; "" for none. */
  readonly whole: string;
  /** Exactly as many digits as were asked for. */
  readonly fraction: string;
}

const LARGEST_SHIFT = 400;

/** @param value not negative */
export function decimalOf(value: number, places: number): Decimal {
  const [mantissa, exponent] = value.toExponential(14).split('e') as [string, string];
  const digits = mantissa.replace('.', '');
  const kept = Math.min(Number(exponent) + 1 + places, LARGEST_SHIFT);
  const scaled =
    kept < 0
      ? 0n
      : kept >= digits.length
        ? BigInt(digits) * 10n ** BigInt(kept - digits.length)
        : roundedTo(digits, kept);
  const text = scaled.toString().padStart(places + 1, '0');
  const whole = text.slice(0, text.length - places);
  return { whole: whole === '0' ? '' : whole, fraction: text.slice(text.length - places) };
}

function roundedTo(digits: string, kept: number): bigint {
  return BigInt(digits.slice(0, kept) || '0') + (digits[kept]! >= '5' ? 1n : 0n);
}
