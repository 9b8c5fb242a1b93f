/** Makes a plan that is asked for as plain data; the same in a worker and beside the pane. */
import {
  planBars,
  planSheets,
  type CuttingPlan,
  type LinearSolver,
  type PlanOptions,
  type Progress,
} from '../../../core/stock';
import { loadHighsSolver } from '../../../core/stock/highs-solver';
import { pageTurn } from '../../shared/page-turn';
import type { PlanRequest } from './cutting-needs';

interface PlanControl {
  readonly signal: { readonly aborted: boolean };
  progress(progress: Progress): void;
}

/** The plan that is asked for. @internal */
export function runPlan(
  request: PlanRequest,
  solver: LinearSolver,
  { signal, progress }: PlanControl,
): Promise<CuttingPlan> {
  const { kerf, scrapBelow, keepFrom, seconds } = request;
  // Between two steps the message that cancels is let in.
  const options: PlanOptions = {
    solver,
    kerf,
    scrapBelow,
    keepFrom,
    seconds,
    signal,
    progress,
    pause: pageTurn,
  };
  return request.kind === 'sheets'
    ? planSheets(request.parts, request.stock, { ...options, strips: 'either' })
    : planBars(request.parts, request.stock, options);
}

/** The WebAssembly file of the linear solver: an asset beside the scripts. */
const SOLVER = new URL('highs/runtime', import.meta.url);

/** Makes a plan on the thread that asks: a worker's, or the pane's own where the host allows none. */
export const planHere = async (request: PlanRequest, control: PlanControl): Promise<CuttingPlan> =>
  runPlan(request, await loadHighsSolver({ locateFile: () => SOLVER.href }), control);
