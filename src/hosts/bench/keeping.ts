/** Keeps an open workbook in the browser's storage, shortly after every edit; one tab at a time, and the others can take it over. */
import {
  done,
  headText,
  inOneGo,
  inTurns,
  pieceKeys,
  pieceText,
  sheetOfPiece,
  watchEdits,
  type Engine,
  type Touched,
} from '../univer';
import type { KeptChange, Storage } from './storage';

/** Milliseconds from an edit until it is kept. */
const DELAY = 400;

export interface KeepingListener {
  /** An edit waits to be kept. */
  waiting(): void;
  kept(at: number): void;
  refused(error: unknown): void;
}

/** The texts to be kept, and the names of all that there are now. */
type Gathered = Pick<KeptChange, 'head' | 'sheets' | 'order'>;

export class Keeping {
  /** Names of the texts that are not kept as they are now. */
  private dirty = new Set<string>();
  /** Sheets all of whose texts are not. */
  private allOf = new Set<string>();
  /** Texts of those that are to be kept, made since the last edit that touches them. */
  private readonly made = new Map<string, string | undefined>();
  private edited = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly watching: { dispose(): void };

  /** `unit` is the workbook's id in the engine. `complete` says that storage holds all texts already, so that only those that change are written. */
  constructor(
    private readonly engine: Engine,
    private readonly storage: Storage,
    private readonly workbook: { readonly id: string; readonly title: string; readonly unit: string },
    complete: boolean,
    private readonly listener: KeepingListener,
  ) {
    if (!complete) this.dirty = new Set(pieceKeys(engine, workbook.unit));
    this.watching = watchEdits(engine, workbook.unit, (touched) => this.note(touched));
  }

  /** Keeps now what waits; resolves when it is kept, or refused. */
  async flush(): Promise<void> {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.running = this.running.then(() => this.keep());
    await this.running;
  }

  /** True while an edit is not kept. */
  get waits(): boolean {
    return this.edited;
  }

  stop(): void {
    clearTimeout(this.timer);
    this.watching.dispose();
  }

  private note({ keys, all }: Touched): void {
    for (const key of keys) {
      this.dirty.add(key);
      this.made.delete(key);
    }
    for (const sheet of all) this.allOf.add(sheet);
    if (all.length > 0) for (const key of this.made.keys()) if (all.includes(sheetOfPiece(key))) this.made.delete(key);
    this.edited = true;
    this.listener.waiting();
    this.timer ??= setTimeout(() => void this.flush(), DELAY);
  }

  private async keep(): Promise<void> {
    if (!this.edited) return;
    const { id, title } = this.workbook;
    let taken: Gathered | undefined;
    try {
      taken = await this.gathered();
      this.edited = false;
      await this.storage.keep({ id, title, ...taken });
      if (!this.edited) this.listener.kept(Date.now());
    } catch (error) {
      // What could not be kept waits for the next edit, and for the next attempt.
      for (const key of taken?.sheets.keys() ?? []) this.dirty.add(key);
      this.edited = true;
      this.listener.refused(error);
    }
  }

  /** The texts of what has changed, made in turns of the page: all of one moment, so that an edit has those that it touches made anew. */
  private async gathered(): Promise<Gathered> {
    const { unit } = this.workbook;
    for (let attempt = 1; ; attempt++) {
      const order = pieceKeys(this.engine, unit);
      const wanted = order.filter((key) => this.dirty.has(key) || this.allOf.has(sheetOfPiece(key)));
      const lacking = wanted.filter((key) => !this.made.has(key));
      if (lacking.length === 0) return this.taken(wanted, order);
      const isHurried = attempt > MOST_ATTEMPTS || document.visibilityState === 'hidden';
      await done(isHurried ? inOneGo : inTurns, this.making(lacking));
    }
  }

  private taken(wanted: readonly string[], order: readonly string[]): Gathered {
    const sheets = new Map(
      wanted.flatMap((key) => {
        const text = this.made.get(key);
        return text === undefined ? [] : [[key, text] as const];
      }),
    );
    this.dirty.clear();
    this.allOf.clear();
    this.made.clear();
    return { head: headText(this.engine, this.workbook.unit), sheets, order };
  }

  private *making(keys: readonly string[]): Generator<void> {
    for (const key of keys) {
      this.made.set(key, pieceText(this.engine, this.workbook.unit, key));
      yield;
    }
  }
}

/** Where rows come and go without a pause, what is kept is made in one go after that many attempts. */
const MOST_ATTEMPTS = 6;

const CHANNEL = 'tarebook-bench';

/**
 * Holds the workbook for this tab, for one tab keeps it at a time; gives what lets go of it, undefined where another tab
 * has it. `onAsked` is called when another
 * tab asks for it: it keeps what is not kept yet, and the workbook is then given away.
 */
export async function hold(id: string, onAsked: () => Promise<void>): Promise<(() => void) | undefined> {
  if (!('locks' in navigator)) return () => undefined;
  let release: () => void = () => undefined;
  const held = new Promise<boolean>((resolve) => {
    navigator.locks
      .request(`tarebook-bench ${id}`, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock ? new Promise<void>((end) => (release = end)) : undefined;
      })
      // A browser that refuses locks has no way to tell its tabs apart: each goes on as if it were alone.
      .catch(() => resolve(true));
  });
  if (!(await held)) return undefined;
  const channel = new BroadcastChannel(CHANNEL);
  const letGo = (): void => {
    channel.close();
    release();
  };
  channel.onmessage = ({ data }: MessageEvent<{ ask?: string }>) => {
    if (data.ask === id) void onAsked().finally(letGo);
  };
  return letGo;
}

/** Asks the tab that has the workbook to give it away; resolves when it has, or after `patience` milliseconds. */
export async function ask(id: string, patience = 3000): Promise<void> {
  const channel = new BroadcastChannel(CHANNEL);
  channel.postMessage({ ask: id });
  channel.close();
  await navigator.locks
    .request(`tarebook-bench ${id}`, { signal: AbortSignal.timeout(patience) }, () => undefined)
    .catch(() => undefined);
}
