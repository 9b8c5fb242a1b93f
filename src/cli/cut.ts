/** `tarebook cut`: a cutting plan from a list of parts and a list of stock. */
import { InputError } from '../core/input-error';
import {
  lengthText,
  planBars,
  planDxf,
  planSheets,
  readCutLists,
  type CutLists,
  type CuttingPlan,
  type PlanOptions,
} from '../core/stock';
import { loadHighsSolver } from '../core/stock/highs-solver';
import { readBytes, writeBytes } from '../hosts/node/files';
import { csvRecords, planCsv, unclosedSentence } from '../project';
import { decodeText } from '../sheet';
import { EXIT, Progress, shown, Stop } from './terminal';
import { refuseOverwriting, refusing } from './open';

export interface CutOptions {
  /** CSV files. */
  readonly parts: string;
  readonly stock: string;
  readonly kerf?: number;
  /** Sheet parts may be turned; without it they keep their direction, unless their Grain says otherwise. */
  readonly rotate?: boolean;
  readonly seconds?: number;
  readonly seed?: number;
  readonly scrap?: number;
  readonly keep?: number;
  readonly strips?: 'along' | 'across' | 'either';
  readonly json?: boolean;
  /** Files to write the cut list and the drawing to. */
  readonly csv?: string;
  readonly dxf?: string;
}

const CUT_SECONDS = 10;

/** Makes the plan and prints it. Ends with exit code 1 where the stock does not suffice. */
export async function runCut(options: CutOptions): Promise<CuttingPlan> {
  await refuseOverwriting(
    [
      ['--csv', options.csv],
      ['--dxf', options.dxf],
    ],
    [options.parts, options.stock],
  );
  const lists = readCutLists(await cellsOf(options.parts), await cellsOf(options.stock));
  const problems = (['parts', 'stock'] as const).flatMap((list) =>
    lists.problems[list].map((message) => `${options[list]}: ${message}`),
  );
  if (problems.length > 0) throw new Stop(EXIT.refused, problems.join('\n'));
  if (lists.parts.length === 0) throw new Stop(EXIT.refused, `${options.parts} has no part under its header`);
  if (lists.stock.length === 0) throw new Stop(EXIT.refused, `${options.stock} has no stock under its header`);

  const plan = await make(lists, options);
  if (options.csv !== undefined) await write(options.csv, planCsv(plan));
  if (options.dxf !== undefined) await write(options.dxf, planDxf(plan));
  process.stdout.write(options.json ? `${JSON.stringify(plan, null, 2)}\n` : shown(planText(plan)));
  if (plan.missing.length > 0)
    throw new Stop(
      EXIT.findings,
      `The stock does not suffice for ${plan.missing.map(({ part, quantity }) => `${quantity} × ${part}`).join(', ')}`,
    );
  return plan;
}

async function make(lists: CutLists, options: CutOptions): Promise<CuttingPlan> {
  const progress = new Progress();
  const abort = new AbortController();
  // The first interrupt ends the search and prints the best plan so far; a second one ends the command.
  const stop = (): void => abort.abort();
  process.once('SIGINT', stop);
  const shared: PlanOptions = {
    solver: await loadHighsSolver(),
    seconds: options.seconds ?? CUT_SECONDS,
    signal: abort.signal,
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    progress: ({ cost, lowerBound, seconds }) =>
      progress.say(
        `${seconds.toFixed(1)} s: ${cost === undefined ? 'no plan yet' : `cost ${lengthText(cost)}`}, at least ${lengthText(lowerBound)}`,
      ),
    ...(options.kerf === undefined ? {} : { kerf: options.kerf }),
    ...(options.seed === undefined ? {} : { seed: options.seed }),
    ...(options.scrap === undefined ? {} : { scrapBelow: options.scrap }),
    ...(options.keep === undefined ? {} : { keepFrom: options.keep }),
  };
  try {
    if (lists.kind === 'bars') return await planBars(lists.parts, lists.stock, shared);
    const lying = lists.parts.map((part) =>
      options.rotate && part.lie === undefined ? { ...part, lie: 'any' as const } : part,
    );
    return await planSheets(lying, lists.stock, {
      ...shared,
      ...(options.strips === undefined ? {} : { strips: options.strips }),
    });
  } catch (error) {
    if (error instanceof InputError) throw new Stop(EXIT.refused, error.message);
    throw error;
  } finally {
    process.removeListener('SIGINT', stop);
    progress.done();
  }
}

/** The records of a CSV file without the blank ones; Stop with one clear line where it cannot be read. */
async function cellsOf(path: string): Promise<(readonly string[])[]> {
  const { records, unclosed } = csvRecords(decodeText(await refusing(path, () => readBytes(path))));
  if (unclosed !== undefined) throw new Stop(EXIT.refused, `${path}: ${unclosedSentence(unclosed)}`);
  return records.filter((fields) => fields.some((field) => field.trim() !== ''));
}

const write = (path: string, content: string): Promise<void> =>
  refusing(path, () => writeBytes(path, new TextEncoder().encode(content)));

/** The plan as text: what is used, then the patterns in cutting order. */
function planText(plan: CuttingPlan): string {
  const lines = [
    `${plan.status}: cost ${lengthText(plan.cost)}, at least ${lengthText(plan.lowerBound)} (gap ${(100 * plan.gap).toFixed(2)} %), ${plan.usePercent.toFixed(1)} % used, ${plan.seconds.toFixed(1)} s`,
    ...plan.stockUsed.map(
      ({ name, length, width, used, cost, offcut }) =>
        `${used} × ${name} (${size(length, width)})${offcut ? ', offcut' : ''}: ${lengthText(cost)}`,
    ),
  ];
  if (plan.fromScrap.length > 0)
    lines.push(`From scrap: ${plan.fromScrap.map(({ part, quantity }) => `${quantity} × ${part}`).join(', ')}`);
  plan.patterns.forEach((pattern, index) => {
    lines.push('', `${index + 1}. ${pattern.times} × ${pattern.stock}`);
    if ('strips' in pattern)
      for (const { width, from, pieces } of pattern.strips)
        lines.push(
          `   strip ${lengthText(width)} at ${lengthText(from)}: ${runs(pieces.map((piece) => `${piece.part} ${size(piece.length, piece.width)}${piece.turned ? ' turned' : ''}`))}`,
        );
    else
      lines.push(
        `   ${runs(pattern.cuts.map(({ part, length }) => `${part} ${lengthText(length)}`))}${pattern.left > 0 ? `; left ${lengthText(pattern.left)}` : ''}`,
      );
  });
  return `${lines.join('\n')}\n`;
}

/** "a, a, b" as "2 × a, b". */
function runs(texts: readonly string[]): string {
  const gathered: { text: string; count: number }[] = [];
  for (const text of texts) {
    const last = gathered.at(-1);
    if (last?.text === text) last.count += 1;
    else gathered.push({ text, count: 1 });
  }
  return gathered.map(({ text, count }) => (count > 1 ? `${count} × ${text}` : text)).join(', ');
}

const size = (length: number, width?: number): string =>
  width === undefined ? lengthText(length) : `${lengthText(length)} × ${lengthText(width)}`;
