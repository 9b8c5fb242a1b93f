/** What a file has on its sheets beside the cells, for showing it. Saving carries it through by itself. */
import { Package } from '../package';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';
import { parseTree } from '../xml-tree';
import { readConditions, type ConditionalRule } from './conditions';
import { readLinks, type Link } from './links';
import { readPalette } from './looks';
import { readNotes, type Note } from './notes';

export interface SheetExtras {
  readonly notes: readonly Note[];
  readonly conditions: readonly ConditionalRule[];
  readonly links: readonly Link[];
}

/**
 * By the sheets' names. Throws XlsxError.
 * @param bytes a file by `withoutCells`, before or after operations
 */
export function readExtras(bytes: Uint8Array, codec?: Codec): ReadonlyMap<string, SheetExtras> {
  const file = new Package(bytes, codec);
  const workbook = readWorkbookPart(file);
  const palette = readPalette(file, workbook);
  return new Map(
    workbook.sheets.map(({ name, part }): [string, SheetExtras] => {
      const { root } = parseTree(file.text(part));
      return [
        name,
        {
          notes: readNotes(file, workbook.part, part),
          conditions: readConditions(root, name, palette),
          links: readLinks(file, root, part, name),
        },
      ];
    }),
  );
}
