/** A trial that is under way in a worker: the workbook is copied to it in blocks, then only what is typed goes there. */
import type { Edit } from '../../../../sheet';
import { localeOf } from '../../../locale';
import { noCalculator } from '../../../shared/view';
import { askWorker, newestOnly, NoWorker, WorkerDied, type Asks } from '../../../shared/worker-asks';
import { readInBlocks, type ReadableWorkbook } from './book-copy';
import type { Question, TrialAnswers } from './trial-answers';

/** Starts what answers a trial. */
export type TrialStarter = () => Asks<TrialAnswers>;

export const trialInWorker: TrialStarter = () =>
  askWorker<TrialAnswers>(() => new Worker(new URL('./trial-worker.ts', import.meta.url)));

export class RunningTrial {
  private readonly asks: Asks<TrialAnswers>;
  private hasEnded = false;

  constructor(start: TrialStarter) {
    this.asks = start();
  }

  /** False where there is no parts list to try anything on. */
  copy(workbook: ReadableWorkbook): Promise<boolean> {
    return saying(async () => {
      const frame = await readInBlocks(workbook, (block) => this.asks.ask('take', block));
      return this.asks.ask('begin', { frame, locale: localeOf() });
    });
  }

  /** What comes of it; undefined where something newer was asked meanwhile. */
  readonly tryOut = newestOnly((question: Question) => saying(() => this.asks.ask('tryOut', question)));

  /** What writes the outcome that was given last. */
  edits(): Promise<readonly Edit[]> {
    return saying(() => this.asks.ask('edits', undefined));
  }

  get ended(): boolean {
    return this.hasEnded;
  }

  end(): void {
    this.hasEnded = true;
    this.asks.end();
  }
}

/** The worker was there and is gone. */
export const hasDied = (error: unknown): boolean => error instanceof Error && error.cause instanceof WorkerDied;

/** Says what to do where the worker cannot be had, or died. */
const saying = <T>(ask: () => Promise<T>): Promise<T> =>
  ask().catch((error: unknown) => {
    throw error instanceof NoWorker || error instanceof WorkerDied ? noCalculator(error) : error;
  });
