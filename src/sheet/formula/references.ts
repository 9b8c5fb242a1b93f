/** References in a formula's text: moved as a fill moves them, and seen from another sheet. */
import { columnIndex, columnName, quoteSheet } from '../address';
import { references, type FoundReference } from './found-references';
import { FormulaScanner } from './scan';
import { LAST_COLUMN, LAST_ROW } from './syntax';
import { replaced, rewrite } from './tokens';

/** A formula moved by rows and columns: relative references move with it, as those of a shared formula do. */
export function moved(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  const scanner = new FormulaScanner(formula);
  let out = '';
  let from = 0;
  while (scanner.next()) {
    const { kind, start, end } = scanner;
    if (kind !== 'cell' && kind !== 'columns' && kind !== 'rows') continue;
    const text = kind === 'cell' ? movedCell(scanner, rows, columns) : movedLines(scanner, rows, columns);
    out += formula.slice(from, start) + text;
    from = end;
  }
  return out + formula.slice(from);
}

function movedCell({ row, column, rowFixed, columnFixed }: FormulaScanner, rows: number, columns: number): string {
  const toRow = rowFixed ? row : row + rows;
  const toColumn = columnFixed ? column : column + columns;
  if (toRow < 0 || toColumn < 0 || toRow > LAST_ROW || toColumn > LAST_COLUMN) return '#REF!';
  return `${columnFixed ? '$' : ''}${columnName(toColumn)}${rowFixed ? '$' : ''}${toRow + 1}`;
}

/** A:$C, 1:3 */
function movedLines({ kind, text, start, end }: FormulaScanner, rows: number, columns: number): string {
  const halves = text
    .slice(start, end)
    .split(':')
    .map((half) => {
      if (half.startsWith('$')) return half;
      const to = kind === 'columns' ? columnIndex(half) + columns : Number(half) - 1 + rows;
      if (to < 0 || to > (kind === 'columns' ? LAST_COLUMN : LAST_ROW)) return undefined;
      return kind === 'columns' ? columnName(to) : String(to + 1);
    });
  return halves.includes(undefined) ? '#REF!' : halves.join(':');
}

/** A formula as another sheet would say it: references that name no sheet name this one. */
export function onSheet(formula: string, sheet: string): string {
  const prefix = `${quoteSheet(sheet)}!`;
  return replaced(
    formula,
    references(formula).flatMap((reference) => {
      const isBare = isOfCells(reference) && reference.sheet === undefined && !reference.isElsewhere;
      return isBare ? [{ start: reference.start, end: reference.start, text: prefix }] : [];
    }),
  );
}

const isOfCells = ({ kind }: FoundReference): boolean => kind === 'range' || kind === 'spill';

/** Turns A1 into $A$1, A$1, $A1 and A1 again. All cells of the formula get the form that follows that of the first. */
export function relocked(formula: string): string {
  const first = new FormulaScanner(formula);
  while (first.kind !== 'cell') if (!first.next()) return formula;
  const { columnFixed, rowFixed } = first;
  // $A$1 → A$1 → $A1 → A1 → $A$1
  const [column, row] = columnFixed
    ? rowFixed
      ? [false, true]
      : [false, false]
    : rowFixed
      ? [true, false]
      : [true, true];
  const parts = /^\$?([A-Za-z]+)\$?(\d+)$/;
  return rewrite(formula, ({ kind, text }) =>
    kind === 'cell'
      ? text.replace(
          parts,
          (_whole, letters: string, digits: string) => `${column ? '$' : ''}${letters}${row ? '$' : ''}${digits}`,
        )
      : undefined,
  );
}
