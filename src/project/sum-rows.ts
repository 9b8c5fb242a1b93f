/** Rows of a list that are sums of other rows: a total at its foot, a subtotal after a component. They are named and not counted again. */
import { isSumName } from '../core/mass';
import { nameKey } from '../core/names';
import { cellName, isBlank, textIn } from '../sheet';
import type { FormHead, FormRow, SheetForm } from './forms';
import type { Problem } from './problems';

interface Kept<K extends string> {
  readonly rows: readonly FormRow<K>[];
  readonly problems: readonly Problem[];
}

/** Sums that agree to this share of themselves are one: cells may be shown and typed rounded. */
const SAME = 1e-6;

/** What a list knows of its sums beside its rows. */
interface Beside<K extends string> {
  /** Components that no cell of the rows names. */
  readonly components?: readonly string[];
  /** What a row's own cell says, where the amount is that of several pieces. */
  readonly stated?: (row: FormRow<K>) => number | undefined;
}

/** The rows without those that are sums, each of which is named by its cell. */
export function withoutSums<K extends string>(
  { sums, columns }: SheetForm<K>,
  head: FormHead<K>,
  rows: readonly FormRow<K>[],
  beside: Beside<K> = {},
): Kept<K> {
  if (!sums) return { rows, problems: [] };
  const { names, amount } = sums;
  // In the order of the sheet's own grouping: a total is that of a component.
  const group = columns.find(({ key }) => key === ('component' as K))?.key ?? names[0]!;
  const named = new Set([...rows.map(({ cells }) => textIn(cells[group])), ...(beside.components ?? [])]);
  const components = new Set([...named].map(nameKey));
  components.delete('');
  const isComponent = (name: string): boolean => components.has(nameKey(name));
  const kept: FormRow<K>[] = [];
  const problems: Problem[] = [];
  const leaveOut = ({ row }: FormRow<K>, key: K, message: string): void =>
    void problems.push({ sheet: head.sheet, cell: cellName(row, head.columns[key] ?? 0), message });
  /** Of the rows above, and of those since the last sum. */
  let [all, since, rowsSince] = [0, 0, 0];
  const isSum = (row: FormRow<K>): boolean =>
    rowsSince > 1 &&
    names.every((key) => isBlank(row.cells[key])) &&
    [row.cells[amount], beside.stated?.(row)].some(
      (value) => typeof value === 'number' && value !== 0 && (isNear(value, since) || isNear(value, all)),
    );
  for (const row of rows) {
    const sumIn = names.find((key) => isSumName(textIn(row.cells[key]), isComponent));
    const value = row.cells[amount];
    if (sumIn !== undefined) {
      const name = textIn(row.cells[sumIn]);
      const hint = sumIn === group ? '. Give a component another name' : '';
      leaveOut(row, sumIn, `says "${name}": the row is taken for a sum and left out${hint}`);
      [since, rowsSince] = [0, 0];
    } else if (isSum(row)) {
      leaveOut(row, amount, 'is the sum of the rows above: the row is left out');
      [since, rowsSince] = [0, 0];
    } else {
      kept.push(row);
      if (typeof value !== 'number') continue;
      all += value;
      since += value;
      rowsSince += 1;
    }
  }
  return { rows: kept, problems };
}

const isNear = (one: number, other: number): boolean => Math.abs(one - other) <= SAME * Math.abs(other);
