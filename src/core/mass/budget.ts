/** Components against the design budget. */
import { growthAllowance, isWeighed, type Allowance } from './growth';
import { ByName } from '../names';
import { NO_GROUP, TOTAL } from './roll-up';

export interface BudgetPart {
  readonly group: string;
  /** Of all pieces of the row, lb. */
  readonly weight: number;
  /** A blank status is taken as "estimated", the least that can be known of a part. */
  readonly status: string;
  /** What an error calls the status, where it is one of a column: "statuses, row 3". */
  readonly place?: string;
}

export interface BudgetGoal {
  readonly group: string;
  readonly weight: number;
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
  goals: Iterable<BudgetGoal>,
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
