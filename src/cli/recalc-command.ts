import type { Command } from 'commander';
import { fullName, type CellPlace, type MarkedPlace } from '../sheet';
import type { CellProblem } from '../calculation';
import { nodeCodec, writeBytes } from '../hosts/node/files';
import { difference, patchWorkbook } from '../xlsx';
import { EXIT, Stop, shown } from './terminal';
import { openWorkbook, refuseOverwriting, refusing } from './open';
import { Progress } from './progress';

const LISTED = 50;

export function addRecalculate(program: Command): void {
  program
    .command('recalc')
    .summary('recalculate every formula of a workbook')
    .description(
      'Recalculates every formula, TARE and ordinary, and puts the values back into the file; every other part of it (charts, drawings, formats, comments) is carried byte for byte. Lists the cells in error.',
    )
    .argument('<workbook>', 'an .xlsx file')
    .option('-o, --output <file>', 'write here and leave the workbook as it is')
    .option('-n, --dry-run', 'write nothing, only say what would change')
    .addHelpText(
      'after',
      '\nFormulas with a function that is not known, or a reference to another workbook, keep their last value and are named.\nThe exit code is 1 where cells are in error; the file is written all the same.',
    )
    .action(async (path: string, options: { output?: string; dryRun?: boolean }) => {
      if (options.output !== undefined) await refuseOverwriting([['-o', options.output]], [path]);
      const progress = new Progress();
      const { bytes, changes, changed, bound, problems, kept, notRecalculated } = await recalculated(path, progress);
      const unchanged = changed + bound === 0;
      const target = options.output ?? path;
      await refusing(target, async () => {
        if (options.dryRun || (unchanged && target === path)) return;
        progress.say(`Writing ${target}`);
        await writeBytes(target, unchanged ? bytes : patchWorkbook(bytes, changes, nodeCodec));
      });
      progress.done();
      report(path, { changed, bound }, options.dryRun ?? false);
      reportUncertain({ kept, notRecalculated, problems });
    });
}

/** A file's bytes and what recalculating changes in it. The two models, which are large, are not kept. */
export async function recalculated(path: string, progress: Progress) {
  progress.say(`Reading ${path}`);
  const { bytes, model } = await openWorkbook(path);
  progress.say('Starting to calculate');
  const { keptSentence, recalculate } = await import('../calculation');
  const {
    model: after,
    kept,
    ...rest
  } = recalculate(model, {
    progress: (done, total) => progress.say(`Calculated ${done} of ${total} formulas`),
  });
  return { bytes, changes: difference(model, after), kept: kept.map(keptSentence), ...rest };
}

interface Done {
  readonly changed: number;
  readonly bound: number;
}

function report(path: string, { changed, bound }: Done, dry: boolean): void {
  const verb = dry ? 'would change' : 'changed';
  process.stdout.write(
    `${path}: ${changed === 0 ? 'every value was up to date' : `${changed} ${changed === 1 ? 'cell' : 'cells'} ${verb}`}\n`,
  );
  if (bound)
    process.stdout.write(
      `${bound} ${bound === 1 ? 'formula' : 'formulas'} with TARE functions given the form that Excel binds\n`,
    );
}

/** Names what is not as it should be: kept values and what rests on them; ends the command where cells are in error. */
export function reportUncertain({
  kept,
  notRecalculated,
  problems,
}: {
  readonly kept: readonly string[];
  readonly notRecalculated: readonly MarkedPlace[];
  readonly problems: readonly CellProblem[];
}): void {
  for (const sentence of kept) process.stderr.write(`${shown(sentence)}\n`);
  reportMarked(notRecalculated);
  if (problems.length) throw new Stop(EXIT.findings, listProblems(problems));
}

/** Formulas that were calculated from kept values. */
function reportMarked(marked: readonly MarkedPlace[]): void {
  const resting = marked.filter(({ because, ...own }) => !isSamePlace(because, own));
  if (resting.length === 0) return;
  const lines = resting
    .slice(0, LISTED)
    .map(
      ({ because, ...own }) =>
        `${fullName({ ...own, rows: 1, columns: 1 })} rests on ${fullName({ ...because, rows: 1, columns: 1 })}`,
    );
  const more = resting.length > LISTED ? [`and ${resting.length - LISTED} more`] : [];
  process.stderr.write(
    `${shown([`Not recalculated: ${counted(resting.length, 'formula rests', 'formulas rest')} on kept values:`, ...lines, ...more].join('\n'))}\n`,
  );
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const isSamePlace = (a: CellPlace, b: CellPlace): boolean =>
  a.sheet === b.sheet && a.row === b.row && a.column === b.column;

function listProblems(problems: readonly CellProblem[]): string {
  const lines = problems
    .slice(0, LISTED)
    .map(
      ({ error, formula, ...place }) =>
        `${fullName({ ...place, rows: 1, columns: 1 })}: ${error.code} ${error.message || `=${formula ?? ''}`}`,
    );
  const more = problems.length > LISTED ? [`and ${problems.length - LISTED} more`] : [];
  return [`${problems.length} ${problems.length === 1 ? 'cell' : 'cells'} in error:`, ...lines, ...more].join('\n');
}
