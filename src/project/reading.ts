/**
 * What every reader of the project's sheets works with: their values, what is wrong with cells, days and shares as cells
 * hold them, and reading once. What was made of some sheets is kept, and given again to whoever asks, as long as the
 * cells of those sheets are the same objects. A reader says nothing of what it reads: that is seen while it runs.
 */
import { InputError } from '../core/input-error';
import { isoFromSerial, serialFromIso } from '../core/price';
import { CellError, isBlank, type Cell } from '../sheet';

export interface Problem {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
}

/** Values of a sheet by its name, rows × columns; undefined where there is no such sheet. */
export type SheetValues = (sheet: string) => readonly (readonly Cell[])[] | undefined;

/** A cell's content as a message shows it. */
export const shown = (cell: Cell): string =>
  cell instanceof CellError ? cell.toString() : typeof cell === 'string' ? `"${cell}"` : String(cell);

/** "2026-03-31" for a spreadsheet's date or that text; undefined for anything else. */
export function isoDate(cell: Cell | undefined): string | undefined {
  if (typeof cell === 'number') return isoFromSerial(cell);
  if (typeof cell !== 'string') return undefined;
  const serial = serialFromIso(cell);
  return serial === undefined ? undefined : isoFromSerial(serial);
}

/** What some work gives, or what it refused. */
export function unlessRefused<T>(work: () => T): T | InputError {
  try {
    return work();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

/** As `unlessRefused`; undefined where it was refused. */
export function ifTaken<T>(work: () => T): T | undefined {
  const given = unlessRefused(work);
  return given instanceof InputError ? undefined : given;
}

/** A share as a fraction: 0.15, which a cell may show as 15%, or the text "15%". Undefined for a cell that is not a share. */
export function fractionIn(cell: Cell | undefined): number | undefined {
  if (isBlank(cell)) return undefined;
  const fraction =
    typeof cell === 'string' ? Number(cell.replace('%', '').trim()) / (cell.includes('%') ? 100 : 1) : cell;
  return typeof fraction === 'number' && Number.isFinite(fraction) ? fraction : undefined;
}

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
