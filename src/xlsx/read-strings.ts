/** Shared strings and the text of cells. */
import { XmlScanner } from './xml';

/** The strings of xl/sharedStrings.xml by index; the runs of rich text joined, phonetic hints left out. */
export function readSharedStrings(xml: string): string[] {
  const strings: string[] = [];
  const scanner = new XmlScanner(xml);
  for (const token of scanner.knownTags())
    if (scanner.name === 'si') strings.push(token === 'open' ? readRuns(scanner) : '');
  return strings;
}

/** Text of the string element (si or is) whose start tag was just read. */
export function readRuns(scanner: XmlScanner): string {
  let text = '';
  for (let depth = 1; depth > 0;) {
    const token = scanner.next();
    if (token === 'close') depth--;
    else if (token === 'open') {
      if (scanner.name === 't') text += scanner.textContent();
      else if (scanner.name === 'rPh') scanner.skip();
      else depth++;
    }
  }
  return unescapeText(text);
}

/** "_x000A_" stands for a character that XML cannot hold. Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring). */
export const unescapeText = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_whole, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    : text;

/** Text as a file's string: characters that XML cannot hold, and text that looks like one of them, are spelled out. */
export const escapeText = (text: string): string =>
  text.replace(
    /_(?=x[0-9A-Fa-f]{4}_)|[\u0000-\u0008\u000b-\u001f\ufffe\uffff]/g,
    (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
  );

/** The name of a table's column as its part spells it, with line breaks written as _x000a_. */
export const escapeTitle = (name: string): string => escapeText(name).replaceAll('\n', '_x000a_');
