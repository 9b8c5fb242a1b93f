/** A workbook in inches and pounds turned into the same one in millimetres and kilograms. */
import { inUnit, labelDimension, labelIn, unitIn, type Dimension } from '../../src/core/quantity';
import { findDefinition } from '../../src/functions';
import type { Cell, CellModel, SheetModel, WorkbookModel } from '../../src/sheet';

const metric = (value: number, dimension: Dimension): number => inUnit(value, unitIn(dimension, 'mm-kg'));

/** Labels renamed, the numbers below them (or beside them, where they are facts) converted: no formula is left. */
export function metricValues(cells: readonly (readonly Cell[])[]): Cell[][] {
  const made = cells.map((row) => [...row]);
  cells.forEach((row, r) =>
    row.forEach((cell, c) => {
      const dimension = typeof cell === 'string' ? labelDimension(cell) : undefined;
      if (dimension === undefined) return;
      made[r]![c] = labelIn(String(cell), 'mm-kg');
      const beside = row[c + 1];
      if (typeof beside === 'number') made[r]![c + 1] = metric(beside, dimension);
      else
        for (let below = r + 1; below < cells.length && !isLabel(cells[below]![c]); below++)
          convert(made, below, c, dimension);
    }),
  );
  return made;
}

const isLabel = (cell: Cell | undefined): boolean => typeof cell === 'string' && labelDimension(cell) !== undefined;

/** Numbers of whole columns, which no label with a unit stands above. */
export function convertColumns(cells: Cell[][], from: number, columns: readonly number[], dimension: Dimension): void {
  for (let row = from; row < cells.length; row++) for (const column of columns) convert(cells, row, column, dimension);
}

function convert(cells: Cell[][], row: number, column: number, dimension: Dimension): void {
  const cell = cells[row]?.[column];
  if (typeof cell === 'number') cells[row]![column] = metric(cell, dimension);
}

/** The sheet with other values, and with its formulas in some columns alone: those are told that they get millimetres and kilograms. */
export function metricSheet(
  sheet: SheetModel,
  values: readonly (readonly Cell[])[],
  formulaColumns: readonly number[],
): SheetModel {
  const cells = Array.from(sheet.cells, (row, r) =>
    Array.from(row ?? [], (cell, c): CellModel | undefined => {
      if (!cell) return undefined;
      const value = values[r]?.[c] ?? null;
      if (cell.formula !== undefined && formulaColumns.includes(c))
        return { ...cell, value, formula: inMetric(cell.formula) };
      return { value, ...(cell.spilled ? { spilled: true } : {}) };
    }),
  );
  return { ...sheet, cells };
}

/** The sheets of airplanes, the saved cases' loads too, which have no unit of their own above them. No formula is left. */
export function metricAirplaneSheets({ sheets }: WorkbookModel): SheetModel[] {
  return sheets.map((sheet) => {
    const values = valuesIn(sheet);
    const made = metricValues(values);
    if (sheet.name.startsWith('Cases')) {
      const header = values.findIndex((row) => row[0] === 'Case');
      const last = values[header]!.indexOf('Take-off weight (lb)');
      convertColumns(
        made,
        header + 1,
        Array.from({ length: last - 1 }, (_, index) => index + 1),
        'weight',
      );
    }
    return metricSheet(sheet, made, []);
  });
}

export const valuesIn = ({ cells }: SheetModel): Cell[][] =>
  Array.from(cells, (row) => Array.from(row ?? [], (cell): Cell => cell?.value ?? null));

/** "mm-kg" as the last argument of every worksheet function that takes units. */
export function inMetric(formula: string): string {
  const match = /TARE\.([A-Z0-9.]+)\(/g;
  let made = formula;
  for (let found = match.exec(made); found; found = match.exec(made)) {
    const parameters = findDefinition(found[1]!)!.parameters.map(({ name }) => name);
    const at = parameters.indexOf('units');
    if (at < 0) continue;
    const { end, count } = closing(made, match.lastIndex);
    made = `${made.slice(0, end)}${','.repeat(at - count + 1)}"mm-kg"${made.slice(end)}`;
  }
  return made;
}

function closing(formula: string, from: number): { readonly end: number; readonly count: number } {
  let [depth, count] = [0, 1];
  for (let end = from; end < formula.length; end++) {
    const sign = formula[end]!;
    if (sign === '(') depth += 1;
    else if (sign === ',' && depth === 0) count += 1;
    else if (sign === ')' && depth-- === 0) return { end, count };
  }
  throw new Error(`no closing bracket in ${formula}`);
}
