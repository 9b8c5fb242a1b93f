/** Checks of what a plan is asked for, with messages that name the part or stock, and what both planners share. */
import { InputError, refuse } from '../input-error';
import { gathered } from '../names';
import type { BarPart, BarStock, PartCount, PlanHead, PlanStatus, StockUse } from './plan';
import type { Control } from './control';

const MOST_PIECES = 100_000;

/** The stock that is there; everything that a plan is asked for is checked. */
export function checkedStock<S extends BarStock & { readonly width?: number }>(
  parts: readonly (BarPart & { readonly width?: number })[],
  stock: readonly S[],
  kerf: number,
  what: 'bar' | 'sheet',
): S[] {
  parts.forEach(checkPart);
  stock.forEach(checkStock);
  const there = stock.filter(({ available }) => available !== 0);
  if (there.length === 0) throw new InputError('stock', null, `one ${what} or more`);
  checkKerf(kerf, Math.min(...there.flatMap(({ length, width = length }) => [length, width])));
  return there;
}

function checkPart({ name, length, width, quantity }: BarPart & { readonly width?: number }): void {
  positive(`length of part "${name}"`, length);
  if (width !== undefined) positive(`width of part "${name}"`, width);
  if (!Number.isInteger(quantity) || quantity < 0 || quantity > MOST_PIECES)
    throw new InputError(`quantity of part "${name}"`, quantity, `a whole number of pieces from 0 to ${MOST_PIECES}`);
}

function checkStock({ name, length, width, cost, available }: BarStock & { readonly width?: number }): void {
  positive(`length of stock "${name}"`, length);
  if (width !== undefined) positive(`width of stock "${name}"`, width);
  if (cost !== undefined && (!(cost >= 0) || !Number.isFinite(cost)))
    throw new InputError(`cost of stock "${name}"`, cost, 'a cost of 0 or more');
  if (available !== undefined && (!Number.isInteger(available) || available < 0))
    throw new InputError(
      `available of stock "${name}"`,
      available,
      'a whole number of pieces, or a blank where it is not limited',
    );
}

function checkKerf(kerf: number, shortest: number): void {
  if (!(kerf >= 0) || !Number.isFinite(kerf)) throw new InputError('kerf', kerf, 'the width of a cut, 0 or more');
  if (kerf > shortest)
    throw new InputError(
      'kerf',
      kerf,
      `less than the shortest stock, ${shortest}`,
      'A cut wider than a sheet or bar looks like another unit',
    );
}

function positive(name: string, value: number): void {
  if (!(value > 0) || !Number.isFinite(value)) throw new InputError(name, value, 'a length above 0');
}

/**
 * What each of a stock costs the plan: nothing for an offcut; where no stock has a cost, its size counts.
 * Throws InputError for stock that is not priced beside some that is: it would be taken for free.
 */
export function planCosts(stock: readonly BarStock[], size: (index: number) => number): number[] {
  const priced = stock.some(isPriced);
  return stock.map(({ name, cost, offcut }, index) => {
    if (offcut) return 0;
    if (!priced) return size(index);
    return (
      cost ?? refuse(`cost of stock "${name}"`, null, 'its cost, since other stock has one; 0 where it costs nothing')
    );
  });
}

/** True for stock that is bought for money. */
export const isPriced = ({ cost = 0, offcut }: Pick<BarStock, 'cost' | 'offcut'>): boolean => cost > 0 && !offcut;

function statusOf(cost: number, lowerBound: number, missing: readonly PartCount[], control: Control): PlanStatus {
  if (missing.length > 0) return 'short';
  if (cost <= lowerBound * (1 + 1e-6) + 1e-9) return 'optimal';
  if (control.cancelled) return 'cancelled';
  return control.outOfTime ? 'time limit' : 'feasible';
}

const gapOf = (cost: number, lowerBound: number): number =>
  cost <= lowerBound ? 0 : lowerBound > 0 ? (cost - lowerBound) / lowerBound : 1;

const stockUses = (
  stock: readonly (BarStock & { readonly width?: number })[],
  used: readonly number[],
  costs: readonly number[],
): StockUse[] =>
  stock.flatMap(({ name, length, width, offcut = false }, index) => {
    const count = used[index]!;
    const costEach = costs[index]!;
    return count === 0
      ? []
      : [
          {
            name,
            length,
            ...(width === undefined ? {} : { width }),
            used: count,
            costEach,
            cost: tidy(count * costEach),
            offcut,
          },
        ];
  });

/** What a search found: by stock how many are used, what one costs and its size (a length or an area), and the size of all parts. */
interface Found {
  readonly stock: readonly (BarStock & { readonly width?: number })[];
  readonly used: readonly number[];
  readonly costs: readonly number[];
  readonly size: (index: number) => number;
  readonly cutSize: number;
  readonly bound: number;
  readonly missing: readonly PartCount[];
  readonly scrap: readonly BarPart[];
}

export function planHead(
  { stock, used, costs, size, cutSize, bound, missing, scrap }: Found,
  kerf: number,
  control: Control,
): PlanHead {
  const cost = tidy(used.reduce((sum, count, index) => sum + count * costs[index]!, 0));
  const lowerBound = missing.length > 0 ? 0 : Math.min(tidy(bound), cost);
  const usedSize = used.reduce((sum, count, index) => sum + count * size(index), 0);
  return {
    status: statusOf(cost, lowerBound, missing, control),
    cost,
    lowerBound,
    gap: missing.length > 0 ? 1 : gapOf(cost, lowerBound),
    usePercent: usedSize > 0 ? (100 * cutSize) / usedSize : 0,
    kerf,
    seconds: control.seconds,
    stockUsed: stockUses(stock, used, costs),
    missing,
    fromScrap: scrap.map(({ name, quantity }) => ({ part: name, quantity })),
  };
}

/** A sum of costs without the last digits that binary fractions leave. */
const tidy = (amount: number): number => Number(amount.toPrecision(12));

/** How many there are: an offcut is one piece unless it says more. */
export const availableOf = ({ available, offcut }: BarStock): number => available ?? (offcut ? 1 : Infinity);

/** Hands out the pieces of one kind one by one, each by its part's name; undefined once all are handed out. */
export class Dealer {
  private readonly queues: { part: string; left: number }[][];

  constructor(kinds: readonly (readonly PartCount[])[]) {
    this.queues = kinds.map((parts) => parts.map(({ part, quantity }) => ({ part, left: quantity })));
  }

  take(kind: number): string | undefined {
    const next = this.queues[kind]!.find(({ left }) => left > 0);
    if (!next) return undefined;
    next.left -= 1;
    return next.part;
  }

  /** What was not handed out. */
  rest(): PartCount[] {
    return this.queues.flatMap((queue) =>
      queue.flatMap(({ part, left }) => (left > 0 ? [{ part, quantity: left }] : [])),
    );
  }
}

/** Parts of the same measure, whatever their name, made one kind; in the order in which they come first. */
export const gather = <P extends BarPart>(
  parts: readonly P[],
  key: (part: P) => string,
): { part: P; names: PartCount[]; demand: number }[] =>
  [
    ...gathered(
      parts.filter(({ quantity }) => quantity > 0),
      key,
    ).values(),
  ].map((alike) => ({
    part: alike[0]!,
    names: alike.map(({ name, quantity }) => ({ part: name, quantity })),
    demand: alike.reduce((sum, { quantity }) => sum + quantity, 0),
  }));

/** Like bars or sheets, by `keyOf`, made one pattern: offcuts first, then the patterns cut most often. */
export const patternsOf = <C extends { readonly use: { readonly offcut: boolean; readonly times: number } }>(
  cut: readonly C[],
  keyOf: (one: C) => unknown,
): C['use'][] =>
  [...gathered(cut, (one) => JSON.stringify(keyOf(one))).values()]
    .map((alike): C['use'] => ({ ...alike[0]!.use, times: alike.length }))
    .sort((a, b) => Number(b.offcut) - Number(a.offcut) || b.times - a.times);
