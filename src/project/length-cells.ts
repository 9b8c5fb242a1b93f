/** Which cells of a sheet take a length: by the label above them, or to their left. */
import { labelDimension, labelUnit, plainLabel, readUnit, unitIn, type Unit } from '../core/quantity';
import type { Cell } from '../sheet';
import { EMPTY_FORM, ENVELOPE, LOADING, WEIGHING } from './balance-forms';
import { HARDWARE_FORM, JOINTS, PARTS, STOCK, SURFACES, type FormColumn } from './forms';
import { EXCEPTION_LIST, OPTION_LIST, SHEAR_LIST } from './rivet-options-forms';

/** Labels of the project's own forms, for sheets whose labels name no unit, with whether they measure a length. */
const LABELS: ReadonlyMap<string, boolean> = new Map(
  [
    PARTS,
    JOINTS,
    HARDWARE_FORM,
    STOCK,
    WEIGHING,
    EMPTY_FORM,
    LOADING,
    ENVELOPE,
    SURFACES,
    OPTION_LIST,
    EXCEPTION_LIST,
    SHEAR_LIST,
  ]
    .flatMap(({ columns }): readonly FormColumn[] => columns)
    .map(({ label, dimension }) => [plainLabel(label), dimension === 'length'] as const),
);

/** The unit of the length that a cell takes; undefined for a cell that takes something else, or is under no label. */
export function lengthUnitAt(
  cellAt: (row: number, column: number) => Cell,
  row: number,
  column: number,
): Unit | undefined {
  const beside = column > 0 ? cellAt(row, column - 1) : null;
  // A fact's own label with its unit is nearer than any header.
  if (labelUnit(beside) !== undefined) return lengthOf(labelled(beside));
  // A sheet of quantities has the unit in a cell of its own behind the value.
  const behind = cellAt(row, column + 1);
  const own = typeof behind === 'string' ? readUnit(behind, 'length') : undefined;
  if (own) return own;
  for (let above = row - 1; above >= 0; above--) {
    const found = labelled(cellAt(above, column));
    if (found !== undefined) return lengthOf(found);
  }
  return lengthOf(labelled(beside));
}

const lengthOf = (found: Unit | 'other' | undefined): Unit | undefined => (found === 'other' ? undefined : found);

/** What a label says of the cells under it or beside it; undefined for a cell that is no label. */
function labelled(cell: Cell): Unit | 'other' | undefined {
  if (typeof cell !== 'string') return undefined;
  const sign = labelUnit(cell);
  if (sign !== undefined) return readUnit(sign, 'length') ?? (labelDimension(cell) === undefined ? undefined : 'other');
  const isLength = LABELS.get(plainLabel(cell));
  return isLength === undefined ? undefined : isLength ? unitIn('length', 'in-lb') : 'other';
}
