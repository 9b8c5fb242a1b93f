/**
 * Lifting a row-wise function over columns: done once, here, over plain arrays.
 *
 * Single cells stand for every row; blocks must agree in shape. A row whose required cells are all
 * blank gives a blank. (Some hosts pass 0 for a blank cell, so a 0 counts as blank in that test where
 * the parameter's limits refuse 0 anyhow.) A row that is wrong gives its own error and no other.
 */
import { InputError } from '../../core/input-error';
import { CellError, type Argument, type Cell, type Matrix, type Result } from './cells';
import type { Definition } from './definition';
import type { Parameter } from './parameter';
import { fromInch, type UnitSystem } from '../../core/quantity';
import { asCellError, computed, finish, readCell, single } from './values';

/** One parameter as the loop sees it: a value that holds for all rows, or a cell a row. */
interface Source {
  readonly parameter: Parameter;
  /** The cells of a column; undefined where one value holds for all rows. */
  readonly cells: readonly Cell[] | undefined;
  /** The value for all rows; an InputError or CellError where it is wrong. */
  readonly fixed: unknown;
  /** True where the one cell is blank, or 0 where 0 can be no value. */
  readonly blank: boolean;
  /** Typed numbers between these are taken as they are, divided by `factor`; none where low is above high. */
  readonly low: number;
  readonly high: number;
  readonly whole: boolean;
  readonly factor: number;
  /** Values of cells that are no numbers, by cell: a column of materials has few different ones. */
  readonly read: Map<Cell, unknown> | undefined;
}

export function lift(definition: Definition, args: readonly Argument[], units: UnitSystem): Result {
  const { parameters } = definition;
  const blocks = parameters.map((parameter, index) => columnOf(parameter, args[index]));
  const shape = commonShape(parameters, blocks);
  const sources = parameters.map((parameter, index) => sourceOf(parameter, args[index], blocks[index], units));
  const row = rowByRow(definition, sources, units);
  if (!shape) return row(0);
  const result: Matrix = new Array(shape.rows);
  for (let r = 0, index = 0; r < shape.rows; r++) {
    if (shape.columns === 1) {
      result[r] = [row(index++)];
      continue;
    }
    const line: Cell[] = new Array(shape.columns);
    for (let c = 0; c < shape.columns; c++) line[c] = row(index++);
    result[r] = line;
  }
  return result;
}

/** The function that computes one row. Most rows are plain numbers in their limits, and go the short way. */
function rowByRow(definition: Definition, sources: readonly Source[], units: UnitSystem): (index: number) => Cell {
  const { parameters, result } = definition;
  const compute = definition.compute as (...values: unknown[]) => Cell;
  const dimension = result.kind === 'table' ? undefined : result.dimension;
  const scale = fromInch(1, dimension, units);
  const values: unknown[] = sources.map((source) => source.fixed);
  const columns = sources.flatMap((source, place) => (source.cells ? [{ place, source, cells: source.cells }] : []));
  const fixedIsSound = sources.every(({ cells, fixed }) => cells !== undefined || !(fixed instanceof CellError || fixed instanceof InputError));

  const thorough = (index: number): Cell => {
    if (isBlankRow(sources, index)) return '';
    try {
      for (let place = 0; place < sources.length; place++) {
        const source = sources[place]!;
        const value = source.cells ? readCell(source.parameter, source.cells[index], units) : source.fixed;
        if (value instanceof CellError) return value;
        if (value instanceof InputError) throw value;
        values[place] = value;
      }
      return finish(computed(() => compute(...values), parameters, units), dimension, units);
    } catch (error) {
      return asCellError(error);
    }
  };

  return (index) => {
    if (!fixedIsSound || columns.length === 0) return thorough(index);
    for (let i = 0; i < columns.length; i++) {
      const { place, source, cells } = columns[i]!;
      const cell = cells[index]!;
      if (typeof cell === 'number' && cell > source.low && cell < source.high && (!source.whole || Number.isInteger(cell))) values[place] = cell / source.factor;
      else if (source.read?.has(cell)) values[place] = source.read.get(cell);
      else if (!remember(source, cell, units)) return thorough(index);
      else values[place] = source.read!.get(cell);
    }
    try {
      const value = apply(compute, values);
      if (typeof value !== 'number') return value ?? '';
      const scaled = value * scale;
      return scaled - scaled === 0 ? scaled + 0 : thorough(index);
    } catch {
      return thorough(index);
    }
  };
}

/** Reads a cell that is no number once for all its rows; false where it is blank, an error or refused. */
function remember(source: Source, cell: Cell, units: UnitSystem): boolean {
  // 0 may be a host's blank, which only the thorough way tells.
  if (!source.read || cell === 0 || cell === null || cell === undefined || cell === '' || cell instanceof CellError) return false;
  try {
    source.read.set(cell, source.parameter.read(cell, units));
    return true;
  } catch {
    return false;
  }
}

/** compute(...values), without the cost of spreading for the usual numbers of parameters (the last is `units`). */
function apply(compute: (...values: unknown[]) => Cell, v: readonly unknown[]): Cell {
  switch (v.length) {
    case 2:
      return compute(v[0], v[1]);
    case 3:
      return compute(v[0], v[1], v[2]);
    case 4:
      return compute(v[0], v[1], v[2], v[3]);
    case 5:
      return compute(v[0], v[1], v[2], v[3], v[4]);
    case 6:
      return compute(v[0], v[1], v[2], v[3], v[4], v[5]);
    default:
      return compute(...v);
  }
}

/** The argument as a block to be lifted over; undefined where it is one cell or is taken as a whole. */
function columnOf(parameter: Parameter, argument: Argument): Matrix | undefined {
  if (!Array.isArray(argument) || single(argument) !== undefined) return undefined;
  if (parameter.shape === 'block') return undefined;
  if (parameter.shape === 'either' && (argument[0]?.length ?? 0) > 1) return undefined;
  return argument;
}

interface Extent {
  readonly rows: number;
  readonly columns: number;
}

/** The shape that all blocks share; undefined where there is none. Throws where two differ. */
function commonShape(parameters: readonly Parameter[], blocks: readonly (Matrix | undefined)[]): Extent | undefined {
  let first: (Extent & { readonly name: string }) | undefined;
  for (const [index, block] of blocks.entries()) {
    if (!block) continue;
    const { name } = parameters[index]!;
    const extent = { name, rows: block.length, columns: block[0]?.length ?? 0 };
    if (!first) first = extent;
    else if (first.rows !== extent.rows || first.columns !== extent.columns) {
      throw new InputError(
        name,
        block,
        `one cell, or as many cells as ${first.name}, which has ${first.rows} × ${first.columns}`,
      );
    }
  }
  return first;
}

function sourceOf(parameter: Parameter, argument: Argument, column: Matrix | undefined, units: UnitSystem): Source {
  if (column) {
    const { quick, dimension } = parameter;
    const factor = fromInch(1, dimension, units);
    return {
      parameter,
      cells: column[0]?.length === 1 ? column.map((cells) => cells[0] ?? null) : column.flat(),
      fixed: undefined,
      blank: false,
      low: quick ? quick.low * factor : 1,
      high: quick ? quick.high * factor : -1,
      whole: quick?.whole ?? false,
      factor,
      read: quick ? undefined : new Map(),
    };
  }
  const cell = single(argument);
  const blank = cell !== undefined && isNoValue(parameter, cell);
  return { parameter, cells: undefined, fixed: fixedValue(parameter, argument, cell, units), blank, low: 1, high: -1, whole: false, factor: 1, read: undefined };
}

/** The value of an argument for all rows. An error is kept as a value, so that blank rows stay blank and the others all show it. */
function fixedValue(parameter: Parameter, argument: Argument, cell: Cell | undefined, units: UnitSystem): unknown {
  try {
    if (Array.isArray(argument) && (cell === undefined || parameter.shape === 'block')) return parameter.readBlock!(argument, units);
    return readCell(parameter, cell, units);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

const isNoValue = (parameter: Parameter, cell: Cell | undefined): boolean =>
  cell === null || cell === undefined || cell === '' || (cell === 0 && parameter.zeroIsNoValue);

/**
 * True where every required parameter that has a cell a row is blank in this row (or, with single cells
 * only, where all required ones are blank).
 */
function isBlankRow(sources: readonly Source[], index: number): boolean {
  let lifted = false;
  let anyRequired = false;
  for (const source of sources) {
    if (source.parameter.optional || !source.cells) continue;
    lifted = true;
    if (!isNoValue(source.parameter, source.cells[index])) return false;
  }
  if (lifted) return true;
  for (const source of sources) {
    if (source.cells) return false; // an optional column over fixed required cells: a value a row
    if (source.parameter.optional) continue;
    anyRequired = true;
    if (!source.blank) return false;
  }
  return anyRequired;
}

