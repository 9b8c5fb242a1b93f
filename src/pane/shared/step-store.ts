import type { RangeAddress } from '../../sheet';
import { t } from '../locale';
import { refusal } from './refusal';
import { SheetStore, type ReadState } from './sheet-store';

/** What the last step did, or why it was refused. */
export interface Message {
  readonly tone: 'done' | 'failed';
  readonly text: string;
}

export interface StepState extends ReadState {
  readonly message?: Message | undefined;
}

/** A view that asks one thing of the workbook at a time, shows the sheets as they then are, and says what was done. */
export abstract class StepStore<S extends StepState> extends SheetStore<S> {
  private turn: Promise<unknown> = Promise.resolve();

  undo(): Promise<void> {
    return this.step(async () => ((await this.workbook.undo()) ? t('Undone.') : t('Nothing to undo.')));
  }

  redo(): Promise<void> {
    return this.step(async () => ((await this.workbook.redo()) ? t('Done again.') : t('Nothing to redo.')));
  }

  /** Shows a place of the workbook. */
  select(range: RangeAddress): Promise<void> {
    return this.step(async () => {
      await this.workbook.select(range);
      return undefined;
    });
  }

  /** `work` gives what is said when it is done; undefined: nothing. */
  protected step(work: () => Promise<string | undefined>): Promise<void> {
    const run = async (): Promise<void> => {
      this.say(undefined);
      try {
        const done = await work();
        await this.refresh();
        if (done !== undefined) this.say({ tone: 'done', text: done });
      } catch (error) {
        this.say({ tone: 'failed', text: refusal(error) });
      }
    };
    const next = this.turn.then(run, run);
    this.turn = next;
    return next;
  }

  private say(message: Message | undefined): void {
    this.set({ message } as Partial<S>);
  }
}
