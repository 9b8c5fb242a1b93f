/** What the view shows, as one value. */
import { NOTHING_RESTS, type Problem, type ProjectSummary, type Resting, type WeightsModel } from '../../../project';
import type { TabState } from '../../shared/tab-store';
import type { RunningTrial } from './what-if/running-trial';
import type { ShownOutcome } from './what-if/trial-answers';

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

export interface WeightsState extends TabState {
  readonly status: 'reading' | 'no-parts' | 'failed' | 'ready';
  readonly sheets: readonly string[];
  readonly model?: WeightsModel;
  /** Numbers in formulas that are likely in another unit than they are taken in. */
  readonly asked: readonly Problem[];
  readonly summary?: ProjectSummary;
  /** What rests on formulas that were not calculated. */
  readonly resting: Resting;
  /** The one currency of the price list; '' where there is none or several. */
  readonly currency: string;
  /** Component that the log is drawn of. */
  readonly logOf: string;
  /** Day since which changes are listed; undefined: the log's first. */
  readonly since?: string;
  /** The bias of the weighed parts is shown applied to the rest. */
  readonly applyBias: boolean;
  readonly partsShown: number;
  readonly draft: SwapDraft;
  /** Made of a copy of the workbook; undefined until something is tried out. */
  readonly trial?: RunningTrial | undefined;
  /** The workbook is being copied for a trial. */
  readonly copying: boolean;
  /** What the trial gave last, and of what; until there is one of what is typed now, it stays. */
  readonly outcome?: ShownOutcome | undefined;
  readonly tried?: SwapDraft | undefined;
  /** Cells that the picked rows have what is typed from, by name. */
  readonly sources: readonly string[];
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
  copying: false,
  sources: [],
};
