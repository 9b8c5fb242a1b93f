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
import type { UnitSystem } from './units';
import { asCellError, computed, finish, readCell, single } from './values';

/** One parameter as the loop sees it: a value that holds for all rows, or a cell a row. */
type Source =
  | { readonly parameter: Parameter; readonly cells: readonly Cell[]; readonly fixed?: undefined }
  | { readonly parameter: Parameter; readonly cells?: undefined; readonly fixed: unknown; readonly blank: boolean };

export function lift(definition: Definition, args: readonly Argument[], units: UnitSystem): Result {
  const blocks = definition.parameters.map((parameter, index) => columnOf(parameter, args[index]));
  const shape = commonShape(definition.parameters, blocks);
  const sources = definition.parameters.map((parameter, index) => sourceOf(parameter, args[index], blocks[index], units));
  const compute = definition.compute as (...values: unknown[]) => Cell;
  const dimension = definition.result.kind === 'table' ? undefined : definition.result.dimension;

  const values: unknown[] = new Array(sources.length);
  const row = (index: number): Cell => {
    if (isBlankRow(sources, index)) return '';
    try {
      for (let p = 0; p < sources.length; p++) {
        const source = sources[p]!;
        const value = source.cells ? readCell(source.parameter, source.cells[index], units) : source.fixed;
        if (value instanceof CellError) return value;
        if (value instanceof InputError) throw value;
        values[p] = value;
      }
      return finish(computed(() => compute(...values), definition.parameters, units), dimension, units);
    } catch (error) {
      return asCellError(error);
    }
  };

  if (!shape) return row(0);
  const result: Matrix = new Array(shape.rows);
  for (let r = 0, index = 0; r < shape.rows; r++) {
    const line: Cell[] = new Array(shape.columns);
    for (let c = 0; c < shape.columns; c++, index++) line[c] = row(index);
    result[r] = line;
  }
  return result;
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
  if (column) return { parameter, cells: column[0]?.length === 1 ? column.map((cells) => cells[0] ?? null) : column.flat() };
  const cell = single(argument);
  const blank = cell !== undefined && isNoValue(parameter, cell);
  try {
    // An error here is kept as a value, so that blank rows stay blank and the others all show it.
    const fixed = cell === undefined ? parameter.readBlock!(argument as Matrix, units) : parameter.shape === 'block' && Array.isArray(argument) ? parameter.readBlock!(argument, units) : readCell(parameter, cell, units);
    return { parameter, fixed, blank };
  } catch (error) {
    if (error instanceof InputError) return { parameter, fixed: error, blank };
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

