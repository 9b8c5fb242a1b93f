/** Cost against rows: how the time grows from 5,000 to 160,000 rows. 1 is linear, 2 would be quadratic. */
import { readFileSync } from 'node:fs';
import { recalculate } from '../../src/calculation';
import { nodeCodec } from '../../src/hosts/node/files';
import { readWorkbook } from '../../src/xlsx';
import { functionRatios } from './functions';
import { bestOf, logLogSlope, type Measure, type Part, type PartOptions } from './measure';
import { Workbooks } from './workbooks';

const ROWS = [5000, 10_000, 20_000, 40_000, 80_000, 160_000];
type Point = readonly [rows: number, milliseconds: number];

/** Processor time, which other programs on the machine hardly change. */
async function milliseconds(runs: number, run: () => unknown): Promise<number> {
  const once = async (): Promise<number> => {
    const start = process.cpuUsage();
    await run();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  };
  return bestOf(runs, once, (time) => time);
}

/**
 * Missed only where the slope is above 1 by more than twice its standard error: times on a shared machine scatter.
 * Nor where a loop by hand over the same rows is as steep: a processor's caches hold few rows, and not many.
 */
function measureOf(name: string, points: readonly Point[], byHand?: readonly Point[]): Measure {
  const { slope, error } = logLogSlope(points);
  const [before, last] = points.slice(-2) as [Point, Point];
  const doubling = last[1] / before[1];
  const hand = byHand && logLogSlope(byHand);
  const most = Math.max(1, hand?.slope ?? 1);
  const note = `± ${error.toFixed(2)}; ${before[0]} → ${last[0]} rows: ${doubling.toFixed(2)}× the time`;
  return {
    part: 'slope',
    name,
    value: slope,
    unit: 'power',
    bar: { most, of: 'value' },
    met: slope <= most + 2 * Math.max(error, hand?.error ?? 0),
    note,
  };
}

/** Each function's own slope scatters by a third from run to run, as a loop's by hand does: judged are all together. */
function functionSlopes({ runs, say }: PartOptions): Measure[] {
  const ours: Point[] = [];
  const byHand: Point[] = [];
  for (const rows of ROWS) {
    say(`every row-wise function over ${rows.toLocaleString('en-US')} rows`);
    const times = functionRatios(rows, runs % 2 === 1 ? runs : runs + 1);
    ours.push([rows, times.reduce((sum, one) => sum + one.ours, 0)]);
    byHand.push([rows, times.reduce((sum, one) => sum + one.byHand, 0)]);
  }
  return [
    measureOf('all row-wise functions', ours, byHand),
    { ...measureOf('loops by hand over the same rows', byHand), bar: undefined, met: undefined },
  ];
}

async function recalculationSlopes(
  books: Workbooks,
  form: 'columns' | 'cells',
  words: string,
  { runs, say }: PartOptions,
): Promise<Measure[]> {
  const calculating: Point[] = [];
  const whole: Point[] = [];
  for (const rows of ROWS) {
    say(`recalculating ${rows.toLocaleString('en-US')} rows, ${words}`);
    const model = readWorkbook(readFileSync(await books.path(rows, form)), nodeCodec);
    calculating.push([rows, await milliseconds(Math.min(runs, 2), () => recalculate(model))]);
    const run = await books.ours(rows, form);
    whole.push([rows, 1000 * (run.processor ?? run.seconds)]);
  }
  return [
    measureOf(`calculating, ${words} (processor time)`, calculating),
    measureOf(`tarebook recalc, ${words} (processor time)`, whole),
  ];
}

export const slope: Part = async (options) => {
  const books = new Workbooks();
  try {
    return [
      ...functionSlopes(options),
      ...(await recalculationSlopes(books, 'columns', 'one formula a column', options)),
      ...(await recalculationSlopes(books, 'cells', 'one formula a cell', options)),
    ];
  } finally {
    books.remove();
  }
};
