/** The price list as comma-separated text, going out and coming in. Nothing in a file is ever a formula. */
import { pricePlaces, type PriceColumnKey } from '../../../core/price';
import { csvText, guard } from '../../../project';
import { readCsvFile, type CsvFile } from '../../shared/csv-file';
import { fileText } from './fields';
import type { Places, PriceLine } from './lines';

/** The list as it stands in the sheet, with columns of the user's own; dates as year-month-day. */
export function writeCsv(columns: readonly string[], places: Places, lines: readonly PriceLine[]): string {
  const keys = new Map<number, PriceColumnKey>([...places].map(([key, place]) => [place, key]));
  const rows = lines
    .filter(({ blank }) => !blank)
    .map(({ cells }) => columns.map((_, place) => exportText(keys.get(place), cells[place] ?? null)));
  return csvText([columns.map(guard), ...rows]);
}

function exportText(key: PriceColumnKey | undefined, cell: PriceLine['cells'][number]): string {
  const text = fileText(key, cell);
  return typeof cell === 'string' ? guard(text) : text;
}

/** A price list's file. */
export const readCsv = (text: string): CsvFile => readCsvFile(text, known);

const known = (cells: readonly string[]): number => pricePlaces(cells).size;
