/** Cost against rows: how the time grows from 5,000 to 160,000 rows. 1 is linear, 2 would be quadratic. */
import { recalculate } from '../../src/hosts/headless';
import { nodeCodec } from '../../src/hosts/headless/codec';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../src/xlsx';
import { bigList } from './big-list';
import { functionRatios } from './functions';
import { bestOf, logLogSlope, type Measure, type Part, type PartOptions } from './measure';

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
  return { part: 'slope', name, value: slope, unit: 'power', bar: { most, of: 'value' }, met: slope <= most + 2 * Math.max(error, hand?.error ?? 0), note };
}

function functionSlopes({ runs, say }: PartOptions): Measure[] {
  const each = new Map<string, { readonly ours: Point[]; readonly byHand: Point[] }>();
  const all: Point[] = [];
  for (const rows of ROWS) {
    say(`every row-wise function over ${rows.toLocaleString('en-US')} rows`);
    const times = functionRatios(rows, 2 * runs + 1);
    all.push([rows, times.reduce((sum, { ours }) => sum + ours, 0)]);
    for (const { name, ours, byHand } of times) {
      const points = each.get(name) ?? { ours: [], byHand: [] };
      points.ours.push([rows, ours]);
      points.byHand.push([rows, byHand]);
      each.set(name, points);
    }
  }
  const [steepest] = [...each].map(([name, { ours, byHand }]) => measureOf(`the steepest, beside its loop by hand: ${name}`, ours, byHand)).sort((a, b) => b.value - b.bar!.most - (a.value - a.bar!.most));
  return [measureOf('all row-wise functions', all), ...(steepest ? [steepest] : [])];
}

async function recalculationSlope(form: 'columns' | 'cells', words: string, { runs, say }: PartOptions): Promise<Measure> {
  const points: Point[] = [];
  for (const rows of ROWS) {
    say(`recalculating ${rows.toLocaleString('en-US')} rows, ${words}`);
    const bytes = await writeWorkbook(bigList(rows, form));
    const time = await milliseconds(Math.min(runs, 2), async () => {
      const model = readWorkbook(bytes, nodeCodec);
      const { model: after } = await recalculate(model);
      patchWorkbook(bytes, difference(model, after), nodeCodec);
    });
    points.push([rows, time]);
  }
  return measureOf(`read, recalculate, write (processor time): ${words}`, points);
}

export const slope: Part = async (options) => [
  ...functionSlopes(options),
  await recalculationSlope('columns', 'one formula a column', options),
  await recalculationSlope('cells', 'one formula a cell', options),
];
