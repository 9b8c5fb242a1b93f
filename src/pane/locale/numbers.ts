/** Numbers as the pane writes them, and as people type them: with the decimal sign of the locale, as a fraction, with a unit. */
import { memoized } from '../../core/memoized';
import { readUnit, unitsOf, unitWords, type Dimension, type Unit, type UnitSystem } from '../../core/quantity';
import { plainNumber } from '../../functions';
import { localeOf, mark, t, type Marked } from './locale';

/** The unit that a field's number is in. */
export interface FieldUnit {
  readonly dimension: Dimension;
  readonly unit: Unit;
}

/** The systems of units, as a person chooses between them. */
export const SYSTEMS: readonly { readonly units: UnitSystem; readonly label: Marked }[] = [
  { units: 'in-lb', label: mark('Inches and pounds') },
  { units: 'mm-kg', label: mark('Millimetres and kilograms') },
];

export type Read = { readonly value: number } | { readonly wrong: string };

/** Digits beyond these are rounding of the machine, not of anybody's scale. */
const DIGITS = 10;

/** "1,320.50" or "1.320,50": that many decimals, with a real minus sign and no negative nought. */
export function writeNumber(value: number, places: number): string {
  // The format rounds halves as people read the number, 1,479.55 up to 1,479.6; toFixed as the machine holds it.
  return formats(localeOf().numbers)(places)
    .format(Number(value.toFixed(places)) === 0 ? Math.abs(value) : value)
    .replace('-', '−');
}

// Making a format takes as long as writing a hundred numbers, and a long list writes thousands.
const formats = memoized((numbers: string) =>
  memoized(
    (places: number) =>
      new Intl.NumberFormat(numbers, { minimumFractionDigits: places, maximumFractionDigits: places }),
  ),
);

/** A number as it is typed into a field: no thousands, no more decimals than it has. */
export const cellNumber = (value: number): string =>
  String(Number(value.toPrecision(DIGITS))).replace('.', decimalSign());

/** "." or ",": what stands before the decimals. */
export const decimalSign = (): string => separators().decimal;

/**
 * Reads what was typed where a number belongs: decimals, thousands, fractions (3/32, 1 1/4) and, in a field
 * that has a unit, a unit behind the number, which is converted. What can be read in two ways is refused.
 */
export function readNumber(typed: string, field?: FieldUnit): Read {
  const text = typed.trim().replace('−', '-');
  const sign = /(?<=[\d.,]\s*)([a-z"″][a-z"″·.\s-]*[²2]?)$/i.exec(text)?.[1];
  if (sign === undefined || /^e$/i.test(sign)) return readDecimal(text, typed, field);
  const unit = field && readUnit(sign.replace('″', '"'), field.dimension);
  if (!unit) return { wrong: wrongUnit(typed, sign, field) };
  const read = readDecimal(text.slice(0, -sign.length).trim(), typed, field);
  return 'wrong' in read || unit.sign === field.unit.sign
    ? read
    : { value: (read.value * unit.inInch) / field.unit.inInch };
}

function readDecimal(text: string, typed: string, field: FieldUnit | undefined): Read {
  const { decimal, group } = separators();
  const foreign = decimal === '.' ? ',' : '.';
  const grouped = new RegExp(`^[+-]?[1-9]\\d{0,2}(?:[${group}]\\d{3})+(?:[${decimal}]\\d*)?$`).test(text);
  if (grouped && group.includes('.') && !text.includes(decimal) && text.indexOf('.') === text.lastIndexOf('.')) {
    return {
      wrong: t('“{typed}” can be read in two ways: write {whole} or {part}', {
        typed,
        whole: text.replace('.', ''),
        part: text.replace('.', decimal),
      }),
    };
  }
  const plain = grouped
    ? text.replace(new RegExp(`[${group}]`, 'g'), '').replace(decimal, '.')
    : text.replace(decimal, '.');
  const value = plainNumber(plain);
  if (value !== undefined && Number.isFinite(value)) return { value };
  if (new RegExp(`^[+-]?\\d*[${foreign}]\\d+$`).test(text))
    return {
      wrong: t('“{typed}”: write the decimals as {example}', { typed, example: text.replace(foreign, decimal) }),
    };
  return {
    wrong: field
      ? t('“{typed}” is not a number. Type {unit}', { typed, unit: unitWords(field.dimension, field.unit.system) })
      : t('“{typed}” is not a number', { typed }),
  };
}

const wrongUnit = (typed: string, sign: string, field: FieldUnit | undefined): string =>
  field
    ? t('“{typed}”: {sign} is not a unit here. Type {units}', {
        typed,
        sign: sign.trim(),
        units: unitsOf(field.dimension)
          .map((unit) => unit.sign)
          .join(', '),
      })
    : t('“{typed}” is not a number', { typed });

const separators = () => separatorsOf(localeOf().numbers);

/** What stands before the decimals, and what may stand between thousands as a class of characters. */
const separatorsOf = memoized((numbers: string) => {
  const parts = new Intl.NumberFormat(numbers, { useGrouping: true }).formatToParts(-1_234_567.5);
  const sign = (type: string): string => parts.find((part) => part.type === type)?.value ?? '';
  const group = sign('group');
  // Where thousands are set apart by a space of some kind, or by a typographic apostrophe, people type the plain one.
  return { decimal: sign('decimal'), group: /\s/.test(group) ? '\\s' : /['’]/.test(group) ? "'’" : group };
});
