/** Where a cell's value is typed: in the cell itself, or in another that its formula does nothing but refer to. */
import { tryFormula, type FormulaNode } from '../../../../sheet/formula';
import { cellName, quoteSheet, type WorkbookModel } from '../../../../sheet';
import { cellIn, type Place } from './book-copy';

export const placeName = ({ sheet, row, column }: Place): string => `${quoteSheet(sheet)}!${cellName(row, column)}`;

/** A chain of references longer than this is not followed. */
const LONGEST_CHAIN = 10;

/**
 * The typed cell that the formula in a cell stands for: =RibGauge, =Design!B15, also by way of others like it.
 * Undefined where the cell holds no formula, or one that computes something.
 */
export function sourceOf(copy: WorkbookModel, place: Place): Place | undefined {
  let at = place;
  for (let steps = 0; steps < LONGEST_CHAIN; steps++) {
    const cell = cellIn(copy, at);
    if (cell?.spilled) return undefined;
    if (cell?.formula === undefined) return at === place ? undefined : at;
    const next = referredTo(copy, cell.formula, at.sheet);
    if (!next) return undefined;
    at = next;
  }
  return undefined;
}

function referredTo(copy: WorkbookModel, formula: string, sheet: string): Place | undefined {
  const node = tryFormula(formula);
  if (node?.kind === 'name') {
    const name = copy.names.find((one) => one.name.toLowerCase() === node.name.toLowerCase());
    const target = name && tryFormula(name.refersTo);
    return target && singleCell(target, sheet);
  }
  return node && singleCell(node, sheet);
}

function singleCell(node: FormulaNode, sheet: string): Place | undefined {
  if (node.kind !== 'reference' || node.top.at !== node.bottom.at || node.left.at !== node.right.at) return undefined;
  return { sheet: node.sheet ?? sheet, row: node.top.at, column: node.left.at };
}
