/** What a file has on its sheets beside the cells, for showing it. Saving carries it through by itself. */
import { Package } from '../package';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';
import { XmlTree, type XmlElement } from '../xml-tree';
import { readConditions, type ConditionalRule, readPalette } from './conditions';
import { readDrawings, type Drawing } from './drawings';
import { readNotes, type Note } from './notes';
import { parseRange, type RangeAddress } from '../../sheet';
import { unescapeText } from '../read-strings';

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
      const { root } = new XmlTree(file.text(part));
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

/** A link of cells. Source: ECMA-376 part 1, 18.3.1.47 (hyperlink); part 2, 9.3 (relationships that lead out of the package). */
export interface Link {
  readonly area: RangeAddress;
  /** As it is written: an address, or "#Parts!A1" for a place in the workbook. Nothing says that it is harmless. */
  readonly target: string;
}

/** @param root the sheet's part without its cells, whose name is `part` */
function readLinks(file: Package, root: XmlElement, part: string, sheet: string): Link[] {
  const addresses = new Map(file.relationships(part).map(({ id, address }) => [id, address]));
  return root
    .named('hyperlinks')
    .flatMap((list) => list.named('hyperlink'))
    .flatMap((element): Link[] => {
      const area = parseRange(element.get('ref') ?? '', sheet);
      const id = element.getPrefixed('id');
      const address = id === undefined ? '' : (addresses.get(id) ?? '');
      const location = unescapeText(element.get('location') ?? '');
      const target = location === '' ? address : `${address}#${location.replace(/^#/, '')}`;
      return area && target !== '' ? [{ area, target }] : [];
    });
}
