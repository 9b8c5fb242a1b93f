/**
 * Lifting a row-wise function over columns: done once, here, over plain arrays.
 *
 * Single cells stand for every row; blocks must agree in shape. A row whose required cells are all
 * blank gives a blank. (Some hosts pass 0 for a blank cell, so a 0 counts as blank in that test where
 * the parameter's limits refuse 0 anyhow.) A row that is wrong gives its own error and no other.
 */
import { InputError, NotListedError, unlessRefused } from '../../core/input-error';
import { CellError, isBlank, type Argument, type Cell, type Matrix, type Result } from '../../sheet/cell';
import type { Parameter } from './parameter';
import { fromInch, type Dimension, type UnitSystem } from '../../core/quantity';
import type { Definition } from './definition';

// From cells to the values of parameters, and from results to cells.

/** The value of a parameter from one cell: its default when blank and optional; a CellError passes through. */
export function readCell(parameter: Parameter, cell: Cell | undefined, units: UnitSystem): unknown {
  if (cell instanceof CellError) return cell;
  if (isBlank(cell)) {
    if (parameter.optional) return parameter.default;
    throw new InputError(parameter.name, null, parameter.takes(units));
  }
  return parameter.read(cell, units);
}

/** The cell of an argument that is one cell; undefined where it is several. */
export function single(argument: Argument): Cell | undefined {
  if (!Array.isArray(argument)) return argument ?? null;
  return argument.length === 1 && argument[0]?.length === 1 ? (argument[0][0] ?? null) : undefined;
}

/** A result in the user's units; what is not finite becomes an error. */
export function finish(cell: Cell | undefined, dimension: Dimension | undefined, units: UnitSystem): Cell {
  if (typeof cell !== 'number') return cell ?? '';
  const value = fromInch(cell, dimension, units);
  if (!Number.isFinite(value))
    return new CellError('#VALUE!', 'The result is too large to be a number: check the inputs');
  return value === 0 ? 0 : value;
}

/** Any throw as a cell: an InputError with its message, a fault of ours named as such. */
export function asCellError(error: unknown): CellError {
  if (error instanceof NotListedError) return new CellError('#N/A', error.message);
  if (error instanceof InputError) return new CellError('#VALUE!', error.message);
  return new CellError(
    '#VALUE!',
    `A fault in Tarebook, please report it: ${error instanceof Error ? error.message : String(error)}`,
  );
}

/**
 * Runs `compute`; a number that it refuses, which it knows in inch-pound units, is shown in the user's own.
 * A parameter without a dimension, and whatever is refused while it is read, stay as they were typed.
 */
export function computed<T>(compute: () => T, parameters: readonly Parameter[], units: UnitSystem): T {
  if (units === 'in-lb') return compute();
  return unlessRefused(compute, (error): never => {
    if (typeof error.got !== 'number') throw error;
    // A cell of a column is named with its row: "weights, row 3".
    const [name] = error.parameter.split(', row ');
    const dimension = parameters.find((parameter) => parameter.name === name)?.dimension;
    if (dimension === undefined) throw error;
    throw error.at(error.parameter, fromInch(error.got, dimension, units));
  });
}

/** One parameter as the loop sees it: a value that holds for all rows, or a cell a row. */
interface Source {
  readonly parameter: Parameter;
  /** Its cells, one for each row; undefined where one value holds for all rows. */
  readonly column: Matrix | undefined;
  /** The value for all rows; an InputError or CellError where it is wrong. */
  readonly fixed: unknown;
  /** True where the one cell is blank, or 0 where 0 can be no value. */
  readonly blank: boolean;
}

type Compute = (...values: unknown[]) => Cell | undefined;
type Row = (index: number) => Cell;

export function lift(definition: Definition, args: readonly Argument[], units: UnitSystem): Result {
  const { parameters } = definition;
  const blocks = parameters.map((parameter, index) => columnOf(parameter, args[index]));
  const shape = commonShape(parameters, blocks);
  const sources = parameters.map((parameter, index) => sourceOf(parameter, args[index], blocks[index], units));
  const thorough = thoroughly(definition, sources, units);
  if (!shape) return thorough(0);
  const cells = shape.rows * shape.columns;
  const isSound = sources.every(
    ({ column, fixed }) => column !== undefined || !(fixed instanceof CellError || fixed instanceof InputError),
  );
  const results = isSound
    ? quickly(definition, sources, units, thorough, cells)
    : Array.from({ length: cells }, (_, index) => [thorough(index)]);
  return shape.columns === 1
    ? results
    : Array.from({ length: shape.rows }, (_, row) =>
        results.slice(row * shape.columns, (row + 1) * shape.columns).map(([cell]) => cell!),
      );
}

/** The thorough way, which serves any row. Only here a blank, wrong or refused cell is dealt with. */
function thoroughly(definition: Definition, sources: readonly Source[], units: UnitSystem): Row {
  const { parameters, result } = definition;
  const compute = definition.compute as Compute;
  const isBlankRow = blankTest(sources);
  const values: unknown[] = new Array(sources.length);
  return (index) => {
    if (isBlankRow(index)) return '';
    try {
      for (let place = 0; place < sources.length; place++) {
        const { parameter, column, fixed } = sources[place]!;
        const value = column ? readCell(parameter, column[index]![0], units) : fixed;
        if (value instanceof CellError) return value;
        if (value instanceof InputError) throw value;
        values[place] = value;
      }
      return finish(
        computed(() => compute(...values), parameters, units),
        result.dimension,
        units,
      );
    } catch (error) {
      return asCellError(error);
    }
  };
}

/**
 * Most rows are numbers within their limits and texts that stood there before: their values are read a
 * parameter at a time and computed in one loop, and only the other rows go the thorough way.
 */
function quickly(
  definition: Definition,
  sources: readonly Source[],
  units: UnitSystem,
  thorough: Row,
  rows: number,
): Matrix {
  const compute = definition.compute as Compute;
  const scale = fromInch(1, definition.result.dimension, units);
  const result: Matrix = new Array(rows);
  const size = Math.min(STRETCH, rows);
  const columns = sources.map(({ parameter, column, fixed }) =>
    column ? cellColumn(parameter, column, units, size) : fixedColumn(fixed, size),
  );
  const values = columns.map((one) => one.values);
  const unread = new Uint8Array(size);
  for (let from = 0; from < rows; from += size) {
    const count = Math.min(size, rows - from);
    unread.fill(0);
    for (const one of columns) one.read(from, count, unread);
    computeStretch(compute, values, unread, from, count, scale, thorough, result);
  }
  return result;
}

/** The rows of one stretch. A function of its own, called often, is compiled for speed sooner than a long loop in a function called once. */
// eslint-disable-next-line max-params -- the innermost loop keeps what it needs in variables of its own
function computeStretch(
  compute: Compute,
  values: readonly Values[],
  unread: Uint8Array,
  from: number,
  count: number,
  scale: number,
  thorough: Row,
  result: Matrix,
): void {
  const row: unknown[] = values.map(() => undefined);
  for (let i = 0; i < count; i++) {
    const value = unread[i] ? FAILED : attempt(compute, values, i, row);
    if (typeof value === 'number') {
      const scaled = value * scale;
      // What is not finite is an error, which the thorough way words; and -0 is 0.
      result[from + i] = scaled - scaled === 0 ? [scaled + 0] : [thorough(from + i)];
    } else result[from + i] = [value === FAILED ? thorough(from + i) : (value ?? '')];
  }
}

/** Stands for the value of a row that the quick way leaves to the thorough one. */
const FAILED = Symbol('failed');

/** In one place for all parameters, so that the engine learns at once that some columns are numbers and others not. */
const at = (values: Values, i: number): unknown => values[i];

/** compute(...values) of a row, without the cost of spreading for the usual numbers of parameters (the last is `units`); `row` is there to be filled. */
function attempt(compute: Compute, v: readonly Values[], i: number, row: unknown[]): Cell | undefined | typeof FAILED {
  try {
    switch (v.length) {
      case 2:
        return compute(at(v[0]!, i), at(v[1]!, i));
      case 3:
        return compute(at(v[0]!, i), at(v[1]!, i), at(v[2]!, i));
      case 4:
        return compute(at(v[0]!, i), at(v[1]!, i), at(v[2]!, i), at(v[3]!, i));
      case 5:
        return compute(at(v[0]!, i), at(v[1]!, i), at(v[2]!, i), at(v[3]!, i), at(v[4]!, i));
      case 6:
        return compute(at(v[0]!, i), at(v[1]!, i), at(v[2]!, i), at(v[3]!, i), at(v[4]!, i), at(v[5]!, i));
      default:
        for (let place = 0; place < v.length; place++) row[place] = at(v[place]!, i);
        return compute(...row);
    }
  } catch {
    return FAILED;
  }
}

/** The argument as a block to be lifted over; undefined where it is one cell or is taken as a whole. */
function columnOf(parameter: Parameter, argument: Argument): Matrix | undefined {
  if (!Array.isArray(argument) || single(argument) !== undefined) return undefined;
  if (parameter.shape === 'block') return undefined;
  return parameter.shape === 'either' && (argument[0]?.length ?? 0) > 1 ? undefined : argument;
}

interface Extent {
  readonly rows: number;
  readonly columns: number;
}

/** The shape that all blocks share; undefined where there is none. Throws where two differ. */
function commonShape(parameters: readonly Parameter[], blocks: readonly (Matrix | undefined)[]): Extent | undefined {
  const extents = blocks.flatMap((block, index) =>
    block ? [{ name: parameters[index]!.name, block, rows: block.length, columns: block[0]?.length ?? 0 }] : [],
  );
  const [first] = extents;
  const other = extents.find(({ rows, columns }) => rows !== first!.rows || columns !== first!.columns);
  if (other)
    throw new InputError(
      other.name,
      other.block,
      `one cell, or as many cells as ${first!.name}, which has ${first!.rows} × ${first!.columns}`,
    );
  return first;
}

function sourceOf(parameter: Parameter, argument: Argument, block: Matrix | undefined, units: UnitSystem): Source {
  if (block) return { parameter, column: tall(block), fixed: undefined, blank: false };
  const cell = single(argument);
  return {
    parameter,
    column: undefined,
    fixed: fixedValue(parameter, argument, cell, units),
    blank: cell !== undefined && isNoValue(parameter, cell),
  };
}

/** The cells of a block, row by row, as one column. */
function tall(block: Matrix): Matrix {
  const width = block[0]?.length ?? 0;
  return width === 1
    ? block
    : block.flatMap((row) => Array.from({ length: width }, (_, column) => [row[column] ?? null]));
}

/** The value of an argument for all rows. An error is kept as a value, so that blank rows stay blank and the others all show it. */
const fixedValue = (parameter: Parameter, argument: Argument, cell: Cell | undefined, units: UnitSystem): unknown =>
  unlessRefused(
    () =>
      Array.isArray(argument) && (cell === undefined || parameter.shape === 'block')
        ? parameter.readBlock!(argument, units)
        : readCell(parameter, cell, units),
    (error) => error,
  );

const isNoValue = (parameter: Parameter, cell: Cell | undefined): boolean =>
  isBlank(cell) || (cell === 0 && parameter.zeroIsNoValue);

/**
 * Tells the rows in which every required parameter that has a cell a row is blank (or, with single cells only, where
 * all required ones are blank).
 */
function blankTest(sources: readonly Source[]): (index: number) => boolean {
  const required = sources.filter(({ parameter }) => !parameter.optional);
  const lifted = required.filter(({ column }) => column);
  if (lifted.length > 0)
    return (index) => lifted.every(({ parameter, column }) => isNoValue(parameter, column![index]![0]));
  // An optional column over fixed required cells gives a value a row.
  const isBlankCall =
    required.length > 0 && required.every(({ blank }) => blank) && sources.every(({ column }) => !column);
  return () => isBlankCall;
}

// Columns of cells as columns of values, a stretch of rows at a time.
//
// One tight loop a parameter reads what most rows hold: a number within its limits, or a text that stood in a row
// before. Whatever else a cell holds is left to the thorough way, so that it is said in one place what a blank, an
// error or a wrong cell gives.

/** Rows of a stretch: few enough that its values stay in the processor's cache. */
const STRETCH = 512;

type Values = Float64Array | unknown[];

/** The values of one parameter in a stretch of rows. */
interface Column {
  readonly values: Values;
  /** Reads the cells of rows `from` to `from + count`; sets `unread` where a row is left to the thorough way. */
  read(from: number, count: number, unread: Uint8Array): void;
}

/** A value that holds for all rows. */
function fixedColumn(value: unknown, size: number): Column {
  const values = typeof value === 'number' ? new Float64Array(size).fill(value) : new Array<unknown>(size).fill(value);
  return { values, read: () => {} };
}

/** A column of cells that are read by `parameter`. */
const cellColumn = (parameter: Parameter, cells: Matrix, units: UnitSystem, size: number): Column =>
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
  const value = readOnce(parameter, cell, units);
  known.set(cell, value);
  return value;
}

function readOnce(parameter: Parameter, cell: Cell | undefined, units: UnitSystem): unknown {
  if (isBlank(cell)) return parameter.optional ? parameter.default : UNREAD;
  // 0 may be a host's blank: only the whole row tells.
  if (cell instanceof CellError || (cell === 0 && parameter.zeroIsNoValue)) return UNREAD;
  try {
    return parameter.read(cell, units);
  } catch {
    return UNREAD;
  }
}
