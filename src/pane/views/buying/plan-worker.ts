/** A plan in a worker of its own, so that the pane answers while it is made. */
import type { Progress } from '../../../core/stock';
import { answerAsks } from '../../shared/worker-asks';
import { browserSolver, runPlan } from './plan-run';
import type { PlanRequest } from './cutting-needs';

const signal = { aborted: false };

const answers = {
  plan: async (request: PlanRequest, tell: (progress: Progress) => void) =>
    runPlan(request, await browserSolver(), { signal, progress: tell }),
  cancel: () => void (signal.aborted = true),
};

export type PlanAnswers = typeof answers;

answerAsks(answers);
