/** Dates, times and durations by the letters of a format. */
import { from1900, isDate, MONTHS, partsOf } from '../dates';
import type { FormatPiece, Section } from './sections';

const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

interface Moment {
  /** Day number of the workbook, and seconds of the day. */
  readonly day: number;
  readonly seconds: number;
  readonly isHalfDay: boolean;
}

const two = (value: number, width: number): string => String(value).padStart(Math.min(width, 2), '0');

/** undefined for a number that is no moment. */
export function dateText(value: number, { pieces }: Section): string | undefined {
  const isDuration = pieces.some(({ kind, text }) => kind === 'date' && text.startsWith('['));
  if (!isDate(value) && !(isDuration && Number.isFinite(value))) return undefined;
  const places = fractionPlaces(pieces);
  const scale = 10 ** places;
  const all = Math.round(Math.abs(value) * 86_400 * scale) / scale;
  const moment: Moment = {
    day: Math.floor(all / 86_400),
    seconds: all - Math.floor(all / 86_400) * 86_400,
    isHalfDay: pieces.some(({ kind }) => kind === 'half'),
  };
  const texts = pieces.map((piece, index) => pieceText(piece, index, pieces, moment, all));
  return (value < 0 ? '-' : '') + texts.join('');
}

/** How many digits of a second's fraction are shown: as many as zeros follow in ss.000. */
function fractionPlaces(pieces: readonly FormatPiece[]): number {
  const point = pieces.findIndex(({ kind }, index) => kind === 'point' && isSeconds(pieces[index - 1]));
  if (point < 0) return 0;
  let places = 0;
  while (pieces[point + 1 + places]?.kind === 'digit') places++;
  return Math.min(places, 3);
}

const isSeconds = (piece: FormatPiece | undefined): boolean => piece?.kind === 'date' && /^\[?s/i.test(piece.text);

function pieceText(
  piece: FormatPiece,
  index: number,
  pieces: readonly FormatPiece[],
  moment: Moment,
  all: number,
): string {
  const { kind, text } = piece;
  if (kind === 'half') return halfDay(text, moment.seconds);
  if (kind === 'digit') return secondDigit(index, pieces, moment.seconds);
  if (kind !== 'date') return text;
  const unit = text.replace('[', '')[0]!.toLowerCase();
  const width = text.replace(/[[\]]/g, '').length;
  if (text.startsWith('[')) return elapsed(unit, width, all);
  if (unit === 'h') return hours(width, moment);
  if (unit === 's') return two(Math.floor(moment.seconds + 1e-9) % 60, width);
  if (unit === 'm' && isMinutes(index, pieces)) return two(Math.floor(moment.seconds / 60) % 60, width);
  return dayText(unit, width, moment.day);
}

function hours(width: number, { seconds, isHalfDay }: Moment): string {
  const hour = Math.floor(seconds / 3600);
  return two(isHalfDay ? hour % 12 || 12 : hour, width);
}

function elapsed(unit: string, width: number, all: number): string {
  const size = unit === 'h' ? 3600 : unit === 'm' ? 60 : 1;
  return String(Math.floor(all / size + 1e-9)).padStart(width, '0');
}

function halfDay(text: string, seconds: number): string {
  const afternoon = seconds >= 43_200;
  if (text.length === 3) return text[afternoon ? 2 : 0]!;
  return afternoon ? 'PM' : 'AM';
}

function secondDigit(index: number, pieces: readonly FormatPiece[], seconds: number): string {
  let place = 0;
  while (pieces[index - place]?.kind === 'digit') place++;
  if (pieces[index - place]?.kind !== 'point') return pieces[index]!.text;
  return (seconds % 1).toFixed(3)[place + 1] ?? '0';
}

/** "m" next to hours before it or seconds after it. */
function isMinutes(index: number, pieces: readonly FormatPiece[]): boolean {
  const near = (step: number): string => {
    for (let at = index + step; at >= 0 && at < pieces.length; at += step)
      if (pieces[at]!.kind === 'date') return pieces[at]!.text.replace('[', '')[0]!.toLowerCase();
    return '';
  };
  return near(-1) === 'h' || near(1) === 's';
}

function dayText(unit: string, width: number, day: number): string {
  const parts = partsOf(day);
  if (unit === 'y') return width <= 2 ? String(parts.year % 100).padStart(2, '0') : String(parts.year).padStart(4, '0');
  if (unit === 'd') return width <= 2 ? two(parts.day, width) : named(DAYS[(from1900(day) + 6) % 7]!, width === 3);
  if (width <= 2) return two(parts.month, width);
  const name = MONTHS[parts.month - 1]!;
  return width === 5 ? name[0]! : named(name, width === 3);
}

const named = (name: string, short: boolean): string => (short ? name.slice(0, 3) : name);
