/** What a file has on its sheets beside the cells, for showing it. Saving carries it through by itself. */
import { Package } from '../package';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';
import { readNotes, type Note } from './notes';

export interface SheetExtras {
  readonly notes: readonly Note[];
}

/** By the sheets' names. Reads the parts around the cells alone: `bytes` may come from `withoutCells`. Throws XlsxError. */
export function readExtras(bytes: Uint8Array, codec?: Codec): ReadonlyMap<string, SheetExtras> {
  const file = new Package(bytes, codec);
  const workbook = readWorkbookPart(file);
  return new Map(
    workbook.sheets.map(({ name, part }): [string, SheetExtras] => [
      name,
      { notes: readNotes(file, workbook.part, part) },
    ]),
  );
}
