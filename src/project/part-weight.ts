/** What a row of the parts list would weigh by what it says of itself, and the rows that do not say it. */
import { densityOf, findMaterial, material, sheetWeight } from '../core/material';
import { unlessRefused } from '../core/input-error';
import { entryOf } from '../core/memoized';
import { toInch } from '../core/quantity';
import { cellName, isBlank, textIn, type Cell } from '../sheet';
import type { PartKey } from './forms';
import type { Problem } from './reading';
import { placeOfRow, type FormHead, type FormRow, type FormSheet } from './rows';
import type { OwnSystem } from './units';

type PartCells = FormRow<PartKey>['cells'];

/** Each × quantity, or the sheet's weight, lb: what the list would say of a row that has not been on the scale. */
export function computedWeight(cells: PartCells, quantity: number, system: OwnSystem): number | undefined {
  return typeof cells.each === 'number' ? cells.each * quantity : flatWeight(cells.area, cells, quantity, system);
}

/**
 * Weight in lb of all pieces of a row of somebody's own list that states none: by its flat area, else by the rectangle
 * that it is cut from, from which holes and trimmings are not taken off. Undefined where the row does not say it.
 */
export function weightBySize(cells: PartCells, quantity: number, system: OwnSystem): number | undefined {
  const { area, cutLength, cutWidth } = cells;
  const cut = typeof cutLength === 'number' && typeof cutWidth === 'number' ? cutLength * cutWidth : undefined;
  return cells.weight === undefined ? flatWeight(area ?? cut, cells, quantity, system) : undefined;
}

function flatWeight(
  area: Cell | undefined,
  { thickness, material }: PartCells,
  quantity: number,
  system: OwnSystem,
): number | undefined {
  const density = densityIn(material, system);
  if (typeof area !== 'number' || typeof thickness !== 'number' || density === undefined) return undefined;
  return area > 0 && thickness > 0 ? sheetWeight(area, thickness, density, quantity) : undefined;
}

/** Density in lb/in³ of a material's designation, or of a density typed as a number: lb/in³ on a sheet in inches and pounds, g/cm³ on a metric one. */
function densityIn(cell: Cell | undefined, system: OwnSystem): number | undefined {
  const found = typeof cell === 'string' || typeof cell === 'number' ? findMaterial(String(cell)) : undefined;
  if (found) return densityOf(found);
  if (typeof cell !== 'number' || system === 'both') return undefined;
  const density = toInch(cell, 'density', system);
  return density > 0 && density < 1 ? density : undefined;
}

/** How many parts are named in a message. */
const NAMED = 3;

/**
 * What is wrong where no weight is known: a sum that leaves parts out says so, once for each sheet, at the first of
 * them; and a material that is in no table is named where it first stands.
 * @param rows  those of the list as they were read, in its order
 */
export function partsWithoutWeight(
  list: FormSheet<PartKey>,
  rows: readonly { readonly quantity: number; readonly weight: number | undefined }[],
): Problem[] {
  const bySheet = new Map<FormHead<PartKey>, FormRow<PartKey>[]>();
  list.rows.forEach((row, index) => {
    const { quantity, weight } = rows[index]!;
    // What stands in the cell of the weight and is none has been told already.
    if (weight !== undefined || quantity === 0 || isBlank(row.cells.part) || !isBlank(row.cells.weight)) return;
    const { head } = placeOfRow(list, row.row);
    if (!head.refused.includes('weight')) entryOf(bySheet, head, noRows).push(row);
  });
  return [...bySheet].flatMap(([head, lacking]) => {
    const problem = ({ row }: FormRow<PartKey>, key: PartKey, message: string): Problem => {
      const column = head.columns[key] ?? head.columns.part ?? 0;
      return { sheet: head.sheet, cell: cellName(placeOfRow(list, row).row, column), message };
    };
    return [problem(lacking[0]!, 'weight', leftOut(lacking)), ...unknownMaterials(lacking, head.system, problem)];
  });
}

const noRows = (): FormRow<PartKey>[] => [];

function leftOut(lacking: readonly FormRow<PartKey>[]): string {
  const names = lacking.slice(0, NAMED).map(({ cells }) => textIn(cells.part));
  const more = lacking.length - names.length;
  const [have, are] = lacking.length === 1 ? ['has', 'is'] : ['have', 'are'];
  return `${names.join(', ')}${more > 0 ? ` and ${more} more` : ''} ${have} no weight and ${are} left out of the sums`;
}

/** Of rows that say a thickness, and a material that nobody knows the density of; each material once. */
function unknownMaterials(
  lacking: readonly FormRow<PartKey>[],
  system: OwnSystem,
  problem: (row: FormRow<PartKey>, key: PartKey, message: string) => Problem,
): Problem[] {
  const told = new Set<string>();
  return lacking.flatMap((row) => {
    const name = textIn(row.cells.material);
    if (row.cells.thickness === undefined || name === '' || told.has(name)) return [];
    if (densityIn(row.cells.material, system) !== undefined) return [];
    told.add(name);
    const refused = unlessRefused(
      () => void material(name),
      ({ message }) => problem(row, 'material', message),
    );
    return refused ?? [];
  });
}
