/** Puts what the project's own builders make (edits of a workbook) onto a sample's sheets. */
import type { CellInput, Edit, RangeAddress } from '../../src/sheet';
import { columnName } from '../../src/sheet';
import { styleLike, type BookBuilder, type SheetBuilder, type StyleName } from './book';

type Looks = Pick<Extract<Edit, { kind: 'format' }>, 'numberFormat' | 'bold' | 'fill'>;

/** Adds the sheets that the edits add, with their cells, looks, lists and widths; gives them by name. */
// eslint-disable-next-line complexity -- one kind of term after the other
export function place(book: BookBuilder, edits: readonly Edit[]): Map<string, SheetBuilder> {
  const sheets = new Map<string, SheetBuilder>();
  const looks = new Map<string, Looks>();
  const contents = new Map<string, { sheet: SheetBuilder; cell: CellInput }>();
  const each = (range: RangeAddress, visit: (name: string, key: string, row: number, column: number) => void): void => {
    for (let row = 0; row < range.rows; row++) {
      for (let column = 0; column < range.columns; column++) {
        const name = `${columnName(range.column + column)}${range.row + row + 1}`;
        visit(name, `${range.sheet}!${name}`, row, column);
      }
    }
  };
  for (const edit of edits) {
    if (edit.kind === 'addSheet') {
      sheets.set(edit.name, book.sheet(edit.name));
    } else if (edit.kind === 'write') {
      each(edit.range, (_name, key, row, column) =>
        contents.set(key, { sheet: sheets.get(edit.range.sheet)!, cell: edit.cells[row]![column] ?? null }),
      );
    } else if (edit.kind === 'format') {
      const { range, numberFormat, bold, fill, columnWidth } = edit;
      if (columnWidth !== undefined) sheets.get(range.sheet)!.widths[range.column] = columnWidth;
      if (numberFormat ?? bold ?? fill)
        each(range, (_name, key) =>
          looks.set(key, {
            ...looks.get(key),
            ...(numberFormat ? { numberFormat } : {}),
            ...(bold ? { bold } : {}),
            ...(fill ? { fill } : {}),
          }),
        );
    } else if (edit.kind === 'choices') {
      sheets
        .get(edit.range.sheet)!
        .choices(
          `${columnName(edit.range.column)}${edit.range.row + 1}:${columnName(edit.range.column + edit.range.columns - 1)}${edit.range.row + edit.range.rows}`,
          edit.choices,
          { ...(edit.from ? { from: edit.from } : {}), ...(edit.open ? { open: edit.open } : {}) },
        );
    }
  }
  for (const key of new Set([...contents.keys(), ...looks.keys()])) {
    const [sheetName = '', name = ''] = splitKey(key);
    const { cell = null } = contents.get(key) ?? {};
    sheets
      .get(sheetName)!
      .put(
        name,
        typeof cell === 'object' && cell !== null && 'formula' in cell ? { formula: cell.formula.slice(1) } : cell,
        styleFor(name, cell, looks.get(key)),
      );
  }
  return sheets;
}

const splitKey = (key: string): [string, string] => [
  key.slice(0, key.lastIndexOf('!')),
  key.slice(key.lastIndexOf('!') + 1),
];

/** Title and notes stand where the builders put them; everything else has the look of its edits. */
function styleFor(name: string, cell: CellInput, looks: Looks | undefined): StyleName {
  if (name === 'A1') return 'title';
  if (name === 'A2' || name === 'A3') return 'note';
  if (looks?.bold && looks.fill) return /\((?:lb|in|lb·in|%)\)$/.test(String(cell)) ? 'headerRight' : 'header';
  return styleLike(looks ?? {});
}
