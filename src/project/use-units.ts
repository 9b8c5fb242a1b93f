/** What the parts list's column Use is in: of each item the unit that it is used in, area, length or weight; pieces are pieces. */
import { labelUnit, readUnit, unitIn, unitsOf, type Unit } from '../core/quantity';
import { cellName, type Cell } from '../sheet';
import type { Problem } from './problems';
import type { FormSheet } from './rows';
import { systemOf } from './units';

const MEASURES = ['area', 'length', 'weight'] as const;
export type UseUnits = Readonly<Record<(typeof MEASURES)[number], Unit>>;

const PIECES = /^(?:pieces?|pcs?|each)?$/i;

/**
 * By the units that the label names ("Use (mm², mm, kg)"); where it names none by the sheet's own system, which is
 * what its cost formulas take them in. Undefined, with a problem, where the units cannot be told.
 */
export function readUseUnits<K extends string>(
  { sheet, header, columns, rows, system }: FormSheet<K | 'use'>,
  labels: readonly Cell[],
  problems: Problem[],
): UseUnits | undefined {
  const at = columns.use;
  const signs = (labelUnit(labels[at ?? -1]) ?? '')
    .split(/\s*(?:[,;/]|\bor\b)\s*/i)
    .filter((sign) => !PIECES.test(sign));
  const read = signs.map((sign) => MEASURES.flatMap((measure) => readUnit(sign, measure) ?? [])[0]);
  const own = systemOf(read) ?? system;
  if (own !== 'both' && read.every(Boolean)) {
    return Object.fromEntries(
      MEASURES.map((measure) => [
        measure,
        read.find((unit) => unit && unitsOf(measure).includes(unit)) ?? unitIn(measure, own),
      ]),
    ) as Record<(typeof MEASURES)[number], Unit>;
  }
  if (rows.some(({ cells }) => cells.use !== undefined)) {
    const got =
      signs.length > 0
        ? `names the unit "${signs.join(', ')}"`
        : 'has no unit, and the headers beside it use inch-pound and metric ones';
    problems.push({
      sheet,
      cell: cellName(header, at ?? 0),
      message: `${got}; takes (in², in, lb) or (mm², mm, kg). Its numbers are left out`,
    });
  }
  return undefined;
}
