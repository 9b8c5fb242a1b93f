/** A plan in a worker of its own, so that the pane answers while it is made. */
import type { Progress } from '../../../core/stock';
import { answerAsks } from '../../shared/worker-asks';
import { planHere } from './plan-run';
import type { PlanRequest } from './cutting-needs';

const signal = { aborted: false };

const answers = {
  plan: (request: PlanRequest, tell: (progress: Progress) => void) => planHere(request, { signal, progress: tell }),
  cancel: () => void (signal.aborted = true),
};

export type PlanAnswers = typeof answers;

answerAsks(answers);
