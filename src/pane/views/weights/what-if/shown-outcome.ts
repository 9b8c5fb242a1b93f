/** A trial's outcome as the panel shows it: plain data, of long lists the first lines alone. */
import type { UnitSystem } from '../../../../core/quantity';
import { t } from '../../../locale';
import { figures } from '../weight-figures';
import type { BeforeAfter, Outcome, Standing, Sum } from './trial';

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

/** @param doubts what the trial cannot follow, in words */
export function shownOf(outcome: Outcome, doubts: readonly string[]): ShownOutcome {
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
