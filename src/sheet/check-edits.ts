/** Checks that a list of edits can be made one after the other, before the first is made. */
import { columnName, overlap } from './address';
import { LAST_COLUMN, LAST_ROW, references } from './formula';
import type { RangeAddress } from './model';
import { WorkbookError, type Edit, type EditOf } from './port';

/** What the check needs to know of a workbook. */
export interface Shape {
  readonly sheets: readonly { readonly name: string; readonly protected: boolean }[];
  /** Whether a sheet holds nothing at all; asked only of sheets that are to be removed. */
  readonly isEmpty: (sheet: string) => boolean;
  readonly tables: readonly { readonly name: string; readonly range: RangeAddress }[];
  readonly names: readonly string[];
  /** Formulas of the defined names: a sheet to which one of them refers is not removed. */
  readonly refersTo: readonly string[];
}

/**
 * Throws the WorkbookError of the first edit that cannot be made, taking the earlier ones as made. Gives those that are
 * to be made: a sheet that is not empty is not removed.
 */
export function checkEdits(shape: Shape, edits: readonly Edit[]): readonly Edit[] {
  const check = new EditCheck(shape);
  return edits.filter((edit) => check.take(edit) !== false);
}

/** The shape of a workbook as it is after the edits that were taken. */
class EditCheck {
  private readonly sheets: Map<string, boolean>;
  /** Sheets that earlier edits put something on. */
  private readonly written = new Set<string>();
  private readonly tables: Map<string, RangeAddress>;
  private readonly names: ReadonlySet<string>;

  constructor(private readonly shape: Shape) {
    this.sheets = new Map(shape.sheets.map((sheet) => [sheet.name.toLowerCase(), sheet.protected]));
    this.tables = new Map(shape.tables.map((table) => [table.name.toLowerCase(), table.range]));
    this.names = new Set(shape.names.map((name) => name.toLowerCase()));
  }

  private readonly checks: { readonly [Kind in Edit['kind']]: (edit: EditOf<Kind>) => boolean | void } = {
    write: (edit) => this.write(edit),
    format: ({ range }) => this.range(range),
    choices: ({ range }) => this.range(range),
    freeze: ({ kind: _kind, ...size }) => this.range({ row: 0, column: 0, ...size }),
    chart: ({ chart }) => [chart.source, chart.at].forEach((range) => this.range(range)),
    addSheet: ({ name }) => this.addSheet(name),
    removeSheet: ({ name }) => this.removesSheet(name),
    addTable: (edit) => this.addTable(edit),
    insertTableRows: (edit) => this.insertRows(edit),
    removeTableRows: (edit) => this.removeRows(edit),
  };

  /** Throws where the edit cannot be made; false where it is passed over. */
  take<Kind extends Edit['kind']>(edit: EditOf<Kind>): boolean | void {
    return this.checks[edit.kind](edit);
  }

  private range(range: RangeAddress): void {
    const isProtected = this.sheets.get(range.sheet.toLowerCase());
    if (isProtected === undefined) throw new WorkbookError('no-sheet', `There is no sheet "${range.sheet}"`);
    if (isProtected) throw new WorkbookError('protected', `The sheet "${range.sheet}" is protected`);
    const endsInside = range.row + range.rows - 1 <= LAST_ROW && range.column + range.columns - 1 <= LAST_COLUMN;
    if (range.row < 0 || range.column < 0 || !endsInside)
      throw new WorkbookError(
        'off-sheet',
        `The range reaches past the sheet: a sheet ends at row ${LAST_ROW + 1}, column ${columnName(LAST_COLUMN)}`,
      );
  }

  private table(name: string): RangeAddress {
    const range = this.tables.get(name.toLowerCase());
    if (!range) throw new WorkbookError('no-table', `There is no table "${name}"`);
    return range;
  }

  private write({ range, cells }: EditOf<'write'>): void {
    this.range(range);
    this.written.add(range.sheet.toLowerCase());
    if (cells.length !== range.rows || cells.some((line) => line.length !== range.columns))
      throw new WorkbookError(
        'shape',
        `The range has ${range.rows} × ${range.columns} cells, the values are ${cells.length} × ${cells[0]?.length ?? 0}`,
      );
  }

  private addSheet(name: string): void {
    if (this.sheets.has(name.toLowerCase()))
      throw new WorkbookError('name-taken', `There is a sheet "${name}" already`);
    this.sheets.set(name.toLowerCase(), false);
    this.written.add(name.toLowerCase());
  }

  /** False for a sheet that is not empty, or the only one: it stays. */
  private removesSheet(name: string): boolean {
    this.range({ sheet: name, row: 0, column: 0, rows: 1, columns: 1 });
    const key = name.toLowerCase();
    const isNamed = this.shape.refersTo.some((formula) =>
      references(formula).some(({ sheet }) => sheet?.toLowerCase() === key),
    );
    if (isNamed || this.written.has(key) || !this.shape.isEmpty(name) || this.sheets.size === 1) return false;
    return this.sheets.delete(key);
  }

  private addTable({ name, range }: EditOf<'addTable'>): void {
    this.range(range);
    if (this.tables.has(name.toLowerCase()) || this.names.has(name.toLowerCase()))
      throw new WorkbookError('name-taken', `The name "${name}" is taken already`);
    if ([...this.tables.values()].some((table) => overlap(table, range)))
      throw new WorkbookError('shape', `The table "${name}" would overlap another`);
    this.tables.set(name.toLowerCase(), range);
  }

  private insertRows({ table, at, cells }: EditOf<'insertTableRows'>): void {
    const range = this.table(table);
    this.range({ ...range, rows: range.rows + cells.length });
    if (at < 0 || at > range.rows - 1)
      throw new WorkbookError(
        'off-sheet',
        `The table "${table}" has ${range.rows - 1} rows; none can be inserted before row ${at + 1}`,
      );
    if (cells.some((line) => line.length > range.columns))
      throw new WorkbookError('shape', `The table "${table}" has ${range.columns} columns`);
    shift(this.tables, table, range, cells.length);
  }

  private removeRows({ table, at, count }: EditOf<'removeTableRows'>): void {
    const range = this.table(table);
    this.range(range);
    if (at < 0 || count < 0 || at + count > range.rows - 1)
      throw new WorkbookError(
        'off-sheet',
        `The table "${table}" has ${range.rows - 1} rows; rows ${at + 1} to ${at + count} cannot be removed`,
      );
    shift(this.tables, table, range, -count);
  }
}

/** A table grows or shrinks; those below it move along, and one that would be torn apart is refused. */
function shift(tables: Map<string, RangeAddress>, name: string, range: RangeAddress, by: number): void {
  const below = { ...range, row: range.row + range.rows, rows: Infinity };
  for (const [other, place] of tables) {
    if (!overlap(place, below)) continue;
    if (place.column < range.column || place.column + place.columns > range.column + range.columns)
      throw new WorkbookError(
        'shape',
        `The table "${name}" cannot change its length: it would tear apart the table "${other}" below it`,
      );
    tables.set(other, { ...place, row: place.row + by });
  }
  tables.set(name.toLowerCase(), { ...range, rows: range.rows + by });
}
