/** A plan beside the pane, where there is no worker to be had. */
import type { CuttingPlan } from '../../../core/stock';
import { browserSolver } from './browser-solver';
import type { PlanRequest } from './cutting-needs';
import { runPlan, type PlanControl } from './plan-run';

export const planHere = async (request: PlanRequest, control: PlanControl): Promise<CuttingPlan> =>
  runPlan(request, await browserSolver(), control);
