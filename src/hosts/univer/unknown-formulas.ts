/**
 * Formulas that the engine cannot compute: a function that it does not have, another workbook. Such a cell
 * stands in the engine as the value it came with, so that what depends on it goes on, and with its formula
 * beside it, so that it is saved as it was.
 */
import type { ICellData, Nullable } from '@univerjs/core';
import { ALL_IMPLEMENTED_FUNCTIONS_SET } from '@univerjs/engine-formula';
import { findDefinition, NAMESPACE } from '../../functions';
import type { WorkbookModel } from '../../sheet';
import { functionNames, namesOtherFile } from '../../xlsx';

/** What makes a formula one that the engine cannot compute, in words; undefined where it can. */
export function whyUnknown(formula: string): string | undefined {
  if (namesOtherFile(formula)) return 'another workbook';
  return functionNames(formula).find((name) => !isKnown(name));
}

const isKnown = (name: string): boolean =>
  name.startsWith(`${NAMESPACE}.`)
    ? findDefinition(name) !== undefined
    : ALL_IMPLEMENTED_FUNCTIONS_SET.has(name as never);

/** What the formulas of a workbook need that the engine does not have, with the number of cells that need it. */
export function unknownFormulas(model: WorkbookModel): ReadonlyMap<string, number> {
  const unknown = new Map<string, number>();
  for (const { cells } of model.sheets) {
    for (const row of cells) {
      for (const cell of row ?? []) {
        const why = cell?.formula === undefined ? undefined : whyUnknown(cell.formula);
        if (why !== undefined) unknown.set(why, (unknown.get(why) ?? 0) + 1);
      }
    }
  }
  return unknown;
}

/** The formula that is kept beside a cell's value; undefined once another value was put there. */
export function keptFormula(data: Nullable<ICellData>): string | undefined {
  const { formula, value } = (data?.custom ?? {}) as { formula?: string; value?: unknown };
  return formula !== undefined && !data?.f && (data?.v ?? null) === value ? formula : undefined;
}

/** A cell's value with its formula kept beside it. */
export const withKeptFormula = (data: ICellData, formula: string): ICellData => ({
  ...data,
  custom: { formula, value: data.v ?? null },
});
