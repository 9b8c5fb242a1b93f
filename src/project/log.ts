/** The weight log: dated roll-ups, what moved since, and the edits that add today's. */
import { sameName } from '../core/names';
import { TOTAL } from '../core/mass';
import type { UnitSystem } from '../core/quantity';
import { LOG, type LogKey } from './forms';
import type { Problem, SheetValues } from './reading';
import { keptInUnits, readerOf } from './project-units';
import { POUNDS, type FormSheet } from './rows';
import { textIn } from '../sheet';

export interface LogEntry {
  /** Row on the sheet, from 0. */
  readonly row: number;
  /** "2026-03-31" */
  readonly date: string;
  /** "Total" for everything. */
  readonly component: string;
  /** lb */
  readonly weight: number;
  readonly forecast: number | undefined;
  readonly budget: number | undefined;
  readonly note: string;
}

export interface WeightLog {
  readonly form: FormSheet<LogKey>;
  /** The system that the log is shown in: the workbook's. */
  readonly units: UnitSystem;
  /** In the order of the sheet. */
  readonly entries: readonly LogEntry[];
  readonly problems: readonly Problem[];
}

/** The log; undefined where no sheet has its header. */
export const readLog = keptInUnits((values: SheetValues, units: UnitSystem): WeightLog | undefined => {
  const reader = readerOf(values, LOG);
  if (!reader) return undefined;
  const entries = reader.sheet.rows.flatMap((row): LogEntry[] => {
    const date = reader.date(row, 'date');
    const weight = reader.needed(row, 'weight', POUNDS);
    if (date === undefined || weight === undefined) return [];
    const component = textIn(row.cells.component);
    return [
      {
        row: row.row,
        date,
        component: sameName(component, '') || sameName(component, TOTAL) ? TOTAL : component,
        weight,
        forecast: reader.number(row, 'forecast', POUNDS),
        budget: reader.number(row, 'budget', POUNDS),
        note: textIn(row.cells.note),
      },
    ];
  });
  return { form: reader.sheet, units, entries, problems: reader.problems };
});

/** One component's entries by date, earliest first. Where two have the same day, the lower row counts. */
export function logOf(entries: readonly LogEntry[], component: string = TOTAL): LogEntry[] {
  const byDate = new Map<string, LogEntry>();
  for (const entry of entries) if (sameName(entry.component, component)) byDate.set(entry.date, entry);
  return [...byDate.values()].sort((a, b) => (a.date < b.date ? -1 : 1));
}

export interface Moved {
  readonly component: string;
  readonly since: string;
  readonly before: number;
  readonly now: number;
  /** lb; positive: heavier now */
  readonly by: number;
}

/** What each component weighs now against its last entry on or before a day (the first entry, where all are later), largest change first. */
export function movedSince(
  entries: readonly LogEntry[],
  now: readonly { readonly name: string; readonly current: number }[],
  since: string,
): Moved[] {
  const moved = now.flatMap(({ name, current }): Moved[] => {
    const series = logOf(entries, name);
    const before = series.filter(({ date }) => date <= since).at(-1) ?? series[0];
    return before
      ? [{ component: name, since: before.date, before: before.weight, now: current, by: current - before.weight }]
      : [];
  });
  return moved.sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
}
