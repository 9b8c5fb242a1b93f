/** What the search for a plan is given: its time and dice, and a linear solver. */

// Time, cancelling and progress of a plan in the making, in one object that the steps share.

export interface Progress {
  /** Cost of the best plan so far; undefined before there is one. */
  readonly cost: number | undefined;
  readonly lowerBound: number;
  readonly seconds: number;
}

export interface ControlOptions {
  /** Time allowed, seconds. */
  readonly seconds?: number;
  /** Cancels; an AbortSignal serves. */
  readonly signal?: { readonly aborted: boolean };
  readonly progress?: (progress: Progress) => void;
  /** A clock in milliseconds. */
  readonly now?: () => number;
  /** Lets the host's other work run (a message that cancels) between steps; called often. */
  readonly pause?: () => Promise<void>;
}

export class Control {
  private readonly now: () => number;
  private readonly started: number;
  private cost: number | undefined;
  private bound = 0;
  /** True once the time ended a step that had more to do. */
  outOfTime = false;

  constructor(private readonly options: ControlOptions = {}) {
    this.now = options.now ?? Date.now;
    this.started = this.now();
  }

  get seconds(): number {
    return (this.now() - this.started) / 1000;
  }

  get cancelled(): boolean {
    return this.options.signal?.aborted ?? false;
  }

  /** True where the work must end: cancelled, or out of time. */
  readonly stopped = (): boolean => {
    if (this.cancelled) return true;
    if (this.seconds < (this.options.seconds ?? Infinity)) return false;
    this.outOfTime = true;
    return true;
  };

  async pause(): Promise<void> {
    await this.options.pause?.();
  }

  report(news: { cost?: number; bound?: number }): void {
    if (news.cost !== undefined) this.cost = Math.min(news.cost, this.cost ?? Infinity);
    if (news.bound !== undefined) this.bound = Math.max(news.bound, this.bound);
    this.options.progress?.({ cost: this.cost, lowerBound: this.bound, seconds: this.seconds });
  }
}

/** What every search is given. */
export interface SearchTools {
  readonly solver: LinearSolver;
  readonly control: Control;
  readonly seed: number;
}

/** A seeded source of numbers from 0 up to 1 (mulberry32, public domain): the same seed, the same numbers. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

// What the planner asks of a linear solver. The planner is given one, so that it knows no library and
// no way of loading one.

/** A column of a linear model, 0 or more: its cost and its entries by row. */
export interface Column {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

export interface RowBounds {
  readonly lower: number;
  readonly upper: number;
}

export interface LinearSolution {
  readonly objective: number;
  readonly values: Float64Array;
  /** Change of the objective for one more of a row's bound. */
  readonly duals: Float64Array;
}

/** A linear model that columns are added to while it is solved again and again (minimisation). */
export interface LinearModel {
  addColumns(columns: readonly Column[]): void;
  setRow(row: number, bounds: RowBounds): void;
  setColumn(column: number, lower: number, upper: number): void;
  /** Throws where there is no solution. */
  solve(): LinearSolution;
  dispose(): void;
}

export interface IntegerProblem {
  readonly rows: readonly RowBounds[];
  readonly columns: readonly Column[];
  /** A whole-number solution to start from. */
  readonly start?: ArrayLike<number>;
}

export interface IntegerLimits {
  /** Nodes of the search: a limit that gives the same result on every machine. */
  readonly nodes: number;
  /** Ends the search where it is polled and true: time is up, or the user cancelled. */
  readonly stop?: () => boolean;
  readonly seed?: number;
}

export interface LinearSolver {
  model(rows: readonly RowBounds[], columns: readonly Column[]): LinearModel;
  /** The values of the columns in the best whole-number solution found; undefined where none was found within the limits. */
  solveInteger(problem: IntegerProblem, limits: IntegerLimits): Float64Array | undefined;
}
