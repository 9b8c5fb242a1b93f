import type { Command } from 'commander';
import type { CutOptions } from './cut';
import { EXIT, Stop } from './terminal';

/** As they are typed: the direction is not checked yet. */
type Options = Omit<CutOptions, 'strips'> & { readonly strips?: string };

export function addCut(program: Command): void {
  program
    .command('cut')
    .summary('plan how to cut sheets or bars')
    .description(
      'Makes a cutting plan of least cost from a list of parts and a list of stock, both CSV files with a header row. With a column width it is a plan of sheets: strips along the sheet, then pieces from each strip; without one, of bars.',
    )
    .requiredOption('--parts <file>', 'name, length, width (sheets), quantity; grain: along, across or any')
    .requiredOption('--stock <file>', 'name, length, width (sheets), cost, available (blank: unlimited); offcut: yes')
    .option('--kerf <size>', 'what a cut takes away', number('kerf', 0))
    .option('--rotate', 'let sheet parts be turned; without it they keep their direction')
    .option('--seconds <number>', 'time to search, 10 where it is not given', number('seconds', 0))
    .option('--seed <number>', 'another whole number gives another search', number('seed', 0))
    .option('--strips <direction>', 'of a sheet: along its length, across it, or either')
    .option('--scrap <size>', 'parts with no side longer than this come from scrap', number('scrap', 0))
    .option('--keep <size>', 'leftovers smaller than this are waste', number('keep', 0))
    .option('--json', 'print JSON')
    .option('--csv <file>', 'write the cut list')
    .option('--dxf <file>', 'write the drawing')
    .addHelpText(
      'after',
      '\nThe plan comes with a proven lower bound: no plan of its kind costs less. Ctrl-C ends the search and prints the best plan so far.\nThe exit code is 1 where the stock does not suffice.',
    )
    .action(async ({ strips, ...options }: Options) => {
      if (strips !== undefined && !isDirection(strips))
        throw new Stop(EXIT.refused, `strips: got "${strips}"; takes along, across or either`);
      const { runCut } = await import('./cut');
      await runCut({ ...options, ...(strips === undefined ? {} : { strips }) });
    });
}

const isDirection = (text: string): text is 'along' | 'across' | 'either' =>
  ['along', 'across', 'either'].includes(text);

const number =
  (name: string, least: number) =>
  (text: string): number => {
    const value = Number(text);
    if (text.trim() === '' || !Number.isFinite(value) || value < least)
      throw new Stop(EXIT.refused, `${name}: got "${text}"; takes a number of ${least} or more`);
    return value;
  };
