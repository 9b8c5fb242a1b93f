/** What files and sheets have to do with each other: the text in a file, the name of a sheet that is made of one, and the titles of a table on it. */
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

/** The titles that header cells give; a blank cell is undefined. A cell that is blank, or repeats a title, gets a title that is made for it: no two titles are alike in any case. Source: ECMA-376 part 1, 18.5.1.3 (tableColumn). */
export function tableTitles(texts: readonly (string | undefined)[]): string[] {
  const first = new Set<string>();
  // Typed titles are taken first, so that no made one takes the name of a typed one further right.
  const own = texts.map((text) => {
    if (text === undefined || text === '' || first.has(text.toLowerCase())) return undefined;
    first.add(text.toLowerCase());
    return text;
  });
  return own.map((title, index) => {
    if (title !== undefined) return title;
    const stem = texts[index] || 'Column';
    let number = texts[index] ? 2 : index + 1;
    while (first.has(`${stem}${number}`.toLowerCase())) number++;
    first.add(`${stem}${number}`.toLowerCase());
    return `${stem}${number}`;
  });
}
