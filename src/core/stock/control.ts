/** Time, cancelling and progress of a plan in the making, in one object that the steps share. */

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
  private readonly allowed: number;
  private cost: number | undefined;
  private bound = 0;
  /** True once the time ended a step that had more to do. */
  outOfTime = false;

  constructor(private readonly options: ControlOptions = {}) {
    this.now = options.now ?? Date.now;
    this.started = this.now();
    this.allowed = options.seconds ?? Infinity;
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
    if (this.seconds < this.allowed) return false;
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
