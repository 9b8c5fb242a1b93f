/** Which sums of a project rest on formulas that were not calculated. */
import { cellName, textIn, type MarkedPlace } from '../sheet';
import { airplaneSheets } from './balance-forms';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from './forms';
import { NO_COMPONENT } from './parts';
import type { SheetValues } from './reading';
import { readPartsLists } from './match/parts-lists';
import { readSheet } from './project-units';
import { placeOfRow, type FormSheet } from './rows';

export interface Resting {
  /** Components with such a cell in one of their rows. */
  readonly components: ReadonlySet<string>;
  /** Sheets of an airplane with such a cell. */
  readonly sheets: ReadonlySet<string>;
  readonly marked: readonly MarkedPlace[];
}

export const NOTHING_RESTS: Resting = { components: new Set(), sheets: new Set(), marked: [] };

/** @param names of all sheets */
export function restingOn(values: SheetValues, marked: readonly MarkedPlace[], names: readonly string[]): Resting {
  if (marked.length === 0) return NOTHING_RESTS;
  const components = new Set<string>();
  const rows = new Map<string, Set<number>>();
  for (const { sheet, row } of marked)
    rows.set(sheet.toLowerCase(), (rows.get(sheet.toLowerCase()) ?? new Set()).add(row));
  for (const form of [PARTS, JOINTS, HARDWARE_FORM, BUDGET] as readonly SheetForm<'component'>[]) {
    const sheet = (form === (PARTS as SheetForm) ? readPartsLists(values) : readSheet(values, form)) as
      FormSheet<'component'> | undefined;
    if (!sheet) continue;
    for (const { row, cells } of sheet.rows) {
      const place = placeOfRow(sheet, row);
      if (rows.get(place.head.sheet.toLowerCase())?.has(place.row))
        components.add(textIn(cells.component) || NO_COMPONENT);
    }
  }
  const ofAirplanes = new Set<string | undefined>(
    airplaneSheets(names).flatMap(({ weighing, loading, envelope, cases }) => [weighing, loading, envelope, cases]),
  );
  const sheets = new Set(marked.flatMap(({ sheet }) => (ofAirplanes.has(sheet) ? [sheet] : [])));
  return { components, sheets, marked };
}

/** True for a component, or the total of all, that rests on such a cell. */
export const restsOn = (name: string, total: string, { components }: Resting): boolean =>
  name === total ? components.size > 0 : components.has(name);

const nameOf = ({ sheet, row, column }: Omit<MarkedPlace, 'because'>): string => `${sheet}!${cellName(row, column)}`;

/** "Parts!F7 rests on Prices!B2, which keeps the file's value" */
export const restingSentence = ({ because, ...own }: MarkedPlace): string =>
  nameOf(own) === nameOf(because)
    ? `${nameOf(own)} keeps the file's value`
    : `${nameOf(own)} rests on ${nameOf(because)}, which keeps the file's value`;
