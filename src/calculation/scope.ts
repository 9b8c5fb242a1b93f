/** Names that LET and LAMBDA give to values: found when a formula is compiled, their values when it is evaluated. */
import type { FormulaNode } from '../sheet/formula';
import type { Evaluate, Frame, Place } from './functions/define';
import { failure, Lambda, type Value } from './values';

/** The names that are known at a place of a formula, the innermost first. */
export interface Scope {
  readonly name: string;
  readonly next: Scope | undefined;
}

/** What a LAMBDA takes. */
export interface Parameter {
  readonly name: string;
  /** [name]: a call may leave it out. */
  readonly isOptional: boolean;
}

/** A name as an argument declares it; undefined for what is no name. */
export function parameterOf(node: FormulaNode | undefined): Parameter | undefined {
  if (node?.kind === 'name' && node.sheet === undefined) return { name: node.name.toLowerCase(), isOptional: false };
  if (node?.kind === 'table' && node.table === '' && /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(node.part))
    return { name: node.part.toLowerCase(), isOptional: true };
  return undefined;
}

/** How many names were declared after it, which says where its value stands among theirs; undefined for a name that is not declared. */
export function depthOf(scope: Scope | undefined, name: string): number | undefined {
  const wanted = name.toLowerCase();
  let depth = 0;
  for (let at = scope; at; at = at.next, depth++) if (at.name === wanted) return depth;
  return undefined;
}

/** The value of the name at a depth. */
export const valueAt =
  (depth: number): Evaluate =>
  ({ frame }) => {
    let at = frame;
    for (let step = 0; step < depth; step++) at = at?.next;
    return at?.value;
  };

const within = ({ grid, row, column }: Place, frame: Frame | undefined): Place => ({ grid, row, column, frame });

/** LET: each value sees the names before it, the body sees all. */
export const letting =
  (values: readonly Evaluate[], body: Evaluate): Evaluate =>
  (place) => {
    let { frame } = place;
    for (const value of values) frame = { value: value(within(place, frame)), next: frame };
    return body(within(place, frame));
  };

/** LAMBDA: a function that evaluates the body with its parameters. */
export function lambda(parameters: readonly Parameter[], body: Evaluate): Evaluate {
  const least = parameters.findIndex(({ isOptional }) => isOptional);
  const most = parameters.length;
  return (place) =>
    new Lambda(least < 0 ? most : least, most, (args) => {
      let { frame } = place;
      for (let index = 0; index < most; index++) frame = { value: args[index], next: frame };
      return deeper(() => body(within(place, frame)));
    });
}

/** Calls within calls: a function that calls itself without end is stopped here. Source: Microsoft, page on LAMBDA (#NUM! where a recursive call is circular). */
const DEEPEST_CALLS = 1024;
let calls = 0;

function deeper(call: () => Value): Value {
  if (calls >= DEEPEST_CALLS) return failure('#NUM!');
  calls++;
  try {
    return call();
  } catch (error) {
    // JavaScript's own stack may be full before.
    if (error instanceof RangeError) return failure('#NUM!');
    throw error;
  } finally {
    calls--;
  }
}
