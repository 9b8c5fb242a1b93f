/** What Excel's own engine does between requests: results, spills and formulas that follow rows, here by the headless calculator. */
import { Calculator } from '../../../../src/calculation';
import { withResults } from '../../../../src/calculation/results';
import { CellError, type Cell, type CellModel, type WorkbookModel } from '../../../../src/sheet';
import type { FakeBook, FakeCell, FakeSheet } from './book';

/** Calculates every formula; the sheets of which a value is another one now. */
export function calculate(book: FakeBook): FakeSheet[] {
  const model = modelOf(book);
  const after = withResults(model, new Calculator(model).run().results).model;
  return book.sheets.filter((sheet, index) => takeResults(sheet, after.sheets[index]!.cells));
}

function modelOf(book: FakeBook): WorkbookModel {
  return {
    styles: [],
    names: book.names,
    sheets: book.sheets.map((sheet) => {
      const cells: (CellModel | undefined)[][] = [];
      for (const [key, cell] of sheet.cells) {
        const [row, column] = key.split(',').map(Number) as [number, number];
        if (!isSpilled(sheet, key))
          (cells[row] ??= [])[column] = {
            value: valueOf(cell),
            ...(cell.formula === undefined ? {} : { formula: cell.formula.slice(1) }),
          };
      }
      const tables = book.tables
        .filter((table) => table.sheet === sheet)
        .map(({ name, place }) => ({
          name,
          range: { sheet: sheet.name, ...place },
          columns: Array.from({ length: place.columns }, (_column, c) =>
            String(sheet.cell(place.row, place.column + c).value),
          ),
        }));
      return { name: sheet.name, cells: Array.from(cells, (line) => line ?? []), tables };
    }),
  };
}

const valueOf = ({ type, value }: FakeCell): Cell =>
  type === 'Empty' ? null : type === 'Error' ? new CellError(value as '#N/A') : value;

const isSpilled = (sheet: FakeSheet, key: string): boolean => sheet.looks.get(key)?.spillParent !== undefined;

/** True where a value has changed. */
function takeResults(sheet: FakeSheet, cells: WorkbookModel['sheets'][number]['cells']): boolean {
  let changed = false;
  const put = (key: string, cell: FakeCell | undefined): void => {
    const before = sheet.cells.get(key);
    changed ||= before?.value !== cell?.value || before?.type !== cell?.type;
    if (cell) sheet.cells.set(key, cell);
    else sheet.cells.delete(key);
  };
  const spilled = new Set([...sheet.cells.keys()].filter((key) => isSpilled(sheet, key)));
  cells.forEach((line, row) =>
    line?.forEach((cell, column) => {
      if (!cell) return;
      const key = `${row},${column}`;
      if (cell.formula !== undefined)
        put(key, cellOf(cell.value, `=${cell.formula}`) ?? { value: '', type: 'String', formula: `=${cell.formula}` });
      if (!cell.spill) return;
      for (let r = row; r < row + cell.spill.rows; r++) {
        for (let c = column; c < column + cell.spill.columns; c++) {
          const part = `${r},${c}`;
          if (part === key) continue;
          spilled.delete(part);
          put(part, cellOf(cells[r]?.[c]?.value ?? null));
          sheet.looks.set(part, { ...sheet.looks.get(part), spillParent: { row, column, rows: 1, columns: 1 } });
        }
      }
    }),
  );
  for (const key of spilled) {
    put(key, undefined);
    sheet.looks.set(key, { ...sheet.looks.get(key), spillParent: undefined });
  }
  return changed;
}

function cellOf(value: Cell, formula?: string): FakeCell | undefined {
  const own = formula === undefined ? {} : { formula };
  if (value === null) return undefined;
  if (value instanceof CellError) return { value: value.code, type: 'Error', ...own };
  return {
    value,
    type: typeof value === 'number' ? 'Double' : typeof value === 'boolean' ? 'Boolean' : 'String',
    ...own,
  };
}
