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
  for (const { name, quantity, ...sides } of parts) {
    checkSides(`part "${name}"`, sides);
    const fits = Number.isInteger(quantity) && quantity >= 0 && quantity <= MOST_PIECES;
    check(fits, `quantity of part "${name}"`, quantity, `a whole number of pieces from 0 to ${MOST_PIECES}`);
  }
  for (const { name, cost = 0, available, ...sides } of stock) {
    const of = `stock "${name}"`;
    checkSides(of, sides);
    check(cost >= 0 && Number.isFinite(cost), `cost of ${of}`, cost, 'a cost of 0 or more');
    const fits = available === undefined || (Number.isInteger(available) && available >= 0);
    check(fits, `available of ${of}`, available, 'a whole number of pieces, or a blank where it is not limited');
  }
  const there = stock.filter(({ available }) => available !== 0);
  check(there.length > 0, 'stock', null, `one ${what} or more`);
  check(kerf >= 0 && Number.isFinite(kerf), 'kerf', kerf, 'the width of a cut, 0 or more');
  const shortest = Math.min(...there.flatMap(({ length, width = length }) => [length, width]));
  const another = 'A cut wider than a sheet or bar looks like another unit';
  check(kerf <= shortest, 'kerf', kerf, `less than the shortest stock, ${shortest}`, another);
  return there;
}

function check(fits: boolean, ...refusal: ConstructorParameters<typeof InputError>): void {
  if (!fits) throw new InputError(...refusal);
}

function checkSides(of: string, { length, width = length }: { length: number; width?: number }): void {
  for (const [side, value] of Object.entries({ length, width }))
    check(value > 0 && Number.isFinite(value), `${side} of ${of}`, value, 'a length above 0');
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

/** How one bar or sheet is cut, and by its place the stock that it comes from. */
export interface CutFrom<U> {
  readonly stock: number;
  readonly use: U;
}

/** What a search found: what is cut, by stock what one costs and its size (a length or an area), and the size of all parts. */
interface Found {
  readonly stock: readonly (BarStock & { readonly width?: number })[];
  readonly cut: readonly CutFrom<unknown>[];
  readonly costs: readonly number[];
  readonly size: (index: number) => number;
  readonly cutSize: number;
  readonly bound: number;
  readonly missing: readonly PartCount[];
  readonly scrap: readonly BarPart[];
}

export function planHead(
  { stock, cut, costs, size, cutSize, bound, missing, scrap }: Found,
  kerf: number,
  control: Control,
): PlanHead {
  const used = stock.map((_, index) => cut.filter((one) => one.stock === index).length);
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

/** Hands out the pieces of each kind one by one, each by its part's name. */
export class Dealer {
  private readonly queues: { part: string; left: number }[][];

  constructor(
    kinds: readonly { readonly names: readonly PartCount[] }[],
    readonly kerf: number,
  ) {
    this.queues = kinds.map(({ names }) => names.map(({ part, quantity }) => ({ part, left: quantity })));
  }

  /** Pieces one behind the other, each with its part's name. Those whose kind is all handed out are left out. */
  row<P extends { readonly length: number }>(
    pieces: readonly { readonly kind: number; readonly piece: P }[],
  ): ({ part: string; from: number } & P)[] {
    let from = 0;
    return pieces.flatMap(({ kind, piece }) => {
      const next = this.queues[kind]!.find(({ left }) => left > 0);
      if (!next) return [];
      next.left -= 1;
      const placed = { part: next.part, from, ...piece };
      from = this.behind(placed);
      return [placed];
    });
  }

  /** Where the next piece begins: behind this one and the cut. */
  behind({ from, length }: { readonly from: number; readonly length: number }): number {
    return from + (length + this.kerf);
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
export const patternsOf = <U extends { readonly offcut: boolean; readonly times: number }>(
  cut: readonly CutFrom<U>[],
  keyOf: (one: CutFrom<U>) => unknown,
): U[] =>
  [...gathered(cut, (one) => JSON.stringify(keyOf(one))).values()]
    .map((alike): U => ({ ...alike[0]!.use, times: alike.length }))
    .sort((a, b) => Number(b.offcut) - Number(a.offcut) || b.times - a.times);
