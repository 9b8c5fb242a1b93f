import { hasProject, ProjectReader, projectTops, type AddedSheet } from '../../../project';
import type { Unsubscribe } from '../../../sheet';
import { t } from '../../locale';
import { Store } from '../../shared/store';
import type { PaneContext } from '../../shared/view';

/** Key of the person's choice to begin with the bar. */
const SETTING = 'start';
const LATER = 'later';

export interface Made {
  readonly added: readonly AddedSheet[];
  readonly left: readonly string[];
}

interface StartState {
  /** 'none': the workbook is in use; 'bar': a line above the view; 'offer' and 'made': in the view's place. */
  readonly mode: 'none' | 'bar' | 'offer' | 'made';
  readonly made?: Made | undefined;
  /** What the last step did, told to screen readers as it changes. */
  readonly said?: string | undefined;
  /** True where the person asked for what is shown: the focus goes to its heading. */
  readonly asked?: boolean;
}

/** State of the offer to make a workbook ready that has nothing of the project. It is kept small, because it is loaded with the pane. */
export class StartStore extends Store<StartState> {
  private busy = false;

  constructor(readonly pane: PaneContext) {
    super({ mode: 'none' });
  }

  /** Looks at once and as the workbook changes; gives what ends that. */
  start(): Unsubscribe {
    void this.look();
    return this.pane.workbook.onChange(() => {
      // A workbook in use is not asked again with every cell that changes.
      if (this.state.mode !== 'none') void this.look();
    });
  }

  private async hasProject(): Promise<boolean> {
    return hasProject(await ProjectReader.over(this.pane.workbook).read(projectTops));
  }

  /** Looks whether there is something of the project; a workbook that cannot be read is offered nothing. */
  async look(): Promise<void> {
    if (this.busy) return;
    const known = await this.hasProject().catch(() => true);
    const { mode } = this.state;
    if (this.busy) return;
    if (known && mode !== 'made') this.set({ mode: 'none', said: undefined });
    else if (!known && mode === 'made') this.set({ mode: 'offer', made: undefined });
    else if (!known && mode === 'none')
      this.set({ mode: this.pane.settings.get(SETTING) === LATER ? 'bar' : 'offer', asked: false });
  }

  /** Makes the sheets; throws where the workbook refuses. */
  async make(work: () => Promise<Made>): Promise<void> {
    await this.undisturbed(async () => this.set({ made: await work(), mode: 'made', said: undefined, asked: true }));
  }

  /** Takes the workbook's last step back, and says which one it was. */
  async undo(): Promise<void> {
    await this.undisturbed(async () => {
      if (!(await this.pane.workbook.undo())) this.set({ said: t('Nothing to undo.') });
      else if (await this.hasProject())
        this.set({
          said: t('Your last change in the workbook is taken back. Undo once more to take back the sheets, too.'),
        });
      else
        this.set({
          mode: 'offer',
          made: undefined,
          said: t('The sheets are gone again, and the workbook is as it was.'),
          asked: true,
        });
    });
  }

  /** The workbook's own news of a step that is made here come while it is made. */
  private async undisturbed(work: () => Promise<void>): Promise<void> {
    this.busy = true;
    try {
      await work();
    } finally {
      this.busy = false;
    }
  }

  offer(): void {
    this.set({ mode: 'offer', said: undefined, asked: true });
  }

  /** Makes room for the views, for this time. */
  stepAside(): void {
    if (this.state.mode === 'offer') this.set({ mode: 'bar', said: undefined, asked: false });
    else if (this.state.mode === 'made') this.set({ mode: 'none', made: undefined });
  }

  /** The same, and from now on in every workbook on this computer. */
  later(): void {
    this.pane.settings.set(SETTING, LATER);
    this.set({ mode: 'bar', said: undefined, asked: true });
  }
}
