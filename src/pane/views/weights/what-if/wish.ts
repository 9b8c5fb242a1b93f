/** What is typed into the trial's fields, read as the worksheet functions read it. */
import { fromInch, fromUnit, unitIn, type Unit } from '../../../../core/quantity';
import { call, findDefinition } from '../../../../functions';
import type { WeightsModel } from '../../../../project';
import { CellError } from '../../../../sheet';
import { readNumber } from '../../../locale';
import type { Wish } from './swap';

/** A row that may be swapped; found again by its name where the sheet moves it. */
export interface SwapCandidate {
  readonly row: number;
  readonly name: string;
  /** True: it is to be swapped. */
  readonly on: boolean;
}

/** What is being tried out. */
export interface SwapDraft {
  readonly rows: readonly SwapCandidate[];
  readonly material: string;
  readonly thickness: string;
  readonly atSource: boolean;
  readonly keepWeighed: boolean;
}

export const NO_DRAFT: SwapDraft = { rows: [], material: '', thickness: '', atSource: true, keepWeighed: false };

const ANY_MATERIAL = '6061-T6';
/** in */
const ANY_THICKNESS = 0.02;

/** What a bare number in the field of the thickness is in. */
export const thicknessUnit = ({ parts, units }: WeightsModel): Unit =>
  parts.form.units.thickness ?? unitIn('length', units);

/**
 * @param unit of the parts list's column Thickness, which a bare number is in
 * @returns no wish while there is nothing to try, or something typed is wrong
 */
export function readWish(
  { rows, material: typedMaterial, thickness, atSource, keepWeighed }: SwapDraft,
  unit: Unit,
): { readonly wish?: Wish; readonly thicknessProblem?: string; readonly materialProblem?: string } {
  const material = typedMaterial.trim();
  const { inches, wrong: thicknessProblem } = readThickness(thickness, unit);
  const materialProblem = material === '' ? undefined : refused(ANY_THICKNESS, material, unit);
  const picked = rows.filter(({ on }) => on).map(({ row }) => row);
  const problems = {
    ...(thicknessProblem ? { thicknessProblem } : {}),
    ...(materialProblem ? { materialProblem } : {}),
  };
  if (thicknessProblem || materialProblem || picked.length === 0 || (inches === undefined && material === ''))
    return problems;
  return {
    wish: {
      rows: picked,
      atSource,
      keepWeighed,
      ...(inches === undefined ? {} : { thickness: inches }),
      ...(material === '' ? {} : { material }),
    },
  };
}

/** The thickness that is typed, or what is wrong with it; neither where nothing is typed. */
function readThickness(typed: string, unit: Unit): { readonly inches?: number; readonly wrong?: string } {
  if (typed.trim() === '') return {};
  const read = readNumber(typed, { dimension: 'length', unit });
  if ('wrong' in read) return { wrong: read.wrong };
  const inches = fromUnit(read.value, unit);
  const wrong = refused(inches, ANY_MATERIAL, unit);
  return wrong === undefined ? { inches } : { wrong };
}

/** Why the weight function would not take it, said in the system of the unit. */
function refused(inches: number, material: string, { system }: Unit): string | undefined {
  const weight = call(findDefinition('WEIGHT.SHEET')!, [1, fromInch(inches, 'length', system), material, 1, system]);
  return weight instanceof CellError ? weight.message : undefined;
}
