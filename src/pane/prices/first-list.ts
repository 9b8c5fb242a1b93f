/** Giving a workbook without a price list one. */
import { PRICE_COLUMNS } from '../../core/price';
import { examplePrices, newPriceList, PRICE_TABLE, priceTable, type Workbook } from '../../workbook';
import type { Candidate } from './state';

/** Adds a sheet with a price list of examples; gives the sentences that say what was added. */
export async function makeList(workbook: Workbook, today: string): Promise<string> {
  const { name, add } = await freeSheet(workbook);
  const rows = examplePrices(today);
  await workbook.apply('Add a price list', newPriceList(name, add, rows));
  return `Added the sheet ${name} with the table ${PRICE_TABLE}: ${PRICE_COLUMNS.length} columns, choices for Kind and Sold by, and ${rows.length} invented example rows, marked so in their notes. Put your own prices in their place.`;
}

/** Makes rows that read as a price list the table; gives the sentences that say what was done. */
export async function makeTableOf(workbook: Workbook, candidate: Candidate): Promise<string> {
  await workbook.apply('Make the price list a table', priceTable({ name: PRICE_TABLE, ...candidate }));
  return `The rows on the sheet ${candidate.range.sheet} are the table ${PRICE_TABLE} now, with choices for Kind and Sold by. Nothing in the cells was changed.`;
}

/** A sheet for the list: an empty one of its name, else a new one. */
async function freeSheet(workbook: Workbook): Promise<{ readonly name: string; readonly add: boolean }> {
  const names = new Map((await workbook.sheets()).map(({ name }) => [name.toLowerCase(), name]));
  const own = names.get(PRICE_TABLE.toLowerCase());
  if (own === undefined) return { name: PRICE_TABLE, add: true };
  if ((await workbook.usedRange(own)) === undefined) return { name: own, add: false };
  let number = 2;
  while (names.has(`${PRICE_TABLE} ${number}`.toLowerCase())) number += 1;
  return { name: `${PRICE_TABLE} ${number}`, add: true };
}
