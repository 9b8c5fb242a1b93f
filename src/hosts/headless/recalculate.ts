/** A workbook's model recalculated: every formula, TARE and ordinary. */
import { IFunctionService } from '@univerjs/engine-formula';
import { functionNames } from '../../xlsx';
import type { CellModel, Spill, WorkbookModel } from '../../workbook';
import { startEngine } from '../univer';
import { engineResults } from './engine-results';
import { withResults, type Results } from './results';

export interface Recalculation extends Results {
  /** Formulas with an unknown function or a reference to another file: they keep their last values. */
  readonly kept: readonly KeptFormulas[];
}

export interface KeptFormulas {
  /** Name of the function, or "a reference to another workbook". */
  readonly reason: string;
  readonly cells: readonly { readonly sheet: string; readonly row: number; readonly column: number }[];
}

/** Recalculates a model. */
export async function recalculate(model: WorkbookModel): Promise<Recalculation> {
  const engine = startEngine();
  // The engine registers its functions with its first workbook.
  engine.api.createWorkbook({ id: 'first' });
  const functions = engine.univer.__getInjector().get(IFunctionService);
  const { known, kept } = freeze(model, (name) => functions.hasExecutor(name));
  const results = await engineResults(known, engine);
  const frozen = withResults(model, results);
  return { ...frozen, kept };
}

const OTHER_FILE = /(?:^|[^\p{L}\p{N}_\]])\[\d+\]|'[^']*\[\d+\][^']*'!/u;

/** The model without the formulas that cannot be calculated: their values stand as plain ones. */
function freeze(model: WorkbookModel, isKnown: (name: string) => boolean): { known: WorkbookModel; kept: KeptFormulas[] } {
  const kept = new Map<string, { sheet: string; row: number; column: number }[]>();
  const sheets = model.sheets.map((sheet) => {
    const spills: { row: number; column: number; spill: Spill }[] = [];
    const cells = sheet.cells.map((line, row) =>
      line.map((cell, column) => {
        const reason = cell?.formula === undefined ? undefined : unknown(cell.formula, isKnown);
        if (!cell || !reason) return cell;
        if (!kept.has(reason)) kept.set(reason, []);
        kept.get(reason)!.push({ sheet: sheet.name, row, column });
        if (cell.spill) spills.push({ row, column, spill: cell.spill });
        return plain(cell);
      }),
    );
    for (const { row, column, spill } of spills) {
      for (let r = row; r < row + spill.rows; r++) {
        for (let c = column; c < column + spill.columns; c++) {
          const part = cells[r]?.[c];
          if (part?.spilled) cells[r]![c] = plain(part);
        }
      }
    }
    return { ...sheet, cells };
  });
  return { known: { ...model, sheets }, kept: [...kept].map(([reason, places]) => ({ reason, cells: places })) };
}

function unknown(formula: string, isKnown: (name: string) => boolean): string | undefined {
  if (OTHER_FILE.test(formula)) return 'a reference to another workbook';
  return functionNames(formula).find((name) => !isKnown(name));
}

const plain = ({ value, style }: CellModel): CellModel => ({ value, ...(style === undefined ? {} : { style }) });
