/** References of several ranges, and what two have in common. */
import { CellError } from '../sheet';
import { Areas, failure, Reference, type Value } from './values';

/** (A1:A3,C1:C3) */
export function united(given: readonly Value[]): Value {
  const error = given.find((one) => one instanceof CellError);
  if (error) return error;
  const parts = given.map(partsOf);
  return parts.every((one) => one !== undefined) ? new Areas(parts.flat()) : failure('#VALUE!');
}

/** A1:B3 B1:C9: the cells of both, of several ranges each with each. Source: ECMA-376 part 1, 18.17.2.3 (#NULL! where there are none). */
export function overlap(a: Value, b: Value): Value {
  if (a instanceof CellError) return a;
  if (b instanceof CellError) return b;
  const [left, right] = [partsOf(a), partsOf(b)];
  if (!left || !right) return failure('#VALUE!');
  const parts = left.flatMap((one) => right.flatMap((other) => shared(one, other) ?? []));
  return parts.length > 1 ? new Areas(parts) : (parts[0] ?? failure('#NULL!'));
}

const partsOf = (value: Value): readonly Reference[] | undefined =>
  value instanceof Areas ? value.parts : value instanceof Reference ? [value] : undefined;

function shared(a: Reference, b: Reference): Reference | undefined {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return a.grid === b.grid && rows > 0 && columns > 0 ? new Reference(a.grid, row, column, rows, columns) : undefined;
}
