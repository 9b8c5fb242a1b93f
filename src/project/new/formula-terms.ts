/** Formulas of the project's sheets: pieces that the new ones share, and the parts of one that stands there. */
import type { UnitSystem } from '../../core/quantity';
import type { FormulaNode } from '../../sheet/formula';

/** A cell without anything in it: by its length, which every spreadsheet measures alike. */
export const blankTest = (cell: string): string => `LEN(${cell})=0`;

/** Blank where one of the cells is. */
export const ifAll = (cells: readonly string[], formula: string): string =>
  cells.length === 1
    ? `IF(${blankTest(cells[0]!)},"",${formula})`
    : `IF(OR(${cells.map(blankTest).join(',')}),"",${formula})`;

/** A number of pieces, 1 where none is given. */
export const orOne = (cell: string): string => `IF(${blankTest(cell)},1,${cell})`;

/** A function's last argument; `leftOut` are the optional ones before it that are not given. */
export const unitsArgument = (units: UnitSystem, leftOut = 0): string =>
  units === 'mm-kg' ? `${','.repeat(leftOut + 1)}"mm-kg"` : '';

/** "Parts!$M$6:$M$205" */
export const columnRange = (sheet: string, letter: string, first: number, last: number): string =>
  `${sheet}!$${letter}$${first}:$${letter}$${last}`;

/** A formula and every part of it, in the order in which they are written. */
export function* partsOf(node: FormulaNode): Generator<FormulaNode> {
  yield node;
  if (node.kind === 'binary') for (const one of [node.left, node.right]) yield* partsOf(one);
  if ('of' in node) for (const one of [node.of].flat()) yield* partsOf(one);
  if ('args' in node) for (const one of node.args) if (one) yield* partsOf(one);
}
