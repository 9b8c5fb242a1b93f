/** A workbook's package without its cells: small enough to make every edit of the structure in it once more. */
import { Package } from '../package';
import { splitSheet } from '../patch-frame';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';

/** Parts that are not shown, and that edits of the structure would go through: shapes of notes, sources of charts and pivots. */
const NOT_SHOWN = /\.vml$|^xl\/(charts|pivotCache|ctrlProps)\//i;

/** The file's bytes with no cell on any sheet; what is shown beside the cells is as it was. Throws XlsxError. */
export function withoutCells(bytes: Uint8Array, codec?: Codec): Uint8Array {
  const file = new Package(bytes, codec);
  for (const { part } of readWorkbookPart(file).sheets) file.set(part, splitSheet(file.text(part)).frame);
  for (const part of file.parts()) if (NOT_SHOWN.test(part)) file.set(part, undefined);
  return file.save();
}
