/**
 * The one way in which the pane and the commands reach a workbook, whatever hosts it: Excel, the bench
 * or nothing at all. Every host passes the same contract suite (tests/sheet/contract.ts).
 */
import type { Cell } from './cell';
import type { BarChart, ChoiceValidation, NameModel, RangeAddress, TableModel } from './model';

export interface SheetInfo {
  readonly name: string;
  readonly visible: boolean;
  readonly protected: boolean;
}

/** What a cell is given: a plain value, or a formula as it is typed ("=TARE.AREA.RECT(A1,B1)"). null clears it. */
export type CellInput = Cell | { readonly formula: string };

export const isFormula = (input: CellInput): input is { readonly formula: string } =>
  typeof input === 'object' && input !== null && 'formula' in input;

/** One change to a workbook. */
export type Edit =
  | { readonly kind: 'write'; readonly range: RangeAddress; readonly cells: readonly (readonly CellInput[])[] }
  | { readonly kind: 'addSheet'; readonly name: string }
  /** Takes out a sheet that holds nothing at all; one that holds something, be it a picture, stays, and so does the only one. */
  | { readonly kind: 'removeSheet'; readonly name: string }
  /** Makes the range, whose first row is the header, a table. */
  | { readonly kind: 'addTable'; readonly name: string; readonly range: RangeAddress }
  /** Inserts rows before data row `at` (0: the first) of a table; the table's range grows, cells below move down. */
  | {
      readonly kind: 'insertTableRows';
      readonly table: string;
      readonly at: number;
      readonly cells: readonly (readonly CellInput[])[];
    }
  /** Removes data rows of a table; cells below move up. */
  | { readonly kind: 'removeTableRows'; readonly table: string; readonly at: number; readonly count: number }
  | {
      readonly kind: 'format';
      readonly range: RangeAddress;
      readonly numberFormat?: string;
      readonly bold?: boolean;
      readonly fill?: string;
      readonly columnWidth?: number;
    }
  | ({ readonly kind: 'choices' } & ChoiceValidation)
  /** Keeps that many rows and columns of a sheet in view while the rest scrolls; 0 and 0 let them scroll again. */
  | { readonly kind: 'freeze'; readonly sheet: string; readonly rows: number; readonly columns: number }
  /** Draws a chart beside a list, where the host can. */
  | { readonly kind: 'chart'; readonly chart: BarChart };

export type EditOf<Kind extends Edit['kind']> = Extract<Edit, { kind: Kind }>;

/** The sheet that an edit changes; `ofTable` says on which sheet a table is, as far as that is known. */
export function sheetOfEdit(edit: Edit, ofTable: (table: string) => string | undefined): string | undefined {
  if ('range' in edit) return edit.range.sheet;
  if ('table' in edit) return ofTable(edit.table);
  if (edit.kind === 'chart') return edit.chart.at.sheet;
  return edit.kind === 'freeze' ? edit.sheet : edit.name;
}

/** A cell by its sheet's name. */
export interface CellPlace {
  readonly sheet: string;
  /** From 0. */
  readonly row: number;
  readonly column: number;
}

/** A formula whose value was not calculated, or rests on one that was not. */
export interface MarkedPlace extends CellPlace {
  /** The formula that kept its value: the cell itself, or the first one that it rests on. */
  readonly because: CellPlace;
}

export interface WorkbookChange {
  /** Sheets on which a cell's value, formula or place changed; recalculated results count. */
  readonly sheets: readonly string[];
  /** 'user' a person's edit in the grid, 'pane' an edit through apply, 'recalculation' results only. */
  readonly by: 'user' | 'pane' | 'recalculation';
}

/**
 * Thrown where a workbook refuses: no such sheet or table, a protected sheet, a range off the sheet, a step that
 * cannot be taken back without deleting what was typed since.
 */
export class WorkbookError extends Error {
  override readonly name = 'WorkbookError';
  constructor(
    readonly code:
      'no-sheet' | 'no-table' | 'protected' | 'off-sheet' | 'shape' | 'name-taken' | 'typed-since' | 'host',
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

export type Unsubscribe = () => void;

/** How `read` gives days of a workbook that counts them from 1904. */
export interface Dates1904 {
  /** Cells that show dates are read as days since 1900 all the same; every other number is read as the file has it. */
  readonly shown: readonly CellPlace[];
}

/** What is read of a sheet: its cells from A1 to the last used one. */
export interface SheetRequest {
  readonly sheet: string;
  /** How many rows at the most; all of them if left out. */
  readonly rows?: number | undefined;
  /** True: the formulas, too. */
  readonly formulas?: boolean | undefined;
}

export interface SheetContent {
  /** Values, rows × columns. */
  readonly values: readonly (readonly Cell[])[];
  /** Formulas as typed, null where a cell holds none; undefined where they were not asked for. */
  readonly formulas?: readonly (readonly (string | null)[])[] | undefined;
}

/** What a workbook has, asked at once. */
export interface WorkbookOutline {
  readonly sheets: readonly SheetInfo[];
  readonly tables: readonly TableModel[];
  /** The values of the small sheets that were asked for, in that order; undefined where there is none, or it is empty. */
  readonly cells: readonly (readonly (readonly Cell[])[] | undefined)[];
}

export interface Workbook {
  readonly host: 'excel' | 'bench' | 'headless';
  /** File name or title, for headings. */
  readonly title: string;

  sheets(): Promise<readonly SheetInfo[]>;
  /**
   * Sheets and tables in one round trip to the host.
   * @param small names of sheets of a few hundred cells whose values come with them
   */
  outline(small?: readonly string[]): Promise<WorkbookOutline>;
  /** Several sheets in two round trips, more where they are large; undefined in the place of an empty one. */
  readSheets(requests: readonly SheetRequest[]): Promise<readonly (SheetContent | undefined)[]>;
  /** The smallest rectangle from A1 that holds every used cell; undefined on an empty sheet. */
  usedRange(sheet: string): Promise<RangeAddress | undefined>;
  /** Values, rows × columns; blank is null, an error cell a CellError. Large ranges are read in pieces. */
  read(range: RangeAddress): Promise<Cell[][]>;
  /** Formulas as typed ("=…"), null where a cell holds none. */
  readFormulas(range: RangeAddress): Promise<(string | null)[][]>;
  tables(): Promise<readonly TableModel[]>;
  /** The defined names that hold in the whole workbook. */
  names(): Promise<readonly NameModel[]>;
  /** undefined where days count from 1900, as they do in nearly every workbook. */
  dates1904(): Promise<Dates1904 | undefined>;
  /** Makes all edits as one step that one undo takes back; throws WorkbookError before anything is changed. */
  apply(label: string, edits: readonly Edit[]): Promise<void>;
  /** Takes back the last step made through `apply`; false where there is none. */
  undo(): Promise<boolean>;
  redo(): Promise<boolean>;

  selection(): Promise<RangeAddress | undefined>;
  select(range: RangeAddress): Promise<void>;

  /** The message behind an error cell; undefined where neither the host nor the functions know one. */
  explain(sheet: string, row: number, column: number): Promise<string | undefined>;

  /** Cells that keep a file's value because their formula cannot be calculated here, and those that rest on one; none in Excel. */
  notRecalculated(): Promise<readonly MarkedPlace[]>;

  onChange(listener: (change: WorkbookChange) => void): Unsubscribe;
  onSelection(listener: (range: RangeAddress) => void): Unsubscribe;
}

/** Gives what does work one after the other, however it was asked for; work that fails keeps no other from its turn. */
export function inTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = last.then(work, work);
    last = next.catch(() => undefined);
    return next;
  };
}

type Readable = Pick<Workbook, 'usedRange' | 'read'>;

/** The outline for a host that answers each question at once: one question after the other. */
export async function askOneByOne(
  workbook: Readable & Pick<Workbook, 'sheets' | 'tables'>,
  small: readonly string[] = [],
): Promise<WorkbookOutline> {
  const [sheets, tables] = await Promise.all([workbook.sheets(), workbook.tables()]);
  const cells: WorkbookOutline['cells'][number][] = [];
  for (const name of small) {
    const there = sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    const used = there && (await workbook.usedRange(there.name));
    cells.push(used && (await workbook.read(used)));
  }
  return { sheets, tables, cells };
}

/** Cells of several sheets for such a host. */
export async function readOneByOne(
  workbook: Readable & Pick<Workbook, 'readFormulas'>,
  requests: readonly SheetRequest[],
): Promise<(SheetContent | undefined)[]> {
  const all: (SheetContent | undefined)[] = [];
  for (const { sheet, rows = Infinity, formulas } of requests) {
    const used = await workbook.usedRange(sheet);
    const range = used && { ...used, rows: Math.min(rows, used.rows) };
    all.push(
      range && {
        values: await workbook.read(range),
        ...(formulas ? { formulas: await workbook.readFormulas(range) } : {}),
      },
    );
  }
  return all;
}

/**
 * What there is to say of the selected cell, found out again whenever another is selected or a cell changes.
 * @param look finds out about a selection; undefined where nothing is selected
 * @param show is told what was found, unless something else has been selected in the meantime
 */
export function followSelection<T>(
  workbook: Workbook,
  look: (range: RangeAddress | undefined) => Promise<T>,
  show: (found: T) => void,
): Unsubscribe {
  let latest = 0;
  const lookAt = async (range: RangeAddress | undefined): Promise<void> => {
    const turn = (latest += 1);
    const found = await look(range);
    if (turn === latest) show(found);
  };
  // Without a selection, or one that cannot be read, there is nothing to say.
  const again = (): void =>
    void workbook
      .selection()
      .then(lookAt)
      .catch(() => lookAt(undefined));
  const stops = [workbook.onSelection((range) => void lookAt(range)), workbook.onChange(again)];
  again();
  return () => {
    latest += 1;
    stops.forEach((stop) => stop());
  };
}
