import type { Workbook } from '../../sheet';
import { mark, t, type Marked } from '../locale';
import { refusal } from './refusal';
import { Store } from './store';
import type { PaneContext } from './view';

/** What every view that reads sheets says of the reading. */
export interface ReadState {
  readonly status: string;
  /** Why it failed, and what mends it. */
  readonly mend?: string | undefined;
}

/** The state of a view that shows sheets: read when the view starts, and again when they change. */
export abstract class SheetStore<S extends ReadState> extends Store<S> {
  protected readonly workbook: Workbook;
  private reading: Promise<void> | undefined;
  private again = false;
  private unsubscribe: (() => void) | undefined;

  constructor(
    readonly pane: PaneContext,
    state: S,
  ) {
    super(state);
    this.workbook = pane.workbook;
  }

  start(): void {
    this.unsubscribe = this.workbook.onChange(({ sheets }) => {
      if (this.concerns(sheets)) void this.refresh();
    });
    void this.refresh();
  }

  stop(): void {
    this.unsubscribe?.();
  }

  /** Reads the sheets; calls that come while they are being read are met by one more reading. */
  refresh(): Promise<void> {
    if (this.reading) this.again = true;
    else this.reading = this.readAll();
    return this.reading;
  }

  /** True where what is being read has changed meanwhile and is read once more. */
  protected get outdated(): boolean {
    return this.again;
  }

  /** What is said where it cannot be read. */
  protected readonly unread: Marked = mark('The sheets could not be read.');

  /** True where a change of these sheets can change what the view shows. */
  protected abstract concerns(sheets: readonly string[]): boolean;

  /** Reads once, and shows what was read. */
  protected abstract readOnce(): Promise<void>;

  private async readAll(): Promise<void> {
    try {
      do {
        this.again = false;
        try {
          await this.readOnce();
        } catch (error) {
          this.set({ status: 'failed', mend: `${t(this.unread)} ${refusal(error)}` } as Partial<S>);
        }
      } while (this.again);
    } finally {
      this.reading = undefined;
    }
  }
}
