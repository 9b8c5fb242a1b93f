/** What the open file has beside its cells, as the page tells of it. What reads and draws it is fetched once a workbook is shown. */
import type { Engine } from '../../univer';
import type { Session } from '../session';
import { Store } from '../store';
import type { LinkTarget } from './link-target';
import type { Shown } from './shown';

export interface CellExtras {
  /** "B4" */
  readonly name: string;
  readonly note?: string | undefined;
  readonly link?: LinkTarget | undefined;
}

/** A note that is shown beside the pointer, in pixels of the window. */
export interface HoveredNote {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

export interface ExtrasState {
  /** The selected cell, where there is something to say of it. */
  readonly cell?: CellExtras | undefined;
  readonly hovered?: HoveredNote | undefined;
  /** What lies over the sheet in view. */
  readonly drawings?: string | undefined;
  /** The link that the person is asked about. */
  readonly asks?: Exclude<LinkTarget, { kind: 'place' }> | undefined;
}

export class Extras extends Store<ExtrasState> {
  private shown: Shown | undefined;
  private workbook: Session['state']['workbook'];

  constructor(
    private readonly engine: Engine,
    private readonly session: Session,
    private readonly grid: HTMLElement,
    private readonly focusGrid: () => void,
  ) {
    super({});
    session.subscribe(() => this.follow());
  }

  /** Goes to a place of the workbook; asks before the page of another is opened. */
  async openLink(): Promise<void> {
    const link = this.state.cell?.link;
    if (!link) return;
    if (link.kind !== 'place') return this.set({ asks: link });
    await this.workbook?.select(link.range);
    this.focusGrid();
  }

  private follow(): void {
    const { workbook } = this.session.state;
    if (workbook === this.workbook) return;
    this.workbook = workbook;
    this.shown?.dispose();
    this.shown = undefined;
    this.set({ cell: undefined, hovered: undefined, drawings: undefined, asks: undefined });
    const bytes = this.session.file;
    // The sheet is painted and calculated first.
    if (workbook && bytes) whenIdle(() => void this.show(workbook, bytes));
  }

  private async show(workbook: NonNullable<Session['state']['workbook']>, bytes: Uint8Array): Promise<void> {
    const { showExtras } = await import('./shown');
    if (workbook !== this.workbook) return;
    this.shown = showExtras({ engine: this.engine, workbook, bytes, grid: this.grid }, (change) => this.set(change));
  }
}

function whenIdle(work: () => void): void {
  if ('requestIdleCallback' in window) window.requestIdleCallback(work, { timeout: 2_000 });
  else setTimeout(work, 200);
}
