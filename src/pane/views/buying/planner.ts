/** Starts a plan: in a worker where one can be had, else beside the pane. */
import type { CuttingPlan, Progress } from '../../../core/stock';
import { t } from '../../locale';
import { askWorker, NoWorker, WorkerDied } from '../../shared/worker-asks';
import type { PlanRequest } from './cutting-needs';
import type { PlanAnswers } from './plan-worker';

export interface PlanJob {
  readonly done: Promise<CuttingPlan>;
  /** Ends the search: `done` gives the best plan so far. */
  cancel(): void;
  /** Ends it without a result. */
  drop(): void;
}

export type Planner = (request: PlanRequest, onProgress: (progress: Progress) => void) => PlanJob;

/** The worker fell silent; the message is the pane's own. */
export class PlanningStopped extends Error {
  constructor() {
    super(t('The planning stopped, perhaps because memory ran out. Make the plan again with less time or fewer parts'));
  }
}

/** How long past its time a worker is waited for, and after it was asked to end, ms. One that the system ended may say nothing. */
const PATIENCE = { late: 60_000, ending: 10_000 };

export const startPlan: Planner = (request, onProgress) => {
  const signal = { aborted: false };
  const worker = askWorker<PlanAnswers>(() => new Worker(new URL('./plan-worker.ts', import.meta.url)));
  const giveUp = (): void => worker.end(new PlanningStopped());
  let watch = setTimeout(giveUp, request.seconds * 1000 + PATIENCE.late);
  const here = async (): Promise<CuttingPlan> => {
    clearTimeout(watch);
    const { planHere } = await import('./plan-run');
    return planHere(request, { signal, progress: onProgress });
  };
  const done = worker
    .ask('plan', request, onProgress)
    .catch((error: unknown) => {
      if (error instanceof NoWorker) return here();
      throw error instanceof WorkerDied ? new PlanningStopped() : error;
    })
    .finally(() => {
      clearTimeout(watch);
      worker.end();
    });
  return {
    done,
    cancel() {
      signal.aborted = true;
      worker.ask('cancel', undefined).catch(() => undefined);
      clearTimeout(watch);
      watch = setTimeout(giveUp, PATIENCE.ending);
    },
    drop() {
      signal.aborted = true;
      clearTimeout(watch);
      worker.end();
    },
  };
};
