import { basename } from 'node:path';
import type { Command } from 'commander';
import { fitSentence, projectSheetsOf, restingOn, summarise } from '../project';
import type { WorkbookModel } from '../sheet';
import type { Recalculation } from '../calculation';
import { EXIT, Progress, shown, Stop } from './terminal';
import { listsIn, openList, titleOf, withMatches } from './match-command';
import { refuseOverwriting, refusing } from './open';
import { reportJson, reportText } from './report-text';

interface Options {
  readonly json?: boolean;
  readonly html?: string;
  readonly match?: string;
}

export function addReport(program: Command): void {
  program
    .command('report')
    .summary('print the components with weight, arm, moment and cost')
    .description(
      'Recalculates a workbook, without writing it, and prints its components with weight, arm, moment and cost, from the sheets Parts, Joints and Budget, in the units of the parts list.',
    )
    .argument('<workbook>', 'an .xlsx file with a parts list, or a .csv file of parts')
    .option('--json', 'print JSON instead of a table')
    .option('--html <file>', 'write the whole report as a page to be printed')
    .option('--match <file>', 'what the columns of a list of your own mean: a CSV file as tarebook match writes it')
    .addHelpText('after', '\nThe exit code is 1 where cells in error are left out of the sums; they are named.')
    .action(async (path: string, options: Options) => {
      await refuseOverwriting(
        [['--html', options.html]],
        [path, ...(options.match === undefined ? [] : [options.match])],
      );
      const progress = new Progress();
      progress.say(`Reading ${path}`);
      const opened = await openList(path);
      const model = options.match === undefined ? opened : await withMatches(opened, options.match);
      const { recalculate } = await import('../calculation');
      const { model: current, notRecalculated } = recalculate(model, {
        progress: (done, total) => progress.say(`Calculated ${done} of ${total} formulas`),
      });
      progress.done();
      const title = titleOf(path);
      if (options.html !== undefined) await writePage(path, options.html, title, { model: current, notRecalculated });
      const { values, names, units, prices } = projectSheetsOf(current);
      const resting = restingOn(values, notRecalculated, names);
      const summary = summarise(values, units, prices?.book);
      if (!summary) {
        if (options.html !== undefined && !options.json) return;
        throw new Stop(EXIT.refused, await withoutParts(path, title, current));
      }
      if (options.json || options.html === undefined)
        process.stdout.write(
          `${options.json ? reportJson(title, summary, resting) : shown(reportText(title, summary, resting))}\n`,
        );
      if (summary.problems.length) throw new Stop(EXIT.findings, '');
    });
}

const NO_PARTS = 'has no parts list, so there are no components to print';

/** What can be done with a workbook that has no parts list. */
async function withoutParts(path: string, title: string, model: WorkbookModel): Promise<string> {
  const { reportPage } = await import('./report-html');
  const lists = listsIn(model);
  if (lists.length > 0) {
    const name = basename(path);
    return `${path} ${NO_PARTS} in its own form. ${lists.map(fitSentence).join(' ')} To use ${lists.length > 1 ? 'them' : 'it'} as ${lists.length > 1 ? 'they are' : 'it is'}: tarebook match ${name} -o match.csv, then tarebook report ${name} --match match.csv.`;
  }
  return reportPage(title, model, today()) === undefined
    ? `${path} ${NO_PARTS}: it needs a sheet Parts with a header row, which Make ready in the task pane adds.`
    : `${path} ${NO_PARTS}. It has an airplane to weigh or load: tarebook report ${basename(path)} --html ${title}.html writes that as a page.`;
}

async function writePage(
  path: string,
  target: string,
  title: string,
  { model, notRecalculated }: Pick<Recalculation, 'model' | 'notRecalculated'>,
): Promise<void> {
  const [{ reportPage }, { writeBytes }] = await Promise.all([import('./report-html'), import('../hosts/node/files')]);
  const page = reportPage(title, model, today(), notRecalculated);
  if (page === undefined)
    throw new Stop(EXIT.refused, `${path} has neither a parts list nor an airplane to weigh or load`);
  await refusing(target, () => writeBytes(target, new TextEncoder().encode(page)));
  process.stdout.write(`Written: ${target}\n`);
}

/** By the calendar of the place where the command runs. */
function today(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}
