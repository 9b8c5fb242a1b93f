/**
 * A workbook's model recalculated: every formula, TARE and ordinary. Those that are not calculated keep their last values;
 * what they are is said by name. And one formula evaluated, as in a cell of its own.
 */
import { entryOf } from '../core/memoized';
import {
  CellError,
  freeSheetName,
  fullName,
  type CellPlace,
  type MarkedPlace,
  type Result,
  type WorkbookModel,
} from '../sheet';
import { FormulaError, namesOtherFile, parseFormula } from '../sheet/formula';
import { Calculator, type Calculation, type Progress, type SheetCell, type UnknownFormula } from './calculate';
import { withResults, type Results } from './results';

export interface KeptFormulas {
  /** "EDATE is not known here", "Another workbook is not read here", "These formulas go round in a circle". */
  readonly reason: string;
  readonly cells: readonly CellPlace[];
}

export interface Recalculation extends Results {
  /** Formulas with an unknown function, a reference to another file, or in a circle: they keep their last values. */
  readonly kept: readonly KeptFormulas[];
  /** These, and every formula that rests on one of them. */
  readonly notRecalculated: readonly MarkedPlace[];
}

export function recalculate(model: WorkbookModel, { progress }: { readonly progress?: Progress } = {}): Recalculation {
  const calculator = new Calculator(model);
  const calculation = calculator.run(progress);
  return {
    ...withResults(model, calculation.results),
    kept: keptFormulas(model, calculator.unknown, calculation),
    notRecalculated: calculation.notRecalculated.map((one) => ({
      ...placeOf(model, one),
      because: placeOf(model, one.because),
    })),
  };
}

/** What keeps its value, by reason. */
function keptFormulas(
  model: WorkbookModel,
  unknown: readonly UnknownFormula[],
  { circles, notRecalculated }: Pick<Calculation, 'circles' | 'notRecalculated'>,
): KeptFormulas[] {
  const kept = new Set(notRecalculated.map(keyOf));
  const reasons = new Map<string, CellPlace[]>();
  const add = (reason: string, cell: SheetCell): void => {
    entryOf(reasons, reason, (): CellPlace[] => []).push(placeOf(model, cell));
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

const keyOf = ({ sheet, row, column }: SheetCell): string => `${sheet} ${row} ${column}`;
const placeOf = (model: WorkbookModel, { sheet, row, column }: SheetCell): CellPlace => ({
  sheet: model.sheets[sheet]!.name,
  row,
  column,
});

export interface Evaluation {
  readonly result: Result;
  /** The formula of the workbook on which the result rests and which was not calculated. */
  readonly restsOn: CellPlace | undefined;
}

/** The value of a formula, with or without its "=", against a workbook's cells where one is given. Errors come as CellError. @internal */
export const evaluate = (formula: string, workbook?: WorkbookModel): Result => evaluation(formula, workbook).result;

/** The value of a formula, and whether it rests on a formula that was not calculated. */
export function evaluation(formula: string, workbook?: WorkbookModel): Evaluation {
  const text = formula.trim().replace(/^=/, '');
  const fault = faultIn(text);
  if (fault) return { result: fault, restsOn: undefined };
  const name = freeSheetName('Evaluated 1', new Set(workbook?.sheets.map((sheet) => sheet.name.toLowerCase())));
  const model: WorkbookModel = {
    styles: workbook?.styles ?? [],
    names: workbook?.names ?? [],
    sheets: [...(workbook?.sheets ?? []), { name, cells: [[{ value: null, formula: text }]], tables: [] }],
  };
  const { model: after, notRecalculated } = recalculate(model);
  const { cells } = after.sheets.at(-1)!;
  const { value = null, spill } = cells[0]?.[0] ?? {};
  const restsOn = notRecalculated.find(({ sheet }) => sheet === name)?.because;
  if (!spill || spill.rows * spill.columns === 1) return { result: value, restsOn };
  const result = Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => cells[r]?.[c]?.value ?? ''),
  );
  return { result, restsOn };
}

function faultIn(text: string): CellError | undefined {
  try {
    parseFormula(text);
    return undefined;
  } catch (error) {
    if (error instanceof FormulaError) return new CellError('#NAME?', error.message);
    throw error;
  }
}
