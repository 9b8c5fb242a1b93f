/**
 * The one way in which every host calls a function: arguments as the host has them in, a value or a
 * block of cells out. It never throws: what is wrong comes back as a CellError, and in a column only
 * in the rows that are wrong.
 */
import { InputError } from '../../core/input-error';
import { CellError, isBlank, type Argument, type Result } from '../../sheet/cell';
import { unitsParameter, unitsPlace, type Definition } from './definition';
import { lift, asCellError, computed, finish, readCell, single } from './lift';
import type { Parameter } from './parameter';
import type { UnitSystem } from '../../core/quantity';

/** Calls `definition` on what the host hands over. */
export function call(definition: Definition, args: readonly Argument[]): Result {
  try {
    const { parameters } = definition;
    if (args.length > parameters.length) {
      return new CellError(
        '#VALUE!',
        `${definition.name} takes ${parameters.length} arguments at most, got ${args.length}`,
      );
    }
    const place = unitsPlace(parameters);
    const units = place < 0 ? 'in-lb' : readUnits(args[place]);
    if (units instanceof CellError) return units;
    // The units that were read stand in their place, so that a host's 0 for a blank cell is read once.
    const given = place < 0 ? args : Object.assign([...args], { [place]: units });
    return definition.rowWise ? lift(definition, given, units) : whole(definition, given, units);
  } catch (error) {
    return asCellError(error);
  }
}

/** The value of the `units` argument. */
function readUnits(argument: Argument): UnitSystem | CellError {
  const given = single(argument);
  if (given === undefined) return new CellError('#VALUE!', `units: takes one cell, ${unitsParameter.takes('in-lb')}`);
  // 0 is what some hosts pass for a blank cell.
  if (isBlank(given) || given === 0) return 'in-lb';
  return given instanceof CellError ? given : unitsParameter.read(given, 'in-lb');
}

function whole(definition: Definition, args: readonly Argument[], units: UnitSystem): Result {
  const values: unknown[] = [];
  for (const [index, parameter] of definition.parameters.entries()) {
    const value = readWhole(parameter, args[index], units);
    if (value instanceof CellError) return value;
    values.push(value);
  }
  const result = computed(
    () => (definition.compute as (...v: unknown[]) => Result)(...values),
    definition.parameters,
    units,
  );
  const { columns, dimension } = definition.result;
  if (!Array.isArray(result)) return finish(result, dimension, units);
  if (result.length === 0) return '';
  return result.map((row) =>
    row.map((cell, column) =>
      finish(cell, columns ? columns[Math.min(column, columns.length - 1)]!.dimension : dimension, units),
    ),
  );
}

function readWhole(parameter: Parameter, argument: Argument, units: UnitSystem): unknown {
  if (parameter.shape === 'cell') {
    const cell = single(argument);
    if (cell === undefined) throw new InputError(parameter.name, argument, `one cell: ${parameter.takes(units)}`);
    return readCell(parameter, cell, units);
  }
  if (Array.isArray(argument)) {
    if (parameter.optional && argument.every((row) => row.every(isBlank))) return parameter.default;
    return parameter.readBlock!(argument, units);
  }
  if (isBlank(argument)) return readCell(parameter, null, units);
  return argument instanceof CellError ? argument : parameter.readBlock!([[argument]], units);
}
