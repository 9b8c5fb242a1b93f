/** Facts of a sheet: a label, and what stands in the cell to its right. */
import { fromUnit, labelDimension, plainLabel, type Unit } from '../core/quantity';
import { cellName, isBlank, type Cell } from '../sheet';
import type { Problem } from './reading';
import { silentUnit, unitOfLabel, type OwnSystem } from './units';

export interface Fact {
  /** Place of the value, from 0. Its label is in the cell to the left. */
  readonly row: number;
  readonly column: number;
  /** A number that measures something in inch-pound units; null where its unit cannot be told. */
  readonly value: Cell;
  /** What the cell is in; undefined where the fact has no dimension, or its unit cannot be told. */
  readonly unit?: Unit;
  /** What is wrong with the label's unit, where that leaves a number out. */
  readonly wrong?: string;
  /** The cells to the right of the value, as the sheet has them. */
  readonly rest: readonly Cell[];
}

/**
 * The first cell with that label above `before`, and what is to the right of it; undefined where there is none.
 * @param label  as a new sheet has it: its unit says what the fact measures, the one on the sheet what it is in
 * @param system of a label on the sheet that names no unit
 */
export function findFact(
  values: readonly (readonly Cell[])[],
  label: string,
  before = values.length,
  system: OwnSystem = 'in-lb',
): Fact | undefined {
  const wanted = plainLabel(label);
  const dimension = labelDimension(label);
  for (let row = 0; row < Math.min(before, values.length); row++) {
    const line = values[row]!;
    const at = line.findIndex((cell) => typeof cell === 'string' && plainLabel(cell) === wanted);
    if (at < 0) continue;
    const fact = { row, column: at + 1, rest: line.slice(at + 2) };
    const value = line[at + 1] ?? null;
    if (dimension === undefined) return { ...fact, value };
    const read = unitOfLabel(line[at], dimension) ?? silentUnit(dimension, system);
    if ('wrong' in read)
      return typeof value === 'number' ? { ...fact, value: null, wrong: read.wrong } : { ...fact, value };
    return { ...fact, value: typeof value === 'number' ? fromUnit(value, read.unit) : value, unit: read.unit };
  }
  return undefined;
}

/** The facts of a sheet that are there, by the keys of their labels. */
export function findFacts<K extends string>(
  values: readonly (readonly Cell[])[],
  labels: Readonly<Record<K, string>>,
  before = values.length,
  system: OwnSystem = 'in-lb',
): Partial<Record<K, Fact>> {
  const facts = (Object.keys(labels) as K[]).flatMap((key) => {
    const fact = findFact(values, labels[key], before, system);
    return fact ? [[key, fact] as const] : [];
  });
  return Object.fromEntries(facts) as Partial<Record<K, Fact>>;
}

/** What is wrong with the units of facts, each named at its label. */
export const factProblems = (sheet: string, facts: Readonly<Partial<Record<string, Fact>>>): Problem[] =>
  Object.values(facts).flatMap((fact) =>
    fact?.wrong === undefined ? [] : [{ sheet, cell: cellName(fact.row, fact.column - 1), message: fact.wrong }],
  );

/** A fact's value as text; '' where there is none. */
export const factText = (fact: Fact | undefined): string =>
  fact === undefined || isBlank(fact.value) ? '' : String(fact.value).trim();
