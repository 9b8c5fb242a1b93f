/**
 * How many sheets of each stock: a search over whole numbers of sheets, with the pieces still in
 * fractions. It lifts the lower bound to what whole sheets cost, and names the numbers worth a try.
 */
import { attainable } from './attainable';
import type { Control } from './control';
import type { SheetMaster, SheetRelaxation } from './sheet-master';

export interface SheetCounts {
  /** Sheets of each stock. */
  readonly counts: readonly number[];
  readonly cost: number;
}

interface Node {
  readonly ranges: readonly (readonly [number, number])[];
  readonly bound: number;
  readonly used: readonly number[];
}

const EPS = 1e-5;

export class CountSearch {
  private readonly open: Node[];
  /** Numbers of sheets that hold all pieces in fractions, cheapest first. */
  readonly found: SheetCounts[] = [];
  nodes = 0;

  constructor(
    private readonly master: SheetMaster,
    root: SheetRelaxation,
    private readonly control: Control,
  ) {
    const { stocks } = master.problem;
    const ranges = stocks.map(({ available }) => [0, available] as const);
    this.open = [{ ranges, bound: this.round(root.bound, ranges), used: root.stockTimes }];
  }

  /** Proven: no plan costs less. */
  get bound(): number {
    return Math.min(Infinity, ...this.open.map(({ bound }) => bound), ...this.found.map(({ cost }) => cost));
  }

  private round(bound: number, ranges: Node['ranges']): number {
    const { stocks } = this.master.problem;
    const fixed = ranges.reduce((sum, [least], stock) => sum + least * stocks[stock]!.cost, 0);
    return (
      fixed +
      attainable(
        bound - fixed,
        stocks.map(({ cost }, stock) => ({ cost, available: ranges[stock]![1] - ranges[stock]![0] })),
      )
    );
  }

  /** Branches until the bound reaches `upTo`, or for `nodes` relaxations. */
  async run(upTo: number, nodes: number): Promise<void> {
    const last = this.nodes + nodes;
    for (;;) {
      this.open.sort((a, b) => a.bound - b.bound);
      const node = this.open[0];
      if (!node || node.bound >= upTo - EPS || this.nodes >= last || this.control.stopped()) break;
      const cheapest = this.found[0];
      if (cheapest && cheapest.cost <= node.bound + EPS) break;
      this.open.shift();
      await this.branch(node, upTo);
    }
    this.master.problem.stocks.forEach(({ available }, stock) => this.master.limit(stock, 0, available));
  }

  private async branch(node: Node, upTo: number): Promise<void> {
    let stock = -1;
    let farthest = EPS;
    node.used.forEach((used, index) => {
      const off = Math.min(used - Math.floor(used), Math.ceil(used) - used);
      if (off > farthest) {
        farthest = off;
        stock = index;
      }
    });
    if (stock < 0) {
      const counts = node.used.map(Math.round);
      const cost = counts.reduce((sum, count, index) => sum + count * this.master.problem.stocks[index]!.cost, 0);
      this.found.push({ counts, cost });
      this.found.sort((a, b) => a.cost - b.cost);
      return;
    }
    const used = node.used[stock]!;
    for (const range of [
      [node.ranges[stock]![0], Math.floor(used)],
      [Math.ceil(used), node.ranges[stock]![1]],
    ] as const) {
      const ranges = node.ranges.map((old, index) => (index === stock ? range : old));
      ranges.forEach(([least, most], index) => this.master.limit(index, least, most));
      const relaxation = await this.master.relax(undefined, upTo);
      this.nodes += 1;
      // Cut short: what was there before the cut still holds.
      const bound = Math.max(node.bound, this.round(relaxation.bound, ranges));
      if (bound < upTo - EPS && relaxation.short <= EPS) this.open.push({ ranges, bound, used: relaxation.stockTimes });
      else if (bound < upTo - EPS && this.control.stopped())
        this.open.push({ ranges, bound, used: relaxation.stockTimes });
    }
  }
}
