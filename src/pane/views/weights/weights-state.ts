/** What the view shows, as one value. */
import { NOTHING_RESTS, type Problem, type ProjectSummary, type Resting, type WeightsModel } from '../../../project';
import type { Message } from '../../shared/transaction';
import type { Trial } from './what-if/trial';

/** A row that may be swapped; found again by its name where the sheet moves it. */
export interface SwapCandidate {
  readonly row: number;
  readonly name: string;
  /** True: it is to be swapped. */
  readonly on: boolean;
}

/** What is being tried out. */
export interface SwapDraft {
  readonly rows: readonly SwapCandidate[];
  readonly material: string;
  readonly thickness: string;
  readonly atSource: boolean;
  readonly keepWeighed: boolean;
}

export interface WeightsState {
  readonly status: 'reading' | 'no-parts' | 'failed' | 'ready';
  readonly mend?: string | undefined;
  readonly sheets: readonly string[];
  readonly model?: WeightsModel;
  /** Numbers in formulas that are likely in another unit than they are taken in. */
  readonly asked: readonly Problem[];
  readonly summary?: ProjectSummary;
  /** What rests on formulas that were not calculated. */
  readonly resting: Resting;
  /** The one currency of the price list; '' where there is none or several. */
  readonly currency: string;
  readonly message?: Message | undefined;
  /** Component that the log is drawn of. */
  readonly logOf: string;
  /** Day since which changes are listed; undefined: the log's first. */
  readonly since?: string;
  /** The bias of the weighed parts is shown applied to the rest. */
  readonly applyBias: boolean;
  readonly partsShown: number;
  readonly draft: SwapDraft;
  /** Made of the workbook as it is now; undefined until something is tried out, and while it is read anew. */
  readonly trial?: Trial;
}

export const NO_DRAFT: SwapDraft = { rows: [], material: '', thickness: '', atSource: true, keepWeighed: false };

export const NOTHING_READ: WeightsState = {
  status: 'reading',
  sheets: [],
  resting: NOTHING_RESTS,
  asked: [],
  currency: '',
  logOf: 'Total',
  applyBias: false,
  partsShown: 10,
  draft: NO_DRAFT,
};
