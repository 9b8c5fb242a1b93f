/**
 * `tarebook match`: what the columns of somebody's own list are likely to mean, as a file that `tarebook report` takes.
 * Such lists are opened as a workbook or a CSV file, with matches from a file of their own.
 */
import type { Command } from 'commander';
import { readBytes, writeBytes } from '../hosts/node/files';
import { asksWeight, csvCells, fitSentence, guessLists, matchedNames, MATCHES, matchesCsv } from '../project';
import { decodeText, freeSheetName, type Cell, type SheetModel, type WorkbookModel } from '../sheet';
import { EXIT, shown, Stop } from './terminal';
import { openModel, refuseOverwriting, refusing } from './open';
import { basename } from 'node:path';

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

const CSV = /\.(?:csv|tsv|txt)$/i;

/** A file's name without what says its kind. */
export const titleOf = (path: string): string => basename(path).replace(/\.(?:xlsx|csv|tsv|txt)$/i, '');

const sheetOf = (name: string, cells: readonly (readonly Cell[])[]): SheetModel => ({
  name,
  cells: cells.map((line) => line.map((value) => (value === null ? undefined : { value }))),
  tables: [],
});

/** The cells of a CSV file; Stop with one clear line where it cannot be read. */
async function cellsOf(path: string): Promise<Cell[][]> {
  const bytes = await refusing(path, () => readBytes(path));
  try {
    return csvCells(decodeText(bytes));
  } catch (error) {
    throw new Stop(EXIT.refused, `${path}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** A workbook, or a CSV file as a workbook of one sheet that is called as the file. */
export async function openList(path: string): Promise<WorkbookModel> {
  if (!CSV.test(path)) return openModel(path);
  const name = freeSheetName(titleOf(path) || 'List', new Set());
  return { sheets: [sheetOf(name, await cellsOf(path))], names: [], styles: [] };
}

/** The workbook with the matches of a file in place of its own. */
export async function withMatches(model: WorkbookModel, path: string): Promise<WorkbookModel> {
  const cells = await cellsOf(path);
  const named = matchedNames(cells);
  if (named.length === 0)
    throw new Stop(
      EXIT.refused,
      `${path} has no header row with Sheet, Header and Means, or no row below it: tarebook match writes such a file.`,
    );
  const own = model.sheets.filter(({ name }) => name.toLowerCase() !== MATCHES.sheet.toLowerCase());
  return { ...model, sheets: [...own, sheetOf(MATCHES.sheet, cells)] };
}
