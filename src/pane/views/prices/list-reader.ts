/** The price table as the project has read it, whose rows keep their ids from one reading to the next. */
import { pricePlaces } from '../../../core/price';
import { HEADER_WITHIN } from '../../../core/table';
import { cellsIn, findPrices, type ProjectSheets, type WantedSheets } from '../../../project';
import type { TableModel } from '../../../sheet';
import { t } from '../../locale';
import { fileText } from './fields';
import { checkLines, keepIds, keepLines, missingColumns, type Places, type PriceLine, type RawLine } from './lines';
import type { ListCandidate } from './prices-state';

/** The rows of a table with all columns that a list needs. */
export interface Rows {
  readonly status: 'ready';
  readonly table: TableModel;
  readonly places: Places;
  readonly rows: readonly RawLine[];
}

export type Reading =
  | { readonly status: 'absent'; readonly candidate: ListCandidate | undefined }
  | { readonly status: 'lacking'; readonly table: TableModel; readonly mend: string }
  | Rows;

/** The sheet of the price list; its formulas, since cells can be typed in. */
export const priceSheet: WantedSheets = ({ prices }) => (prices ? [{ sheet: prices.sheet, formulas: true }] : []);

export class ListReader {
  private lastId = 0;
  private lines: readonly PriceLine[] = [];
  private places: Places = new Map();
  private labels = '';

  read(sheets: ProjectSheets): Reading {
    const table = findPrices([], sheets.tables)?.table;
    if (!table) return { status: 'absent', candidate: candidateIn(sheets) };
    const places = this.placesOf(table.columns);
    const lacking = missingColumns(places).map(({ label }) => label);
    if (lacking.length > 0) {
      const mend = t(
        'The table {table} on the sheet {sheet} has no {count, plural, one {column} other {columns}} {columns}. Put the label in its header row; the list shows when it is there.',
        {
          table: table.name,
          sheet: table.range.sheet,
          count: lacking.length,
          columns: lacking.join(', '),
        },
      );
      return { status: 'lacking', table, mend };
    }
    const data = { ...table.range, row: table.range.row + 1, rows: table.range.rows - 1 };
    const cells = cellsIn(sheets.values(data.sheet) ?? [], data);
    const formulas = cellsIn(sheets.formulas(data.sheet) ?? [], data);
    const ids = keepIds(this.lines, cells, () => (this.lastId += 1), places.get('item'));
    return {
      status: 'ready',
      table,
      places,
      rows: cells.map((row, index) => ({ id: ids[index]!, cells: row, formulas: formulas[index] ?? [] })),
    };
  }

  /** The rows with what the project's price list says of them: those that are as they were as the objects that they were. */
  check({ places, rows }: Rows, { prices }: ProjectSheets): PriceLine[] {
    return keepLines(this.lines, checkLines(places, rows, prices?.book.list));
  }

  /** Goes on from these rows. */
  keep(lines: readonly PriceLine[]): void {
    this.lines = lines;
  }

  /** Gives the same map as long as the labels are the same, so that nothing is drawn again for it. */
  private placesOf(labels: readonly string[]): Places {
    const joined = labels.join('\u0001');
    if (joined !== this.labels) this.places = pricePlaces(labels);
    this.labels = joined;
    return this.places;
  }
}

/** A sheet called as the table is, with the list's labels in a row, that is no table yet. */
function candidateIn({ sheets, values }: ProjectSheets): ListCandidate | undefined {
  const shown = sheets.flatMap(({ name, visible }) => (visible ? [name] : []));
  const sheet = findPrices(shown, [])?.sheet;
  const cells = sheet === undefined ? undefined : values(sheet);
  if (sheet === undefined || !cells) return undefined;
  const row = cells
    .slice(0, HEADER_WITHIN)
    .findIndex((line) => missingColumns(pricePlaces(line.map((cell) => fileText(undefined, cell)))).length === 0);
  if (row < 0 || row + 1 >= cells.length) return undefined;
  const labels = cells[row]!.map((cell) => fileText(undefined, cell).trim());
  const from = labels.findIndex((label) => label !== '');
  const end = labels.findIndex((label, index) => index > from && label === '');
  const columns = labels.slice(from, end < 0 ? undefined : end);
  if (missingColumns(pricePlaces(columns)).length > 0) return undefined;
  return { range: { sheet, row, rows: cells.length - row, column: from, columns: columns.length }, columns };
}
