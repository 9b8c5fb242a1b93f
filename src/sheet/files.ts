/** What files and sheets have to do with each other: the text in a file, and the name of a sheet that is made of one. */
import { columnName } from './address';

/** A file's text: UTF-16 where its mark says so, as spreadsheets write "Unicode text"; else UTF-8, or the older Windows encoding where it is not. */
export function decodeText(bytes: ArrayBuffer | Uint8Array): string {
  const [first, second] = new Uint8Array(bytes.slice(0, 2));
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

/** The longest name of a sheet, and what may not be in one. Source: Microsoft, "Rename a worksheet". */
const LONGEST = 31;
const NOT_IN_NAME = /[\\/?*:[\]]/g;

/**
 * A name that a sheet may have, as near to a title as can be, with a number behind it where a sheet has that name.
 * @param taken names of sheets in lower case
 */
export function freeSheetName(title: string, taken: ReadonlySet<string>): string {
  const plain =
    title
      .replace(NOT_IN_NAME, '-')
      .replace(/^'+|'+$/g, '')
      .trim() || columnName(0);
  for (let number = 1; ; number++) {
    const behind = number === 1 ? '' : ` ${number}`;
    const name = plain.slice(0, LONGEST - behind.length) + behind;
    if (!taken.has(name.toLowerCase())) return name;
  }
}
