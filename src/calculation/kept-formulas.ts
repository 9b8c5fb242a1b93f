/** Formulas that are not calculated keep their last values; what they are is said by name. */
import { fullName, type WorkbookModel } from '../sheet';
import { namesOtherFile } from '../sheet/formula';
import type { Calculation, NotRecalculated, SheetCell, UnknownFormula } from './calculate';

export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export interface KeptFormulas {
  /** "EDATE is not known here", "Another workbook is not read here", "These formulas go round in a circle". */
  readonly reason: string;
  readonly cells: readonly CellPlace[];
}

/** A formula that was not calculated, or rests on one that was not. */
export interface MarkedCell extends CellPlace {
  /** The formula that kept its value: the cell itself, or the first one that it rests on. */
  readonly because: CellPlace;
}

/** What keeps its value, by reason. */
export function keptFormulas(
  model: WorkbookModel,
  unknown: readonly UnknownFormula[],
  { circles, notRecalculated }: Pick<Calculation, 'circles' | 'notRecalculated'>,
): KeptFormulas[] {
  const kept = new Set(notRecalculated.map(keyOf));
  const reasons = new Map<string, CellPlace[]>();
  const add = (reason: string, cell: SheetCell): void => {
    const cells = reasons.get(reason);
    if (cells) cells.push(placeOf(model, cell));
    else reasons.set(reason, [placeOf(model, cell)]);
  };
  for (const one of unknown) if (kept.has(keyOf(one))) add(reasonOf(one), one);
  for (const circle of circles)
    for (const { grid, row, column } of circle)
      add('These formulas go round in a circle', { sheet: grid.index, row, column });
  return [...reasons].map(([reason, cells]) => ({ reason, cells }));
}

/** Why a formula is not calculated, as the start of a sentence. */
export function reasonOf({ functionName, formula, message }: UnknownFormula): string {
  if (namesOtherFile(formula)) return 'Another workbook is not read here';
  return functionName === undefined ? message.replace(/\.$/, '') : `${functionName} is not known here`;
}

/** "EDATE is not known here: Parts!B7 keeps the file's value" */
export function keptSentence({ reason, cells }: KeptFormulas): string {
  const [first] = cells;
  const where = fullName({ ...first!, rows: 1, columns: 1 });
  return cells.length === 1
    ? `${reason}: ${where} keeps the file's value`
    : `${reason}: ${where} and ${cells.length - 1} more keep the file's values`;
}

export const markedCells = (model: WorkbookModel, marked: readonly NotRecalculated[]): MarkedCell[] =>
  marked.map((one) => ({ ...placeOf(model, one), because: placeOf(model, one.because) }));

const keyOf = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;
const placeOf = (model: WorkbookModel, { sheet, row, column }: SheetCell): CellPlace => ({
  sheet: model.sheets[sheet]!.name,
  row,
  column,
});
