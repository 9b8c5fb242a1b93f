/** Keeps an open workbook in the browser's storage, shortly after every edit. */
import { headText, sheetIds, sheetText, watchEdits, type Engine } from '../univer';
import type { Storage } from './storage';

/** Milliseconds from an edit until it is kept. */
const DELAY = 400;

export interface KeepingListener {
  /** An edit waits to be kept. */
  waiting(): void;
  kept(at: number): void;
  refused(error: unknown): void;
}

export class Keeping {
  private readonly dirty = new Set<string>();
  private edited = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly watching: { dispose(): void };

  /** `unit` is the workbook's id in the engine. `complete` says that storage holds every sheet already, so that only those that change are written. */
  constructor(
    private readonly engine: Engine,
    private readonly storage: Storage,
    private readonly workbook: { readonly id: string; readonly title: string; readonly unit: string },
    complete: boolean,
    private readonly listener: KeepingListener,
  ) {
    if (!complete) for (const sheet of sheetIds(engine, workbook.unit)) this.dirty.add(sheet);
    this.watching = watchEdits(engine, workbook.unit, (sheets) => this.note(sheets));
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

  private note(sheets: readonly string[]): void {
    for (const sheet of sheets) this.dirty.add(sheet);
    this.edited = true;
    this.listener.waiting();
    this.timer ??= setTimeout(() => void this.flush(), DELAY);
  }

  private async keep(): Promise<void> {
    if (!this.edited) return;
    const order = sheetIds(this.engine, this.workbook.unit);
    const sheets = new Map<string, string>();
    for (const id of this.dirty) {
      const text = sheetText(this.engine, this.workbook.unit, id);
      if (text !== undefined) sheets.set(id, text);
    }
    const taken = [...this.dirty];
    this.dirty.clear();
    this.edited = false;
    try {
      const { id, title } = this.workbook;
      await this.storage.keep({ id, title, head: headText(this.engine, this.workbook.unit), sheets, order });
      if (!this.edited) this.listener.kept(Date.now());
    } catch (error) {
      // What could not be kept waits for the next edit, and for the next attempt.
      for (const id of taken) this.dirty.add(id);
      this.edited = true;
      this.listener.refused(error);
    }
  }
}
