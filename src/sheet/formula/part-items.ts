/** What stands between a table's brackets: Parts[width], Parts[[#Headers],[a]:[b]], [@[my width]]. */

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

export interface PartItems {
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
