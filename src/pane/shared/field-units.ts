/** What the numbers of a sheet's cells are in, for the fields that show them and the labels above those. */
import { labelDimension } from '../../core/quantity';
import type { Fact, FormSheet, SheetForm } from '../../project';
import type { FieldUnit } from '../locale';

/** The unit of a column's field; undefined where the column has no dimension, or its unit cannot be told. */
export function columnUnit<K extends string>(
  form: SheetForm<K>,
  { units }: Pick<FormSheet<K>, 'units'>,
  key: K,
): FieldUnit | undefined {
  const dimension = form.columns.find((column) => column.key === key)?.dimension;
  const unit = units[key];
  return dimension && unit && { dimension, unit };
}

/** The unit of a fact's field. */
export function factUnit(label: string, { unit }: Fact): FieldUnit | undefined {
  const dimension = labelDimension(label);
  return dimension && unit && { dimension, unit };
}

/** A form's label with the unit that the sheet names: "Hinge line (mm)"; without any where that cannot be told. */
export function ownLabel(label: string, unit: FieldUnit | undefined): string {
  if (labelDimension(label) === undefined) return label;
  return label.replace(/\s*\([^)]*\)\s*$/, () => (unit ? ` (${unit.unit.sign})` : ''));
}
