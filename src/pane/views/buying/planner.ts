/** Starts a plan: in a worker where one can be had, else beside the pane. */
import type { CuttingPlan, Progress } from '../../../core/stock';
import { t } from '../../locale';
import type { PlanRequest } from './cutting-needs';
import type { FromWorker, ToWorker } from './plan-worker';

export interface PlanJob {
  readonly done: Promise<CuttingPlan>;
  /** Ends the search: `done` gives the best plan so far. */
  cancel(): void;
  /** Ends it without a result. */
  drop(): void;
}

export type Planner = (request: PlanRequest, onProgress: (progress: Progress) => void) => PlanJob;

/** A host may forbid workers to guests, or not find the worker's file. */
class NoWorker extends Error {}

/** The worker fell silent; the message is the pane's own. */
export class PlanningStopped extends Error {}

/** How long past its time a worker is waited for, and after it was asked to end, ms. One that the system ended says nothing. */
const PATIENCE = { late: 60_000, ending: 10_000 };

export const startPlan: Planner = (request, onProgress) => {
  const signal = { aborted: false };
  let worker: Worker | undefined;
  let watch: ReturnType<typeof setTimeout> | undefined;
  let giveUp: (() => void) | undefined;
  const inWorker = (): Promise<CuttingPlan> =>
    new Promise((resolve, reject) => {
      let heard = false;
      giveUp = () =>
        reject(
          new PlanningStopped(
            t(
              'The planning stopped, perhaps because memory ran out. Make the plan again with less time or fewer parts',
            ),
          ),
        );
      watch = setTimeout(giveUp, request.seconds * 1000 + PATIENCE.late);
      try {
        worker = new Worker(new URL('./plan-worker.ts', import.meta.url));
      } catch {
        reject(new NoWorker());
        return;
      }
      worker.onerror = (event) => reject(heard ? new Error(event.message) : new NoWorker());
      worker.onmessage = ({ data }: { readonly data: FromWorker }) => {
        heard = true;
        if ('progress' in data) onProgress(data.progress);
        else if ('plan' in data) resolve(data.plan);
        else reject(new Error(data.failed));
      };
      worker.postMessage({ plan: request } satisfies ToWorker);
    });
  const here = async (): Promise<CuttingPlan> => {
    const { planHere } = await import('./plan-here');
    return planHere(request, { signal, progress: onProgress });
  };
  const done = inWorker()
    .catch((error: unknown) => {
      if (!(error instanceof NoWorker)) throw error;
      clearTimeout(watch);
      giveUp = undefined;
      return here();
    })
    .finally(() => {
      clearTimeout(watch);
      worker?.terminate();
    });
  return {
    done,
    cancel() {
      signal.aborted = true;
      worker?.postMessage({ cancel: true } satisfies ToWorker);
      if (!giveUp) return;
      clearTimeout(watch);
      watch = setTimeout(giveUp, PATIENCE.ending);
    },
    drop() {
      signal.aborted = true;
      clearTimeout(watch);
      worker?.terminate();
    },
  };
};
