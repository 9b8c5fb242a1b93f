/** A plan in a worker of its own, so that the pane answers while it is made. */
import type { CuttingPlan, Progress } from '../../../core/stock';
import type { PlanRequest } from './cutting-needs';
import { runPlan } from './plan-run';
import { browserSolver } from './browser-solver';

export type ToWorker = { readonly plan: PlanRequest } | { readonly cancel: true };
export type FromWorker =
  | { readonly progress: Progress }
  | { readonly plan: CuttingPlan }
  | { readonly failed: string; readonly refused: boolean };

interface WorkerScope {
  onmessage: ((event: { readonly data: ToWorker }) => void) | null;
  postMessage(message: FromWorker): void;
}

const scope = globalThis as unknown as WorkerScope;
const signal = { aborted: false };

scope.onmessage = ({ data }) => {
  if ('cancel' in data) {
    signal.aborted = true;
    return;
  }
  browserSolver()
    .then((solver) => runPlan(data.plan, solver, { signal, progress: (progress) => scope.postMessage({ progress }) }))
    .then(
      (plan) => scope.postMessage({ plan }),
      (error: unknown) =>
        scope.postMessage({
          failed: error instanceof Error ? error.message : String(error),
          refused: error instanceof Error && error.name === 'InputError',
        }),
    );
};
