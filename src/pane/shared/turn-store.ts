import { refusal } from './refusal';
import { SheetStore, type ReadState } from './sheet-store';

/** A view that shows a change before the workbook has made it: changes go to the workbook in turn. */
export abstract class TurnStore<S extends ReadState> extends SheetStore<S> {
  private turn: Promise<unknown> = Promise.resolve();
  private underWay = 0;

  /** True while changes are on their way: what is read before they are in would take them off the screen again. */
  protected get changing(): boolean {
    return this.underWay > 0;
  }

  /** Does one thing after the other, each followed by a reading; gives why it was refused, if it was. */
  protected inTurn(work: () => Promise<void>): Promise<string | undefined> {
    this.underWay += 1;
    const run = async (): Promise<string | undefined> => {
      let wrong: string | undefined;
      try {
        // What was typed is on the screen before a busy workbook takes its time.
        await new Promise((resolve) => setTimeout(resolve));
        await work();
      } catch (error) {
        wrong = refusal(error);
      }
      this.underWay -= 1;
      await this.refresh();
      return wrong;
    };
    const next = this.turn.then(run, run);
    this.turn = next;
    return next;
  }
}
