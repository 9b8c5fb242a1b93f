/** The chart beside the sums of the sheet Budget: each component's weight now, its forecast and its design weight. */
import { plainLabel } from '../../core/quantity';
import { TOTAL } from '../../core/mass';
import type { BarChart, Cell, SheetModel, WorkbookModel } from '../../sheet';
import { BUDGET } from '../forms';

/** What is drawn, behind the column of names. */
const DRAWN = ['now', 'forecast', 'budget'];

/** Columns that the chart covers, and the free one before it. */
const COLUMNS = 9;
const GAP = 1;
/** Rows that it covers at least, and for each row of the list. */
const LEAST_ROWS = 18;

/** The chart of a sheet that has the three columns side by side; undefined where there are none. */
function budgetChart(sheet: string, cells: readonly (readonly Cell[])[]): BarChart | undefined {
  const header = cells.findIndex((line) => columnOf(line) > 0);
  if (header < 0) return undefined;
  const line = cells[header]!;
  const column = columnOf(line) - 1;
  let last = cells.length - 1;
  while (last > header && cells[last]!.slice(column).every(isNothing)) last--;
  // Where it ends the list, the total would only make all other bars short.
  if (cells[last]![column] === TOTAL) last--;
  const right = line.findLastIndex((cell) => !isNothing(cell));
  return last > header ? chartOf(sheet, { header, last, column, right, weight: String(line[column + 1]) }) : undefined;
}

interface Sums {
  /** Rows of the header and of the last line, from 0. */
  readonly header: number;
  readonly last: number;
  /** Columns of the names and of what stands last in the header, from 0. */
  readonly column: number;
  readonly right: number;
  /** The label of the weights, with its unit. */
  readonly weight: string;
}

/** The chart of sums that stand so. */
export function chartOf(sheet: string, { header, last, column, right, weight }: Sums): BarChart {
  const rows = last - header + 1;
  return {
    title: `Weight against budget${/ \([^)]*\)$/.exec(weight)?.[0] ?? ''}`,
    source: { sheet, row: header, column, rows, columns: DRAWN.length + 1 },
    at: { sheet, row: header, column: right + 1 + GAP, rows: Math.max(LEAST_ROWS, rows), columns: COLUMNS },
  };
}

const isNothing = (cell: Cell | undefined): boolean => cell === undefined || cell === null;

/** Where the first of the drawn columns stands with a column of names before it; -1 where they do not stand so. */
function columnOf(line: readonly Cell[]): number {
  const labels = Array.from(line, plainLabel);
  return labels.findIndex((_, at) => at > 0 && DRAWN.every((label, index) => labels[at + index] === label));
}

/** A workbook whose sheet Budget has the chart, for a file that is written with that sheet anew. */
export const withBudgetChart = <T extends WorkbookModel>(model: T): T => ({
  ...model,
  sheets: model.sheets.map((sheet): SheetModel => {
    if (sheet.name.toLowerCase() !== BUDGET.sheet.toLowerCase()) return sheet;
    const cells = Array.from(sheet.cells, (line) =>
      Array.from(line ?? [], (cell): Cell =>
        cell?.formula === undefined ? (cell?.value ?? null) : (cell.value ?? ''),
      ),
    );
    const chart = budgetChart(sheet.name, cells);
    return chart ? { ...sheet, charts: [chart] } : sheet;
  }),
});
