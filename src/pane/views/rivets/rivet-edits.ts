/** The edits that the view makes on the sheets Joints and Rivet options. */
import type { Cell } from '../../../sheet';
import {
  ACCESS_LABEL,
  exceptionAt,
  ONE_SIDE,
  type FormSheet,
  type RivetJoint,
  type RivetJoints,
  type RivetOptionsSheet,
} from '../../../project';
import { type Edit } from '../../../sheet';

export const write = (sheet: string, row: number, column: number, cell: Cell): Edit => ({
  kind: 'write',
  range: { sheet, row, column, rows: 1, columns: 1 },
  cells: [[cell]],
});

/** The first row below everything that a list holds. */
export const rowBelow = ({ header, rows }: FormSheet<string>): number =>
  Math.max(header, ...rows.map(({ row }) => row)) + 1;

/** Empties a list's row; a blank row is passed over. */
export const clearRow = ({ sheet, columns }: FormSheet<string>, row: number): Edit[] =>
  Object.values(columns).map((column) => write(sheet, row, column!, null));

/** Other rivets at one joint of an option; '' takes them back. */
export function exceptionEdits(
  { exceptionList, exceptions }: RivetOptionsSheet,
  option: string,
  joint: RivetJoint,
  kind: string,
): Edit[] {
  if (!exceptionList) return [];
  const { sheet, columns } = exceptionList;
  const known = exceptionAt(exceptions, option, joint);
  if (kind === '') return known ? clearRow(exceptionList, known.row) : [];
  const row = known?.row ?? rowBelow(exceptionList);
  const cells = [
    [columns.option, option],
    [columns.joint, known?.joint ?? joint.name],
    [columns.kind, kind],
  ] as const;
  return cells.flatMap(([column, cell]) => (column === undefined ? [] : [write(sheet, row, column, cell)]));
}

const HEADER_FILL = '#e8e6df';

/** Marks a joint's access; `free` is the first column behind everything on the sheet, for a sheet that has no such column yet. */
export function accessEdits(
  { form }: RivetJoints,
  joint: RivetJoint,
  oneSide: boolean,
  free: number,
): { readonly edits: readonly Edit[]; readonly added: boolean } {
  const column = form.columns.access;
  const cell = oneSide ? ONE_SIDE : null;
  if (column !== undefined) return { edits: [write(form.sheet, joint.row, column, cell)], added: false };
  const header = { sheet: form.sheet, row: form.header, column: free, rows: 1, columns: 1 };
  return {
    edits: [
      write(form.sheet, form.header, free, ACCESS_LABEL),
      { kind: 'format', range: header, bold: true, fill: HEADER_FILL },
      write(form.sheet, joint.row, free, cell),
    ],
    added: true,
  };
}
