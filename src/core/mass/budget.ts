/** The design budget, and how much a weight is likely to grow until it is met. */
import { show, refuseUnlisted } from '../input-error';
import { memoized } from '../memoized';
import { nameKey, ByName } from '../names';
import { NO_GROUP, TOTAL } from './roll-up';

// How much a weight is likely to grow before the part exists, by how far the part has come.

/** How a part's weight is known. */
export const STATUSES = ['estimated', 'laid out', 'released', 'existing', 'weighed'] as const;
export type Status = (typeof STATUSES)[number];

export interface Allowance {
  readonly status: string;
  /** Growth as a fraction of the weight: 0.25 is 25 %. */
  readonly fraction: number;
}

/**
 * Practice of spacecraft makers, not of airplane builders; from memory, verify. What was read has other steps: 10 to
 * 30 % at first and 2 to 3 % before production (abstract of SAWE paper 2120). A builder's own table replaces it.
 */
export const GROWTH_ALLOWANCES: readonly Allowance[] = [
  { status: 'estimated', fraction: 0.25 },
  { status: 'laid out', fraction: 0.15 },
  { status: 'released', fraction: 0.05 },
  { status: 'existing', fraction: 0.03 },
  { status: 'weighed', fraction: 0 },
];

export const GROWTH_SOURCE =
  'Growth allowances: a rule of thumb from memory, no source seen (abstract of SAWE paper 2120: 10 to 30 % at first, 2 to 3 % before production); a table of your own replaces them';

const keyOf = memoized((status: string): string => {
  const word = nameKey(status.replace(/[_-]/g, ' '));
  return word === 'layout' || word === 'laidout' ? 'laid out' : word;
});

/** A status that says the part itself has been on a scale. */
export const isWeighed = (status: string): boolean => keyOf(status) === 'weighed';

/** More statuses than this in a message would hide what it says. */
const MOST_NAMED = 8;

function statusWords(allowances: readonly Allowance[]): string {
  const named = allowances
    .slice(0, MOST_NAMED)
    .map(({ status }) => show(status))
    .join(', ');
  return allowances.length > MOST_NAMED ? `${named} and ${allowances.length - MOST_NAMED} more` : named;
}

/** The allowance of a status as a fraction; NotListedError, which names `parameter`, where the table does not hold it. */
export const growthAllowance = (
  status: string,
  allowances: readonly Allowance[] = GROWTH_ALLOWANCES,
  parameter = 'status',
): number => fractions(allowances).get(keyOf(status)) ?? refuseUnlisted(parameter, status, statusWords(allowances));

/** The fractions by key. Of two rows for one status the first holds. */
const fractions = memoized(
  (allowances: readonly Allowance[]) =>
    new Map([...allowances].reverse().map(({ status, fraction }) => [keyOf(status), fraction])),
  8,
);

/** The weight that the finished part is expected to have. */
export const forecastWeight = (weight: number, status: string, allowances?: readonly Allowance[]): number =>
  weight * (1 + growthAllowance(status, allowances));

// Components against the design budget.

export interface BudgetPart {
  readonly group: string;
  /** Of all pieces of the row, lb. */
  readonly weight: number;
  /** A blank status is taken as "estimated", the least that can be known of a part. */
  readonly status: string;
  /** What an error calls the status, where it is one of a column: "statuses, row 3". */
  readonly place?: string;
}

export interface BudgetLine {
  readonly group: string;
  /** Weight as listed now, lb. */
  readonly current: number;
  /** Weight with the growth allowance of each part's status. */
  readonly forecast: number;
  /** Undefined: this group has no budget. */
  readonly budget: number | undefined;
  /** Budget less forecast; negative is over. */
  readonly margin: number | undefined;
  /** Margin in per cent of the budget; undefined where the budget is 0. */
  readonly marginPercent: number | undefined;
  /** Share of the current weight that has been on a scale, per cent; undefined where there is no weight. */
  readonly weighedPercent: number | undefined;
}

class Standing {
  current = 0;
  forecast = 0;
  weighed = 0;
  budget: number | undefined;

  line(group: string): BudgetLine {
    const { current, forecast, weighed, budget } = this;
    const margin = budget === undefined ? undefined : budget - forecast;
    return {
      group,
      current,
      forecast,
      budget,
      margin,
      marginPercent: margin === undefined || !budget ? undefined : (100 * margin) / budget,
      weighedPercent: current === 0 ? undefined : (100 * weighed) / current,
    };
  }
}

/**
 * One line a group: those of the budget in its order, then groups that have parts and no budget, then
 * the total. Weight without a budget counts against the total margin.
 * Throws NotListedError for a status that the allowances do not hold.
 */
export function budget(
  parts: Iterable<BudgetPart>,
  goals: Iterable<Pick<BudgetPart, 'group' | 'weight'>>,
  allowances?: readonly Allowance[],
): BudgetLine[] {
  const groups = new ByName(() => new Standing(), NO_GROUP);
  const total = new Standing();
  total.budget = 0;
  for (const goal of goals) {
    const standing = groups.get(goal.group);
    standing.budget = (standing.budget ?? 0) + goal.weight;
    total.budget += goal.weight;
  }
  for (const { group, weight, status, place } of parts) {
    const known = status.trim() || 'estimated';
    const grown = weight * (1 + growthAllowance(known, allowances, place));
    const weighed = isWeighed(known) ? weight : 0;
    for (const standing of [groups.get(group), total]) {
      standing.current += weight;
      standing.forecast += grown;
      standing.weighed += weighed;
    }
  }
  return [...groups.entries().map(({ name, value }) => value.line(name)), total.line(TOTAL)];
}
