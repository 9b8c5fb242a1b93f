/** Links of cells. Source: ECMA-376 part 1, 18.3.1.47 (hyperlink); part 2, 9.3 (relationships that lead out of the package). */
import { parseRange, type RangeAddress } from '../../sheet';
import type { Package } from '../package';
import { unescapeText } from '../read-strings';
import type { XmlElement } from '../xml-tree';

export interface Link {
  readonly area: RangeAddress;
  /** As it is written: an address, or "#Parts!A1" for a place in the workbook. Nothing says that it is harmless. */
  readonly target: string;
}

/** @param root the sheet's part without its cells, whose name is `part` */
export function readLinks(file: Package, root: XmlElement, part: string, sheet: string): Link[] {
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
