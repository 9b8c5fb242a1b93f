/** What a file has on its sheets beside the cells, for showing it. Saving carries it through by itself. */
import { Package } from '../package';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';
import { parseTree } from '../xml-tree';
import { readConditions, type ConditionalRule } from './conditions';
import { readDrawings, type Drawing } from './drawings';
import { readLinks, type Link } from './links';
import { readPalette } from './looks';
import { readNotes, type Note } from './notes';

export interface SheetExtras {
  readonly notes: readonly Note[];
  readonly conditions: readonly ConditionalRule[];
  readonly links: readonly Link[];
  readonly drawings: readonly Drawing[];
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
          drawings: readDrawings(file, part),
        },
      ];
    }),
  );
}

/** A part as the file has it, such as a picture; undefined where it lacks the part. Throws XlsxError. */
export const readPart = (bytes: Uint8Array, part: string, codec?: Codec): Uint8Array | undefined =>
  new Package(bytes, codec).bytesOf(part);
