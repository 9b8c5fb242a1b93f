/** Numbers by the digits of a format: points, thousands, per cent, exponents and fractions. */
import { endOfRun, isDigit, type FormatPiece, type Section } from './sections';

/** @param value not negative */
export function digitsText(value: number, section: Section): string {
  const { pieces } = section;
  if (pieces.some(({ kind }) => kind === 'exponent')) return exponentText(value, pieces);
  const places = fractionPlaces(pieces);
  if (places) return fractionText(value, pieces, places);
  return plainText(value, pieces);
}

interface Layout {
  /** Index behind the last piece of the whole part. */
  readonly wholeEnd: number;
  readonly wholeDigits: number;
  readonly fractionDigits: number;
  readonly isGrouped: boolean;
  /** Thousands by which the number is divided: commas behind the last digit. */
  readonly thousands: number;
  readonly percents: number;
}

function layoutOf(pieces: readonly FormatPiece[]): Layout {
  const point = pieces.findIndex(({ kind }) => kind === 'point');
  const wholeEnd = point < 0 ? pieces.length : point;
  const whole = pieces.slice(0, wholeEnd);
  const first = whole.findIndex(isDigit);
  const last = whole.findLastIndex(isDigit);
  const end = pieces.findLastIndex(isDigit);
  return {
    wholeEnd,
    wholeDigits: whole.filter(isDigit).length,
    fractionDigits: pieces.slice(wholeEnd).filter(isDigit).length,
    isGrouped: whole.some(({ kind }, index) => kind === 'comma' && index > first && index < last),
    thousands: end < 0 ? 0 : endOfRun(pieces, end + 1, ({ kind }) => kind === 'comma') - end - 1,
    percents: pieces.filter(({ kind }) => kind === 'percent').length,
  };
}

function plainText(value: number, pieces: readonly FormatPiece[]): string {
  const layout = layoutOf(pieces);
  const scaled = value * 100 ** layout.percents * 1000 ** -layout.thousands;
  return decimalText(decimalOf(scaled, layout.fractionDigits), pieces, layout);
}

/** The digits of a decimal in the places of a format. */
const decimalText = ({ whole, fraction }: Decimal, pieces: readonly FormatPiece[], layout: Layout): string =>
  wholeText(whole, pieces.slice(0, layout.wholeEnd), layout) + partText(fraction, pieces.slice(layout.wholeEnd));

/** Digits from the right; the first place takes all that are left, and "0" and "?" fill up. */
function wholeText(digits: string, pieces: readonly FormatPiece[], { wholeDigits, isGrouped }: Layout): string {
  let left = digits;
  let place = 0;
  let written = 0;
  let text = '';
  for (let index = pieces.length - 1; index >= 0; index--) {
    const { kind, text: own } = pieces[index]!;
    if (kind === 'comma') continue;
    if (kind !== 'digit') {
      text = own + text;
      continue;
    }
    place++;
    const take = place === wholeDigits ? left : left.slice(-1);
    left = place === wholeDigits ? '' : left.slice(0, -1);
    for (const digit of [...(take || filler(own))].reverse()) {
      if (isGrouped && written > 0 && written % 3 === 0 && digit !== ' ') text = `,${text}`;
      text = digit + text;
      written++;
    }
  }
  // A format without a place before the point (.00) shows the whole part all the same.
  return wholeDigits === 0 ? text + left : text;
}

const filler = (place: string): string => (place === '0' ? '0' : place === '?' ? ' ' : '');

/** The part from the point on. A zero at its end is shown for "0", becomes a space for "?" and is left out for "#". */
function partText(digits: string, pieces: readonly FormatPiece[]): string {
  const shown = digits.replace(/0+$/, '').length;
  let at = 0;
  return pieces
    .map(({ kind, text }) => {
      if (kind === 'comma') return '';
      if (kind !== 'digit') return text;
      const digit = at < shown ? digits[at]! : filler(text);
      at++;
      return digit;
    })
    .join('');
}

/** As many digits before the point as there are places; with several the exponent is their multiple. */
function exponentText(value: number, pieces: readonly FormatPiece[]): string {
  const split = pieces.findIndex(({ kind }) => kind === 'exponent');
  const front = pieces.slice(0, split);
  const layout = layoutOf(front);
  const step = Math.max(1, layout.wholeDigits);
  const own = value === 0 ? 0 : Number(value.toExponential(14).split('e')[1]);
  const floorOf = (exponent: number): number =>
    step === 1 || front[0]?.text === '0' ? exponent - (step - 1) : Math.floor(exponent / step) * step;
  let exponent = value === 0 ? 0 : floorOf(own);
  const mantissa = (): Decimal =>
    decimalOf(Number(`${value.toExponential(14).split('e')[0]}e${own - exponent}`), layout.fractionDigits);
  let shown = mantissa();
  if (value !== 0 && shown.whole.length > (step === 1 ? 1 : own + 1 - exponent || step)) {
    exponent = floorOf(own + 1);
    shown = mantissa();
  }
  const sign = exponent < 0 ? '-' : pieces[split]!.text.endsWith('+') ? '+' : '';
  const back = pieces.slice(split + 1);
  const exponentDigits = wholeText(String(Math.abs(exponent)).replace(/^0$/, ''), back, layoutOf(back));
  return `${decimalText(shown, front, layout)}E${sign}${exponentDigits}`;
}

/** Where a fraction's parts stand in a format: top and bottom from and to, with texts between them and the slash. */
interface FractionPlaces {
  readonly top: readonly [from: number, to: number];
  readonly bottom: readonly [from: number, to: number];
}

/** The places of a fraction; undefined where the slash has no places on both sides, and is a text. */
function fractionPlaces(pieces: readonly FormatPiece[]): FractionPlaces | undefined {
  const slash = pieces.findIndex(({ kind }) => kind === 'slash');
  if (slash < 0) return undefined;
  const topTo = endOfRun(pieces, slash - 1, isText, -1) + 1;
  const topFrom = endOfRun(pieces, topTo - 1, isDigit, -1) + 1;
  const bottomFrom = endOfRun(pieces, slash + 1, (piece) => isText(piece) && !isBottom(piece));
  const bottomTo = endOfRun(pieces, bottomFrom, isBottom);
  return topFrom < topTo && bottomFrom < bottomTo
    ? { top: [topFrom, topTo], bottom: [bottomFrom, bottomTo] }
    : undefined;
}

const isText = ({ kind }: FormatPiece): boolean => kind === 'text';
const isBottom = (piece: FormatPiece): boolean => isDigit(piece) || /^\d$/.test(piece.text);
const joined = (pieces: readonly FormatPiece[]): string => pieces.map(({ text }) => text).join('');

/** "# ?/?": a fraction whose denominator has no more digits than there are places, or is the number that the format gives. */
function fractionText(value: number, pieces: readonly FormatPiece[], { top, bottom }: FractionPlaces): string {
  const before = pieces.slice(0, top[0]);
  const [above, between, below] = [pieces.slice(...top), pieces.slice(top[1], bottom[0]), pieces.slice(...bottom)];
  const after = joined(pieces.slice(bottom[1]));
  const digits = /^[0#?]*[1-9]\d*$/.test(joined(below)) ? joined(below).replace(/[#?]/g, '') : undefined;
  const lastDigit = before.findLastIndex(isDigit) + 1;
  const hasWhole = lastDigit > 0;
  let whole = hasWhole ? Math.floor(value) : 0;
  let part = fractionOf(value - whole, digits, below.length);
  if (hasWhole && part.top === part.bottom) [whole, part] = [whole + 1, { top: 0, bottom: 1 }];
  const front = (shown: readonly FormatPiece[]): string =>
    wholeText(whole > 0 || (hasWhole && part.top === 0) ? String(whole) : '', shown, layoutOf(shown));
  // A fraction of nothing is left blank, with what stands between it and the whole, unless a place asks for a nought.
  if (hasWhole && part.top === 0 && !above.some(({ text }) => text === '0'))
    return front(before.slice(0, lastDigit)) + ' '.repeat(joined(pieces.slice(lastDigit, bottom[1])).length) + after;
  return (
    front(before) +
    padded(part.top, above, true) +
    joined(between) +
    (digits ?? padded(part.bottom, below, false)) +
    after
  );
}

/** A value as a fraction: by the denominator that a format gives in digits, else by one of as many digits as it has places. */
function fractionOf(value: number, digits: string | undefined, places: number): { top: number; bottom: number } {
  if (digits === undefined) return convergent(value, 10 ** Math.min(places, MOST_DIGITS) - 1);
  return { top: Math.round(value * Number(digits)), bottom: Number(digits) };
}

function padded(value: number, places: readonly FormatPiece[], atStart: boolean): string {
  const text = String(value);
  const missing = places
    .slice(0, Math.max(0, places.length - text.length))
    .map(({ text: place }) => filler(place))
    .join('');
  return atStart ? missing + text : text + missing;
}

/** A denominator has no more, however many places there are. */
const MOST_DIGITS = 7;

/**
 * The last convergent of a number's continued fraction whose denominator is in bounds. There may be a nearer fraction
 * between two convergents, which Excel does not give: 123.456 in "# ?/?" is 123 1/2 and not 123 4/9.
 * Source: Microsoft, "Display numbers as fractions", and values seen in Excel, in the tests.
 */
function convergent(value: number, most: number): { top: number; bottom: number } {
  let [lastTop, lastBottom, top, bottom] = [1, 0, Math.floor(value), 1];
  let rest = value - top;
  const digits = value.toPrecision(15);
  while (rest > 0 && (top / bottom).toPrecision(15) !== digits) {
    const inverse = 1 / rest;
    const times = Math.floor(inverse);
    if (times * bottom + lastBottom > most) break;
    [lastTop, lastBottom, top, bottom] = [top, bottom, times * top + lastTop, times * bottom + lastBottom];
    rest = inverse - times;
  }
  return { top, bottom };
}

interface Decimal {
  /** Digits before the point without leading zeros; "" for none. */
  readonly whole: string;
  /** Exactly as many digits as were asked for. */
  readonly fraction: string;
}

const LARGEST_SHIFT = 400;

/** A number rounded half away from zero by its 15 digits: 1.005 to two places is 1.01. @param value not negative */
function decimalOf(value: number, places: number): Decimal {
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

const roundedTo = (digits: string, kept: number): bigint =>
  BigInt(digits.slice(0, kept) || '0') + (digits[kept]! >= '5' ? 1n : 0n);
