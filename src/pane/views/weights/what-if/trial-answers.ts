/** What is asked of a trial, in its worker: it holds the copy of the workbook, and says of a wish what comes of it. */
import { recalculateCopy } from '../../../../calculation/recalculate-copy';
import type { UnitSystem } from '../../../../core/quantity';
import type { Edit } from '../../../../sheet';
import { setLocale, t, type Locale } from '../../../locale';
import { figures } from '../weight-figures';
import { CopyInMaking, type Block, type BookFrame } from './book-copy';
import { placeIn, placeName, sourceOf, type SwapKey, type Wish } from './swap';
import { Trial, type BeforeAfter, type Outcome, type Standing, type Sum } from './trial';

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

/** Nobody reads more lines than this of a list; how many there are is said. */
const MOST_LINES = 1000;

export interface FirstOf<T> {
  readonly first: readonly T[];
  /** Of all. */
  readonly count: number;
}

/** lb; undefined where it is not known. */
interface Budgeted {
  readonly forecast: number | undefined;
  readonly margin: number | undefined;
}

export interface ComponentFigures extends Budgeted {
  readonly weight: number | undefined;
}

export interface ShownOutcome {
  readonly units: UnitSystem;
  readonly hasCost: boolean;
  readonly picked: BeforeAfter<Sum>;
  /** Those whose weight or cost changes. */
  readonly components: readonly (BeforeAfter<ComponentFigures> & { readonly name: string })[];
  readonly total: BeforeAfter<Sum & Budgeted>;
  /** What else happens, in words. */
  readonly notes: FirstOf<string>;
  readonly changes: FirstOf<{
    /** "Design!B15" */
    readonly cell: string;
    readonly from: string;
    readonly to: string;
    readonly why: string;
  }>;
}

/**
 * A trial's outcome as the panel shows it: plain data, of long lists the first lines alone.
 * @param doubts what the trial cannot follow, in words
 */
function shownOf(outcome: Outcome, doubts: readonly string[]): ShownOutcome {
  const { swap, picked, standing, components, unpriced } = outcome;
  const both = <T>(of: (one: Standing) => T): BeforeAfter<T> => ({
    before: of(standing.before),
    after: of(standing.after),
  });
  const { units, parts } = standing.before.weights;
  return {
    units,
    hasCost: parts.form.columns.cost !== undefined,
    picked,
    components: components.map((name) => ({ name, ...both((one) => componentIn(one, name)) })),
    total: both((one) => ({
      ...budgeted(one.weights.total),
      weight: one.summary.total.weight,
      arm: one.summary.total.arm,
      moment: one.summary.total.moment,
      cost: one === standing.after && unpriced.length > 0 ? undefined : one.summary.total.cost,
    })),
    notes: firstOf(notesOf(outcome, doubts), (note) => note()),
    changes: firstOf(swap.changes, ({ cell, from, to, why }) => ({ cell, from, to, why })),
  };
}

const firstOf = <T, S>(all: readonly T[], show: (one: T) => S): FirstOf<S> => ({
  first: all.slice(0, MOST_LINES).map(show),
  count: all.length,
});

const componentIn = ({ summary, weights }: Standing, name: string): ComponentFigures => ({
  ...budgeted(weights.components.find((one) => one.name === name)),
  weight: summary.components.find((one) => one.name === name)?.weight,
});

const budgeted = (of: { readonly forecast: number; readonly margin: number | undefined } | undefined): Budgeted => ({
  forecast: of?.forecast,
  margin: of?.margin,
});

/** The words of each are made where it is shown. */
function notesOf({ rows, swap, standing, unpriced }: Outcome, doubts: readonly string[]): (() => string)[] {
  const { partWeight, unit } = figures(standing.before.weights.units);
  return [
    ...rows
      .filter((row) => !row.picked)
      .map(
        ({ name, before, after, weighedStays }) =>
          () =>
            weighedStays
              ? t('{name} changes with it, and keeps its weighed value.', { name })
              : t('{name} changes with it: {before} to {after} {unit}.', {
                  name,
                  before: partWeight(before),
                  after: partWeight(after),
                  unit: unit('weight'),
                }),
      ),
    ...rows
      .filter((row) => row.picked && row.weighedStays)
      .map(
        ({ name }) =>
          () =>
            t('{name} keeps its weighed value, so its weight stays.', { name }),
      ),
    ...swap.left.map(
      ({ part, why }) =>
        () =>
          t('{part} stays as it is: {why}.', { part, why }),
    ),
    ...[...unpriced, ...doubts].map((words) => () => words),
  ];
}
