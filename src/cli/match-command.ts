/** `tarebook match`: what the columns of somebody's own list are likely to mean, as a file that `tarebook report` takes. */
import type { Command } from 'commander';
import { writeBytes } from '../hosts/node/files';
import { asksWeight, fitSentence, guessLists, matchesCsv } from '../project';
import type { WorkbookModel } from '../sheet';
import { EXIT, Stop, shown } from './terminal';
import { openList } from './list-file';
import { refuseOverwriting, refusing } from './open';

/** The lists of a workbook that are not of Tarebook's form. */
export const listsIn = ({ sheets }: WorkbookModel) =>
  guessLists(
    sheets
      .filter(({ hidden }) => !hidden)
      .map(({ name, cells }) => ({
        name,
        cells: Array.from(cells, (line) => Array.from(line ?? [], (cell) => cell?.value ?? null)),
      })),
  );

export function addMatch(program: Command): void {
  program
    .command('match')
    .summary('say what the columns of a list of your own mean')
    .description(
      'Prints a CSV file with one row for each column of your own list: sheet, header, what it means, its unit, and whether weights are of each piece or of all. Correct it where it is wrong and give it to tarebook report --match.',
    )
    .argument('<list>', 'an .xlsx or a .csv file with your own headers')
    .option('-o, --output <file>', 'write the rows to this file instead of printing them')
    .addHelpText(
      'after',
      '\nExample: tarebook match list.xlsx -o match.csv, then tarebook report list.xlsx --match match.csv.\nThe exit code is 1 where something has to be filled in first; it is named.',
    )
    .action(async (path: string, { output }: { readonly output?: string }) => {
      await refuseOverwriting([['-o', output]], [path]);
      const model = await openList(path);
      const { recalculate } = await import('../calculation');
      const lists = listsIn(recalculate(model).model);
      if (lists.length === 0)
        throw new Stop(EXIT.refused, `${path} has no sheet with a row of headers such as Part, Qty and Weight.`);
      const rows = matchesCsv(lists.map(({ match }) => match));
      if (output === undefined) process.stdout.write(rows);
      else {
        await refusing(output, () => writeBytes(output, new TextEncoder().encode(rows)));
        process.stdout.write(`Written: ${output}\n`);
      }
      const questions = lists.flatMap((guess) => [
        ...(guess.missing.length > 0 ? [fitSentence(guess)] : []),
        ...(asksWeight(guess)
          ? [
              `The sheet ${guess.match.sheet}: is the weight of each piece or of all pieces of a row? Type "each piece" or "all pieces" under Read as.`,
            ]
          : []),
      ]);
      if (questions.length > 0) throw new Stop(EXIT.findings, shown(questions.join('\n')));
    });
}
