/** A trial in a worker of its own, so that the page answers while a workbook is calculated anew. */
import { answerAsks } from '../../../shared/worker-asks';
import { trialAnswers } from './trial-answers';

answerAsks(trialAnswers());
