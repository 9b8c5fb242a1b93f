/** A cutting plan and its making in words. */
import { formatMoney } from '../../core/price';
import { lengthText, type CuttingPlan, type CutStep, type PlanStatus, type Progress } from '../../core/stock';
import type { PlanRequest } from './cutting-needs';

const STATUS: Readonly<Record<PlanStatus, string>> = {
  optimal: 'No plan of this kind costs less',
  feasible: 'The best plan found',
  'time limit': 'The best plan found in the time allowed',
  cancelled: 'The best plan when the search was ended',
  short: 'The stock does not suffice',
};

/** A plan of stock without prices is for least material. */
export const isPriced = (stock: PlanRequest['stock']): boolean => stock.some(({ cost, offcut }) => cost > 0 && !offcut);

/** Cost as money, or as what it is where no stock has a price. */
export function costText(cost: number, priced: boolean, kind: CuttingPlan['kind'], currency: string): string {
  if (priced) return formatMoney(cost, currency);
  return kind === 'sheets' ? `${lengthText(Number(cost.toFixed(1)))} in² of stock` : `${lengthText(cost)} in of stock`;
}

export function statusWords(plan: CuttingPlan, priced: boolean, currency: string): string {
  const { status, cost, lowerBound, gap, usePercent, seconds, kind } = plan;
  const bound = status === 'optimal' || status === 'short' ? '' : `; at least ${costText(lowerBound, priced, kind, currency)}, gap ${(100 * gap).toFixed(1)} %`;
  return `${STATUS[status]}: ${costText(cost, priced, kind, currency)}${bound}. ${usePercent.toFixed(0)} % of the stock becomes parts. ${seconds.toFixed(1)} s.`;
}

export function progressWords(progress: Progress | undefined, priced: boolean, kind: CuttingPlan['kind'], currency: string): string {
  if (!progress) return 'Starting…';
  const best = progress.cost === undefined ? 'no plan yet' : `best so far ${costText(progress.cost, priced, kind, currency)}`;
  return `${progress.seconds.toFixed(0)} s, ${progress.stage}: ${best}, at least ${costText(progress.lowerBound, priced, kind, currency)}`;
}

/** "Strip 2", "Rib", "trim Rib", "keep". */
export function stepWords({ action, strip, part, turned }: CutStep): string {
  if (action === 'strip') return `Strip ${strip}`;
  if (action === 'leftover') return 'Leftover, keep';
  return `${action === 'trim' ? 'Trim ' : ''}${part}${turned ? ' (turned)' : ''}`;
}

export const sizeWords = ({ size, by }: CutStep): string => (by === undefined ? lengthText(size) : `${lengthText(size)} × ${lengthText(by)}`);
