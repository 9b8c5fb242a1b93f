/**
 * The first rows of a large file, read from the beginnings of its parts: something to look at while the file is
 * read. Values and looks alone, of the first sheet that is not hidden; what is not found in the beginnings is left
 * out, and nothing of it is checked, as reading the file does that.
 */
import type { SheetModel, WorkbookModel } from '../sheet';
import { Package } from './package';
import { contextOf, stylesOf } from './read';
import { readSheet } from './read-sheet';
import { readSharedStrings } from './read-strings';
import { readWorkbookPart } from './workbook-part';
import type { Codec } from './zip';

/** Bytes of a sheet, unpacked, from which on there is time to look at anything before the file has been read. */
const LARGE = 2 ** 22;
/** Unpacked bytes of the sheet and of the shared texts that are read: some hundred rows, and what they name. */
const BEGINNING = 2 ** 18;
const ROWS = 100;

/** Undefined where the file is not large, or has not what this reads. */
export function readFirstRows(bytes: Uint8Array, codec?: Codec): WorkbookModel | undefined {
  try {
    const file = new Package(bytes, codec);
    const workbook = readWorkbookPart(file);
    const shown = workbook.sheets.find(({ hidden }) => !hidden);
    if (!shown || file.sizeOf(shown.part) < LARGE) return undefined;
    const xml = until(file.beginningOf(shown.part, BEGINNING), '</row>', '</sheetData></worksheet>');
    const texts = workbook.strings && until(file.beginningOf(workbook.strings, 2 * BEGINNING), '</si>', '</sst>');
    if (xml === undefined) return undefined;
    const styles = stylesOf(file, workbook);
    const strings = texts ? textsIn(texts) : [];
    const { cells, columnWidths, frozen } = readSheet(xml, contextOf(workbook, styles, strings, shown.name));
    const rows = cells
      .slice(0, ROWS)
      .map((line) =>
        line?.map((cell) => cell && { value: cell.value, ...(cell.style === undefined ? {} : { style: cell.style }) }),
      );
    return {
      styles,
      names: [],
      sheets: workbook.sheets.map(({ name, hidden }): SheetModel =>
        name === shown.name
          ? { name, cells: rows, columnWidths, ...(frozen ? { frozen } : {}), tables: [] }
          : { name, ...(hidden ? { hidden } : {}), cells: [], tables: [] },
      ),
    };
  } catch {
    // Whatever is wrong with the file is said by reading it.
    return undefined;
  }
}

/** The text up to the last end of an element, closed; undefined where no such element ends in it. */
function until(text: string, end: string, closing: string): string | undefined {
  const at = text.lastIndexOf(end);
  return at < 0 ? undefined : text.slice(0, at + end.length) + closing;
}

/** The shared texts that stand in the beginning, and nothing for each of the others. */
function textsIn(xml: string): string[] {
  const found = readSharedStrings(xml);
  const count = Number(/<sst\b[^>]*\buniqueCount="(\d{1,7})"/.exec(xml)?.[1] ?? 0);
  return [...found, ...Array.from({ length: Math.max(0, count - found.length) }, () => '')];
}
