/**
 * Columns of cells as columns of values, a stretch of rows at a time, for the loop of lift.ts.
 *
 * One tight loop a parameter reads what most rows hold: a number within its limits, or a text that stood in a row
 * before. Whatever else a cell holds is left to the thorough way of lift.ts, so that it is said in one place what a
 * blank, an error or a wrong cell gives.
 */
import { CellError, isBlank, type Cell, type Matrix } from '../../sheet/cell';
import type { Parameter } from './parameter';
import { fromInch, type UnitSystem } from '../../core/quantity';

/** Rows of a stretch: few enough that its values stay in the processor's cache. */
export const STRETCH = 512;

export type Values = Float64Array | unknown[];

/** The values of one parameter in a stretch of rows. */
export interface Column {
  readonly values: Values;
  /** Reads the cells of rows `from` to `from + count`; sets `unread` where a row is left to the thorough way. */
  read(from: number, count: number, unread: Uint8Array): void;
}

/** A value that holds for all rows. */
export function fixedColumn(value: unknown, size: number): Column {
  const values = typeof value === 'number' ? new Float64Array(size).fill(value) : new Array<unknown>(size).fill(value);
  return { values, read: () => {} };
}

/** A column of cells that are read by `parameter`. */
export const cellColumn = (parameter: Parameter, cells: Matrix, units: UnitSystem, size: number): Column =>
  parameter.quick
    ? numberColumn(parameter, parameter.quick, cells, units, size)
    : otherColumn(parameter, cells, units, size);

function numberColumn(
  parameter: Parameter,
  quick: NonNullable<Parameter['quick']>,
  cells: Matrix,
  units: UnitSystem,
  size: number,
): Column {
  const values = new Float64Array(size);
  const factor = fromInch(1, parameter.dimension, units);
  const limits: NumberLimits = { low: quick.low * factor, high: quick.high * factor, whole: quick.whole, factor };
  const known = new Map<Cell | undefined, unknown>();
  // The loop reads numbers between the limits. Any other number is a limit itself, which is read here, or wrong.
  const other = (cell: Cell | undefined): unknown =>
    typeof cell === 'number' && cell !== limits.low && cell !== limits.high
      ? UNREAD
      : recall(known, parameter, cell, units);
  return { values, read: (from, count, unread) => readNumbers(cells, from, count, limits, other, values, unread) };
}

/** In the user's units; `factor` of them are an inch-pound one. */
interface NumberLimits {
  readonly low: number;
  readonly high: number;
  readonly whole: boolean;
  readonly factor: number;
}

/** The loop over most cells of all; what it needs stands in variables of its own. */
// eslint-disable-next-line max-params -- the innermost loop keeps what it needs in variables of its own
function readNumbers(
  cells: Matrix,
  from: number,
  count: number,
  limits: NumberLimits,
  other: (cell: Cell | undefined) => unknown,
  values: Float64Array,
  unread: Uint8Array,
): void {
  const { low, high, whole, factor } = limits;
  for (let i = 0; i < count; i++) {
    const cell = cells[from + i]![0];
    if (typeof cell === 'number' && cell > low && cell < high && (!whole || Number.isInteger(cell))) {
      values[i] = factor === 1 ? cell : cell / factor;
      continue;
    }
    const value = other(cell);
    if (typeof value === 'number') values[i] = value;
    else unread[i] = 1;
  }
}

function otherColumn(parameter: Parameter, cells: Matrix, units: UnitSystem, size: number): Column {
  const values = new Array<unknown>(size).fill(UNREAD);
  const known = new Map<Cell | undefined, unknown>();
  return {
    values,
    read(from, count, unread) {
      for (let i = 0; i < count; i++) {
        const cell = cells[from + i]![0];
        // undefined may be the value of an omitted cell, too: recall tells the two apart.
        const value = known.get(cell) ?? recall(known, parameter, cell, units);
        if (value === UNREAD) unread[i] = 1;
        else values[i] = value;
      }
    },
  };
}

/** Stands for the value of a cell that is left to the thorough way. */
const UNREAD = Symbol('unread');

/** The value of a cell, which is read once for all rows that hold the same: a column of materials has few different ones. */
function recall(
  known: Map<Cell | undefined, unknown>,
  parameter: Parameter,
  cell: Cell | undefined,
  units: UnitSystem,
): unknown {
  if (known.has(cell)) return known.get(cell);
  const value = attempt(parameter, cell, units);
  known.set(cell, value);
  return value;
}

function attempt(parameter: Parameter, cell: Cell | undefined, units: UnitSystem): unknown {
  if (isBlank(cell)) return parameter.optional ? parameter.default : UNREAD;
  // 0 may be a host's blank: only the whole row tells.
  if (cell instanceof CellError || (cell === 0 && parameter.zeroIsNoValue)) return UNREAD;
  try {
    return parameter.read(cell, units);
  } catch {
    return UNREAD;
  }
}
