/** Dates, times and durations by the letters of a format. */
import { from1900, isDate, MONTHS, partsOf } from '../dates';
import { endOfRun, isDigit, type FormatPiece, type Section } from './sections';

const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/** Seconds of the units in which a duration is counted. */
const UNITS: Readonly<Record<string, number>> = { h: 3600, m: 60, s: 1 };

interface Moment {
  /** Seconds in all. */
  readonly all: number;
  /** Day number of the workbook, and seconds of the day. */
  readonly day: number;
  readonly seconds: number;
  /** Up to 12 where the format has AM or PM. */
  readonly hour: number;
}

const two = (value: number, width: number): string => String(value).padStart(Math.min(width, 2), '0');

/** undefined for a number that is no moment. */
export function dateText(value: number, { pieces }: Section): string | undefined {
  const isDuration = pieces.some(({ kind, text }) => kind === 'date' && text.startsWith('['));
  if (!isDate(value) && !(isDuration && Number.isFinite(value))) return undefined;
  const places = fractionPlaces(pieces);
  const scale = 10 ** places;
  const all = Math.round(Math.abs(value) * 86_400 * scale) / scale;
  const day = Math.floor(all / 86_400);
  const seconds = all - day * 86_400;
  const hour = Math.floor(seconds / 3600);
  const isHalfDay = pieces.some(({ kind }) => kind === 'half');
  const moment = { all, day, seconds, hour: isHalfDay ? hour % 12 || 12 : hour };
  const texts = pieces.map((piece, index) => pieceText(piece, index, pieces, moment));
  return (value < 0 ? '-' : '') + texts.join('');
}

/** How many digits of a second's fraction are shown: as many as zeros follow in ss.000. */
function fractionPlaces(pieces: readonly FormatPiece[]): number {
  const point = pieces.findIndex(({ kind }, index) => kind === 'point' && unitOf(pieces[index - 1]) === 's');
  return point < 0 ? 0 : Math.min(endOfRun(pieces, point + 1, isDigit) - point - 1, 3);
}

const isDatePiece = ({ kind }: FormatPiece): boolean => kind === 'date';

/** The letter of a date's piece: y, m, d, h or s; undefined for any other piece. */
const unitOf = (piece: FormatPiece | undefined): string | undefined =>
  piece?.kind === 'date' ? piece.text.replace('[', '')[0]!.toLowerCase() : undefined;

function pieceText(piece: FormatPiece, index: number, pieces: readonly FormatPiece[], moment: Moment): string {
  const { kind, text } = piece;
  if (kind === 'half') return halfDay(text, moment.seconds);
  if (kind === 'digit') return secondDigit(index, pieces, moment.seconds);
  const unit = unitOf(piece);
  if (unit === undefined) return text;
  const width = text.replace(/[[\]]/g, '').length;
  if (text.startsWith('[')) return String(Math.floor(moment.all / UNITS[unit]! + 1e-9)).padStart(width, '0');
  if (unit === 'h') return two(moment.hour, width);
  if (unit === 's') return two(Math.floor(moment.seconds + 1e-9) % 60, width);
  if (unit === 'm' && isMinutes(index, pieces)) return two(Math.floor(moment.seconds / 60) % 60, width);
  return dayText(unit, width, moment.day);
}

/** A/P keeps the case that it has in the format. */
const halfDay = (text: string, seconds: number): string =>
  (text.length === 3 ? text : 'AM/PM').split('/')[seconds < 43_200 ? 0 : 1]!;

function secondDigit(index: number, pieces: readonly FormatPiece[], seconds: number): string {
  const point = endOfRun(pieces, index, isDigit, -1);
  if (pieces[point]?.kind !== 'point') return pieces[index]!.text;
  return (seconds % 1).toFixed(3)[index - point + 1] ?? '0';
}

/** "m" next to hours before it or seconds after it. */
const isMinutes = (index: number, pieces: readonly FormatPiece[]): boolean =>
  unitOf(pieces.slice(0, index).findLast(isDatePiece)) === 'h' ||
  unitOf(pieces.slice(index + 1).find(isDatePiece)) === 's';

function dayText(unit: string, width: number, day: number): string {
  const parts = partsOf(day);
  if (unit === 'y') return width <= 2 ? String(parts.year % 100).padStart(2, '0') : String(parts.year).padStart(4, '0');
  if (unit === 'd') return width <= 2 ? two(parts.day, width) : named(DAYS[(from1900(day) + 6) % 7]!, width === 3);
  if (width <= 2) return two(parts.month, width);
  const name = MONTHS[parts.month - 1]!;
  return width === 5 ? name[0]! : named(name, width === 3);
}

const named = (name: string, short: boolean): string => (short ? name.slice(0, 3) : name);
