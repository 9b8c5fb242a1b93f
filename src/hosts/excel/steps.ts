/** Edits as Excel makes them, and as it takes them back: each step, once made, gives the step that undoes it. */
import { absoluteName, type BarChart, type Edit, type EditOf, type RangeAddress, type TableModel } from '../../sheet';
import { LAST_COLUMN, LAST_ROW } from '../../sheet/formula';
import { asBefore, PLACE, placeOf, rangeOf, supports, toExcel, inPieces, type ExcelCell } from './requests';

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
  const makers: { readonly [Kind in Edit['kind']]: (edit: EditOf<Kind>) => Step[] } = {
    write: ({ range: whole, cells }) =>
      inPieces(whole).map((range) => ({
        kind: 'cells',
        range,
        cells: cells.slice(range.row - whole.row, range.row - whole.row + range.rows).map((line) => line.map(toExcel)),
      })),
    addSheet: ({ name }) => [{ kind: 'addSheet', name }],
    removeSheet: ({ name }) => [{ kind: 'removeSheet', name }],
    addTable({ name, range }) {
      sizes.set(name.toLowerCase(), { rows: range.rows - 1, columns: range.columns });
      return [{ kind: 'addTable', name, range }];
    },
    insertTableRows({ table, at, cells: given }) {
      if (given.length === 0) return [];
      const { rows, columns } = sizeOf(table);
      grow(table, given.length);
      // A line may be shorter than the table is wide; Excel wants it whole.
      const cells = given.map((line) =>
        Array.from({ length: columns }, (_none, column) => toExcel(line[column] ?? null)),
      );
      return [{ kind: 'insertRows', table, at, last: at === rows, cells }];
    },
    removeTableRows({ table, at, count: given }) {
      const { rows, columns } = sizeOf(table);
      // Excel keeps one row in every table: the last one is emptied.
      const empties = given > 0 && given >= rows;
      const count = empties ? given - 1 : given;
      grow(table, -count);
      const removed: Step = { kind: 'removeRows', table, at, last: at + count === rows, count };
      const emptied: Step = { kind: 'firstRow', table, cells: [Array.from({ length: columns }, () => '')] };
      return [...(count > 0 ? [removed] : []), ...(empties ? [emptied] : [])];
    },
    format: ({ range, columnWidth, numberFormat, bold, fill }) => [
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
    ],
    // A pane that stands still is a help and no data: an Excel that cannot set one goes without.
    freeze: (edit) => (supports('1.7') ? [edit] : []),
    chart: ({ chart }) => [{ kind: 'addChart', chart }],
    choices({ range, from, choices, open = false }) {
      const source = from ? `=${absoluteName(from)}` : choices.join(',');
      // A drop-down is a help and no data: one that Excel cannot hold is left out.
      return source.length > LONGEST_LIST
        ? []
        : [{ kind: 'choices', range, rule: { list: { inCellDropDown: true, source } }, open }];
    },
  };
  const make = <Kind extends Edit['kind']>(edit: EditOf<Kind>): Step[] => makers[edit.kind](edit);
  return edits.flatMap((edit) => make(edit));
}

/** Cells that a step moves, for the count of a sync. */
export const weightOf = (step: Step): number =>
  'cells' in step ? step.cells.length * (step.cells[0]?.length ?? 1) : 1;

type StepOf<Kind extends Step['kind']> = Extract<Step, { kind: Kind }>;
type Queue<Kind extends Step['kind']> = (context: Excel.RequestContext, step: StepOf<Kind>) => () => Step;

/**
 * Queues a step, with the question how it stood before it. Excel answers and does things in the order in which
 * they were queued, so that each answer is of the moment just before its step. Call the result after the sync.
 */
export const queueStep = <Kind extends Step['kind']>(context: Excel.RequestContext, step: StepOf<Kind>): (() => Step) =>
  QUEUES[step.kind](context, step);

const QUEUES: { readonly [Kind in Step['kind']]: Queue<Kind> } = {
  cells: (context, step) => queueCells(step, () => rangeOf(context, step.range)),
  firstRow: ({ workbook }, step) =>
    queueCells(step, () => workbook.tables.getItem(step.table).getDataBodyRange().getRow(0)),
  addSheet: queueSheet,
  removeSheet({ workbook }, { name }) {
    const removed = workbook.worksheets.getItem(name);
    removed.load('name,position');
    removed.delete();
    return () => ({ kind: 'addSheet', name: removed.name, at: removed.position });
  },
  addTable(context, { name, range }) {
    const table = context.workbook.worksheets.getItem(range.sheet).tables.add(rangeOf(context, range), true);
    table.name = name;
    return () => ({ kind: 'removeTable', name });
  },
  removeTable({ workbook }, { name }) {
    const table = workbook.tables.getItem(name);
    const range = table.getRange();
    range.load(`${PLACE},worksheet/name`);
    table.convertToRange();
    return () => ({ kind: 'addTable', name, range: placeOf(range.worksheet.name, range) });
  },
  insertRows({ workbook }, { table, at, last, cells }) {
    workbook.tables.getItem(table).rows.add(last ? undefined : at, cells as ExcelCell[][]);
    return () => ({ kind: 'removeRows', table, at, last, count: cells.length });
  },
  removeRows({ workbook }, { table: name, at, last, count }) {
    const table = workbook.tables.getItem(name);
    const before = askCells(
      table
        .getDataBodyRange()
        .getRow(at)
        .getResizedRange(count - 1, 0),
    );
    for (let row = at + count - 1; row >= at; row--) table.rows.getItemAt(row).delete();
    return () => ({ kind: 'insertRows', table: name, at, last, cells: before() });
  },
  look: queueLook,
  freeze: queueFreeze,
  addChart: queueChart,
  removeChart({ workbook }, { chart }) {
    workbook.worksheets.getItem(chart.at.sheet).charts.getItem(chart.title).delete();
    return () => ({ kind: 'addChart', chart });
  },
  choices(context, { range, rule, open }) {
    const before = rangeOf(context, range).dataValidation;
    before.load('rule,type,errorAlert');
    const { dataValidation } = rangeOf(context, range);
    if (rule) dataValidation.set({ rule, errorAlert: open ? OPEN : STRICT });
    else dataValidation.clear();
    return () => ({
      kind: 'choices',
      range,
      rule: before.type === 'None' ? null : before.rule,
      open: before.type !== 'None' && !before.errorAlert.showAlert,
    });
  },
};

/** Puts cells into a place, which is asked for twice: once for what stood there. */
function queueCells(step: StepOf<'cells' | 'firstRow'>, place: () => Excel.Range): () => Step {
  const before = askCells(place());
  place().formulas = step.cells as ExcelCell[][];
  return () => ({ ...step, cells: before() });
}

function queueSheet({ workbook }: Excel.RequestContext, { name, at }: StepOf<'addSheet'>): () => Step {
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

function queueChart(context: Excel.RequestContext, { chart }: StepOf<'addChart'>): () => Step {
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

function queueFreeze({ workbook }: Excel.RequestContext, { sheet: name, rows, columns }: StepOf<'freeze'>): () => Step {
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

function queueLook(context: Excel.RequestContext, { range: place, look }: StepOf<'look'>): () => Step {
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
