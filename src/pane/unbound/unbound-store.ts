import { t } from '../locale';
import { refusal } from '../shared/refusal';
import { pageTurn } from '../shared/page-turn';
import { Store } from '../shared/store';
import type { PaneContext } from '../shared/view';
import { findUnbound, writingAgain, type Unbound } from './find';

export interface UnboundState {
  /** Formulas that show #NAME? and were not written again yet. */
  readonly found: readonly Unbound[];
  /** Those that were, and show it still. */
  readonly still: readonly Unbound[];
  /** How many were written again; 0: none, or taken back. */
  readonly written: number;
  readonly busy: boolean;
  readonly wrong?: string | undefined;
}

/** The pane is shown and its first view read before the whole workbook is looked through. */
const AFTER = 400;

const keyOf = ({ sheet, row, column, formula }: Unbound): string => JSON.stringify([sheet, row, column, formula]);

/** Looks for formulas of ours that show #NAME?, once when the pane is opened and then as long as there are some. */
export class UnboundStore extends Store<UnboundState> {
  private unsubscribe: (() => void) | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private looking: Promise<void> | undefined;
  private again = false;
  private readonly tried = new Set<string>();

  constructor(private readonly pane: PaneContext) {
    super({ found: [], still: [], written: 0, busy: false });
  }

  start(): void {
    this.unsubscribe = this.pane.workbook.onChange(() => {
      // A large workbook is not read again with every cell that changes.
      const { found, still, written } = this.state;
      if (found.length + still.length + written > 0) void this.look();
    });
    this.timer = setTimeout(() => void this.look(), AFTER);
  }

  stop(): void {
    clearTimeout(this.timer);
    this.unsubscribe?.();
  }

  /** Reads the workbook; calls that come meanwhile are met by one more reading. */
  look(): Promise<void> {
    if (this.looking) this.again = true;
    else this.looking = this.lookAll();
    return this.looking;
  }

  private async lookAll(): Promise<void> {
    do {
      this.again = false;
      await this.lookOnce();
    } while (this.again);
    this.looking = undefined;
  }

  private async lookOnce(): Promise<void> {
    // A workbook that cannot be read has nothing that could be written again.
    const all = await findUnbound(this.pane.workbook, pageTurn).catch(() => []);
    this.set({
      found: all.filter((cell) => !this.tried.has(keyOf(cell))),
      still: all.filter((cell) => this.tried.has(keyOf(cell))),
    });
  }

  /** Writes every one of them again, as one step. */
  async writeAgain(): Promise<void> {
    const { found, busy } = this.state;
    if (busy || found.length === 0) return;
    await this.undisturbed(async () => {
      await this.pane.workbook.apply(t('Formulas written again'), writingAgain(found));
      for (const cell of found) this.tried.add(keyOf(cell));
      this.set({ written: found.length, found: [] });
    });
  }

  async undo(): Promise<void> {
    await this.undisturbed(async () => {
      if (await this.pane.workbook.undo()) this.tried.clear();
      this.set({ written: 0 });
    });
  }

  async select({ sheet, row, column }: Unbound): Promise<void> {
    await this.undisturbed(() => this.pane.workbook.select({ sheet, row, column, rows: 1, columns: 1 }));
  }

  private async undisturbed(work: () => Promise<void>): Promise<void> {
    this.set({ busy: true, wrong: undefined });
    try {
      await work();
    } catch (error) {
      this.set({ wrong: refusal(error) });
    } finally {
      this.set({ busy: false });
    }
    await this.look();
  }
}
