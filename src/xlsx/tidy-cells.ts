/**
 * A sheet's cells in the order that the schema asks for. Files that other programs wrote by hand have rows or cells
 * out of order, or cells that go by a shared formula before it: such a part is put right before it is patched.
 */
import { cellName } from '../sheet';
import { moved } from '../sheet/formula';
import { columnOf } from './cell-address';
import { prefixOf } from './elements';
import { XlsxError } from './error';
import { escapeXml, XmlScanner } from './xml';

interface Cell {
  readonly row: number;
  readonly column: number;
  readonly xml: string;
  readonly blank: boolean;
}

interface Row {
  readonly tag: string;
  readonly cells: Cell[];
  /** Elements of the row other than its cells. */
  rest: string;
}

interface Master {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

/** Numbers of the shared formulas that a cell goes by before the formula itself. */
export function earlyShared(data: string): Set<string> {
  const masters = new Set<string>();
  const early = new Set<string>();
  const scanner = new XmlScanner(data);
  for (const token of scanner.tags()) {
    if (scanner.name !== 'f') continue;
    const index = scanner.attribute('si');
    if (index === undefined || scanner.attribute('t') !== 'shared') continue;
    if (token === 'open' && scanner.textContent() !== '') masters.add(index);
    else if (!masters.has(index)) early.add(index);
  }
  return early;
}

/** The same cells with rows and cells in order, each with its address, and shared formulas written out in every cell. */
export function tidyCells(data: string): string {
  const scanner = new XmlScanner(data);
  scanner.next();
  const start = data.slice(scanner.start, scanner.end);
  const rows = readRows(data, scanner);
  const masters = mastersOf(rows);
  const text = [...rows.keys()]
    .sort((a, b) => a - b)
    .map((number) => rowXml(rows.get(number)!, number, masters))
    .join('');
  return `${start}${text}</${prefixOf(start)}sheetData>`;
}

function readRows(data: string, scanner: XmlScanner): Map<number, Row> {
  const rows = new Map<number, Row>();
  let number = -1;
  for (const token of scanner.tags()) {
    if (scanner.name !== 'row') {
      scanner.pass(token);
      continue;
    }
    const given = scanner.attribute('r');
    number = given === undefined ? number + 1 : Number(given) - 1;
    const row = rows.get(number) ?? {
      tag: data.slice(scanner.start, scanner.end),
      cells: [],
      rest: '',
    };
    rows.set(number, row);
    if (token === 'open') readCells(data, scanner, number, row);
  }
  return rows;
}

function readCells(data: string, scanner: XmlScanner, number: number, row: Row): void {
  let column = -1;
  for (;;) {
    const token = scanner.next();
    if (token === 'close') return;
    if (token === 'text') continue;
    const { start, end, name } = scanner;
    const address = scanner.attribute('r');
    scanner.pass(token);
    if (name !== 'c') {
      row.rest += data.slice(start, scanner.end);
      continue;
    }
    column = address === undefined ? column + 1 : columnOf(address);
    let xml = data.slice(start, scanner.end);
    if (address === undefined) xml = xml.replace(/^<([^\s>/]+)/, `<$1 r="${cellName(number, column)}"`);
    row.cells.push({
      row: number,
      column,
      xml,
      blank: scanner.end === end || /^<[^>]*>\s*<\/[^>]*>$/.test(xml),
    });
  }
}

function mastersOf(rows: ReadonlyMap<number, Row>): Map<string, Master> {
  const masters = new Map<string, Master>();
  for (const { cells } of rows.values())
    for (const { xml, row, column } of cells)
      eachShared(xml, (index, text) => {
        if (text !== '' && !masters.has(index)) masters.set(index, { text, row, column });
        return undefined;
      });
  return masters;
}

/** Goes through the shared formulas of a cell; what `take` gives is put in the place of the element. */
function eachShared(xml: string, take: (index: string, text: string) => string | undefined): string {
  if (!xml.includes('shared')) return xml;
  const scanner = new XmlScanner(xml);
  for (const token of scanner.tags()) {
    if (scanner.name !== 'f' || scanner.attribute('t') !== 'shared') continue;
    const { start } = scanner;
    const prefix = prefixOf(xml.slice(start));
    const text = take(scanner.attribute('si') ?? '', token === 'open' ? scanner.textContent() : '');
    if (text === undefined) return xml;
    return `${xml.slice(0, start)}<${prefix}f>${escapeXml(text)}</${prefix}f>${xml.slice(scanner.end)}`;
  }
  return xml;
}

function rowXml({ tag, cells, rest }: Row, number: number, masters: ReadonlyMap<string, Master>): string {
  const sorted = withoutBlankTwins([...cells].sort((a, b) => a.column - b.column));
  const inside = sorted
    .map(({ xml, row, column }) =>
      eachShared(xml, (index, text) => {
        const master = masters.get(index);
        if (text !== '') return text;
        return master && moved(master.text, row - master.row, column - master.column);
      }),
    )
    .join('');
  const start = numbered(tag, number).replace(/\sspans\s*=\s*(["'])[^"']*\1/, '');
  const content = inside + rest;
  return content === '' ? `${start}/>` : `${start}>${content}</${prefixOf(tag)}row>`;
}

/** A row's start tag without its end, with its number. */
const numbered = (tag: string, number: number): string => {
  const open = tag.replace(/\s*\/?>$/, '');
  return /\sr\s*=/.test(open) ? open : open.replace(/^<([^\s>/]+)/, `<$1 r="${number + 1}"`);
};

/** The one that holds something, of two cells with the same address. */
function withoutBlankTwins(cells: readonly Cell[]): Cell[] {
  const kept: Cell[] = [];
  for (const cell of cells) {
    const last = kept.at(-1);
    if (last?.column !== cell.column) kept.push(cell);
    else if (last.blank) kept[kept.length - 1] = cell;
    else if (!cell.blank)
      throw new XlsxError('corrupt', `The file holds the cell ${cellName(cell.row, cell.column)} of a sheet twice`);
  }
  return kept;
}
