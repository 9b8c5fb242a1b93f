/** Rows hidden, shown and given a height: their start tags alone are changed. */
import { opened, prefixOf } from './elements';
import { XmlScanner } from './xml';

export interface RowChange {
  readonly hidden?: boolean;
  /** In points. */
  readonly height?: number;
}

/** The text of a sheetData element with changes of its rows, whose numbers count from 0. */
export function patchRows(data: string, changes: ReadonlyMap<number, RowChange>): string {
  if (changes.size === 0) return data;
  const xml = opened(data);
  const scanner = new XmlScanner(xml);
  scanner.next();
  const prefix = prefixOf(xml);
  const left = [...changes].sort(([a], [b]) => a - b);
  let out = '';
  let at = 0;
  const insertBefore = (row: number): void => {
    while (left.length > 0 && left[0]![0] < row) {
      const [number, change] = left.shift()!;
      out += `<${prefix}row r="${number + 1}"${attributes(change)}/>`;
    }
  };
  let row = -1;
  for (let token = scanner.next(); token !== 'close'; token = scanner.next()) {
    const { name } = scanner;
    if (token === 'text' || name !== 'row') {
      scanner.pass(token);
      continue;
    }
    const number = scanner.attribute('r');
    row = number === undefined ? row + 1 : Number(number) - 1;
    out += xml.slice(at, scanner.start);
    insertBefore(row);
    const change = left[0]?.[0] === row ? left.shift()![1] : undefined;
    const tag = xml.slice(scanner.start, scanner.end);
    out += change ? changedTag(tag, change) : tag;
    at = scanner.end;
    scanner.pass(token);
  }
  out += xml.slice(at, scanner.start);
  insertBefore(Infinity);
  return out + xml.slice(scanner.start);
}

const attributes = ({ hidden, height }: RowChange): string =>
  (height === undefined ? '' : ` ht="${height}" customHeight="1"`) + (hidden ? ' hidden="1"' : '');

function changedTag(tag: string, change: RowChange): string {
  const drop = [
    ...(change.hidden === undefined ? [] : ['hidden']),
    ...(change.height === undefined ? [] : ['ht', 'customHeight']),
  ];
  const bare = drop.reduce((text, name) => text.replace(new RegExp(`\\s${name}\\s*=\\s*("[^"]*"|'[^']*')`), ''), tag);
  return bare.replace(/\s*(\/?)>$/, (_whole, slash: string) => `${attributes(change)}${slash}>`);
}
