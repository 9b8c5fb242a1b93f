/** What is typed into the trial's fields, read as the worksheet functions read it. */
import { call, CellError, findDefinition, plainNumber } from '../../../functions';
import type { Draft } from '../state';
import type { Wish } from './swap';

export interface TypedWish {
  /** Undefined while there is nothing to try, or something typed is wrong. */
  readonly wish?: Wish;
  readonly thicknessProblem?: string;
  readonly materialProblem?: string;
}

const ANY_MATERIAL = '6061-T6';
const ANY_THICKNESS = 0.02;

export function readWish({ rows, material, thickness, atSource, keepWeighed }: Draft): TypedWish {
  const typed = { thickness: thickness.trim(), material: material.trim() };
  const thicknessProblem = typed.thickness === '' ? undefined : refused(typed.thickness, ANY_MATERIAL);
  const materialProblem = typed.material === '' ? undefined : refused(ANY_THICKNESS, typed.material);
  const inches = typed.thickness === '' || thicknessProblem ? undefined : plainNumber(typed.thickness.replace(/\s*(in\.?|inch|inches|"|″)$/i, ''));
  const picked = rows.filter(({ on }) => on).map(({ row }) => row);
  const problems = { ...(thicknessProblem ? { thicknessProblem } : {}), ...(materialProblem ? { materialProblem } : {}) };
  if (thicknessProblem || materialProblem || picked.length === 0 || (inches === undefined && typed.material === '')) return problems;
  return { wish: { rows: picked, atSource, keepWeighed, ...(inches === undefined ? {} : { thickness: inches }), ...(typed.material === '' ? {} : { material: typed.material }) } };
}

/** Why the weight function would not take it. */
function refused(thickness: string | number, material: string): string | undefined {
  const weight = call(findDefinition('WEIGHT.SHEET')!, [1, thickness, material, 1]);
  return weight instanceof CellError ? weight.message : undefined;
}
