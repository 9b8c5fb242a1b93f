/** Formulas of a file after an edit of the workbook's structure; they stay in the file's spelling. */
import {
  moved,
  moveReferences,
  withColumnNames,
  withoutColumns,
  withoutSheet,
  withoutTable,
  withPlainGone,
  withSheetNames,
  withTableNames,
  type GoneColumns,
} from '../../sheet/formula';
import { areasAfter, baseOf, survivorOf, type Area } from './areas';
import { isCellOperation, type Operation } from './operation';

/** What formulas follow: the operations, and what comes of them to tables. */
export type FormulaEdit =
  | Exclude<Operation, { kind: 'removeSheet' }>
  /** `order`: the names of all sheets before, for references through several sheets. */
  | { readonly kind: 'removeSheet'; readonly sheet: string; readonly order: readonly string[] }
  | { readonly kind: 'removeTable'; readonly table: string }
  | ({ readonly kind: 'removeColumns' } & GoneColumns);

/** Where a formula stands: its sheet, and the table around it. */
export interface FormulaPlace {
  readonly sheet: string;
  readonly isInTable?: boolean;
}

/** A formula after an edit. `sheet` is the sheet that then holds it; '' for a formula of a name, which is on no sheet. */
export function formulaAfter(formula: string, { sheet, isInTable = false }: FormulaPlace, edit: FormulaEdit): string {
  switch (edit.kind) {
    case 'insert':
    case 'delete':
      if (!formula.includes('!') && sheet.toLowerCase() !== edit.sheet.toLowerCase()) return formula;
      return withPlainGone(moveReferences(formula, sheet, edit));
    case 'move':
      return withPlainGone(moveReferences(formula, sheet, edit));
    case 'renameSheet':
      return withSheetNames(formula, new Map([[edit.sheet.toLowerCase(), edit.name]]));
    case 'removeSheet':
      return formula.includes('!') ? withoutSheet(formula, edit.sheet, edit.order) : formula;
    case 'renameTable':
      return withTableNames(formula, new Map([[edit.table.toLowerCase(), edit.name]]));
    case 'renameColumn':
      return withColumnNames(formula, edit.table, new Map([[edit.column.toLowerCase(), edit.name]]), isInTable);
    case 'removeTable':
      return withoutTable(formula, edit.table);
    case 'removeColumns':
      return formula.includes('[') ? withoutColumns(formula, edit, isInTable) : formula;
    default:
      return formula;
  }
}

/** Cells that share formulas, which are written for the first of them, as in rules of validation and of looks. */
export interface RuledCells {
  readonly areas: readonly Area[];
  readonly formulas: readonly string[];
}

/**
 * Such cells and formulas after an edit; undefined where no cell is left. Where the first cell goes, its formulas are
 * written for the one that then is first, so that every cell keeps its rule.
 */
export function ruledAfter({ areas, formulas }: RuledCells, sheet: string, edit: FormulaEdit): RuledCells | undefined {
  if (!isCellOperation(edit))
    return { areas, formulas: formulas.map((formula) => formulaAfter(formula, { sheet }, edit)) };
  const after = areasAfter(areas, sheet, edit);
  if (after.length === 0) return undefined;
  const base = baseOf(areas);
  const survivor = survivorOf(areas, sheet, edit);
  if (!survivor) return { areas: after, formulas: formulas.map((one) => formulaAfter(one, { sheet }, edit)) };
  const { row, column } = baseOf(after);
  return {
    areas: after,
    formulas: formulas.map((formula) => {
      const there = moved(formula, survivor.before.row - base.row, survivor.before.column - base.column);
      const followed = formulaAfter(there, { sheet }, edit);
      return moved(followed, row - survivor.after.row, column - survivor.after.column);
    }),
  };
}
