/** Facts of a sheet: a label, and what stands in the cell to its right. */
import { isBlank, type Cell } from '../../functions';
import { plainLabel } from './forms';

export interface Fact {
  /** Place of the value, from 0. */
  readonly row: number;
  readonly column: number;
  readonly value: Cell;
  /** What follows to the right of the value. */
  readonly rest: readonly Cell[];
}

/** The first cell with that label above `before`, and what is to the right of it; undefined where there is none. */
export function findFact(values: readonly (readonly Cell[])[], label: string, before = values.length): Fact | undefined {
  const wanted = plainLabel(label);
  for (let row = 0; row < Math.min(before, values.length); row++) {
    const at = values[row]!.findIndex((cell) => typeof cell === 'string' && plainLabel(cell) === wanted);
    if (at >= 0) return { row, column: at + 1, value: values[row]![at + 1] ?? null, rest: values[row]!.slice(at + 2) };
  }
  return undefined;
}

/** A fact's value as text; '' where there is none. */
export function factText(fact: Fact | undefined): string {
  return fact === undefined || isBlank(fact.value) ? '' : String(fact.value).trim();
}
