/** Edits of the structure that every writer's workbook goes through: what they are called in the tests, and what they are. */
import type { Operation } from '../../../src/xlsx';

const parts = 'Parts';
const table = 'Table of parts';
const rows = (kind: 'insert' | 'delete', at: number, count: number, sheet = parts): Operation => ({
  kind,
  sheet,
  axis: 'rows',
  at,
  count,
});
const columns = (kind: 'insert' | 'delete', at: number, count: number, sheet = parts): Operation => ({
  kind,
  sheet,
  axis: 'columns',
  at,
  count,
});

export const OPERATIONS: Readonly<Record<string, readonly Operation[]>> = {
  'rows come in the middle': [rows('insert', 3, 2)],
  'a row comes at the top': [rows('insert', 0, 1)],
  'a row goes from the middle': [rows('delete', 3, 1)],
  'the first row of every range goes': [rows('delete', 1, 1)],
  'the last rows of every range go': [rows('delete', 7, 2)],
  'the end of a range goes after a row came before it': [rows('insert', 4, 1), rows('delete', 9, 1)],
  'a column comes': [columns('insert', 1, 1)],
  'a column goes': [columns('delete', 2, 1)],
  'two columns go, and three come': [columns('delete', 3, 2), columns('insert', 0, 3)],
  'rows with merged cells go': [rows('delete', 10, 1), rows('delete', 14, 1)],
  'a row comes into the table': [rows('insert', 3, 1, table)],
  'rows go from the table': [rows('delete', 4, 2, table)],
  'a column comes into the table': [columns('insert', 2, 1, table)],
  'a column goes from the table': [columns('delete', 3, 1, table)],
  'cells shift down in part': [
    { kind: 'insert', sheet: parts, axis: 'rows', at: 4, count: 1, within: { from: 4, to: 6 } },
  ],
  'cells shift up in part': [
    { kind: 'delete', sheet: parts, axis: 'rows', at: 4, count: 1, within: { from: 4, to: 6 } },
  ],
  'cells are moved': [
    {
      kind: 'move',
      from: { sheet: parts, row: 2, column: 1, rows: 1, columns: 2 },
      to: { sheet: parts, row: 19, column: 4 },
    },
  ],
  'a sheet has another name': [{ kind: 'renameSheet', sheet: parts, name: "Bob's parts" }],
  'a sheet goes': [{ kind: 'removeSheet', sheet: 'Lists' }],
  'the sheet of the parts goes': [{ kind: 'removeSheet', sheet: parts }],
  'a sheet is put first': [{ kind: 'placeSheet', sheet: table, at: 0 }],
  'a sheet comes': [{ kind: 'addSheet', name: 'New', at: 1 }],
};

/** Edits that other programs offer in other steps. */
export const OWN_OPERATIONS: Readonly<Record<string, readonly Operation[]>> = {
  'rows are dragged': [{ kind: 'moveLines', sheet: parts, axis: 'rows', from: 2, count: 2, to: 6 }],
  'columns are dragged': [{ kind: 'moveLines', sheet: parts, axis: 'columns', from: 4, count: 1, to: 6 }],
  'the table has another name': [{ kind: 'renameTable', table: 'Sizes', name: 'Stock' }],
  'a column of the table has another name': [
    { kind: 'renameColumn', table: 'Sizes', column: 'length', name: 'long [in]' },
  ],
  'the table goes': [rows('delete', 0, 12, table)],
  'cells go to another sheet': [
    {
      kind: 'move',
      from: { sheet: parts, row: 2, column: 1, rows: 2, columns: 3 },
      to: { sheet: 'Lists', row: 9, column: 0 },
    },
  ],
};
