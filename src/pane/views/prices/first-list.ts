/** Giving a workbook without a price list one. */
import { PRICE_COLUMNS, priceColumn } from '../../../core/price';
import { type Workbook } from '../../../sheet';
import { examplePrices, newPriceList, PRICE_TABLE, priceTable } from '../../../project';
import { t } from '../../locale';
import type { ListCandidate } from './prices-state';

/** Labels of the columns that have choices. */
const CHOSEN = { kind: priceColumn('kind').label, soldBy: priceColumn('soldBy').label };

/** Adds a sheet with a price list of examples; gives the sentences that say what was added. */
export async function makeList(workbook: Workbook, today: string): Promise<string> {
  const { name, add } = await freeSheet(workbook);
  const rows = examplePrices(today);
  await workbook.apply(t('Add a price list'), newPriceList(name, add, rows));
  return t(
    'Added the sheet {sheet} with the table {table}: {columns, number} columns, choices for {kind} and {soldBy}, and {rows, number} invented example rows, marked so in their notes. Put your own prices in their place.',
    {
      ...CHOSEN,
      sheet: name,
      table: PRICE_TABLE,
      columns: PRICE_COLUMNS.length,
      rows: rows.length,
    },
  );
}

/** Makes rows that read as a price list the table; gives the sentences that say what was done. */
export async function makeTableOf(workbook: Workbook, candidate: ListCandidate): Promise<string> {
  await workbook.apply(t('Make the price list a table'), priceTable({ name: PRICE_TABLE, ...candidate }));
  return t(
    'The rows on the sheet {sheet} are the table {table} now, with choices for {kind} and {soldBy}. Nothing in the cells was changed.',
    { ...CHOSEN, sheet: candidate.range.sheet, table: PRICE_TABLE },
  );
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
