/** Columns as wide as what stands in them, in the widest of the common fonts: no header breaks inside a word, no value is cut. */
import { formattedNumber, numberText } from '../../src/calculation';
import { columnCharacters, textWidth } from '../../src/core/text-width';
import { isInRange, type CellModel, type SheetModel, type StyleModel, type WorkbookModel } from '../../src/sheet';

const USUAL_SIZE = 11;
/** Pixels of a point. */
const POINT = 96 / 72;
/** Longer texts are sentences: a column is not widened over them. */
const LONGEST = 32;

/** The workbook with columns widened where a width is given and too small. */
export const withFittedWidths = (model: WorkbookModel): WorkbookModel => ({
  ...model,
  sheets: model.sheets.map((sheet) => ({ ...sheet, columnWidths: fitted(sheet, model.styles) })),
});

function fitted(sheet: SheetModel, styles: readonly StyleModel[]): (number | undefined)[] {
  const needed = new Map<number, number>();
  sheet.cells.forEach((line, row) =>
    line.forEach((cell, column) => {
      if (!cell || cell.value === null || cell.value === '') return;
      const style = cell.style === undefined ? {} : (styles[cell.style] ?? {});
      const hasChoices = (sheet.validations ?? []).some(({ range }) => isInRange(range, row, column));
      // A text runs on over a free cell beside it, and not over the arrow of its own choices.
      const pixels = pixelsOf(cell, style, hasChoices || isOccupied(line[column + 1]));
      needed.set(column, Math.max(needed.get(column) ?? 0, columnCharacters(pixels, hasChoices)));
    }),
  );
  return Array.from(sheet.columnWidths ?? [], (width, column) => {
    if (width === undefined) return width;
    const characters = needed.get(column) ?? 0;
    // Half characters, so that a small change of a figure changes no width.
    return Math.max(width, Math.ceil(characters * 2) / 2);
  });
}

/** A cell over which the text of the one before it cannot run on. */
const isOccupied = (cell: CellModel | undefined): boolean =>
  cell !== undefined && (cell.formula !== undefined || (cell.value !== null && cell.value !== ''));

function pixelsOf(
  { value }: CellModel,
  { size = USUAL_SIZE, bold = false, wrap, numberFormat }: StyleModel,
  isCut: boolean,
): number {
  const width = (text: string): number => textWidth(text, size * POINT, bold);
  if (typeof value === 'number')
    return width((numberFormat && formattedNumber(value, numberFormat)) || numberText(value));
  if (typeof value !== 'string') return 0;
  if (wrap) return Math.max(0, ...value.split(/\s+/).map(width));
  return isCut && value.length <= LONGEST ? width(value) : 0;
}
