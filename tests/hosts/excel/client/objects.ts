/** Ranges, sheets and tables of the workbook, as requests reach them. */
import { ExcelFault, type FakeBook, type FakeChart, type FakeSheet, type FakeTable, type Place } from '../fake/book';
import { NOTHING, type Served } from './requests';

const ROWS = 1_048_576;
const COLUMNS = 16_384;

interface Spot {
  readonly sheet: FakeSheet;
  readonly place: Place;
}

/** What the objects need to know and tell. */
export interface Surroundings {
  readonly book: FakeBook;
  /** Called with a sheet that was written to. */
  written(sheet: FakeSheet): void;
  selected(): void;
}

const spots = new WeakMap<Served, Spot>();

/** The place of a range that is given as an argument. */
function spotOf(range: Served): Spot {
  const spot = spots.get(range);
  if (!spot) throw new ExcelFault('InvalidArgument', 'A range is wanted here.');
  return spot;
}

let references = 0;

/** A range; `spot` is checked, since Excel gives none that is off its sheet. */
export function range(around: Surroundings, spot: Spot | undefined): Served | typeof NOTHING {
  if (!spot) return NOTHING;
  const { sheet, place } = spot;
  const { row, column, rows, columns } = place;
  if (row < 0 || column < 0 || rows < 1 || columns < 1 || row + rows > ROWS || column + columns > COLUMNS)
    throw new ExcelFault('InvalidArgument', 'The range is not on the sheet.');
  const cells = (of: (row: number, column: number) => unknown) => (): unknown =>
    Array.from({ length: rows }, (_row, r) => Array.from({ length: columns }, (_column, c) => of(row + r, column + c)));
  const derived = (change: Partial<Place>): Served | typeof NOTHING =>
    range(around, { sheet, place: { ...place, ...change } });
  const write = (block: unknown): void => {
    sheet.write(place, block);
    around.written(sheet);
  };
  const reference = `range ${(references += 1)}`;
  const made: Served = {
    values: {
      values: cells((r, c) => sheet.cell(r, c).value),
      valueTypes: cells((r, c) => sheet.cell(r, c).type),
      formulas: cells((r, c) => sheet.cell(r, c).formula ?? sheet.cell(r, c).value),
      numberFormat: cells((r, c) => sheet.looks.get(`${r},${c}`)?.numberFormat ?? 'General'),
      rowIndex: () => row,
      columnIndex: () => column,
      rowCount: () => rows,
      columnCount: () => columns,
    },
    setters: {
      values: write,
      formulas: write,
      numberFormat: (value: unknown) => {
        paint(spot, { numberFormat: value });
        around.written(sheet);
      },
    },
    parts: {
      worksheet: () => worksheet(around, () => sheet),
      format: () => format(spot),
      dataValidation: () => dataValidation(spot),
    },
    methods: {
      getRow: (at: number) => derived({ row: row + at, rows: 1 }),
      getResizedRange: (more: number, wider: number) => derived({ rows: rows + more, columns: columns + wider }),
      getOffsetRange: (down: number, right: number) => derived({ row: row + down, column: column + right }),
      getCell: (down: number, right: number) =>
        derived({ row: row + down, column: column + right, rows: 1, columns: 1 }),
      getLastCell: () => derived({ row: row + rows - 1, column: column + columns - 1, rows: 1, columns: 1 }),
      // The library writes a large block in pieces, and asks for each by its corners.
      getBoundingRect: (other: Served) => {
        const { place: second } = spotOf(other);
        const [top, left] = [Math.min(row, second.row), Math.min(column, second.column)];
        return derived({
          row: top,
          column: left,
          rows: Math.max(row + rows, second.row + second.rows) - top,
          columns: Math.max(column + columns, second.column + second.columns) - left,
        });
      },
      getEntireColumn: () => derived({ row: 0, rows: ROWS }),
      getIntersection: (other: Served) => {
        const { place: second } = spotOf(other);
        const [top, left] = [Math.max(row, second.row), Math.max(column, second.column)];
        return derived({
          row: top,
          column: left,
          rows: Math.min(row + rows, second.row + second.rows) - top,
          columns: Math.min(column + columns, second.column + second.columns) - left,
        });
      },
      getSpillParentOrNullObject: () => {
        const anchor = sheet.looks.get(`${row},${column}`)?.spillParent as Place | undefined;
        return range(around, anchor && { sheet, place: anchor });
      },
      select: () => {
        around.book.selection = spot;
        around.selected();
      },
    },
    reference: () => reference,
  };
  spots.set(made, spot);
  return made;
}

function paint({ sheet, place }: Spot, look: Record<string, unknown>): void {
  sheet.checkOpen();
  for (let r = 0; r < place.rows; r++) {
    for (let c = 0; c < place.columns; c++) {
      const key = `${place.row + r},${place.column + c}`;
      const own = Object.fromEntries(
        Object.entries(look).map(([part, value]) => [
          part,
          Array.isArray(value) ? (value as unknown[][])[r]?.[c] : value,
        ]),
      );
      sheet.looks.set(key, { ...sheet.looks.get(key), ...own });
    }
  }
}

/** A part of the look where all cells share it, else null. */
function shared({ sheet, place }: Spot, part: string, otherwise: unknown): unknown {
  const found = new Set(
    Array.from(
      { length: place.rows * place.columns },
      (_cell, i) =>
        sheet.looks.get(`${place.row + Math.floor(i / place.columns)},${place.column + (i % place.columns)}`)?.[part] ??
        otherwise,
    ),
  );
  return found.size === 1 ? [...found][0] : null;
}

/** An object with one part of the look. */
const oneLook = (spot: Spot, part: string, otherwise: unknown, more: Served = {}): Served => ({
  ...more,
  values: { [part]: () => shared(spot, part, otherwise) },
  setters: { [part]: (value: unknown) => paint(spot, { [part]: value }) },
});

const format = (spot: Spot): Served =>
  oneLook(spot, 'columnWidth', 48, {
    parts: {
      font: () => oneLook(spot, 'bold', false),
      fill: () =>
        oneLook(spot, 'color', '#FFFFFF', { methods: { clear: () => void paint(spot, { color: undefined }) } }),
    },
  });

function dataValidation(spot: Spot): Served {
  const rule = (): unknown => shared(spot, 'rule', undefined);
  return {
    values: {
      rule: () => rule() ?? {},
      type: () => (rule() ? 'List' : 'None'),
      errorAlert: () => shared(spot, 'alert', { showAlert: true }),
    },
    setters: {
      rule: (value: unknown) => paint(spot, { rule: value }),
      errorAlert: (value: unknown) => paint(spot, { alert: value }),
    },
    methods: { clear: () => void paint(spot, { rule: undefined, alert: undefined }) },
  };
}

function charts(find: () => FakeSheet): Served {
  return {
    methods: {
      getCount: () => find().charts.length,
      add: (type: string, source: Served, seriesBy: string) => {
        const sheet = find();
        sheet.checkOpen();
        if (seriesBy !== 'Columns') throw new ExcelFault('InvalidArgument');
        const made = {
          name: `Chart ${sheet.charts.length + 1}`,
          title: '',
          type,
          source: spotOf(source).place,
          isReversed: false,
        };
        sheet.charts.push(made);
        return chart(find, made);
      },
      getItem: (key: string) => {
        const found = find().charts.find(({ name }) => name === key);
        if (!found) throw new ExcelFault('ItemNotFound');
        return chart(find, found);
      },
    },
  };
}

const chart = (find: () => FakeSheet, made: FakeChart): Served => ({
  values: { name: () => made.name },
  setters: { name: (name: string) => void (made.name = name) },
  parts: {
    title: () => ({ setters: { text: (text: string) => void (made.title = text) } }),
    axes: () => ({
      parts: {
        categoryAxis: () => ({ setters: { reversePlotOrder: (is: boolean) => void (made.isReversed = is) } }),
      },
    }),
  },
  methods: {
    setPosition: (first: Served, last: Served) => {
      const [from, to] = [spotOf(first).place, spotOf(last).place];
      const [rows, columns] = [to.row + to.rows - from.row, to.column + to.columns - from.column];
      made.at = { row: from.row, column: from.column, rows, columns };
    },
    delete: () => void find().charts.splice(find().charts.indexOf(made), 1),
  },
});

function pageLayout(find: () => FakeSheet): Served {
  const setters = (...names: readonly string[]): Record<string, (value: unknown) => void> =>
    Object.fromEntries(names.map((name) => [name, (value: unknown) => void (find().page[name] = value)]));
  return {
    setters: setters('orientation', 'zoom'),
    parts: {
      headersFooters: () => ({
        parts: { defaultForAllPages: () => ({ setters: setters('leftFooter', 'rightFooter') }) },
      }),
    },
    methods: { setPrintTitleRows: (rows: string) => void (find().page.titleRows = rows) },
  };
}

export function worksheet(around: Surroundings, find: () => FakeSheet): Served {
  const freeze = (rows: number, columns: number): void => void (find().frozen = { rows, columns });
  return {
    values: {
      id: () => find().id,
      name: () => find().name,
      visibility: () => find().visibility,
      position: () => around.book.sheets.indexOf(find()),
    },
    setters: {
      position: (at: number) => {
        const sheet = find();
        const others = around.book.sheets.filter((one) => one !== sheet);
        around.book.sheets = [...others.slice(0, at), sheet, ...others.slice(at)];
      },
    },
    parts: {
      protection: () => ({ values: { protected: () => find().protected } }),
      shapes: () => ({ methods: { getCount: () => 0 } }),
      charts: () => charts(find),
      pageLayout: () => pageLayout(find),
      freezePanes: () => ({
        methods: {
          getLocationOrNullObject: () => {
            const { rows, columns } = find().frozen;
            const place = { row: 0, column: 0, rows: rows || ROWS, columns: columns || COLUMNS };
            return range(around, rows + columns > 0 ? { sheet: find(), place } : undefined);
          },
          freezeAt: (of: Served) => freeze(spotOf(of).place.rows, spotOf(of).place.columns),
          freezeRows: (count: number) => freeze(count, 0),
          freezeColumns: (count: number) => freeze(0, count),
          unfreeze: () => freeze(0, 0),
        },
      }),
      tables: () => ({
        methods: {
          add: (of: Served, hasHeaders: boolean) => {
            const sheet = find();
            sheet.checkOpen();
            if (!hasHeaders) throw new ExcelFault('InvalidArgument');
            const { tables } = around.book;
            const made = { name: `Table${tables.length + 1}`, sheet, place: spotOf(of).place };
            tables.push(made);
            return table(around, () => made);
          },
        },
      }),
    },
    methods: {
      getRangeByIndexes: (row: number, column: number, rows: number, columns: number) =>
        range(around, { sheet: find(), place: { row, column, rows, columns } }),
      getUsedRangeOrNullObject: () => {
        const place = find().used();
        return range(around, place && { sheet: find(), place });
      },
      activate: () => void find(),
      delete: () => around.book.removeSheet(find()),
    },
  };
}

export function table(around: Surroundings, find: () => FakeTable): Served {
  const body = (): Spot => {
    const { sheet, place } = find();
    return { sheet, place: { ...place, row: place.row + 1, rows: place.rows - 1 } };
  };
  const touch = (action: (found: FakeTable) => void): void => {
    const found = find();
    action(found);
    around.written(found.sheet);
  };
  const headers = (): string[] => {
    const { sheet, place } = find();
    return Array.from({ length: place.columns }, (_column, c) => String(sheet.cell(place.row, place.column + c).value));
  };
  const column = (at: number): Served => ({
    values: { name: () => headers()[at], index: () => at },
    methods: {
      getDataBodyRange: () => {
        const { sheet, place } = body();
        return range(around, { sheet, place: { ...place, column: place.column + at, columns: 1 } });
      },
    },
  });
  return {
    values: { id: () => find().name, name: () => find().name, showHeaders: () => true },
    setters: {
      name: (value: string) => {
        const { tables, names } = around.book;
        const taken = [...tables, ...names].some(
          (other) => other !== find() && other.name.toLowerCase() === value.toLowerCase(),
        );
        if (taken) throw new ExcelFault('ItemAlreadyExists');
        find().name = value;
      },
    },
    parts: {
      worksheet: () => worksheet(around, () => find().sheet),
      columns: () => ({
        items: () => headers().map((_name, at) => column(at)),
        item: (key: string) => {
          const at = headers().findIndex((name) => name.toLowerCase() === key.toLowerCase());
          if (at < 0) throw new ExcelFault('ItemNotFound');
          return column(at);
        },
      }),
      rows: () => ({
        methods: {
          add: (index: number | null, values: unknown) => {
            touch((found) => around.book.insertRows(found, index, values));
            return {};
          },
          getItemAt: (row: number) => ({
            methods: { delete: () => touch((found) => around.book.removeRow(found, row)) },
          }),
        },
      }),
    },
    methods: {
      getRange: () => range(around, find()),
      getDataBodyRange: () => range(around, body()),
      convertToRange: () => {
        const gone = find();
        around.book.tables = around.book.tables.filter((one) => one !== gone);
        return range(around, gone);
      },
    },
  };
}
