/** From cells to the values of parameters, and from results to cells. */
import { InputError, NotListedError } from '../../core/input-error';
import { CellError, type Argument, type Cell } from '../../sheet/cell';
import type { Parameter } from './parameter';
import { fromInch, type Dimension, type UnitSystem } from '../../core/quantity';

/** The value of a parameter from one cell: its default when blank and optional; a CellError passes through. */
export function readCell(parameter: Parameter, cell: Cell | undefined, units: UnitSystem): unknown {
  if (cell instanceof CellError) return cell;
  if (cell === null || cell === undefined || cell === '') {
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
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof InputError) || typeof error.got !== 'number') throw error;
    // A cell of a column is named with its row: "weights, row 3".
    const [name] = error.parameter.split(', row ');
    const dimension = parameters.find((parameter) => parameter.name === name)?.dimension;
    if (dimension === undefined) throw error;
    const Kind = error instanceof NotListedError ? NotListedError : InputError;
    throw new Kind(error.parameter, fromInch(error.got, dimension, units), error.takes, error.guess);
  }
}
