/** A CSV file as the cells of a sheet, and matches as a CSV file. Nothing in a file is ever a formula. */
import Papa from 'papaparse';
import { decimalNumber, isGrouped } from '../../core/quantity';
import type { Cell } from '../../sheet';
import { decimalsOf } from './cells';
import { isEmptyRow, type SheetMatch } from './match';
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

/** As many rows tell what parts the fields of a file. */
const LOOKED_AT = 40;

/**
 * The rows of a file; blank rows stay, so that row numbers are the file's.
 * @throws Error with a reason where a quotation mark is not closed.
 */
export function csvCells(text: string): Cell[][] {
  const content = text.replace(/^\uFEFF/, '');
  const parsed = Papa.parse<string[]>(content, { delimiter: delimiterOf(content) });
  const broken = parsed.errors.find(({ type }) => type === 'Quotes');
  if (broken)
    throw new Error(`Row ${(broken.row ?? 0) + 1} has a quotation mark that is not closed. Close it and try again.`);
  const commas = decimalsOf(parsed.data.flat()) === 'comma';
  const rows = parsed.data.map((line) => line.map((text) => cellOf(text, commas)));
  while (rows.length > 0 && isEmptyRow(rows.at(-1))) rows.pop();
  const width = Math.max(0, ...rows.map((line) => line.length));
  return rows.map((line) => [...line, ...Array.from({ length: width - line.length }, () => null)]);
}

/** What parts most rows into the same number of cells, more than one. */
function delimiterOf(text: string): string {
  const scored = [';', '\t', ','].map((delimiter) => {
    const { data } = Papa.parse<string[]>(text, { delimiter, preview: LOOKED_AT });
    const counts = new Map<number, number>();
    for (const line of data) if (line.length > 1) counts.set(line.length, (counts.get(line.length) ?? 0) + 1);
    return { delimiter, rows: Math.max(0, ...counts.values()) };
  });
  return scored.reduce((best, one) => (one.rows > best.rows ? one : best)).delimiter;
}

/** Matches as the file that the commands take: the columns of the sheet Matches. */
export const matchesCsv = (matches: readonly SheetMatch[]): string =>
  `${Papa.unparse([[...MATCH_LABELS], ...matches.flatMap(matchRows)], { newline: '\n' })}\n`;
