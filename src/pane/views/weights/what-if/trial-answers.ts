/** What is asked of a trial, in its worker: it holds the copy of the workbook, and says of a wish what comes of it. */
import { recalculateCopy } from '../../../../calculation/recalculate-copy';
import type { Edit } from '../../../../sheet';
import { setLocale, type Locale } from '../../../locale';
import { CopyInMaking, type Block, type BookFrame } from './book-copy';
import { shownOf, type ShownOutcome } from './shown-outcome';
import { placeName, sourceOf } from './source-cell';
import { placeIn, type SwapKey, type Wish } from './swap';
import { Trial } from './trial';

export interface Question {
  /** The picked rows of the parts list, from 0. */
  readonly rows: readonly number[];
  /** What something is typed for, be it right or wrong. */
  readonly typed: readonly SwapKey[];
  /** Undefined while there is nothing to try. */
  readonly wish: Wish | undefined;
}

export interface Tried {
  /** Cells that the picked rows have what is typed from, by name. */
  readonly sources: readonly string[];
  readonly outcome: ShownOutcome | undefined;
}

export function trialAnswers() {
  const copy = new CopyInMaking();
  let trial: Trial | undefined;
  let edits: readonly Edit[] = [];
  return {
    /** Takes in a block of the workbook's cells. */
    take: (block: Block): void => copy.take(block),
    /** When all blocks are in: false where there is no parts list. Texts are in that locale from then on. */
    begin({ frame, locale }: { readonly frame: BookFrame; readonly locale: Locale }): boolean {
      setLocale(locale);
      trial = Trial.of(copy.finish(frame), recalculateCopy);
      return trial !== undefined;
    },
    tryOut({ rows, typed, wish }: Question): Tried {
      const outcome = trial && wish && trial.outcome(wish);
      edits = outcome?.swap.edits ?? [];
      return {
        sources: trial ? sourcesOf(trial, rows, typed) : [],
        outcome: outcome && shownOf(outcome, trial!.doubts),
      };
    },
    /** What writes the last outcome into the workbook. */
    edits: (): readonly Edit[] => edits,
  };
}

export type TrialAnswers = ReturnType<typeof trialAnswers>;

function sourcesOf({ planned, standing }: Trial, rows: readonly number[], typed: readonly SwapKey[]): string[] {
  const places = rows.flatMap((row) =>
    typed.flatMap((key) => {
      const place = placeIn(standing.weights.parts, row, key);
      return (place && sourceOf(planned, place)) ?? [];
    }),
  );
  return [...new Set(places.map(placeName))];
}
