/**
 * Reading once: what was made of some sheets is kept, and given again to whoever asks, as long as the cells of
 * those sheets are the same objects. A reader says nothing of what it reads: that is seen while it runs.
 */
import type { Cell } from '../sheet';
import type { SheetValues } from './problems';

type Cells = readonly (readonly Cell[])[] | undefined;

interface Made {
  readonly args: readonly unknown[];
  /** The sheets that were looked at, with the cells that they had. */
  readonly from: ReadonlyMap<string, Cells>;
  readonly result: unknown;
}

interface Kept {
  readonly values: SheetValues;
  readonly made: Map<unknown, readonly Made[]>;
}

/** Of one maker with other arguments, as many are kept: forms and airplanes. */
const MOST = 32;

const keptOf = new WeakMap<SheetValues, Kept>();

/**
 * What `make` gives of the sheets and `args`, made once. Nobody may change it.
 * @param make a function of a module, not one that is made anew at each call
 */
export function once<A extends readonly unknown[], T>(
  values: SheetValues,
  make: (values: SheetValues, ...args: A) => T,
  ...args: A
): T {
  const kept = keptOf.get(values) ?? keep(values, new Map());
  const all = kept.made.get(make) ?? [];
  const found = all.find((one) => sameItems(one.args, args) && isFresh(one, kept.values));
  if (found) {
    // Whoever is being made of this looks at the same sheets.
    for (const sheet of found.from.keys()) values(sheet);
    return found.result as T;
  }
  const from = new Map<string, Cells>();
  const seen: SheetValues = (sheet) => {
    const cells = values(sheet);
    from.set(sheet, cells);
    return cells;
  };
  keptOf.set(seen, kept);
  const result = make(seen, ...args);
  const others = kept.made.get(make) ?? [];
  // The last one of the same stays beside it: an edit that is shown before it is made may be refused.
  const last = others.find((one) => sameItems(one.args, args));
  const kinds = others.filter((one) => one === last || !sameItems(one.args, args));
  kept.made.set(make, [{ args, from, result }, ...kinds].slice(0, MOST));
  return result;
}

/** A reader of sheets, what it gives of the same sheets and arguments made once. */
export const kept =
  <A extends readonly unknown[], T>(make: (values: SheetValues, ...args: A) => T) =>
  (values: SheetValues, ...args: A): T =>
    once(values, make, ...args);

/** Has a later state of a workbook go on with what was made of an earlier one. */
export function goOn(values: SheetValues, earlier: SheetValues): void {
  keep(values, keptOf.get(earlier)?.made ?? keep(earlier, new Map()).made);
}

function keep(values: SheetValues, made: Kept['made']): Kept {
  const kept = { values, made };
  keptOf.set(values, kept);
  return kept;
}

const isFresh = ({ from }: Made, values: SheetValues): boolean =>
  [...from].every(([sheet, cells]) => values(sheet) === cells);

const sameItems = (one: readonly unknown[], other: readonly unknown[]): boolean =>
  Array.from({ length: Math.max(one.length, other.length) }, (_none, index) => index).every((index) =>
    Object.is(one[index], other[index]),
  );
