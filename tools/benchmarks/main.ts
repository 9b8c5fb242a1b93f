/** npm run benchmarks [-- PARTS]: what is measured, its bar and the ratio, printed in one run and written as JSON. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { dirname } from 'node:path';
import { Argument, Command } from 'commander';
import { balance } from './balance';
import { edit } from './edit';
import { isMet, ratioOf, table, type Measure, type Part } from './measure';
import { memory } from './memory';
import { page } from './page';
import { pane } from './pane';
import { recalc } from './recalc';
import { functions } from './row-wise';
import { slope } from './slope';
import { start } from './start';

const PARTS: Readonly<
  Record<string, { readonly title: string; readonly run: Part; readonly builds: readonly string[] }>
> = {
  functions: { title: 'Row-wise functions', run: functions, builds: [] },
  recalc: { title: 'tarebook recalc, the whole process', run: recalc, builds: ['cli'] },
  memory: { title: 'Peak memory at 100,000 rows', run: memory, builds: ['cli'] },
  slope: { title: 'Cost against rows (1: linear)', run: slope, builds: ['cli'] },
  edit: { title: 'One edit on the bench, 20,000 rows', run: edit, builds: ['bench'] },
  page: { title: 'How long the page holds still', run: page, builds: ['bench'] },
  pane: { title: 'What the pane and the command answer', run: pane, builds: ['cli'] },
  balance: { title: 'What the Balance tab computes', run: balance, builds: [] },
  start: { title: 'Start-up', run: start, builds: ['functions', 'bench'] },
};
/** Its own figures, and no bars: not part of what is run without arguments. */
const STOCK = 'stock';

interface Options {
  readonly json: string;
  readonly runs: string;
  readonly strict: boolean;
}

const program = new Command('npm run benchmarks --')
  .description('Benchmarks: each measure with its bar, and its ratio to the counterpart or to the bar.')
  .addArgument(
    new Argument('[parts...]', 'what to measure; all but stock when none is named').choices([
      ...Object.keys(PARTS),
      STOCK,
    ]),
  )
  .option('--json <file>', 'where the figures are written', 'dist/bench.json')
  .option('--runs <number>', 'runs of which the best counts', '3')
  .option('--strict', 'end with code 1 where a bar is missed', false)
  .parse();
const { json, runs, strict } = program.opts<Options>();
const asked = new Set(program.args.length > 0 ? program.args : Object.keys(PARTS));

const chosen = Object.entries(PARTS).filter(([name]) => asked.has(name));
const builds = [...new Set(chosen.flatMap(([, { builds: needed }]) => needed))];
if (builds.length > 0 && spawnSync(process.execPath, ['tools/build.mjs', ...builds], { stdio: 'inherit' }).status !== 0)
  process.exit(2);

const load = loadavg()[0]!;
const cores = availableParallelism();
console.log(`${cores} cores, Node ${process.versions.node}, load ${load.toFixed(1)} at the start`);
const measures: Measure[] = [];
for (const [name, { title, run }] of chosen) {
  console.log(`\n${title}`);
  const found = await run({ runs: Math.max(1, Number(runs) || 3), say: (line) => console.log(`  (${name}: ${line})`) });
  if (found.length > 0) console.log(table(found));
  measures.push(...found);
}
const judged = measures.filter((measure) => isMet(measure) !== undefined);
const missed = judged.filter((measure) => !isMet(measure));
if (judged.length > 0)
  console.log(
    `\n${judged.length - missed.length} of ${judged.length} bars met${missed.length > 0 ? `; missed: ${missed.map(({ part, name }) => `${part}: ${name}`).join('; ')}` : ''}`,
  );
if (measures.length > 0) {
  mkdirSync(dirname(json), { recursive: true });
  const machine = {
    cores,
    node: process.versions.node,
    platform: process.platform,
    architecture: process.arch,
    loadAtStart: load,
  };
  writeFileSync(
    json,
    `${JSON.stringify({ date: new Date().toISOString(), machine, measures: measures.map((measure) => ({ ...measure, ratio: ratioOf(measure), met: isMet(measure) })) }, null, 1)}\n`,
  );
  console.log(`The figures are in ${json}`);
}
if (
  asked.has(STOCK) &&
  spawnSync(process.execPath, ['tools/run-ts.mjs', 'tools/benchmarks/stock.ts'], { stdio: 'inherit' }).status !== 0
)
  process.exit(2);
// The embedded engine keeps timers that would hold the process open.
process.exit(strict && missed.length > 0 ? 1 : 0);
