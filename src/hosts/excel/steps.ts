/** Edits as Excel makes them, and as it takes them back: each step, once made, gives the step that undoes it. */
import { absoluteName, type BarChart, type Edit, type RangeAddress, type TableModel } from '../../sheet';
import { LAST_COLUMN, LAST_ROW } from '../../sheet/formula';
import { asBefore, PLACE, placeOf, rangeOf, supports, toExcel, type ExcelCell } from './requests';

type Block = readonly (readonly ExcelCell[])[];

interface Look {
  readonly numberFormat?: unknown[][] | string;
  readonly bold?: boolean;
  /** '' for none. */
  readonly fill?: string;
  /** In points. */
  readonly columnWidth?: number;
}

/** One thing that Excel is told to do. */
export type Step =
  | { readonly kind: 'cells'; readonly range: RangeAddress; readonly cells: Block }
  /** at: among the others, from 0; at their end if left out. */
  | { readonly kind: 'addSheet'; readonly name: string; readonly at?: number }
  | { readonly kind: 'removeSheet'; readonly name: string }
  | { readonly kind: 'addTable'; readonly name: string; readonly range: RangeAddress }
  | { readonly kind: 'removeTable'; readonly name: string }
  /** last: at the table's end. */
  | {
      readonly kind: 'insertRows';
      readonly table: string;
      readonly at: number;
      readonly last: boolean;
      readonly cells: Block;
    }
  | {
      readonly kind: 'removeRows';
      readonly table: string;
      readonly at: number;
      readonly last: boolean;
      readonly count: number;
    }
  | { readonly kind: 'firstRow'; readonly table: string; readonly cells: Block }
  | { readonly kind: 'look'; readonly range: RangeAddress; readonly look: Look }
  | {
      readonly kind: 'choices';
      readonly range: RangeAddress;
      readonly rule: Excel.DataValidationRule | null;
      readonly open?: boolean;
    }
  | { readonly kind: 'freeze'; readonly sheet: string; readonly rows: number; readonly columns: number }
  | { readonly kind: 'addChart'; readonly chart: BarChart }
  | { readonly kind: 'removeChart'; readonly chart: BarChart };

/** Cells that one sync carries: Excel on the web takes 5 MB a request, which is far more than this in any cells of ours. */
export const CELLS_A_SYNC = 50_000;

/** Excel counts widths in points; the port in characters of 7 pixels with 5 beside them, at 96 pixels an inch. */
const points = (characters: number): number => (characters * 7 + 5) * 0.75;

/** What is not on the list is taken without a word, or refused in Excel's words. */
const OPEN: Excel.DataValidationErrorAlert = { showAlert: false, style: 'Information', title: '', message: '' };
const STRICT: Excel.DataValidationErrorAlert = { showAlert: true, style: 'Stop', title: '', message: '' };

/** The longest list of choices that Excel takes as text. */
const LONGEST_LIST = 255;

/** The steps for checked edits, where the tables stand so before them. */
export function stepsOf(edits: readonly Edit[], tables: readonly TableModel[]): Step[] {
  /** Data rows and columns of the tables, after each edit. */
  const sizes = new Map(
    tables.map(({ name, range: { rows, columns } }) => [name.toLowerCase(), { rows: rows - 1, columns }]),
  );
  const sizeOf = (table: string) => sizes.get(table.toLowerCase()) ?? { rows: 0, columns: 0 };
  const grow = (table: string, by: number): void =>
    void sizes.set(table.toLowerCase(), { ...sizeOf(table), rows: sizeOf(table).rows + by });
  // eslint-disable-next-line complexity -- one kind of edit, cell or node after the other
  return edits.flatMap((edit): Step[] => {
    switch (edit.kind) {
      case 'write':
        return inPieces(edit.range).map((range) => ({
          kind: 'cells',
          range,
          cells: edit.cells
            .slice(range.row - edit.range.row, range.row - edit.range.row + range.rows)
            .map((line) => line.map(toExcel)),
        }));
      case 'addSheet':
        return [{ kind: 'addSheet', name: edit.name }];
      case 'removeSheet':
        return [{ kind: 'removeSheet', name: edit.name }];
      case 'addTable':
        sizes.set(edit.name.toLowerCase(), { rows: edit.range.rows - 1, columns: edit.range.columns });
        return [{ kind: 'addTable', name: edit.name, range: edit.range }];
      case 'insertTableRows': {
        if (edit.cells.length === 0) return [];
        const { rows, columns } = sizeOf(edit.table);
        grow(edit.table, edit.cells.length);
        // A line may be shorter than the table is wide; Excel wants it whole.
        const cells = edit.cells.map((line) =>
          Array.from({ length: columns }, (_none, column) => toExcel(line[column] ?? null)),
        );
        return [{ kind: 'insertRows', table: edit.table, at: edit.at, last: edit.at === rows, cells }];
      }
      case 'removeTableRows': {
        const { rows } = sizeOf(edit.table);
        // Excel keeps one row in every table: the last one is emptied.
        const empties = edit.count > 0 && edit.count >= rows;
        const count = empties ? edit.count - 1 : edit.count;
        grow(edit.table, -count);
        return [
          ...(count > 0
            ? [{ kind: 'removeRows', table: edit.table, at: edit.at, last: edit.at + count === rows, count } as const]
            : []),
          ...(empties
            ? [
                {
                  kind: 'firstRow',
                  table: edit.table,
                  cells: [Array.from({ length: sizeOf(edit.table).columns }, () => '')],
                } as const,
              ]
            : []),
        ];
      }
      case 'format': {
        const { range, columnWidth, numberFormat, bold, fill } = edit;
        return [
          {
            kind: 'look',
            range,
            look: {
              ...(numberFormat !== undefined && { numberFormat }),
              ...(bold !== undefined && { bold }),
              ...(fill !== undefined && { fill }),
              ...(columnWidth !== undefined && { columnWidth: points(columnWidth) }),
            },
          },
        ];
      }
      case 'freeze':
        // A pane that stands still is a help and no data: an Excel that cannot set one goes without.
        return supports('1.7') ? [edit] : [];
      case 'chart':
        return [{ kind: 'addChart', chart: edit.chart }];
      case 'choices': {
        const source = edit.from ? `=${absoluteName(edit.from)}` : edit.choices.join(',');
        // A drop-down is a help and no data: one that Excel cannot hold is left out.
        return source.length > LONGEST_LIST
          ? []
          : [
              {
                kind: 'choices',
                range: edit.range,
                rule: { list: { inCellDropDown: true, source } },
                open: edit.open ?? false,
              },
            ];
      }
    }
  });
}

/** A range in pieces of whole rows, none above what a sync carries. */
export function inPieces(range: RangeAddress): RangeAddress[] {
  const rows = Math.max(1, Math.floor(CELLS_A_SYNC / Math.max(1, range.columns)));
  const pieces: RangeAddress[] = [];
  for (let done = 0; done < range.rows; done += rows)
    pieces.push({ ...range, row: range.row + done, rows: Math.min(rows, range.rows - done) });
  return pieces;
}

/** Cells that a step moves, for the count of a sync. */
export const weightOf = (step: Step): number =>
  'cells' in step ? step.cells.length * (step.cells[0]?.length ?? 1) : 1;

/**
 * Queues a step, with the question how it stood before it. Excel answers and does things in the order in which
 * they were queued, so that each answer is of the moment just before its step. Call the result after the sync.
 */
// eslint-disable-next-line complexity -- one kind of step after the other
export function queueStep(context: Excel.RequestContext, step: Step): () => Step {
  const { workbook } = context;
  switch (step.kind) {
    case 'cells':
    case 'firstRow': {
      const place = (): Excel.Range =>
        step.kind === 'cells'
          ? rangeOf(context, step.range)
          : workbook.tables.getItem(step.table).getDataBodyRange().getRow(0);
      const before = askCells(place());
      place().formulas = step.cells as ExcelCell[][];
      return () => ({ ...step, cells: before() });
    }
    case 'addSheet':
      return queueSheet(context, step.name, step.at);
    case 'removeSheet': {
      const removed = workbook.worksheets.getItem(step.name);
      removed.load('name,position');
      removed.delete();
      return () => ({ kind: 'addSheet', name: removed.name, at: removed.position });
    }
    case 'addTable': {
      const table = workbook.worksheets.getItem(step.range.sheet).tables.add(rangeOf(context, step.range), true);
      table.name = step.name;
      return () => ({ kind: 'removeTable', name: step.name });
    }
    case 'removeTable': {
      const table = workbook.tables.getItem(step.name);
      const range = table.getRange();
      range.load(`${PLACE},worksheet/name`);
      table.convertToRange();
      return () => ({ kind: 'addTable', name: step.name, range: placeOf(range.worksheet.name, range) });
    }
    case 'insertRows': {
      const { table, at, last, cells } = step;
      workbook.tables.getItem(table).rows.add(last ? undefined : at, cells as ExcelCell[][]);
      return () => ({ kind: 'removeRows', table, at, last, count: cells.length });
    }
    case 'removeRows': {
      const { at, last, count } = step;
      const table = workbook.tables.getItem(step.table);
      const before = askCells(
        table
          .getDataBodyRange()
          .getRow(at)
          .getResizedRange(count - 1, 0),
      );
      for (let row = at + count - 1; row >= at; row--) table.rows.getItemAt(row).delete();
      return () => ({ kind: 'insertRows', table: step.table, at, last, cells: before() });
    }
    case 'look':
      return queueLook(context, step.range, step.look);
    case 'freeze':
      return queueFreeze(context, step.sheet, step.rows, step.columns);
    case 'addChart':
      return queueChart(context, step.chart);
    case 'removeChart':
      workbook.worksheets.getItem(step.chart.at.sheet).charts.getItem(step.chart.title).delete();
      return () => ({ kind: 'addChart', chart: step.chart });
    case 'choices': {
      const before = rangeOf(context, step.range).dataValidation;
      before.load('rule,type,errorAlert');
      const { dataValidation } = rangeOf(context, step.range);
      if (step.rule) dataValidation.set({ rule: step.rule, errorAlert: step.open ? OPEN : STRICT });
      else dataValidation.clear();
      return () => ({
        kind: 'choices',
        range: step.range,
        rule: before.type === 'None' ? null : before.rule,
        open: before.type !== 'None' && !before.errorAlert.showAlert,
      });
    }
  }
}

function queueSheet({ workbook }: Excel.RequestContext, name: string, at: number | undefined): () => Step {
  const added = workbook.worksheets.add(name);
  // All columns on one page's width, pages numbered; an Excel that cannot be told so prints as it likes.
  if (supports('1.9'))
    added.pageLayout.set({
      orientation: 'Landscape',
      zoom: { horizontalFitToPages: 1 },
      headersFooters: { defaultForAllPages: { leftFooter: '&F: &A', rightFooter: 'Page &P of &N' } },
    });
  if (at !== undefined) added.position = at;
  return () => ({ kind: 'removeSheet', name });
}

function queueChart(context: Excel.RequestContext, chart: BarChart): () => Step {
  const sheet = context.workbook.worksheets.getItem(chart.at.sheet);
  const made = sheet.charts.add('BarClustered', rangeOf(context, chart.source), 'Columns');
  made.set({ name: chart.title, title: { text: chart.title } });
  const corner = (row: number, column: number): Excel.Range => sheet.getRangeByIndexes(row, column, 1, 1);
  const { row, column, rows, columns } = chart.at;
  made.setPosition(corner(row, column), corner(row + rows - 1, column + columns - 1));
  // The first row of the list stands at the top, as on the sheet; an Excel that cannot be told so starts below.
  if (supports('1.7')) made.axes.categoryAxis.reversePlotOrder = true;
  return () => ({ kind: 'removeChart', chart });
}

function queueFreeze({ workbook }: Excel.RequestContext, name: string, rows: number, columns: number): () => Step {
  const sheet = workbook.worksheets.getItem(name);
  const before = sheet.freezePanes.getLocationOrNullObject();
  before.load('rowCount,columnCount');
  if (rows > 0 && columns > 0) sheet.freezePanes.freezeAt(sheet.getRangeByIndexes(0, 0, rows, columns));
  else if (rows > 0) sheet.freezePanes.freezeRows(rows);
  else if (columns > 0) sheet.freezePanes.freezeColumns(columns);
  else sheet.freezePanes.unfreeze();
  // The header, which is the last of these rows, comes out on every page.
  if (rows > 0 && supports('1.9')) sheet.pageLayout.setPrintTitleRows(`$${rows}:$${rows}`);
  // Where only rows stand still, Excel names them in their whole width; and the other way round.
  return () => {
    const [height, width] = before.isNullObject ? [0, 0] : [before.rowCount, before.columnCount];
    return {
      kind: 'freeze',
      sheet: name,
      rows: height <= LAST_ROW ? height : 0,
      columns: width <= LAST_COLUMN ? width : 0,
    };
  };
}

function askCells(range: Excel.Range): () => Block {
  range.load('formulas,values,valueTypes');
  return () =>
    range.formulas.map((line, r) =>
      line.map((formula: unknown, c) => asBefore(formula, range.values[r]?.[c], range.valueTypes[r]?.[c])),
    );
}

function queueLook(context: Excel.RequestContext, place: RangeAddress, look: Look): () => Step {
  const before = rangeOf(context, place);
  before.load('numberFormat,format/columnWidth,format/font/bold,format/fill/color');
  const range = rangeOf(context, place);
  if (look.numberFormat !== undefined) range.numberFormat = look.numberFormat as string[][];
  if (look.bold !== undefined) range.format.font.bold = look.bold;
  if (look.fill === '') range.format.fill.clear();
  else if (look.fill !== undefined) range.format.fill.color = look.fill;
  if (look.columnWidth !== undefined) range.format.columnWidth = look.columnWidth;
  return () => ({ kind: 'look', range: place, look: lookBefore(before, look) });
}

/** What a look replaced. Excel gives null where the cells differed among themselves: that part stays as it was made. */
function lookBefore({ numberFormat, format }: Excel.Range, made: Look): Look {
  const { bold } = format.font;
  const { color } = format.fill;
  return {
    ...(made.numberFormat !== undefined && numberFormat && { numberFormat: numberFormat as unknown[][] }),
    ...(made.bold !== undefined && typeof bold === 'boolean' && { bold }),
    ...(made.fill !== undefined &&
      typeof color === 'string' && { fill: color.toUpperCase() === '#FFFFFF' ? '' : color }),
    ...(made.columnWidth !== undefined &&
      typeof format.columnWidth === 'number' && { columnWidth: format.columnWidth }),
  };
}
