/** What the open file has beside its cells, as the page tells of it. What reads and draws it is fetched once a workbook is shown. */
import type { Engine } from '../../univer';
import type { Session } from '../session';
import { Store } from '../../../pane/shared/store';
import type { ExtrasState } from './state';

export class Extras extends Store<ExtrasState> {
  /** Takes away what is shown. */
  private hide: (() => void) | undefined;
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

  endQuestion(): void {
    this.set({ asks: undefined });
  }

  private follow(): void {
    const { workbook } = this.session.state;
    if (workbook === this.workbook) return;
    this.workbook = workbook;
    this.hide?.();
    this.hide = undefined;
    this.set({ cell: undefined, hovered: undefined, drawings: undefined, asks: undefined });
    const bytes = this.session.file;
    // The sheet is painted and calculated first.
    if (workbook && bytes) whenIdle(() => void this.show(workbook, bytes));
  }

  private async show(workbook: NonNullable<Session['state']['workbook']>, bytes: Uint8Array): Promise<void> {
    const [{ showExtras }, bare] = await Promise.all([
      import('./shown'),
      // Nothing is shown of a file that cannot be read: saving says what is wrong with it.
      this.engine.calculation.calculator.withoutCells(bytes).catch(() => undefined),
    ]);
    if (workbook !== this.workbook || !bare) return;
    this.hide = showExtras(this.engine, workbook, bare, this.grid, (change) => this.set(change));
  }
}

function whenIdle(work: () => void): void {
  if ('requestIdleCallback' in window) window.requestIdleCallback(work, { timeout: 2_000 });
  else setTimeout(work, 200);
}
