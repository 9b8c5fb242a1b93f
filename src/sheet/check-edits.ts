/** Whether a list of edits can be made, one after the other, before any of them is. */
import { columnName, overlap } from './address';
import { LAST_COLUMN, LAST_ROW } from './formula';
import type { RangeAddress } from './model';
import { WorkbookError, type Edit } from './port';

/** What the check needs to know of a workbook. */
export interface Shape {
  readonly sheets: readonly { readonly name: string; readonly protected: boolean }[];
  readonly tables: readonly { readonly name: string; readonly range: RangeAddress }[];
  readonly names: readonly string[];
}

/** Throws the WorkbookError of the first edit that cannot be made, taking the earlier ones as made. */
export function checkEdits(shape: Shape, edits: readonly Edit[]): void {
  const sheets = new Map(shape.sheets.map((sheet) => [sheet.name.toLowerCase(), sheet.protected]));
  const tables = new Map(shape.tables.map((table) => [table.name.toLowerCase(), table.range]));
  const names = new Set(shape.names.map((name) => name.toLowerCase()));

  const checkRange = (range: RangeAddress): void => {
    const isProtected = sheets.get(range.sheet.toLowerCase());
    if (isProtected === undefined) throw new WorkbookError('no-sheet', `There is no sheet "${range.sheet}"`);
    if (isProtected) throw new WorkbookError('protected', `The sheet "${range.sheet}" is protected`);
    if (
      range.row < 0 ||
      range.column < 0 ||
      range.row + range.rows - 1 > LAST_ROW ||
      range.column + range.columns - 1 > LAST_COLUMN
    )
      throw new WorkbookError(
        'off-sheet',
        `The range reaches past the sheet: a sheet ends at row ${LAST_ROW + 1}, column ${columnName(LAST_COLUMN)}`,
      );
  };
  const rangeOfTable = (name: string): RangeAddress => {
    const range = tables.get(name.toLowerCase());
    if (!range) throw new WorkbookError('no-table', `There is no table "${name}"`);
    return range;
  };

  for (const edit of edits) {
    switch (edit.kind) {
      case 'write':
        checkRange(edit.range);
        if (edit.cells.length !== edit.range.rows || edit.cells.some((line) => line.length !== edit.range.columns))
          throw new WorkbookError(
            'shape',
            `The range has ${edit.range.rows} × ${edit.range.columns} cells, the values are ${edit.cells.length} × ${edit.cells[0]?.length ?? 0}`,
          );
        break;
      case 'format':
      case 'choices':
        checkRange(edit.range);
        break;
      case 'freeze':
        checkRange({ sheet: edit.sheet, row: 0, column: 0, rows: edit.rows, columns: edit.columns });
        break;
      case 'addSheet':
        if (sheets.has(edit.name.toLowerCase()))
          throw new WorkbookError('name-taken', `There is a sheet "${edit.name}" already`);
        sheets.set(edit.name.toLowerCase(), false);
        break;
      case 'addTable':
        checkRange(edit.range);
        if (tables.has(edit.name.toLowerCase()) || names.has(edit.name.toLowerCase()))
          throw new WorkbookError('name-taken', `The name "${edit.name}" is taken already`);
        if ([...tables.values()].some((table) => overlap(table, edit.range)))
          throw new WorkbookError('shape', `The table "${edit.name}" would overlap another`);
        tables.set(edit.name.toLowerCase(), edit.range);
        break;
      case 'insertTableRows': {
        const range = rangeOfTable(edit.table);
        const grown = { ...range, rows: range.rows + edit.cells.length };
        checkRange(grown);
        if (edit.at < 0 || edit.at > range.rows - 1)
          throw new WorkbookError(
            'off-sheet',
            `The table "${edit.table}" has ${range.rows - 1} rows; none can be inserted before row ${edit.at + 1}`,
          );
        if (edit.cells.some((line) => line.length > range.columns))
          throw new WorkbookError('shape', `The table "${edit.table}" has ${range.columns} columns`);
        shift(tables, edit.table, range, edit.cells.length);
        break;
      }
      case 'removeTableRows': {
        const range = rangeOfTable(edit.table);
        checkRange(range);
        if (edit.at < 0 || edit.count < 0 || edit.at + edit.count > range.rows - 1)
          throw new WorkbookError(
            'off-sheet',
            `The table "${edit.table}" has ${range.rows - 1} rows; rows ${edit.at + 1} to ${edit.at + edit.count} cannot be removed`,
          );
        shift(tables, edit.table, range, -edit.count);
        break;
      }
    }
  }
}

/** A table grows or shrinks; those below it move along, and one that would be torn apart is refused. */
function shift(tables: Map<string, RangeAddress>, name: string, range: RangeAddress, by: number): void {
  for (const [other, place] of tables) {
    if (
      other === name.toLowerCase() ||
      !sameSheet(place, range) ||
      place.row < range.row + range.rows ||
      !sharesColumns(place, range)
    )
      continue;
    if (place.column < range.column || place.column + place.columns > range.column + range.columns)
      throw new WorkbookError(
        'shape',
        `The table "${name}" cannot change its length: it would tear apart the table "${other}" below it`,
      );
    tables.set(other, { ...place, row: place.row + by });
  }
  tables.set(name.toLowerCase(), { ...range, rows: range.rows + by });
}

const sameSheet = (a: RangeAddress, b: RangeAddress): boolean => a.sheet.toLowerCase() === b.sheet.toLowerCase();
const sharesColumns = (a: RangeAddress, b: RangeAddress): boolean =>
  a.column < b.column + b.columns && b.column < a.column + a.columns;
