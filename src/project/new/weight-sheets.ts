/** The edits that add the weight log and the growth allowances, and a day's entries to the log. */
import { sameName } from '../../core/names';
import { serialFromIso } from '../../core/price';
import { GROWTH_ALLOWANCES, GROWTH_SOURCE, TOTAL } from '../../core/mass';
import { inUnit, unitIn, type Unit, type UnitSystem } from '../../core/quantity';
import type { CellInput, Edit } from '../../sheet';
import { ALLOWANCES, LOG, STATUSES, type LogKey } from '../forms';
import type { LogEntry, WeightLog } from '../log';
import { labelsOf, LOOKS, SheetPlan } from './plan';

/** Row of the header on sheets that are made here, from 0. */
const HEADER_ROW = 4;
/** Rows below it that are given their looks. */
const LOG_ROWS = 300;

/** What one entry of the log says, lb. */
export interface LogLine {
  readonly component: string;
  readonly weight: number;
  readonly forecast?: number | undefined;
  readonly budget?: number | undefined;
  readonly note?: string;
}

const first = HEADER_ROW + 2;

/** Adds the sheet Log with its header, in the units of the workbook. */
export function newLogSheet(add = true, units: UnitSystem = 'in-lb'): Edit[] {
  const last = first + LOG_ROWS - 1;
  return new SheetPlan(LOG.sheet)
    .heading('Weight log', [
      'One row a component and day; a row "Total" stands for everything. Add today’s from the task pane, or type it.',
      'A forecast is the weight expected of the finished component.',
    ])
    .header(HEADER_ROW, labelsOf(LOG, units))
    .look(`A${first}:A${last}`, 'date')
    .look(`B${first}:B${last}`, 'text')
    .look(`C${first}:E${last}`, 'inches')
    .look(`F${first}:F${last}`, 'text')
    .freeze(HEADER_ROW + 1)
    .widths([12, 20, 12, 13, 12, 44])
    .edits(add);
}

/** Adds the sheet Allowances with the default figures, marked as what they are. */
export function newAllowancesSheet(add = true): Edit[] {
  const last = first + STATUSES.length - 1;
  return new SheetPlan(ALLOWANCES.sheet)
    .heading('Growth allowances', [
      'How much a weight is likely to grow until the part is finished, by its status. Put your own experience in the place of these.',
      `${GROWTH_SOURCE}.`,
    ])
    .header(HEADER_ROW, labelsOf(ALLOWANCES))
    .rows(
      first - 1,
      GROWTH_ALLOWANCES.map(({ status, fraction }) => [status, fraction, 'rule of thumb, from memory, verify']),
    )
    .look(`A${first}:A${last}`, 'text')
    .look(`B${first}:B${last}`, 'percent')
    .look(`C${first}:C${last}`, 'text')
    .widths([14, 11, 52])
    .edits(add);
}

/**
 * A day's entries: over those of the same day and component where the log has them, else below the last one.
 * @param log undefined: the sheet has just been made by newLogSheet
 * @param date "2026-03-31"
 * @param made in which units newLogSheet has made the sheet
 */
export function logEdits(
  log: WeightLog | undefined,
  date: string,
  lines: readonly LogLine[],
  made: UnitSystem = 'in-lb',
): Edit[] {
  const columns = log?.form.columns ?? Object.fromEntries(LOG.columns.map(({ key }, index) => [key, index] as const));
  const weight = unitIn('weight', made);
  const units = log?.form.units ?? { weight, forecast: weight, budget: weight };
  let next = log ? Math.max(log.form.header, ...log.form.rows.map(({ row }) => row)) + 1 : HEADER_ROW + 1;
  return lines.flatMap((line) => {
    const known = log?.entries.findLast((entry) => entry.date === date && sameName(entry.component, line.component));
    return entryEdits(columns, units, known ? known.row : next++, { date, line, known });
  });
}

function entryEdits(
  columns: Readonly<Partial<Record<LogKey, number>>>,
  units: Readonly<Partial<Record<LogKey, Unit>>>,
  row: number,
  { date, line, known }: { readonly date: string; readonly line: LogLine; readonly known: LogEntry | undefined },
): Edit[] {
  const cells: Readonly<Record<LogKey, CellInput>> = {
    date: serialFromIso(date) ?? date,
    component: line.component,
    weight: inUnit(line.weight, units.weight),
    forecast: line.forecast === undefined ? null : inUnit(line.forecast, units.forecast),
    budget: line.budget === undefined ? null : inUnit(line.budget, units.budget),
    note: line.note || known?.note || null,
  };
  const unclear = (key: LogKey): boolean =>
    (key === 'weight' || key === 'forecast' || key === 'budget') && units[key] === undefined;
  return (Object.entries(columns) as [LogKey, number][]).flatMap(([key, column]): Edit[] => {
    if (unclear(key)) return [];
    const range = { sheet: LOG.sheet, row, column, rows: 1, columns: 1 };
    const write: Edit = { kind: 'write', range, cells: [[cells[key]]] };
    return key === 'date' ? [write, { kind: 'format', range, numberFormat: LOOKS.date.numberFormat }] : [write];
  });
}

/** The lines that log a project's components and its total. */
export const logLines = (
  components: readonly {
    readonly name: string;
    readonly current: number;
    readonly forecast: number;
    readonly budget: number | undefined;
  }[],
  note = '',
): LogLine[] =>
  components.map(({ name, current, forecast, budget }) => ({
    component: name,
    weight: current,
    forecast,
    budget,
    ...(name === TOTAL ? { note } : {}),
  }));
