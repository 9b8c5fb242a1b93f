/** The numbers by which a function's drawing is made and labelled. */
import type { Definition } from '../../../functions';
import type { Argument, Cell } from '../../../sheet';
import { figureFor, type Figure } from '../../../functions/drawings';
import { writeNumber } from '../../locale';
import { fieldsOf } from './definitions';
import type { Given } from './outcome';
import { decimals } from './formula-words';

/** Numbers of a block that are drawn at most: the corners of a polygon. */
const MOST = 400;
const MOST_DECIMALS = 6;

/**
 * The figure with the user's numbers at its dimensions; in proportion as soon as all that it needs is there.
 * Of a column the first row is drawn.
 */
export function labelledFigure(definition: Definition, given: readonly Given[]): Figure | undefined {
  const known: Record<string, number> = {};
  const values: (number | undefined)[] = [];
  let complete = true;
  fieldsOf(definition).forEach(({ name, kind, shape, optional }, place) => {
    const one = given[place];
    const argument = one?.state === 'read' ? one.argument : null;
    if (shape === 'block') {
      const numbers = Array.isArray(argument) ? argument.flat().filter((cell) => typeof cell === 'number') : [];
      if (numbers.length <= MOST) values.push(...numbers);
      return;
    }
    if (kind !== 'number' && kind !== 'integer') return;
    const value = firstNumber(argument);
    values.push(value);
    if (value !== undefined) known[name] = value;
    else if (!optional) complete = false;
  });
  return figureFor(definition.name, complete ? values : [], (name, computed) => {
    const value = known[name] ?? computed;
    return value === undefined ? undefined : `${name} = ${writeNumber(value, decimals(value, MOST_DECIMALS))}`;
  });
}

/** The first number of a column, or the cell's own. */
function firstNumber(argument: Argument): number | undefined {
  const cells: readonly Cell[] = Array.isArray(argument) ? argument.flat() : [argument ?? null];
  return cells.find((cell) => typeof cell === 'number');
}
