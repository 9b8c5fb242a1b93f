/** A workbook's package after operations on its structure: everything in it that names a cell or a sheet follows. */
import { LAST_COLUMN, LAST_ROW, moved, onSheet } from '../../sheet/formula';
import { XlsxError } from '../error';
import { Package } from '../package';
import type { Codec } from '../zip';
import { isSheet, sheetsOf, targetOf } from './areas';
import { Book } from './book';
import { linesText, refusalOf, type Obstacle } from './obstacles';
import type { CellOperation, LinesMove, Operation } from './operation';

/**
 * The file's bytes after the operations, in their order. Throws XlsxError where one of them cannot be made; nothing is
 * then changed. Parts that no operation concerns stay byte for byte.
 */
export function shiftWorkbook(bytes: Uint8Array, operations: readonly Operation[], codec?: Codec): Uint8Array {
  if (operations.length === 0) return bytes;
  const file = new Package(bytes, codec);
  shiftPackage(file, operations);
  return file.save();
}

/** The same over a package that is open. */
export function shiftPackage(file: Package, operations: readonly Operation[]): void {
  const book = new Book(file);
  for (const operation of operations) make(book, operation);
  book.write();
}

/** What in a file an edit cannot cut through, its tables and merged cells apart: those change on the way. */
export const fixedObstacles = (bytes: Uint8Array, codec?: Codec): Obstacle[] =>
  new Book(new Package(bytes, codec)).fixedObstacles();

function make(book: Book, operation: Operation): void {
  switch (operation.kind) {
    case 'moveLines':
      for (const one of asCellOperations(operation)) makeCells(book, one);
      return;
    case 'order':
      return book.order(operation);
    case 'addSheet':
      return book.addSheet(operation.name, operation.at);
    case 'placeSheet':
      return book.workbook.place(book.entry(operation.sheet), operation.at);
    case 'removeSheet': {
      const { sheet } = operation;
      const order = book.workbook.entries.map(({ name }) => name);
      book.removeSheet(sheet);
      return book.followFormulas({ kind: 'removeSheet', sheet, order });
    }
    case 'renameSheet':
      book.renameSheet(operation.sheet, operation.name);
      return book.followFormulas(operation);
    case 'renameTable':
      book.table(operation.table).rename(operation.name);
      return book.followFormulas(operation);
    case 'renameColumn':
      book.table(operation.table).renameColumn(operation.column, operation.name);
      return book.followFormulas(operation);
    default:
      return makeCells(book, operation);
  }
}

/** Room is made, the lines are carried into it, and what they leave goes. */
export function asCellOperations({ sheet, axis, from, count, to }: LinesMove): CellOperation[] {
  if (to >= from && to <= from + count) return [];
  const start = from >= to ? from + count : from;
  const [place, target] = axis === 'rows' ? ['row', 'rows'] : ['column', 'columns'];
  const whole = { row: 0, column: 0, rows: LAST_ROW + 1, columns: LAST_COLUMN + 1 };
  return [
    { kind: 'insert', sheet, axis, at: to, count },
    {
      kind: 'move',
      from: { ...whole, sheet, [place]: start, [target]: count },
      to: { row: 0, column: 0, sheet, [place]: to },
    },
    { kind: 'delete', sheet, axis, at: start, count },
  ];
}

function makeCells(book: Book, edit: CellOperation): void {
  for (const name of sheetsOf(edit)) book.entry(name);
  const reason = refusalOf(edit, book.obstacles(sheetsOf(edit)), true);
  if (reason) throw new XlsxError('unsupported', reason);
  if (edit.kind === 'insert') refuseOverEdge(book, edit);
  const isAcross = edit.kind === 'move' && !isSheet(edit.from.sheet, edit.to.sheet);
  if (isAcross) carryAcross(book, edit);
  const gone = book.followTables(edit);
  book.followFormulas(edit);
  for (const one of gone) book.followFormulas(one);
  if (!isAcross) for (const sheet of new Set(sheetsOf(edit))) book.sheet(sheet).cells.shift(sheet, edit);
}

/** Carries cells to another sheet. Their formulas name the old sheet for the cells that stay there. */
function carryAcross(book: Book, edit: Extract<CellOperation, { kind: 'move' }>): void {
  const { from, to } = edit;
  const taken = book.sheet(from.sheet).cells.take(from);
  const [down, across] = [to.row - from.row, to.column - from.column];
  for (const line of taken.values())
    for (const { formula } of line.values()) {
      if (!formula) continue;
      formula.text = onSheet(formula.text, from.sheet);
      for (const attribute of formula.attributes)
        if (attribute[0] === 'ref') attribute[1] = moved(attribute[1], down, across);
    }
  // The cells are put there before formulas are changed, so that their own formulas are changed, too.
  book.sheet(to.sheet).cells.put(taken, targetOf(edit));
}

/** Refuses an edit that would push cells over the sheet's end. */
function refuseOverEdge(book: Book, edit: Extract<CellOperation, { kind: 'insert' | 'delete' }>): void {
  const { axis, count, within, sheet } = edit;
  const { from = 0, to = axis === 'rows' ? LAST_COLUMN : LAST_ROW } = within ?? {};
  const area =
    axis === 'rows'
      ? { row: LAST_ROW + 1 - count, rows: count, column: from, columns: to - from + 1 }
      : { column: LAST_COLUMN + 1 - count, columns: count, row: from, rows: to - from + 1 };
  if (book.sheet(sheet).cells.holds(area))
    throw new XlsxError('unsupported', `Cells at the end of ${sheet} would be pushed off it by ${linesText(edit)}`);
}
