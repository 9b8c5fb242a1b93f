/** Table references: Parts[width], Parts[[#Headers],[a]:[b]], [@width]. */
import type { RangeAddress, TableModel } from '../model';

export interface PartItem {
  /** Where it begins and ends in the part, without its own brackets. */
  readonly start: number;
  readonly end: number;
  /** True where it has brackets of its own. */
  readonly isBracketed: boolean;
  /** True for "#Headers", false for a column. */
  readonly isArea: boolean;
  /** The column's name as its title says it, or the area in lower case. */
  readonly name: string;
}

interface PartItems {
  /** True where "@" is written before them: they mean the formula's own row. */
  readonly isRow: boolean;
  readonly items: readonly PartItem[];
}

/** @param part what stands between the outer brackets */
export function partItems(part: string): PartItems {
  const lead = /^\s*@?\s*/.exec(part)![0];
  const isRow = lead.includes('@');
  const rest = part.slice(lead.length);
  if (rest.trim() === '') return { isRow, items: [] };
  if (!rest.startsWith('[')) return { isRow, items: [item(part, lead.length, part.length, false)] };
  const items: PartItem[] = [];
  for (let at = lead.length; at < part.length; at++) {
    if (part[at] !== '[') continue;
    const start = at + 1;
    while (at < part.length && part[at] !== ']') at += part[at] === "'" ? 2 : 1;
    items.push(item(part, start, Math.min(at, part.length), true));
  }
  return { isRow, items };
}

/** Spaces around a name do not belong to the name. */
function item(part: string, from: number, to: number, isBracketed: boolean): PartItem {
  const text = part.slice(from, to);
  const start = from + text.length - text.trimStart().length;
  const end = Math.max(start, from + text.trimEnd().length);
  const own = part.slice(start, end);
  const isArea = own.startsWith('#');
  return { start, end, isBracketed, isArea, name: isArea ? own.toLowerCase() : own.replace(/'([^])/g, '$1') };
}

/** A column's name as it is written in brackets: an apostrophe precedes every character that has a meaning there. */
export const escapedColumn = (name: string): string => name.replace(/['#[\]@]/g, "'$&");

/** True where a name needs no brackets of its own. */
export const isBareColumn = (name: string): boolean => /^[\p{L}\p{N}_]+$/u.test(name);

/** A part in the spelling that files have: "@width" is "[#This Row],[width]". */
export function filePart(part: string): string {
  const { isRow, items } = partItems(part);
  if (!isRow) return part;
  const rest = part.slice(part.indexOf('@') + 1).trim();
  if (items.length === 0) return '#This Row';
  return `[#This Row],${items[0]!.isBracketed ? rest : `[${rest}]`}`;
}

const OWN_ROW = /^\s*\[?\s*#This Row\s*\]?\s*(?:,\s*([^]*))?$/i;

/** A part of a file as it is typed: "[#This Row],[width]" is "@width". */
export function typedPart(part: string): string {
  const own = OWN_ROW.exec(part);
  if (!own) return part;
  const rest = own[1]?.trim() ?? '';
  const { items } = partItems(rest);
  const [column] = items;
  return items.length === 1 && column!.isBracketed && isBareColumn(column!.name) ? `@${column!.name}` : `@${rest}`;
}

export interface TablePart {
  readonly area: 'data' | 'headers' | 'all' | 'row' | 'totals' | 'headers-data' | 'data-totals';
  /** First and last column, from 0 in the table. */
  readonly from: number;
  readonly to: number;
}

/** What a reference names of a table; undefined where the table has no such column, or the reference cannot be read. */
export function tablePart(table: TableModel, text: string): TablePart | undefined {
  const { isRow, items } = partItems(text);
  const areas = items.flatMap(({ isArea, name }) => (isArea ? [name] : []));
  const columns = items.flatMap(({ isArea, name }) => (isArea ? [] : [name]));
  const area = areas.length === 0 ? (isRow ? 'row' : 'data') : AREAS.get(areas.sort().join(' '));
  if (!area || columns.length > 2) return undefined;
  if (!columns.length) return { area, from: 0, to: table.columns.length - 1 };
  const places = columns.map((column) =>
    table.columns.findIndex((name) => name.toLowerCase() === column.toLowerCase()),
  );
  return places.includes(-1) ? undefined : { area, from: Math.min(...places), to: Math.max(...places) };
}

const AREAS: ReadonlyMap<string, TablePart['area']> = new Map([
  ['#data', 'data'],
  ['#headers', 'headers'],
  ['#all', 'all'],
  ['#totals', 'totals'],
  ['#this row', 'row'],
  ['#data #headers', 'headers-data'],
  ['#data #totals', 'data-totals'],
]);

/** The first row and the number of rows of an area, seen from a row; undefined where there are none. */
const ROWS: Readonly<
  Record<TablePart['area'], (table: TableModel, row: number) => readonly [row: number, rows: number] | undefined>
> = {
  data: ({ range }) => [range.row + 1, Math.max(1, range.rows - 1)],
  headers: ({ range }) => [range.row, 1],
  all: ({ range, totals }) => [range.row, range.rows + (totals ? 1 : 0)],
  'headers-data': ({ range }) => [range.row, range.rows],
  'data-totals': ({ range, totals }) => [range.row + 1, Math.max(1, range.rows - 1 + (totals ? 1 : 0))],
  row: ({ range }, row) => (row > range.row && row < range.row + range.rows ? [row, 1] : undefined),
  totals: ({ range, totals }) => (totals ? [range.row + range.rows, 1] : undefined),
};

/** The cells that a part stands for, seen from a row; undefined where there are none. */
export function partRange(table: TableModel, { area, from, to }: TablePart, row: number): RangeAddress | undefined {
  const { sheet, column } = table.range;
  const lines = ROWS[area](table, row);
  return lines && { sheet, column: column + from, columns: to - from + 1, row: lines[0], rows: lines[1] };
}
