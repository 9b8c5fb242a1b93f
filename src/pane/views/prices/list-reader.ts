/** Reads the price list from the workbook, and keeps its rows' ids from one reading to the next. */
import { findPrices } from '../../../project';
import type { TableModel, Workbook } from '../../../sheet';
import { t } from '../../locale';
import { cellText } from './fields';
import { checkLines, findPlaces, keepIds, keepLines, missingColumns, type Places, type PriceLine } from './lines';
import type { Candidate } from './state';

export type Reading =
  | { readonly status: 'absent'; readonly candidate: Candidate | undefined }
  | { readonly status: 'lacking'; readonly table: TableModel; readonly mend: string }
  | {
      readonly status: 'ready';
      readonly table: TableModel;
      readonly places: Places;
      readonly lines: readonly PriceLine[];
    };

const HEADER_WITHIN = 10;

export class ListReader {
  private lastId = 0;
  private lines: readonly PriceLine[] = [];
  private places: Places = new Map();
  private labels = '';

  constructor(private readonly workbook: Workbook) {}

  async read(): Promise<Reading> {
    const table = findPrices([], await this.workbook.tables())?.table;
    if (!table) return { status: 'absent', candidate: await this.candidate() };
    const places = this.placesOf(table.columns);
    const lacking = missingColumns(places).map(({ header }) => header);
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
    const [cells, formulas] =
      data.rows > 0 ? await Promise.all([this.workbook.read(data), this.workbook.readFormulas(data)]) : [[], []];
    const ids = keepIds(this.lines, cells, () => (this.lastId += 1), places.get('item'));
    this.lines = keepLines(
      this.lines,
      checkLines(
        places,
        cells.map((row, index) => ({ id: ids[index]!, cells: row, formulas: formulas[index] ?? [] })),
      ),
    );
    return { status: 'ready', table, places, lines: this.lines };
  }

  /** The same map as long as the labels are the same, so that nothing is drawn again for it. */
  private placesOf(labels: readonly string[]): Places {
    const joined = labels.join('\u0001');
    if (joined !== this.labels) this.places = findPlaces(labels);
    this.labels = joined;
    return this.places;
  }

  /** A sheet called as the table is, with the list's labels in a row, that is no table yet. */
  private async candidate(): Promise<Candidate | undefined> {
    const shown = (await this.workbook.sheets()).flatMap(({ name, visible }) => (visible ? [name] : []));
    const place = findPrices(shown, []);
    const used = place && (await this.workbook.usedRange(place.sheet));
    if (!used) return undefined;
    const top = await this.workbook.read({ ...used, rows: Math.min(HEADER_WITHIN, used.rows) });
    const row = top.findIndex(
      (cells) => missingColumns(findPlaces(cells.map((cell) => cellText(undefined, cell)))).length === 0,
    );
    if (row < 0 || row + 1 >= used.rows) return undefined;
    const labels = top[row]!.map((cell) => cellText(undefined, cell).trim());
    const from = labels.findIndex((label) => label !== '');
    const end = labels.findIndex((label, index) => index > from && label === '');
    const columns = labels.slice(from, end < 0 ? undefined : end);
    if (missingColumns(findPlaces(columns)).length > 0) return undefined;
    return {
      range: {
        ...used,
        row: used.row + row,
        rows: used.rows - row,
        column: used.column + from,
        columns: columns.length,
      },
      columns,
    };
  }
}
