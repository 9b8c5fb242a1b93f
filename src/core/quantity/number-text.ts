/** The number in a text that stands where a number belongs: decimals, fractions, and a unit written behind. */

/** "3/32", "1 1/4", "-0.5", "1e-3", with a dot. */
const PLAIN = /^([+-]?)(?:(\d+)[ -])?(\d+)\/(\d+)$|^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/** Signs of a unit that may stand behind a typed number, by the sign that units.ts uses. */
const SIGNS: Readonly<Record<string, string>> = {
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  mm: 'mm',
  lb: 'lb',
  lbs: 'lb',
  'lb.': 'lb',
  kg: 'kg',
  cm: 'cm',
  ft: 'ft',
  "'": 'ft',
  m: 'm',
  g: 'g',
  oz: 'oz',
};

export interface TypedNumber {
  readonly value: number;
  /** The unit written behind the number, by the sign that units.ts uses; as it was written where that is none. */
  readonly sign?: string;
  /** False: what is written behind the number is no unit that is known. */
  readonly known: boolean;
}

/** Undefined where the text holds no number. */
export function typedNumber(text: string): TypedNumber | undefined {
  const typed = text.trim();
  const unit = /[a-z"'″”][a-z.]*$/i.exec(typed)?.[0];
  const bare = unit && !/^e[+-]?\d*$/i.test(unit) ? typed.slice(0, -unit.length).trim() : typed;
  const value = plainNumber(bare);
  if (value === undefined) return undefined;
  if (bare === typed) return { value, known: true };
  const written = unit!.toLowerCase();
  // Own ones alone: every object has a "constructor".
  const known = Object.hasOwn(SIGNS, written);
  return { value, sign: known ? SIGNS[written]! : unit!, known };
}

/** Decimal, or fraction with an optional whole part; undefined where it is neither, or larger than any number. */
export function plainNumber(typed: string): number | undefined {
  const match = PLAIN.exec(typed);
  if (!match) return undefined;
  const [, sign, whole, top, bottom] = match;
  const value =
    top === undefined || bottom === undefined
      ? Number(typed)
      : (sign === '-' ? -1 : 1) * (Number(whole ?? 0) + Number(top) / Number(bottom));
  return Number.isFinite(value) ? value : undefined;
}

/** True for a number typed with a decimal comma. */
export const hasDecimalComma = (text: string): boolean => /^\d+,\d+$/.test(text.trim());
