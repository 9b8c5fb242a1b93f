/** `tarebook recalc`, and `tarebook values`, which saves a copy of what was recalculated. */
import type { Command } from 'commander';
import { fullName, type CellPlace, type MarkedPlace } from '../sheet';
import type { CellProblem, Recalculation } from '../calculation';
import { nodeCodec, writeBytes } from '../hosts/node/files';
import { difference, patchWorkbook, valuesCopy } from '../xlsx';
import { EXIT, Progress, shown, Stop } from './terminal';
import { openWorkbook, refuseOverwriting, refusing } from './open';

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
async function recalculated(path: string, progress: Progress) {
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

function report(path: string, { changed, bound }: Pick<Recalculation, 'changed' | 'bound'>, dry: boolean): void {
  process.stdout.write(
    `${path}: ${changed === 0 ? 'every value was up to date' : `${counted(changed, 'cell', 'cells')} ${dry ? 'would change' : 'changed'}`}\n`,
  );
  if (bound)
    process.stdout.write(
      `${counted(bound, 'formula', 'formulas')} with TARE functions given the form that Excel binds\n`,
    );
}

/** Names what is not as it should be: kept values and what rests on them; ends the command where cells are in error. */
function reportUncertain({
  kept,
  notRecalculated,
  problems,
}: {
  readonly kept: readonly string[];
  readonly notRecalculated: readonly MarkedPlace[];
  readonly problems: readonly CellProblem[];
}): void {
  for (const sentence of kept) process.stderr.write(`${shown(sentence)}\n`);
  const resting = notRecalculated.filter(({ because, ...own }) => !isSamePlace(because, own));
  if (resting.length > 0) {
    const head = `Not recalculated: ${counted(resting.length, 'formula rests', 'formulas rest')} on kept values:`;
    const lines = listed(resting, ({ because, ...own }) => `${nameOf(own)} rests on ${nameOf(because)}`);
    process.stderr.write(`${shown([head, ...lines].join('\n'))}\n`);
  }
  if (problems.length === 0) return;
  const lines = listed(
    problems,
    ({ error, formula, ...place }) => `${nameOf(place)}: ${error.code} ${error.message || `=${formula ?? ''}`}`,
  );
  throw new Stop(EXIT.findings, [`${counted(problems.length, 'cell', 'cells')} in error:`, ...lines].join('\n'));
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const nameOf = ({ sheet, row, column }: CellPlace): string => fullName({ sheet, row, column, rows: 1, columns: 1 });

/** A line for each of the first, and how many more there are. */
const listed = <T>(all: readonly T[], line: (one: T) => string): string[] => [
  ...all.slice(0, LISTED).map(line),
  ...(all.length > LISTED ? [`and ${all.length - LISTED} more`] : []),
];

const isSamePlace = (a: CellPlace, b: CellPlace): boolean =>
  a.sheet === b.sheet && a.row === b.row && a.column === b.column;

export function addValues(program: Command): void {
  program
    .command('values')
    .summary('save a copy for those who have no Tarebook')
    .description(
      'Recalculates a workbook and saves a copy in which every TARE formula is its value. Ordinary formulas stay formulas; every other part is carried byte for byte.',
    )
    .argument('<workbook>', 'an .xlsx file; it stays as it is')
    .requiredOption('-o, --output <file>', 'where the copy goes')
    .addHelpText('after', '\nThe exit code is 1 where cells are in error; the copy is written all the same.')
    .action(async (path: string, { output }: { output: string }) => {
      await refuseOverwriting([['-o', output]], [path]);
      const progress = new Progress();
      const { bytes, changes, changed, bound, ...uncertain } = await recalculated(path, progress);
      const formulas = await refusing(output, async () => {
        progress.say(`Writing ${output}`);
        const fresh = changed + bound === 0 ? bytes : patchWorkbook(bytes, changes, nodeCodec);
        const copy = valuesCopy(fresh, nodeCodec);
        await writeBytes(output, copy.bytes);
        return copy.formulas;
      });
      progress.done();
      const told = counted(formulas, 'TARE formula is a value', 'TARE formulas are values');
      process.stdout.write(`${output}: ${formulas === 0 ? 'no TARE formulas, the copy is as the workbook' : told}\n`);
      reportUncertain(uncertain);
    });
}
