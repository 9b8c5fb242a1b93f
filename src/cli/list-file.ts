/** Lists that are not of Tarebook's form: opened as a workbook or a CSV file, with matches from a file of their own. */
import { basename } from 'node:path';
import { readBytes } from '../hosts/node/files';
import { csvCells, MATCHES, matchedNames } from '../project';
import { decodeText, freeSheetName, type Cell, type SheetModel, type WorkbookModel } from '../sheet';
import { EXIT, Stop } from './terminal';
import { openModel, refusing } from './open';

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
