/**
 * The number in a text that stands where a number belongs: decimals, fractions, a unit written behind, and the signs
 * that a list writes between thousands and before decimals.
 */

/** "-0.5", "12.", "1e-3": decimals behind a dot, as every program writes a number into a file. */
const DECIMAL = String.raw`(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?`;
/** "3/32", "1 1/4", "1-1/4". */
const FRACTION = String.raw`(?:(\d+)[ -])?(\d+)\/(\d+)`;
const IS_DECIMAL = new RegExp(`^[+-]?${DECIMAL}$`, 'i');
const IS_FRACTION = new RegExp(`^([+-]?)${FRACTION}$`);
const LEADING = new RegExp(String.raw`^\s*([+-]?(?:${FRACTION}|${DECIMAL}))([^]*)$`, 'i');

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
  // Only the object's own keys count: every object inherits a "constructor".
  const known = Object.hasOwn(SIGNS, written);
  return { value, sign: known ? SIGNS[written]! : unit!, known };
}

/** Decimals behind a dot, and an exponent where there is one; undefined for anything else, and for what is larger than any number. */
export function decimalNumber(text: string): number | undefined {
  const value = IS_DECIMAL.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

/** Decimal, or fraction with an optional whole part; undefined where it is neither, or larger than any number. */
export function plainNumber(typed: string): number | undefined {
  const fraction = IS_FRACTION.exec(typed);
  if (!fraction) return decimalNumber(typed);
  const [, sign, whole = 0, top, bottom] = fraction;
  const value = (sign === '-' ? -1 : 1) * (Number(whole) + Number(top) / Number(bottom));
  return Number.isFinite(value) ? value : undefined;
}

/** The number that a text begins with, and what is written behind it; undefined where it begins with none. */
export function leadingNumber(text: string): { readonly value: number; readonly rest: string } | undefined {
  const match = LEADING.exec(text);
  const value = match ? plainNumber(match[1]!) : undefined;
  return value === undefined ? undefined : { value, rest: match![5]!.trim() };
}

/** How a list writes decimals: 'comma' alone, so that a dot parts thousands; 'mixed' with dots that are decimal, too. */
export type Decimals = 'dot' | 'comma' | 'mixed';

const THOUSANDS = /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?(?=\D*$)/;
const COMMA = /^[+-]?(?:\d{1,3}(?:\.\d{3})+|\d*),\d+/;

/** True for 1.510 and 12.000 kg, which are thousands where decimals have a comma. */
export const isGrouped = (text: string): boolean => /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?=\D*$)/.test(text);

/** The text with its number's decimals behind a dot and nothing between thousands. */
export function withDot(text: string, decimals: Decimals): string {
  if (decimals !== 'dot' && COMMA.test(text)) return text.replace(/\.(?=\d{3})/g, '').replace(',', '.');
  if (decimals === 'comma' && isGrouped(text)) return text.replace(/\./g, '');
  return THOUSANDS.test(text) ? text.replace(/,(?=\d{3})/g, '') : text;
}

/** True for a number typed with a decimal comma. */
export const hasDecimalComma = (text: string): boolean => /^\d+,\d+$/.test(text.trim());
