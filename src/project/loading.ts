/** The airplane as its sheets describe it for loading: stations, empty weight, envelope, saved cases. */
import { sameName } from '../core/names';
import { makeEnvelope, type Envelope, type Load, type Station } from '../core/balance';
import { InputError } from '../core/input-error';
import { fromUnit, plainLabel, unitIn, type Unit } from '../core/quantity';
import { cellName, isBlank, textIn, type Cell } from '../sheet';
import {
  CASES,
  EMPTY_FORM,
  ENVELOPE,
  ENVELOPE_SOURCE,
  LOADING,
  LOADING_EMPTY,
  type CaseKey,
  type LoadingKey,
} from './balance-forms';
import { factText, findFact } from './facts';
import { kept, unlessRefused, type Problem, type SheetValues } from './reading';
import { readerOf, readSheet } from './project-units';
import { INCHES, POUNDS, readHead, takesIn, type FormRow, type FormSheet, type RowReader } from './rows';
import { silentUnit, unitOfLabel } from './units';

export interface StationRow extends Station {
  /** Row on the sheet, from 0. */
  readonly row: number;
  /** What is loaded there now, lb. */
  readonly load: number;
  readonly note: string;
}

export interface Loading {
  readonly form: FormSheet<LoadingKey>;
  readonly stations: readonly StationRow[];
  /** Empty weight and arm as the loading sheet states them; undefined where it does not. */
  readonly empty: Load | undefined;
  /** What the cells of the empty weight and arm are in. */
  readonly emptyUnits: Readonly<Partial<Record<'weight' | 'arm', Unit>>>;
  /** True where a load is typed at any station. */
  readonly loaded: boolean;
  readonly problems: readonly Problem[];
}

/** The stations of a sheet; undefined where it has no header of stations. */
export const readLoading = kept((values: SheetValues, sheet: string): Loading | undefined => {
  const reader = readerOf(values, LOADING, sheet);
  if (!reader) return undefined;
  const form = reader.sheet;
  const stations: StationRow[] = [];
  for (const row of form.rows) {
    const station = readStation(row, reader);
    if (!station) continue;
    if (stations.some(({ name }) => sameStation(name, station.name)))
      reader.problem(row, 'station', `"${station.name}" is listed twice: give each station a name of its own`);
    else stations.push(station);
  }
  const { empty, units: emptyUnits } = readEmpty(values(sheet) ?? [], form, reader.problems);
  return {
    form,
    stations,
    empty,
    emptyUnits,
    loaded: form.rows.some(({ cells: { load } }) => typeof load === 'number'),
    problems: reader.problems,
  };
});

/** Empty weight and arm beside their word, in the units of the labels above them. */
function readEmpty(
  cells: readonly (readonly Cell[])[],
  { sheet, header, system }: FormSheet<LoadingKey>,
  problems: Problem[],
): { readonly empty: Load | undefined; readonly units: Loading['emptyUnits'] } {
  const fact = findFact(cells, LOADING_EMPTY, header);
  if (!fact) return { empty: undefined, units: {} };
  const head = readHead(EMPTY_FORM, cells.slice(0, fact.row), sheet, system);
  const silent = system === 'both' ? undefined : { weight: unitIn('weight', system), arm: unitIn('length', system) };
  const units = head?.units ?? silent ?? {};
  const [weight, arm] = [fact.value, fact.rest[0]];
  if (typeof weight !== 'number' || weight <= 0 || typeof arm !== 'number') return { empty: undefined, units };
  if (units.weight && units.arm)
    return { empty: { weight: fromUnit(weight, units.weight), arm: fromUnit(arm, units.arm) }, units };
  problems.push(
    ...(head?.problems ?? [
      {
        sheet,
        cell: cellName(fact.row, fact.column),
        message: 'has no unit above it, and the sheet names inch-pound and metric ones: the empty weight is left out',
      },
    ]),
  );
  return { empty: undefined, units };
}

function readStation(row: FormRow<LoadingKey>, reader: RowReader<LoadingKey>): StationRow | undefined {
  const name = textIn(row.cells.station);
  if (name === '') return undefined;
  const arm = reader.needed(row, 'arm', INCHES);
  const max = reader.needed(row, 'max', POUNDS);
  const min = reader.number(row, 'min', POUNDS) ?? 0;
  const load = reader.number(row, 'load', POUNDS) ?? 0;
  if (arm === undefined || max === undefined) return undefined;
  if (min > max)
    reader.problem(row, 'min', `got ${reader.typed(row, 'min')}; takes no more than Max, ${reader.typed(row, 'max')}`);
  const fuel = readFuel(row, reader);
  return {
    row: row.row,
    name,
    arm,
    min: Math.min(min, max),
    max,
    load,
    note: textIn(row.cells.note),
    ...(fuel ? { fuel } : {}),
  };
}

function readFuel(row: FormRow<LoadingKey>, reader: RowReader<LoadingKey>): boolean {
  const cell = row.cells.fuel;
  const word = textIn(cell).toLowerCase();
  if (cell === true || ['yes', 'y', 'x', 'fuel', 'true'].includes(word)) return true;
  if (cell !== false && !['', 'no', 'n', '-', 'false'].includes(word))
    reader.problem(row, 'fuel', `got "${word}"; takes yes for a tank, or a blank`);
  return false;
}

/** Names of stations are compared without regard to case, and a unit in brackets behind them does not count. */
const sameStation = (a: string, b: string): boolean => sameName(a, b) || plainLabel(a) === plainLabel(b);

export interface EnvelopeSheet {
  readonly form: FormSheet<'arm' | 'weight' | 'note'>;
  readonly envelope: Envelope | undefined;
  /** Which document the limits come from, as the sheet says; ''. */
  readonly limitsFrom: string;
  readonly problems: readonly Problem[];
}

/** The envelope of a sheet; undefined where it has no header of corners. */
export const readEnvelope = kept((values: SheetValues, sheet: string): EnvelopeSheet | undefined => {
  const reader = readerOf(values, ENVELOPE, sheet);
  if (!reader) return undefined;
  const form = reader.sheet;
  const corners = form.rows.flatMap((row): Load[] => {
    if (row.cells.arm === undefined && row.cells.weight === undefined) return [];
    const arm = reader.needed(row, 'arm', INCHES);
    const weight = reader.needed(row, 'weight', { above: 0, max: 1e6, takes: ({ unit }) => `${unit} above 0` });
    return arm === undefined || weight === undefined ? [] : [{ arm, weight }];
  });
  const limitsFrom = factText(findFact(values(sheet) ?? [], ENVELOPE_SOURCE, form.header));
  if (reader.problems.length > 0) return { form, envelope: undefined, limitsFrom, problems: reader.problems };
  const envelope = unlessRefused(() => makeEnvelope(corners));
  if (!(envelope instanceof InputError)) return { form, envelope, limitsFrom, problems: reader.problems };
  const cell = cellName(form.header + 1, form.columns.arm ?? 0);
  const message = corners.length === 0 ? 'has no corner of the envelope below the header yet' : envelope.message;
  return { form, envelope: undefined, limitsFrom, problems: [{ sheet, cell, message }] };
});

export interface SavedCase {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly name: string;
  /** In the order of the stations, lb. */
  readonly loads: readonly number[];
}

export interface CasesSheet {
  readonly form: FormSheet<CaseKey>;
  /** Column of each station on the sheet, in the order of the stations; undefined where it has none. */
  readonly stationColumns: readonly (number | undefined)[];
  /** What the loads of each are in; undefined where it has no column, or its unit cannot be told. */
  readonly stationUnits: readonly (Unit | undefined)[];
  readonly cases: readonly SavedCase[];
  readonly problems: readonly Problem[];
}

/** The saved loading cases of a sheet; undefined where it has no header of cases. */
export function readCases(values: SheetValues, sheet: string, stations: readonly Station[]): CasesSheet | undefined {
  const cells = values(sheet) ?? [];
  const form = readSheet(values, CASES, sheet);
  if (!form) return undefined;
  const problems: Problem[] = [...form.problems];
  const header = cells[form.header]!;
  const stationColumns = stations.map(({ name }) => {
    const at = header.findIndex((cell) => typeof cell === 'string' && sameStation(cell, name));
    return at < 0 ? undefined : at;
  });
  const known = new Set([...Object.values(form.columns), ...stationColumns]);
  header.forEach((label, column) => {
    if (known.has(column) || isBlank(label) || !form.rows.some(({ row }) => typeof cells[row]![column] === 'number'))
      return;
    problems.push({
      sheet,
      cell: cellName(form.header, column),
      message: `"${String(label)}" is no station of the sheet Loading: its weights are left out`,
    });
  });
  const stationUnits = stationColumns.map((column, index) =>
    column === undefined ? undefined : stationUnit(header[column]!, stations[index]!.name, form, column, problems),
  );
  const cases = form.rows.flatMap(({ row, cells: { case: named } }): SavedCase[] => {
    const name = textIn(named);
    const loads = stationColumns.map((column, index) =>
      column === undefined || !stationUnits[index]
        ? 0
        : readLoad(cells[row]![column] ?? null, { sheet, row, column, unit: stationUnits[index] }, problems),
    );
    return name === '' && loads.every((load) => load === 0)
      ? []
      : [{ row, name: name || `Case in row ${row + 1}`, loads }];
  });
  stationColumns.forEach((column, index) => {
    if (column === undefined && cases.length > 0)
      problems.push({
        sheet,
        cell: cellName(form.header, 0),
        message: `has no column for the station "${stations[index]!.name}": it counts as empty`,
      });
  });
  return { form, stationColumns, stationUnits, cases, problems };
}

/** The unit that a heading names behind the station's name. Brackets that belong to the station's name are not a unit. */
function stationUnit(
  heading: Cell,
  name: string,
  { sheet, header, system }: FormSheet<CaseKey>,
  column: number,
  problems: Problem[],
): Unit | undefined {
  const named = unitOfLabel(heading, 'weight');
  const own = named && 'wrong' in named && sameName(String(heading), name) ? undefined : named;
  const read = own ?? silentUnit('weight', system);
  if ('unit' in read) return read.unit;
  problems.push({ sheet, cell: cellName(header, column), message: read.wrong });
  return undefined;
}

function readLoad(
  cell: Cell,
  { sheet, row, column, unit }: { sheet: string; row: number; column: number; unit: Unit },
  problems: Problem[],
): number {
  if (isBlank(cell)) return 0;
  if (typeof cell === 'number' && cell >= 0) return fromUnit(cell, unit);
  problems.push({
    sheet,
    cell: cellName(row, column),
    message: `got ${String(cell)}; takes ${takesIn(POUNDS, unit)}. It counts as 0`,
  });
  return 0;
}
