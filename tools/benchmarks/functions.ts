/**
 * Each row-wise function over long columns, against a loop written by hand for that one function: the same cells as a
 * host hands them over (rows of one cell, numbers and texts, a blank row in fifty), the same look-ups of materials and
 * rivets by name, limits checked, blanks kept, and rows of one cell given back. The loop knows no units and no messages.
 *
 * Both run in one process after every function of the catalogue has run in it, as in a workbook that uses them all:
 * what the shared machinery loses by serving many functions is in its figure, while each loop by hand has its own code.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { call, catalogue, type Definition } from '../../src/functions';
import type { Cell, Matrix } from '../../src/sheet';
import { balance } from './by-hand/balance';
import type { Column, Job } from './by-hand/cells';
import { rivets } from './by-hand/rivets';
import { shapes } from './by-hand/shapes';
import { stock } from './by-hand/stock';

export interface FunctionRatio {
  readonly name: string;
  readonly rows: number;
  /** Milliseconds of processor time for one run, the median of several blocks of runs. */
  readonly ours: number;
  readonly byHand: number;
  readonly ratio: number;
}

const JOBS: Readonly<Record<string, Job>> = { ...shapes, ...stock, ...rivets, ...balance };
const BLANK_EVERY = 50;

/** A column of cells, through JSON, which is how they reach the functions in a spreadsheet host. */
function fill(column: Column, rows: number): Matrix {
  if (Array.isArray(column)) return column;
  return JSON.parse(
    JSON.stringify(
      Array.from({ length: rows }, (_, row) => [row % BLANK_EVERY === BLANK_EVERY - 1 ? '' : column(row)]),
    ),
  ) as Matrix;
}

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

/**
 * Runs that are timed as one: as many as take a while, within limits. Over a single run the garbage would count for the
 * side that happens to fill the room, and not for the one that made it.
 */
const BLOCK = { milliseconds: 120, least: 3, most: 12 };

/** The collector, which a process has under this name once it is asked for. */
setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Processor time of one run in this process, garbage collection included: another program's work counts for neither side. */
function time(run: () => unknown, times: number): number {
  // What the other side left behind is collected before the clock starts.
  collect();
  const start = process.cpuUsage();
  for (let i = 0; i < times; i++) run();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000 / times;
}

/** How many runs make a block, by how long one takes. */
function timesOf(run: () => unknown): number {
  const { milliseconds, least, most } = BLOCK;
  return Math.min(most, Math.max(least, Math.ceil(milliseconds / time(run, 1))));
}

const NUMBER = /\d+(?:\.\d+)?/g;
/** Figures in words may differ by a last digit that was rounded from a half. */
const alike = (a: string, b: string): boolean =>
  a.replace(NUMBER, '') === b.replace(NUMBER, '') &&
  (a.match(NUMBER) ?? []).every((figure, index) => Math.abs(Number(figure) - Number(b.match(NUMBER)![index])) < 0.011);
const agree = (a: Cell | undefined, b: Cell | undefined): boolean =>
  a === b ||
  (typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a))
    : typeof a === 'string' && typeof b === 'string' && alike(a, b));

/** Throws where the two differ: a loop that does another job is no measure. */
function compare(name: string, ours: unknown, byHand: Matrix): void {
  if (!Array.isArray(ours)) throw new Error(`${name}: ${String(ours)}`);
  const row = (ours as Matrix).findIndex((cells, index) => !agree(cells[0], byHand[index]![0]));
  if (row >= 0)
    throw new Error(
      `${name}, row ${row + 1}: ${String((ours as Matrix)[row]![0])}, by hand ${String(byHand[row]![0])}`,
    );
}

/** The two contestants over columns of their own, which are let go afterwards: a heap full of other columns would slow both. */
function contest(
  definition: Definition,
  rows: number,
): { readonly ours: () => unknown; readonly byHand: () => Matrix } {
  const job = JOBS[definition.name];
  if (!job) throw new Error(`no loop by hand for ${definition.name}`);
  const columns = job.columns.map((column) => fill(column, rows));
  return { ours: () => call(definition, columns), byHand: () => job.loop(...columns) };
}

/** Row-wise functions that have no loop by hand, or one that gives something else: named, and not measured. */
export function unmeasured(): string[] {
  return rowWise().flatMap((definition) => refusalOf(definition) ?? []);
}

const rowWise = (): Definition[] => catalogue.filter((definition) => definition.rowWise);

const SAMPLE_ROWS = 200;

function refusalOf(definition: Definition): string | undefined {
  try {
    const { ours, byHand } = contest(definition, SAMPLE_ROWS);
    compare(definition.name, ours(), byHand());
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** Both run until they are as fast as they get, and have to agree. */
function warm(definition: Definition, rows: number, runs: number): ReturnType<typeof contest> {
  const both = contest(definition, rows);
  for (let run = 0; run < runs; run++) compare(definition.name, both.ours(), both.byHand());
  return both;
}

/** Rows and runs before the first function is timed, and runs before each is. */
const WARM_UP = { rows: 20_000, runs: 8, again: 2 };

/**
 * @param blocks how many are timed for each side, an odd number: their median counts
 * @param found is told each ratio as it is measured
 */
export function functionRatios(
  rows: number,
  blocks: number,
  found: (ratio: FunctionRatio) => void = () => undefined,
): FunctionRatio[] {
  const measured = rowWise().filter((definition) => refusalOf(definition) === undefined);
  // Every function has run hot before the first one is timed.
  for (const definition of measured) warm(definition, Math.min(rows, WARM_UP.rows), WARM_UP.runs);
  return measured.map((definition) => {
    const { ours, byHand } = warm(definition, rows, WARM_UP.again);
    const [oursTimes, byHandTimes] = [timesOf(ours), timesOf(byHand)];
    const times = Array.from({ length: blocks }, () => ({
      ours: time(ours, oursTimes),
      byHand: time(byHand, byHandTimes),
    }));
    const [a, b] = [median(times.map((one) => one.ours)), median(times.map((one) => one.byHand))];
    const ratio = { name: definition.name, rows, ours: a, byHand: b, ratio: a / b };
    found(ratio);
    return ratio;
  });
}
