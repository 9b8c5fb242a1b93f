/**
 * The cells of somebody's own list as numbers in inch-pound units. Nobody retypes them: a unit behind a number counts
 * before its column's, a gauge may be written "20 ga", a decimal may be a comma.
 */
import { gaugeThickness, parseGauge } from '../../core/material';
import {
  fromUnit,
  plainNumber,
  readUnit,
  typedNumber,
  unitIn,
  withDot,
  type Decimals,
  type Dimension,
  type Unit,
} from '../../core/quantity';
import { type Cell } from '../../sheet';
import { GAUGE } from './meanings';

/** What stands in a cell that is left empty on purpose. */
const DASH = /^(?:-+|–|—|n\/?a|\.)$/i;
/** A sign that parts no thousands: 0,5 and 12,75; 0.5 and 12.75. */
const DECIMAL_DOT = /^[+-]?(?:0?\.\d|\d+\.(?:\d{1,2}|\d{4,})(?!\d))/;
const DECIMAL = /^[+-]?(?:0\d*,\d+|\d+,(?:\d{1,2}|\d{4,})(?!\d))/;

const plain = (text: string): string =>
  text
    .replace(/[\u00A0\u2009\u202F]/g, ' ')
    .replace('−', '-')
    .trim()
    .replace(/^[~≈]\s*/, '');

/** How the cells of a list write decimals. */
export function decimalsOf(cells: Iterable<Cell>): Decimals {
  let [comma, dot] = [false, false];
  for (const cell of cells) {
    if (typeof cell !== 'string') continue;
    const text = plain(cell);
    comma ||= DECIMAL.test(text);
    dot ||= DECIMAL_DOT.test(text);
  }
  return comma ? (dot ? 'mixed' : 'comma') : 'dot';
}

/** 5' 6", 5'-6 1/2". */
const FEET = /^(\d+)\s*['′]\s*-?\s*(\d[\d./ ]*?)\s*(?:["″]|'')$/;
/** 2 lb 3 oz. */
const POUNDS = /^(\d+)\s*lbs?\.?,?\s*(\d[\d./ ]*?)\s*oz\.?$/i;
/** FS 51.0, Sta. 96. */
const STATION = /^(?:f\.?\s?s\.?|sta(?:tion)?\.?|b\.?\s?s\.?)\s*(?=[\d.+-])/i;

/** Inch-pound number of a cell of that dimension; a text that says none stays, so that its reader refuses it; null for a dash. */
export function measuredCell(cell: Cell, dimension: Dimension, unit: Unit | undefined, decimals: Decimals): Cell {
  if (typeof cell === 'number') return fromUnit(cell, unit);
  if (typeof cell !== 'string') return cell;
  const written = withDot(plain(cell), decimals);
  if (DASH.test(written)) return null;
  // Pounds are written 3.2#, too.
  const text = dimension === 'weight' ? written.replace(/\s*#$/, ' lb') : written;
  const [pair, size] =
    dimension === 'length' ? [FEET.exec(text), 12] : dimension === 'weight' ? [POUNDS.exec(text), 1 / 16] : [null, 0];
  const rest = pair && plainNumber(pair[2]!);
  if (pair && typeof rest === 'number')
    return dimension === 'length' ? Number(pair[1]) * size + rest : Number(pair[1]) + rest * size;
  const typed = typedNumber(dimension === 'length' ? text.replace(STATION, '') : text);
  if (!typed) return cell;
  if (typed.sign === undefined) return fromUnit(typed.value, unit);
  const own = readUnit(typed.sign, dimension);
  return own ? fromUnit(typed.value, own) : cell;
}

/**
 * The sides of a size that is one text, in inches, as they stand: "60 x 22.5", ".025 × 4 × 12 in". A unit behind the
 * last is that of all. Undefined for a cell that is no size.
 */
export function sizeCell(cell: Cell, unit: Unit | undefined, decimals: Decimals): number[] | undefined {
  const parts = typeof cell === 'string' ? plain(cell).split(/\s*[x×*]\s*/i) : [];
  if (parts.length < 2 || parts.length > 3) return undefined;
  const common = writtenUnit(parts.at(-1)!, 'length') ?? unit;
  const sides = parts.map((part) => measuredCell(part, 'length', common, decimals));
  return sides.every((side): side is number => typeof side === 'number' && side > 0) ? sides : undefined;
}

/** The unit that a text names behind its number. */
export function writtenUnit(cell: Cell, dimension: Dimension): Unit | undefined {
  const sign = typeof cell === 'string' ? typedNumber(withDot(plain(cell), 'mixed'))?.sign : undefined;
  return sign === undefined ? undefined : readUnit(sign, dimension);
}

const GAUGE_TEXT = /^(?:#\s*\d+|\d+\s*(?:ga|gauge|gage|awg|b&s)\.?)$/i;

/** True for "20 ga", "#20", and for a whole number that may be a gauge. */
export const isGauge = (cell: Cell): cell is string | number =>
  typeof cell === 'number'
    ? Number.isInteger(cell) && cell >= 1 && cell <= 40
    : typeof cell === 'string' && (GAUGE_TEXT.test(cell.trim()) || /^\d{1,2}$/.test(cell.trim()));

/** Thickness in inches of a cell: a length, or a number of Brown & Sharpe gauge (ASTM B258). */
export function thicknessCell(cell: Cell, unit: string, decimals: Decimals): Cell {
  const written = typeof cell === 'string' && GAUGE_TEXT.test(plain(cell));
  if (written || (unit === GAUGE && isGaugeNumber(cell))) {
    try {
      return gaugeThickness(parseGauge(typeof cell === 'string' ? plain(cell) : (cell as number)));
    } catch {
      return cell;
    }
  }
  return measuredCell(cell, 'length', readUnit(unit, 'length') ?? unitIn('length', 'in-lb'), decimals);
}

/** In a column of gauges 0.032 and "0.032 in" are thicknesses all the same. */
const isGaugeNumber = (cell: Cell): boolean =>
  typeof cell === 'number' ? cell >= 1 : typeof cell === 'string' && /^(?:\d{1,2}|0{1,4}|[1-4]\/0)$/.test(cell.trim());

const PIECES = /^x?\s*(\d[\d.,]*)\s*(?:x|ea\.?|each|pcs?\.?|pieces?|off|stk\.?|stück|req'?d)?$/i;

/** "4 ea", "2 pcs", "x4" as pieces. */
export function piecesCell(cell: Cell, decimals: Decimals): Cell {
  if (typeof cell !== 'string') return cell;
  const text = plain(cell);
  if (DASH.test(text)) return null;
  const number = PIECES.exec(text);
  return number ? (plainNumber(withDot(number[1]!, decimals)) ?? cell) : cell;
}

/** "$12.50", "1,250.00 EUR" as a bare number. */
export function moneyCell(cell: Cell, decimals: Decimals): Cell {
  if (typeof cell !== 'string') return cell;
  const text = plain(cell)
    .replace(/^(?:[$€£¥]|[A-Z]{3})\s*|\s*(?:[$€£¥]|[A-Z]{3})$/g, '')
    .trim();
  if (DASH.test(text)) return null;
  return plainNumber(withDot(text, decimals)) ?? cell;
}
