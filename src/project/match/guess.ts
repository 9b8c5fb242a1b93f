/** What the columns of somebody's own list are likely to mean, by their headers and by what stands below them. */
import { isSumName } from '../../core/mass';
import {
  plainNumber,
  typedNumber,
  unitIn,
  unitsOf,
  type Dimension,
  type Unit,
  type UnitSystem,
} from '../../core/quantity';
import { isBlank, textIn, type Cell } from '../../sheet';
import { HEADER_WITHIN } from '../../core/table';
import { THICK } from '../units';
import { isGauge, measuredCell, piecesCell, writtenUnit } from './cells';
import {
  COUNTING,
  dimensionOf,
  fitOf,
  GAUGE,
  headersAt,
  isEmptyRow,
  lackingOf,
  MEANINGS,
  namedUnit,
  saidReadAs,
  type Cells,
  type ColumnMatch,
  type Header,
  type HeaderPlace,
  type Means,
  type ReadAs,
  type SheetMatch,
} from './meanings';

/** Why a weight is taken to be of one piece or of all; undefined where nothing says so, and a person is asked. */
export type WeightReason = 'header' | 'total' | 'no quantity' | undefined;

export interface Guess {
  readonly match: SheetMatch;
  /** Of all columns of the sheet. */
  readonly headers: readonly Header[];
  readonly weightBy: WeightReason;
  /** What a parts list must have, and no column is. */
  readonly missing: readonly Means[];
}

/** Fewer columns than these could be any table. */
const LEAST = 2;
/** One of these tells a list of parts from a price list or a table of names. */
const TELLING: readonly Means[] = ['weight', 'weighed', 'quantity', 'thickness', 'area', 'arm'];

/** The guess of a sheet's columns; undefined where it does not look like a list of parts. */
export function guessMatch(sheet: string, values: Cells): Guess | undefined {
  const place = findHeader(values);
  return place && guessAt(sheet, values, place);
}

/** The same for a header that is known. */
export function guessAt(sheet: string, values: Cells, place: HeaderPlace): Guess {
  const headers = headersAt(values, place);
  const means = meaningsOf(headers);
  const body = values.slice(place.row + place.height).filter((line) => !isEmptyRow(line));
  const cellsOf = (column: number): Cell[] => body.map((line) => line[column] ?? null);
  const units = unitsBy(headers, means, cellsOf);
  const columns = headers.flatMap(({ text }, column): ColumnMatch[] => {
    const one = means[column];
    return one === undefined ? [] : [{ column, header: text, means: one, unit: units[column] ?? '', readAs: '' }];
  });
  const component = columns.some((one) => one.means === 'component')
    ? undefined
    : hasHeadings(body, columns)
      ? 'headings'
      : 'sheet';
  const { readAs: ofWeight, why } = weightReadAs(columns, headers, body);
  const match: SheetMatch = {
    sheet,
    place,
    component,
    columns: columns.map((one) => ({
      ...one,
      readAs:
        one.means === 'weight'
          ? ofWeight
          : one.means === 'cost'
            ? saidReadAs(one.header)
            : one.means === 'component' && isFilledOnce(columns, body)
              ? 'as above'
              : '',
    })),
  };
  return { match, headers, weightBy: why, missing: lackingOf(columns) };
}

/**
 * A match in which a person gives a column another meaning, or none; another column that had that meaning gives way.
 * What follows from it is guessed anew: the column's unit, and what weights are of.
 */
export function rematch(
  match: SheetMatch,
  values: Cells,
  column: number,
  means: Means | undefined,
): Pick<Guess, 'match' | 'weightBy'> {
  const headers = headersAt(values, match.place);
  const body = values.slice(match.place.row + match.place.height).filter((line) => !isEmptyRow(line));
  const others = match.columns.filter((one) => one.column !== column && one.means !== means);
  const all = headers.map((_, index) => (index === column ? means : others.find((one) => one.column === index)?.means));
  const units = unitsBy(headers, all, (at) => body.map((line) => line[at] ?? null));
  const header = headers[column]!.text;
  const columns = [
    ...others,
    ...(means === undefined ? [] : [{ column, header, means, unit: units[column] ?? '', readAs: '' as const }]),
  ].sort((a, b) => a.column - b.column);
  const { readAs, why } = weightReadAs(columns, headers, body);
  const from = match.component ?? (hasHeadings(body, columns) ? 'headings' : 'sheet');
  return {
    match: {
      ...match,
      component: columns.some((one) => one.means === 'component') ? undefined : from,
      columns: columns.map((one) => (one.means === 'weight' ? { ...one, readAs } : one)),
    },
    weightBy: why,
  };
}

/** Each meaning to the column that fits it best; a header of its own row comes before what stands over it. */
function meaningsOf(headers: readonly Header[]): (Means | undefined)[] {
  const fits = headers.flatMap(({ labels, text }, column) =>
    MEANINGS.flatMap((means) => {
      const fit = Math.max(fitOf(labels.at(-1) ?? '', means) + 0.1, fitOf(labels[0] ?? '', means), fitOf(text, means));
      return fit >= 1 ? [{ column, means, fit: fit + preference(text, means) }] : [];
    }),
  );
  const found: (Means | undefined)[] = headers.map(() => undefined);
  for (const { column, means } of fits.sort((a, b) => b.fit - a.fit))
    if (found[column] === undefined && !found.includes(means)) found[column] = means;
  // What was weighed is the weight, where a list has no other.
  if (!found.includes('weight') && found.includes('weighed')) found[found.indexOf('weighed')] = 'weight';
  return found;
}

/** Of two columns of weights the one of all pieces counts: nothing has to be multiplied. */
const preference = (header: string, means: Means): number =>
  means === 'weight' && saidReadAs(header) === 'all pieces' ? 0.05 : 0;

/** The row, or the two rows, whose labels say most. */
function findHeader(values: Cells): HeaderPlace | undefined {
  let best: { readonly place: HeaderPlace; readonly score: number } | undefined;
  for (let row = 0; row < Math.min(values.length, HEADER_WITHIN); row++) {
    for (const height of [1, 2] as const) {
      const place = { row, height };
      // A second row has to say more than it could by chance, and a title over the header says nothing.
      const score = scoreOf(values, place) - (height === 2 ? 0.4 : 0);
      if (score > (best?.score ?? 0)) best = { place, score };
    }
  }
  return best?.place;
}

function scoreOf(values: Cells, place: HeaderPlace): number {
  const lines = values.slice(place.row, place.row + place.height);
  if (lines.length < place.height || lines.some(isEmptyRow)) return 0;
  // A row of numbers, typed with a unit or not, is a part.
  if (lines.flat().some((cell) => typeof piecesCell(cell, 'mixed') === 'number' || isNumberText(cell))) return 0;
  const headers = headersAt(values, place);
  const means = meaningsOf(headers);
  if (means.filter(Boolean).length < LEAST || !means.some((one) => one && TELLING.includes(one))) return 0;
  return headers.reduce((sum, { text, labels }, column) => {
    const one = means[column];
    if (one === undefined) return sum;
    const dimension = dimensionOf(one);
    const fit = Math.max(...labels.map((label) => fitOf(label, one)), fitOf(text, one));
    return sum + fit / 4 + (dimension && namedUnit(text, dimension) ? 0.25 : 0) + (saidReadAs(text) === '' ? 0 : 0.25);
  }, 0);
}

const isNumberText = (cell: Cell): boolean => typeof cell === 'string' && typedNumber(cell) !== undefined;

/** The sign of each column's unit: by its header, by its cells, else by the other columns' system. */
function unitsBy(
  headers: readonly Header[],
  means: readonly (Means | undefined)[],
  cellsOf: (column: number) => Cell[],
): (string | undefined)[] {
  const dimensions = means.map((one) => (one === undefined ? undefined : dimensionOf(one)));
  const said = headers.map(({ text }, column) => {
    const dimension = dimensions[column];
    if (!dimension) return undefined;
    const named = namedUnit(text, dimension);
    if (named) return named;
    if (means[column] === 'thickness' && isOfGauges(cellsOf(column))) return undefined;
    const common = commonUnit(cellsOf(column), dimension);
    return common ?? (means[column] === 'thickness' ? metricSheet(cellsOf(column)) : undefined);
  });
  const system: UnitSystem =
    said.find((unit) => unit?.system === 'mm-kg') && !said.some((unit) => unit?.system === 'in-lb') ? 'mm-kg' : 'in-lb';
  return headers.map((_, column) => {
    const dimension = dimensions[column];
    if (!dimension) return undefined;
    if (said[column]) return said[column].sign;
    return means[column] === 'thickness' && isOfGauges(cellsOf(column)) ? GAUGE : unitIn(dimension, system).sign;
  });
}

/** The unit that half of a column's cells name, or more: one beside many bare numbers is the exception that says so. */
function commonUnit(cells: readonly Cell[], dimension: Dimension) {
  const filled = cells.filter((cell) => textIn(cell) !== '').length;
  const counts = unitsOf(dimension).map((unit) => ({
    unit,
    count: cells.filter((cell) => writtenUnit(cell, dimension) === unit).length,
  }));
  const most = counts.sort((a, b) => b.count - a.count)[0];
  return most && most.count > 0 && most.count * 2 >= filled ? most.unit : undefined;
}

/** Millimetres, where half of the bare numbers or more are too thick for sheet in inches. */
function metricSheet(cells: readonly Cell[]): Unit | undefined {
  const bare = cells.filter((cell) => typeof cell === 'number');
  return bare.length > 0 && bare.filter((cell) => cell >= THICK).length * 2 >= bare.length
    ? unitIn('length', 'mm-kg')
    : undefined;
}

/** As inches, and as millimetres of sheet, a whole number from here on is too thick: it is a gauge. */
const SURELY_GAUGE = 8;

/** True for a column of gauges, whole numbers from 1 to 40 or "20 ga", among which some thicknesses may be: .016, "0.025 in". */
function isOfGauges(cells: readonly Cell[]): boolean {
  const filled = cells.filter((cell) => !isBlank(cell) && textIn(cell) !== '');
  const gauges = filled.filter(isGauge);
  if (!gauges.some((cell) => typeof cell === 'string' || cell >= SURELY_GAUGE))
    return gauges.length * 2 > filled.length;
  const others = filled.filter((cell) => !isGauge(cell) && !isThickness(cell));
  return gauges.length > others.length;
}

/** A length with its unit, or a bare one that is thinner than an inch. */
function isThickness(cell: Cell): boolean {
  if (writtenUnit(cell, 'length')) return true;
  const number = typeof cell === 'number' ? cell : typeof cell === 'string' ? plainNumber(cell.trim()) : undefined;
  return number !== undefined && number > 0 && number < 1;
}

/** True where components stand in rows of their own between the parts. */
function hasHeadings(body: Cells, columns: readonly ColumnMatch[]): boolean {
  const weight = columns.find(({ means }) => means === 'weight')?.column;
  const counting = columns.filter(({ means }) => COUNTING.includes(means)).map(({ column }) => column);
  const isPart = (line: readonly Cell[] | undefined): boolean =>
    weight === undefined ? counting.some((column) => !isBlank(line?.[column])) : !isBlank(line?.[weight]);
  const alone = body.map((line) => {
    const filled = line.filter((cell) => !isBlank(cell) && textIn(cell) !== '');
    return filled.length === 1 && typeof filled[0] === 'string' && !isSumName(filled[0]);
  });
  // A note may be one as well: a heading has parts below it, and the first part has one above it.
  const first = body.findIndex(isPart);
  return (
    first > 0 &&
    alone.slice(0, first).some(Boolean) &&
    alone.filter((is, row) => is && isPart(body[row + 1])).length > 1
  );
}

/** True where a component stands once, beside the first of its parts: in a merged cell, say. */
function isFilledOnce(columns: readonly ColumnMatch[], body: Cells): boolean {
  const [component, part] = (['component', 'part'] as const).map(
    (key) => columns.find(({ means }) => means === key)?.column,
  );
  if (component === undefined || part === undefined) return false;
  const parts = body.filter((line) => textIn(line[part]) !== '' && !isSumName(textIn(line[part])));
  const blank = parts.filter((line) => textIn(line[component]) === '').length;
  return textIn(parts[0]?.[component]) !== '' && blank * 5 > parts.length;
}

/** Whether weights are of one piece or of all: by the header, by a total that adds up, or because there is one piece each. */
function weightReadAs(
  columns: readonly ColumnMatch[],
  headers: readonly Header[],
  body: Cells,
): { readonly readAs: ReadAs; readonly why: WeightReason } {
  const [weight, quantity] = (['weight', 'quantity'] as const).map((key) => columns.find(({ means }) => means === key));
  if (!weight) return { readAs: '', why: undefined };
  const said = saidReadAs(headers[weight.column]!.text);
  if (said !== '') return { readAs: said, why: 'header' };
  const pieces = piecesIn(quantity?.column);
  if (!quantity || body.every((line) => pieces(line) === 1)) return { readAs: 'all pieces', why: 'no quantity' };
  const total = readAsOfTotal(body, weight.column, pieces);
  return { readAs: total, why: total === '' ? undefined : 'total' };
}

/** Pieces of a row: 1 where it does not say. */
export const piecesIn =
  (column: number | undefined) =>
  (line: readonly Cell[]): number => {
    const cell = column === undefined ? 1 : piecesCell(line[column] ?? null, 'dot');
    return typeof cell === 'number' ? cell : 1;
  };

/** Totals are typed rounded. */
const SAME = 2e-3;

/**
 * By the totals of a list: which sum each of them is.
 * @param named columns in which a total is named; any, if left out
 */
export function readAsOfTotal(
  body: Cells,
  weight: number,
  pieces: (line: readonly Cell[]) => number,
  named?: readonly number[],
): ReadAs {
  const texts = (line: readonly Cell[]): readonly (Cell | undefined)[] =>
    named ? named.map((column) => line[column]) : line;
  const none = { each: 0, all: 0 };
  const [since, whole] = [{ ...none }, { ...none }];
  for (const line of body) {
    const cell = measuredCell(line[weight] ?? null, 'weight', undefined, 'dot');
    if (typeof cell !== 'number') continue;
    if (texts(line).some((one) => typeof one === 'string' && isSumName(one))) {
      const near = (sums: number): boolean => Math.abs(sums - cell) <= SAME * Math.abs(cell);
      const [each, all] = [near(since.each) || near(whole.each), near(since.all) || near(whole.all)];
      if (each !== all) return each ? 'each piece' : 'all pieces';
      Object.assign(since, none);
      continue;
    }
    for (const sums of [since, whole]) {
      sums.each += cell * pieces(line);
      sums.all += cell;
    }
  }
  return '';
}
