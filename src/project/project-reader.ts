/**
 * The project of an open workbook, read once for all who ask: each sheet is read when somebody first wants it, and
 * again only when it has changed. A sheet whose cells are as they were stays the same object, so that nothing that
 * was made of it is made again.
 */
import type { UnitSystem } from '../core/quantity';
import {
  isFormula,
  type Cell,
  type CellInput,
  type Edit,
  type RangeAddress,
  type SheetContent,
  type SheetInfo,
  type SheetRequest,
  type TableModel,
  type Workbook,
  type WorkbookModel,
} from '../sheet';
import { airplaneSheets } from './balance-forms';
import { ALLOWANCES, BUDGET, BUYING_SHEET, HARDWARE_FORM, JOINTS, LOG, PARTS } from './forms';
import { matchedNames } from './match/matches-sheet';
import { MATCHES } from './match/meanings';
import { goOn, type SheetValues } from './reading';
import { OWN_RIVETS_SHEET } from './own-rivets';
import { unitsOfProject } from './project-units';
import { findPrices, pricesAt, type PricePlace, type ProjectPrices } from './prices';
import { HEADER_WITHIN } from '../core/table';

export interface ProjectSheets {
  /** The system that the project is shown in. */
  readonly units: UnitSystem;
  readonly sheets: readonly SheetInfo[];
  /** Names of all sheets of the workbook. */
  readonly names: readonly string[];
  readonly tables: readonly TableModel[];
  /** By a sheet's name, in any case; undefined where it has no cells or was not read. */
  readonly values: SheetValues;
  /** Formulas as typed, by a sheet's name; undefined where they were not read. */
  readonly formulas: (sheet: string) => SheetContent['formulas'];
  /** The price list, wherever it stands; undefined where there is none, or it was not read. */
  readonly prices: ProjectPrices | undefined;
}

/** What is known of a workbook, by its sheets' names in small letters. */
export interface Known {
  readonly sheets: readonly SheetInfo[];
  readonly names: readonly string[];
  readonly tables: readonly TableModel[];
  readonly cells: ReadonlyMap<string, SheetContent | undefined>;
  /** False for a sheet of which the first rows alone are known. */
  readonly isWhole: (sheet: string) => boolean;
}

/** @param earlier a state of the same workbook: what was made of sheets that have not changed since is used again */
function sheetsAt({ sheets, names, tables, cells, isWhole }: Known, earlier?: ProjectSheets): ProjectSheets {
  const values: SheetValues = (sheet) => cells.get(sheet.toLowerCase())?.values;
  if (earlier) goOn(values, earlier.values);
  return {
    sheets,
    names,
    tables,
    values,
    formulas: (sheet) => cells.get(sheet.toLowerCase())?.formulas,
    get units() {
      return unitsOfProject(values, names);
    },
    get prices() {
      const place = findPrices(names, tables);
      return place && isWhole(place.sheet) ? pricesAt(values, place) : undefined;
    },
  };
}

/** The formula in a cell; undefined where it holds none, or formulas were not read. */
export const formulaIn = (
  { formulas }: Pick<ProjectSheets, 'formulas'>,
  sheet: string,
  row: number,
  column: number,
): string | undefined => formulas(sheet)?.[row]?.[column] ?? undefined;

/** A workbook without sheets. */
export const NO_SHEETS: ProjectSheets = sheetsAt({
  sheets: [],
  names: [],
  tables: [],
  cells: new Map(),
  isWhole: () => true,
});

/** The sheets of a workbook as plain data. */
export function projectSheetsOf(model: WorkbookModel): ProjectSheets {
  const lined = model.sheets.map(({ name, cells }) => {
    const lines = Array.from(cells, (row) => Array.from(row ?? []));
    const read: SheetContent = {
      values: lines.map((row) => row.map((cell): Cell => cell?.value ?? null)),
      formulas: lines.map((row) => row.map((cell) => (cell?.formula === undefined ? null : `=${cell.formula}`))),
    };
    return [name.toLowerCase(), read] as const;
  });
  return sheetsAt({
    sheets: model.sheets.map(({ name, hidden, protected: locked }) => ({
      name,
      visible: !hidden,
      protected: locked === true,
    })),
    names: model.sheets.map(({ name }) => name),
    tables: model.sheets.flatMap(({ tables }) => tables),
    cells: new Map(lined),
    isWhole: () => true,
  });
}

/** The sheets that the project's models read, of those that there are; the matched ones are known by what the sheet Matches says. */
export function projectSheetNames(names: readonly string[]): string[] {
  const fixed = new Set(
    [
      ...[PARTS, MATCHES, JOINTS, HARDWARE_FORM, BUDGET, LOG, ALLOWANCES].map(({ sheet }) => sheet),
      OWN_RIVETS_SHEET,
    ].map((name) => name.toLowerCase()),
  );
  const airplanes = airplaneSheets(names).flatMap(({ weighing, loading, envelope, cases }) => [
    weighing,
    loading,
    envelope,
    cases,
  ]);
  return names.filter((name) => fixed.has(name.toLowerCase()) || airplanes.includes(name));
}

/** The matched sheets among those of the workbook. */
const matchedSheets = (names: readonly string[], matches: readonly (readonly Cell[])[] | undefined): string[] =>
  sheetsNamed({ names }, ...matchedNames(matches));

/** What a workbook has, for whoever says what is wanted of it. */
export interface WorkbookParts {
  readonly sheets: readonly SheetInfo[];
  readonly names: readonly string[];
  readonly tables: readonly TableModel[];
  /** The lists that the sheet Matches names. */
  readonly matched: readonly string[];
  readonly prices: PricePlace | undefined;
}

/** Which sheets are read, and what of them. The first rows of the project's sheets come with them: these say the units. */
export type WantedSheets = (there: WorkbookParts) => readonly SheetRequest[];

/** Everything that the project's models read: the sheets with their headers, matched lists and the price list, whole. */
export const wholeProject: WantedSheets = ({ names, matched, prices }) =>
  [...new Set([...projectSheetNames(names), ...matched, ...(prices ? [prices.sheet] : [])])].map((sheet) => ({
    sheet,
  }));

/** The sheets of that name, in any case, that there are. */
export const sheetsNamed = ({ names }: Pick<WorkbookParts, 'names'>, ...wanted: readonly string[]): string[] =>
  names.filter((name) => wanted.some((one) => one.toLowerCase() === name.toLowerCase()));

interface Entry {
  /** Undefined where the sheet has no cells. */
  readonly cells: SheetContent | undefined;
  /** How many rows were asked for. */
  readonly rows: number;
  readonly formulas: boolean;
  /** All of the sheet's formulas as they were read last, also where less of the sheet was read since. */
  readonly allFormulas?: SheetContent['formulas'];
}

type Readable = Pick<Workbook, 'outline' | 'readSheets' | 'onChange'>;

const readers = new WeakMap<Readable, ProjectReader>();
const keyOf = (sheet: string): string => sheet.toLowerCase();
const MATCH_KEY = keyOf(MATCHES.sheet);

export class ProjectReader {
  private sheets: readonly SheetInfo[] = [];
  private names: readonly string[] = [];
  private tables: readonly TableModel[] = [];
  private entries: ReadonlyMap<string, Entry> = new Map();
  private readonly stale = new Set<string>();
  /** The sheets as they were read last. */
  now: ProjectSheets = NO_SHEETS;
  private turn: Promise<unknown> = Promise.resolve();
  /** Cells before and after, of sheets that edits were laid over: the workbook will turn out to have one or the other. */
  private readonly expected = new Map<string, readonly SheetContent[]>();
  /** The cells as a state that is not shown yet would have them. */
  private readonly laid = new WeakMap<ProjectSheets, ReadonlyMap<string, Entry>>();

  private constructor(private readonly workbook: Readable) {
    workbook.onChange(({ sheets }) => this.touch(sheets));
  }

  /** The one reader of a workbook. */
  static over(workbook: Readable): ProjectReader {
    const known = readers.get(workbook) ?? new ProjectReader(workbook);
    readers.set(workbook, known);
    return known;
  }

  /** Marks sheets as changed; all of them if left out. They are read again when they are wanted next. */
  touch(sheets: readonly string[] = this.names): void {
    for (const sheet of sheets) this.stale.add(keyOf(sheet));
  }

  /** True where a change of these sheets can change what is wanted. */
  concerns(wanted: WantedSheets, sheets: readonly string[]): boolean {
    const changed = new Set(sheets.map(keyOf));
    // A name that is not known yet is a sheet that was just added.
    const there = this.there([...new Set([...this.names, ...sheets])]);
    return changed.has(MATCH_KEY) || wanted(there).some(({ sheet }) => changed.has(keyOf(sheet)));
  }

  /**
   * The sheets that are wanted, as they are now; one reading after the other.
   * @param anew read again though no change of them was told: what is written goes by their places
   */
  read(wanted: WantedSheets, anew: readonly string[] = []): Promise<ProjectSheets> {
    const run = async (): Promise<ProjectSheets> => {
      this.touch(anew);
      return this.readOnce(wanted);
    };
    const next = this.turn.then(run, run);
    this.turn = next.catch(() => undefined);
    return next;
  }

  /** As `read`, but the workbook is asked only where a change of the wanted sheets was told since they were read. */
  latest(wanted: WantedSheets): Promise<ProjectSheets> {
    const known = this.names.length > 0 && !this.requests(wanted).some((request) => this.lacks(request));
    return known ? Promise.resolve(this.now) : this.read(wanted);
  }

  /** The sheets with edits laid over them, before the workbook has made them: what cells are given, and not what formulas give. */
  lay(edits: readonly Edit[]): ProjectSheets {
    const entries = new Map(this.entries);
    for (const edit of edits) if (edit.kind === 'write') lay(entries, edit.range, edit.cells);
    const laid = this.at(entries);
    this.laid.set(laid, entries);
    return laid;
  }

  /** Shows what was laid over the sheets to all who ask, until they are read again; gives the sheets that differ. */
  show(laid: ProjectSheets): string[] {
    const differing: string[] = [];
    const entries = this.laid.get(laid) ?? this.entries;
    for (const [key, { cells }] of entries) {
      const before = this.entries.get(key)?.cells;
      if (!before || !cells || before === cells) continue;
      this.expected.set(key, [cells, before]);
      differing.push(key);
    }
    this.entries = entries;
    this.now = laid;
    return differing;
  }

  private async readOnce(wanted: WantedSheets): Promise<ProjectSheets> {
    const { sheets, tables, cells } = await this.workbook.outline([MATCHES.sheet]);
    this.sheets = sheets;
    this.names = same(
      this.names,
      sheets.map(({ name }) => name),
    );
    this.tables = same(this.tables, tables);
    const there = new Set(this.names.map(keyOf));
    const entries = new Map([...this.entries].filter(([key]) => there.has(key)));
    if (there.has(MATCH_KEY)) {
      const matches = cells[0] && { values: cells[0] };
      put(entries, MATCH_KEY, { cells: matches, rows: Infinity, formulas: false }, []);
    }
    this.entries = entries;
    this.stale.delete(MATCH_KEY);
    const lacking = this.requests(wanted).filter((request) => this.lacks(request));
    // What changes while it is being read is read once more the next time.
    for (const { sheet } of lacking) this.stale.delete(keyOf(sheet));
    try {
      const read = await this.workbook.readSheets(lacking);
      const after = new Map(this.entries);
      lacking.forEach(({ sheet, rows = Infinity, formulas = false }, index) =>
        put(after, keyOf(sheet), { cells: read[index], rows, formulas }, this.expected.get(keyOf(sheet)) ?? []),
      );
      this.entries = after;
    } catch (error) {
      this.touch(lacking.map(({ sheet }) => sheet));
      throw error;
    }
    return (this.now = this.at(this.entries));
  }

  private there(names: readonly string[]): WorkbookParts {
    return {
      sheets: this.sheets,
      names,
      tables: this.tables,
      matched: matchedSheets(names, this.entries.get(MATCH_KEY)?.cells?.values),
      prices: findPrices(names, this.tables),
    };
  }

  /** What is wanted, each sheet once. */
  private requests(wanted: WantedSheets): SheetRequest[] {
    const there = this.there(this.names);
    const tops: SheetRequest[] = [
      ...projectSheetNames(this.names),
      ...sheetsNamed(there, BUYING_SHEET),
      ...there.matched,
    ].map((sheet) => ({
      sheet,
      rows: HEADER_WITHIN,
    }));
    const all = new Map<string, SheetRequest>();
    for (const request of [...wanted(there), ...tops]) {
      const known = all.get(keyOf(request.sheet));
      all.set(keyOf(request.sheet), {
        sheet: request.sheet,
        rows: Math.max(request.rows ?? Infinity, known?.rows ?? 0),
        formulas: request.formulas === true || known?.formulas === true,
      });
    }
    all.delete(MATCH_KEY);
    return [...all.values()];
  }

  private lacks({ sheet, rows = Infinity, formulas = false }: SheetRequest): boolean {
    const known = this.entries.get(keyOf(sheet));
    return !known || this.stale.has(keyOf(sheet)) || known.rows < rows || (formulas && !known.formulas);
  }

  private at(entries: ReadonlyMap<string, Entry>): ProjectSheets {
    const known: Known = {
      sheets: this.sheets,
      names: this.names,
      tables: this.tables,
      cells: new Map([...entries].map(([key, { cells }]) => [key, cells])),
      isWhole: (sheet) => entries.get(keyOf(sheet))?.rows === Infinity,
    };
    return sheetsAt(known, this.now);
  }
}

/** Takes in what was read; what is as it was, or as it was expected, stays the object that it was. */
function put(entries: Map<string, Entry>, key: string, read: Entry, expected: readonly SheetContent[]): void {
  const { cells } = read;
  const before = entries.get(key);
  const known = [...(before?.cells ? [before.cells] : []), ...expected];
  const kept = <L extends readonly (readonly Cell[])[]>(lines: L, earlier: readonly (L | undefined)[]): L =>
    earlier.find((one) => one !== undefined && sameLines(one, lines)) ?? lines;
  const formulas = cells?.formulas && kept(cells.formulas, [...known.map((one) => one.formulas), before?.allFormulas]);
  const allFormulas = formulas && read.rows === Infinity ? formulas : before?.allFormulas;
  entries.set(key, {
    ...read,
    ...(allFormulas ? { allFormulas } : {}),
    cells: cells && {
      values: kept(
        cells.values,
        known.map(({ values }) => values),
      ),
      ...(formulas ? { formulas } : {}),
    },
  });
}

const sameLines = (one: readonly (readonly Cell[])[], other: readonly (readonly Cell[])[]): boolean =>
  one.length === other.length &&
  one.every((line, row) => {
    const second = other[row]!;
    return line.length === second.length && line.every((cell, column) => isSame(cell, second[column]!));
  });

const isSame = (one: Cell, other: Cell): boolean =>
  one === other ||
  (typeof one === 'object' &&
    typeof other === 'object' &&
    one !== null &&
    other !== null &&
    one.code === other.code &&
    one.message === other.message);

/** The earlier of two plain values where they say the same. */
const same = <T>(before: T, now: T): T => (JSON.stringify(before) === JSON.stringify(now) ? before : now);

function lay(
  entries: Map<string, Entry>,
  { sheet, row, column }: RangeAddress,
  cells: readonly (readonly CellInput[])[],
): void {
  const read = entries.get(keyOf(sheet));
  if (!read?.cells) return;
  const values = read.cells.values.map((line) => [...line]);
  cells.forEach((line, r) =>
    line.forEach((input, c) => {
      // Only the workbook can say what a formula will give.
      if (isFormula(input)) return;
      while (values.length <= row + r) values.push([]);
      const target = values[row + r]!;
      while (target.length <= column + c) target.push(null);
      target[column + c] = input;
    }),
  );
  entries.set(keyOf(sheet), { ...read, cells: { ...read.cells, values } });
}
