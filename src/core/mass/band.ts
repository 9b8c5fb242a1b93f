/**
 * How far a rolled-up weight may be off: tolerances of the rows carried through to the component.
 *
 * The rule. Equal pieces of one row come from the same sheet and share its error, so the tolerance of
 * a row grows with its quantity. Rows are independent of each other unless they name a common lot (one
 * sheet, one batch); a lot's rows share their error and are added. Independent tolerances are combined
 * as the root of the sum of squares and for comparison added up ("worst"). A root-sum-square
 * of mill limits is a band of the same kind as the limits; it is no guarantee.
 */
import { ByName, nameKey } from '../names';
import { NO_GROUP, TOTAL } from './roll-up';

export interface TolerancedRow {
  readonly group: string;
  /** Of one piece, lb; negative for what is taken off. */
  readonly weight: number;
  readonly quantity?: number;
  /** ± of one piece, as a fraction of its weight or in pounds. */
  readonly tolerance: { readonly fraction: number } | { readonly pounds: number };
  /** What the row has in common with others; blank or absent: nothing. */
  readonly lot?: string;
}

export interface WeightBand {
  readonly group: string;
  readonly weight: number;
  /** ± root-sum-square over independent errors, lb. */
  readonly rootSum: number;
  /** ± with every error the same way, lb. */
  readonly worst: number;
}

class ErrorSum {
  weight = 0;
  private squares = 0;
  private linear = 0;
  private readonly lots = new Map<string, number>();

  add(weight: number, error: number, lot: string): void {
    this.weight += weight;
    if (lot) this.lots.set(lot, (this.lots.get(lot) ?? 0) + error);
    else this.addIndependent(error);
  }

  private addIndependent(error: number): void {
    this.squares += error * error;
    this.linear += Math.abs(error);
  }

  band(group: string): WeightBand {
    for (const error of this.lots.values()) this.addIndependent(error);
    this.lots.clear();
    return { group, weight: this.weight, rootSum: Math.sqrt(this.squares), worst: this.linear };
  }
}

/** Weight and band of each group in order of first appearance, then of all. A lot may reach over groups. */
export function weightBands(rows: Iterable<TolerancedRow>): WeightBand[] {
  const groups = new ByName(() => new ErrorSum(), NO_GROUP);
  const total = new ErrorSum();
  for (const { group, weight, quantity = 1, tolerance, lot = '' } of rows) {
    const all = weight * quantity;
    const error = 'fraction' in tolerance ? all * tolerance.fraction : Math.sign(weight) * quantity * tolerance.pounds;
    const key = nameKey(lot);
    groups.get(group).add(all, error, key);
    total.add(all, error, key);
  }
  return [...groups.entries().map(({ name, value }) => value.band(name)), total.band(TOTAL)];
}
