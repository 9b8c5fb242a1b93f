import { basename } from 'node:path';
import type { Command } from 'commander';
import { projectSheetsOf, summarise } from '../project';
import { EXIT, Stop } from './exit';
import { openModel, refusing } from './open';
import { Progress } from './progress';
import { reportJson, reportText } from './report';
import { shown } from './terminal';

interface Options {
  readonly json?: boolean;
  readonly html?: string;
}

export function addReport(program: Command): void {
  program
    .command('report')
    .summary('print the components with weight, arm, moment and cost')
    .description(
      'Recalculates a workbook, without writing it, and prints its components with weight, arm, moment and cost, from the sheets Parts, Joints and Budget, in the units of the parts list.',
    )
    .argument('<workbook>', 'an .xlsx file with a parts list')
    .option('--json', 'print JSON instead of a table')
    .option('--html <file>', 'write the whole report as a page to be printed')
    .addHelpText('after', '\nThe exit code is 1 where cells in error are left out of the sums; they are named.')
    .action(async (path: string, options: Options) => {
      const progress = new Progress();
      progress.say(`Reading ${path}`);
      const model = await openModel(path);
      const { recalculate } = await import('../hosts/node');
      const { model: current } = await recalculate(model, {
        progress: (done, total) => progress.say(`Calculated ${done} of ${total} formulas`),
      });
      progress.done();
      const title = basename(path).replace(/\.xlsx$/i, '');
      if (options.html !== undefined) await writePage(path, options.html, title, current);
      const { values, units } = projectSheetsOf(current);
      const summary = summarise(values, units);
      if (!summary) {
        if (options.html !== undefined) return;
        throw new Stop(EXIT.refused, `${path} has no parts list: no sheet Parts with a header row`);
      }
      if (options.json || options.html === undefined)
        process.stdout.write(`${options.json ? reportJson(title, summary) : shown(reportText(title, summary))}\n`);
      if (summary.problems.length) throw new Stop(EXIT.findings, '');
    });
}

async function writePage(
  path: string,
  target: string,
  title: string,
  model: Parameters<typeof projectSheetsOf>[0],
): Promise<void> {
  const [{ reportPage }, { writeBytes }] = await Promise.all([import('./report-html'), import('../hosts/node/files')]);
  const page = reportPage(title, model, today());
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
