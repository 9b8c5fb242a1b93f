/** Numbers by the digits of a format: points, thousands, per cent, exponents and fractions. */
import type { FormatPiece, Section } from './sections';

/** @param value not negative */
export function digitsText(value: number, section: Section): string {
  const { pieces } = section;
  if (pieces.some(({ kind }) => kind === 'exponent')) return exponentText(value, pieces);
  const slash = pieces.findIndex(({ kind }) => kind === 'slash');
  if (slash >= 0 && pieces[slash - 1]?.kind === 'digit') return fractionText(value, pieces, slash);
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
  const isDigit = ({ kind }: FormatPiece): boolean => kind === 'digit';
  const whole = pieces.slice(0, wholeEnd);
  const first = whole.findIndex(isDigit);
  const last = whole.findLastIndex(isDigit);
  const end = pieces.findLastIndex(isDigit);
  let thousands = 0;
  while (end >= 0 && pieces[end + 1 + thousands]?.kind === 'comma') thousands++;
  return {
    wholeEnd,
    wholeDigits: whole.filter(isDigit).length,
    fractionDigits: pieces.slice(wholeEnd).filter(isDigit).length,
    isGrouped: whole.some(({ kind }, index) => kind === 'comma' && index > first && index < last),
    thousands,
    percents: pieces.filter(({ kind }) => kind === 'percent').length,
  };
}

function plainText(value: number, pieces: readonly FormatPiece[]): string {
  const layout = layoutOf(pieces);
  const scaled = value * 100 ** layout.percents * 1000 ** -layout.thousands;
  const { whole, fraction } = decimalOf(scaled, layout.fractionDigits);
  return wholeText(whole, pieces.slice(0, layout.wholeEnd), layout) + partText(fraction, pieces.slice(layout.wholeEnd));
}

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
  let { whole, fraction } = mantissa();
  if (value !== 0 && whole.length > (step === 1 ? 1 : own + 1 - exponent || step)) {
    exponent = floorOf(own + 1);
    ({ whole, fraction } = mantissa());
  }
  const sign = exponent < 0 ? '-' : pieces[split]!.text.endsWith('+') ? '+' : '';
  const back = pieces.slice(split + 1);
  const exponentDigits = wholeText(String(Math.abs(exponent)).replace(/^0$/, ''), back, layoutOf(back));
  return (
    wholeText(whole, front.slice(0, layout.wholeEnd), layout) +
    partText(fraction, front.slice(layout.wholeEnd)) +
    `E${sign}${exponentDigits}`
  );
}

/** "# ?/?": the nearest fraction whose denominator has no more digits than there are places, or is the number that the format gives. */
function fractionText(value: number, pieces: readonly FormatPiece[], slash: number): string {
  let topStart = slash;
  while (pieces[topStart - 1]?.kind === 'digit') topStart--;
  let end = slash + 1;
  while (isBottom(pieces[end])) end++;
  const bottomText = pieces
    .slice(slash + 1, end)
    .map(({ text }) => text)
    .join('');
  const before = pieces.slice(0, topStart);
  const hasWhole = before.some(({ kind }) => kind === 'digit');
  const fixed = /^[0#?]*[1-9]\d*$/.test(bottomText) ? Number(bottomText.replace(/[#?]/g, '')) : undefined;
  const whole = hasWhole ? Math.floor(value) : 0;
  const { top, bottom } = nearest(value - whole, fixed, 10 ** bottomText.length - 1);
  const carried = hasWhole && top === bottom ? 1 : 0;
  const shownTop = carried ? 0 : top;
  const wholeDigits = String(whole + carried).replace(/^0$/, hasWhole && shownTop === 0 ? '0' : '');
  const front = wholeText(wholeDigits, before, { ...layoutOf(before), thousands: 0 });
  const blank = hasWhole && shownTop === 0;
  const places = slash - topStart;
  const part = blank
    ? ' '.repeat(places + 1 + bottomText.length)
    : `${padded(shownTop, pieces.slice(topStart, slash), true)}/${
        fixed === undefined ? padded(bottom, pieces.slice(slash + 1, end), false) : String(fixed)
      }`;
  const rest = pieces
    .slice(end)
    .map(({ text }) => text)
    .join('');
  return front + part + rest;
}

const isBottom = (piece: FormatPiece | undefined): boolean =>
  piece !== undefined && (piece.kind === 'digit' || /^\d$/.test(piece.text));

function padded(value: number, places: readonly FormatPiece[], atStart: boolean): string {
  const text = String(value);
  const missing = places
    .slice(0, Math.max(0, places.length - text.length))
    .map(({ text: place }) => filler(place))
    .join('');
  return atStart ? missing + text : text + missing;
}

/** By continued fractions. A denominator that the format gives is kept. */
function nearest(value: number, fixed: number | undefined, most: number): { top: number; bottom: number } {
  if (fixed !== undefined) return { top: Math.round(value * fixed), bottom: fixed };
  let best = { top: Math.round(value), bottom: 1 };
  for (let bottom = 2; bottom <= Math.min(most, 9999); bottom++) {
    const top = Math.round(value * bottom);
    if (Math.abs(top / bottom - value) < Math.abs(best.top / best.bottom - value) - 1e-15) best = { top, bottom };
  }
  return best;
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

function roundedTo(digits: string, kept: number): bigint {
  return BigInt(digits.slice(0, kept) || '0') + (digits[kept]! >= '5' ? 1n : 0n);
}
