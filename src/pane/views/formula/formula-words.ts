/** Values as the form shows them. */
import { fromInch, unitSign, type Parameter, type UnitSystem } from '../../../functions';
import { CellError, isBlank, type Argument, type Cell } from '../../../sheet';
import { cellNumber, t, writeNumber } from '../../locale';

/** More digits than these say nothing of a part. */
const DIGITS = 7;
const SMALLEST = 1e-4;
const LARGEST = 1e12;
/** Values of a column that are shown. */
const FIRST = 3;

/** A cell in a few characters: "3.758144", "blank", "6061-T6". */
export function cellWords(cell: Cell): string {
  if (cell instanceof CellError) return cell.code;
  if (isBlank(cell)) return t('blank');
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'number' ? numberWords(cell) : cell;
}

function numberWords(value: number): string {
  const size = Math.abs(value);
  // What is smaller or larger is written with a power of ten, and has no decimals to count.
  if (size !== 0 && (size < SMALLEST || size >= LARGEST)) return cellNumber(value);
  const most = Math.max(0, DIGITS - 1 - Math.floor(Math.log10(size || 1)));
  return writeNumber(value, decimals(value, most));
}

/** Decimals that a number has, rounded to the most that are shown. */
export function decimals(value: number, most: number): number {
  let places = 0;
  while (places < most && Math.abs(value - Math.round(value * 10 ** places) / 10 ** places) >= 0.5 * 10 ** -most)
    places += 1;
  return places;
}

/** What cells hold, beside a reference to them: "2.5"; "28 cells: 2.5, 3, 2.75 …"; "40 × 10 cells". */
export function heldWords(argument: Argument): string {
  if (!Array.isArray(argument)) return cellWords(argument ?? null);
  const rows = argument.length;
  const columns = argument[0]?.length ?? 0;
  return rows > 1 && columns > 1
    ? t('{rows, number} × {columns, number} cells', { rows, columns })
    : t('{count, plural, one {# cell} other {# cells}}: {first}', {
        count: rows * columns,
        first: listWords(argument.flat()),
      });
}

/** The first of some values: "2.5, 3, 2.75 …" */
export function listWords(cells: readonly Cell[]): string {
  const first = cells.slice(0, FIRST).map(cellWords).join(' · ');
  return cells.length > FIRST ? `${first} …` : first;
}

/** The value that is used where a parameter is omitted; '' where there is no such value. */
export function defaultWords({ default: standsFor, dimension }: Parameter, units: UnitSystem): string {
  if (typeof standsFor === 'number') return cellNumber(fromInch(standsFor, dimension, units));
  if (typeof standsFor === 'boolean') return standsFor ? t('yes') : t('no');
  return typeof standsFor === 'string' ? standsFor : '';
}

/** The unit of a field: "in"; '' for a bare number. A material, or a block of cells, names its units where it says what it takes. */
export const fieldUnit = ({ kind, dimension }: Parameter, units: UnitSystem): string =>
  kind === 'number' || kind === 'integer' ? unitSign(dimension, units) : '';
