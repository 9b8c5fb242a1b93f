/** A CSV file as the cells of a sheet, and matches as a CSV file. Nothing in a file is ever a formula. */
import { decimalNumber, isGrouped } from '../../core/quantity';
import type { Cell } from '../../sheet';
import { csvRecords, csvText, unclosedSentence } from '../csv';
import { decimalsOf } from './cells';
import { isEmptyRow, type SheetMatch } from './meanings';
import { MATCH_LABELS, matchRows } from './matches-sheet';

/** A code, not a quantity: 0012. */
const CODE = /^0\d/;

/**
 * A number as one; anything else stays the text that it is, and is read with the list.
 * @param commas decimals of the file have a comma: 1.510 is no number with three decimals then
 */
const cellOf = (text: string, commas: boolean): Cell => {
  const typed = text.trim();
  if (typed === '') return null;
  return CODE.test(typed) || (commas && isGrouped(typed)) ? text : (decimalNumber(typed) ?? text);
};

/**
 * The rows of a file; blank rows stay, so that row numbers are the file's.
 * @throws Error with a reason where a quotation mark is not closed.
 */
export function csvCells(text: string): Cell[][] {
  const { records, unclosed } = csvRecords(text);
  if (unclosed !== undefined) throw new Error(unclosedSentence(unclosed));
  const commas = decimalsOf(records.flat()) === 'comma';
  const rows = records.map((line) => line.map((field) => cellOf(field, commas)));
  while (rows.length > 0 && isEmptyRow(rows.at(-1))) rows.pop();
  const width = Math.max(0, ...rows.map((line) => line.length));
  return rows.map((line) => [...line, ...Array.from({ length: width - line.length }, () => null)]);
}

/** Matches as the file that the commands take: the columns of the sheet Matches. */
export const matchesCsv = (matches: readonly SheetMatch[]): string =>
  csvText([MATCH_LABELS, ...matches.flatMap(matchRows)], '\n');
