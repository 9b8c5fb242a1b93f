/** In which units the workbook is shown, and its sheets read with the parts list's where they name none. */
import { labelDimension, type Unit, type UnitSystem } from '../core/quantity';
import type { Cell } from '../sheet';
import { airplaneSheets, LOADING, WEIGHING } from './balance-forms';
import { BUYING_SHEET, CUTTING_FACTS, JOINTS, PARTS, type SheetForm } from './forms';
import { findFact } from './facts';
import { kept, once, type SheetValues } from './reading';
import { partsHead } from './match/parts-lists';
import { readForm, readHead, RowReader, type FormHead, type FormSheet } from './rows';
import { systemOf, unitOfLabel, type OwnSystem } from './units';

/** The system of a sheet that names no unit: the parts list's; 'both' where that names both, inch-pound where there is none. */
export const partsSystem = (values: SheetValues): OwnSystem => partsHead(values)?.system ?? 'in-lb';

/** The sheet's rows under the form's header, those of a sheet without units read in the parts list's; undefined where no row holds every required label. */
export const readSheet = <K extends string>(
  values: SheetValues,
  form: SheetForm<K>,
  sheet = form.sheet,
): FormSheet<K> | undefined => once(values, sheetOf, form, sheet) as FormSheet<K> | undefined;

function sheetOf(values: SheetValues, form: SheetForm, sheet: string): FormSheet<string> | undefined {
  const cells = values(sheet);
  return cells && readForm(form, cells, sheet, partsSystem(values));
}

/** As `readSheet`, ready to have its cells read. */
export function readerOf<K extends string>(
  values: SheetValues,
  form: SheetForm<K>,
  sheet?: string,
): RowReader<K> | undefined {
  const read = readSheet(values, form, sheet);
  return read && new RowReader(read);
}

/**
 * The system that the project is shown in: of the parts list's weights; where it names none, of the first of
 * Joints, Weighing, Loading and Buying that names one; inches and pounds where none does.
 * @param names of all sheets, for airplanes whose sheets have words behind their names
 */
export const unitsOfProject = kept((values: SheetValues, names: readonly string[] = []): UnitSystem => {
  const airplanes = airplaneSheets(names);
  const loaded = (key: 'weighing' | 'loading', form: typeof WEIGHING | typeof LOADING): (UnitSystem | undefined)[] =>
    [form.sheet, ...airplanes.flatMap((sheets) => sheets[key] ?? [])].map((sheet) => namedBy(values, form, sheet));
  return (
    namedIn(partsHead(values), PARTS) ??
    namedBy(values, JOINTS) ??
    [...loaded('weighing', WEIGHING), ...loaded('loading', LOADING), buyingSystem(values)].find(Boolean) ??
    'in-lb'
  );
});

/** A reader of sheets as `kept` makes it, for what is shown in a system of units: the project's, where none is given. */
export const keptInUnits =
  <A extends readonly unknown[], T>(make: (values: SheetValues, units: UnitSystem, ...args: A) => T) =>
  (values: SheetValues, units = unitsOfProject(values), ...args: A): T =>
    once(values, make, units, ...args);

const namedBy = (values: SheetValues, form: SheetForm, sheet = form.sheet): UnitSystem | undefined =>
  namedIn(headOf(values, form, sheet), form);

/** The system of a sheet; where it names both, the one of its weights counts. */
const namedIn = (head: FormHead<string> | undefined, form: SheetForm): UnitSystem | undefined =>
  head?.named === 'both'
    ? form.columns.flatMap(({ key, dimension }) => (dimension === 'weight' ? (head.units[key]?.system ?? []) : []))[0]
    : head?.named;

function buyingSystem(values: SheetValues): UnitSystem | undefined {
  const named = cuttingSystem(values(BUYING_SHEET) ?? []);
  return named === 'both' ? undefined : named;
}

/** The system of the units that the labels of cutting name on the sheet Buying. */
export const cuttingSystem = (cells: readonly (readonly Cell[])[]): OwnSystem | undefined =>
  systemOf(Object.values(CUTTING_FACTS).map((label) => labelledUnit(cells, label)));

function labelledUnit(cells: readonly (readonly Cell[])[], label: string): Unit | undefined {
  const [fact, dimension] = [findFact(cells, label), labelDimension(label)];
  const read = fact && dimension && unitOfLabel(cells[fact.row]![fact.column - 1], dimension);
  return read && 'unit' in read ? read.unit : undefined;
}

/** The header of a form's sheet; undefined where no row holds every required label. */
export function headOf<K extends string>(
  values: SheetValues,
  form: SheetForm<K>,
  sheet = form.sheet,
): FormHead<K> | undefined {
  const cells = values(sheet);
  return cells && readHead(form, cells, sheet);
}
