/** The project's own growth allowances; where it has none, the core's, which are another industry's. */
import { GROWTH_ALLOWANCES, growthAllowance, type Allowance } from '../core/mass';
import { InputError } from '../core/input-error';
import { ALLOWANCES } from './weight-forms';
import { once } from './once';
import { fractionIn, type Problem, type SheetValues } from './problems';
import { readSheet } from './project-units';
import { RowReader } from './row-reader';
import { textIn } from '../sheet';

export interface ProjectAllowances {
  readonly list: readonly Allowance[];
  /** False: the sheet is not there, or says the same as the default. */
  readonly own: boolean;
  readonly problems: readonly Problem[];
}

const MOST_GROWTH = 2;

/** The sheet's allowances, completed by the default ones for statuses that it does not name. */
export function readGrowthAllowances(values: SheetValues): ProjectAllowances {
  return once(values, allowancesIn);
}

function allowancesIn(values: SheetValues): ProjectAllowances {
  const form = readSheet(values, ALLOWANCES);
  if (!form) return { list: GROWTH_ALLOWANCES, own: false, problems: [] };
  const problems: Problem[] = [];
  const reader = new RowReader(form, problems);
  const read = form.rows.flatMap((row): Allowance[] => {
    const status = textIn(row.cells.status);
    if (status === '') return [];
    const fraction = fractionIn(row.cells.growth);
    if (fraction !== undefined && fraction >= 0 && fraction <= MOST_GROWTH) return [{ status, fraction }];
    const guess =
      fraction !== undefined && fraction > MOST_GROWTH ? `. ${fraction} looks like per cent: write ${fraction}%` : '';
    reader.problem(
      row,
      'growth',
      `got ${row.cells.growth === undefined ? 'a blank' : String(row.cells.growth)}; takes per cent from 0% to 200%${guess}. The default allowance is used`,
    );
    return [];
  });
  const list = [...read, ...GROWTH_ALLOWANCES.filter(({ status }) => allowanceOf(status, read) === undefined)];
  const own = read.some(({ status, fraction }) => allowanceOf(status, GROWTH_ALLOWANCES) !== fraction);
  return { list, own, problems };
}

/** The allowance of a status as a fraction; undefined where the list does not hold it. */
export function allowanceOf(status: string, list: readonly Allowance[]): number | undefined {
  try {
    return growthAllowance(status, list);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
