/**
 * Each row-wise function over long columns, against a loop written by hand for that one function: the same cells as a
 * host hands them over (rows of one cell, numbers and texts, a blank row in fifty), the same look-ups of materials and
 * rivets by name, limits checked, blanks kept, and rows of one cell given back. The loop knows no units and no messages.
 *
 * Both run in one process after every function of the catalogue has run in it, as in a workbook that uses them all:
 * what the shared machinery loses by serving many functions is in its figure, while each loop by hand has its own code.
 */
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
 * Runs that are timed as one. What a run leaves behind is collected in a later one: only over many runs does the
 * garbage count for the side that made it, and not for the one that happens to fill the room.
 */
const BLOCK = 12;

/** Processor time of one run in this process, garbage collection included: another program's work counts for neither side. */
function time(run: () => unknown): number {
  const start = process.cpuUsage();
  for (let i = 0; i < BLOCK; i++) run();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000 / BLOCK;
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

const WARM_UPS = 5;

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

export function functionRatios(rows: number, runs: number): FunctionRatio[] {
  const measured = rowWise().filter((definition) => refusalOf(definition) === undefined);
  const meet = (definition: Definition): ReturnType<typeof contest> => {
    const both = contest(definition, rows);
    for (let run = 0; run < WARM_UPS; run++) compare(definition.name, both.ours(), both.byHand());
    return both;
  };
  // Every function has run hot before the first one is timed.
  for (const definition of measured) meet(definition);
  // An odd number, so that the median is one of them.
  const blocks = 2 * Math.floor(runs / BLOCK) + 3;
  return measured.map((definition) => {
    const { ours, byHand } = meet(definition);
    const times = Array.from({ length: blocks }, () => ({ ours: time(ours), byHand: time(byHand) }));
    const [a, b] = [median(times.map((one) => one.ours)), median(times.map((one) => one.byHand))];
    return { name: definition.name, rows, ours: a, byHand: b, ratio: a / b };
  });
}
