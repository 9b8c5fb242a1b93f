/**
 * Filters of a sheet and its tables, read and put into the file: what a filter asks beside values stays as it stands
 * there. Source: ECMA-376 part 1, 18.3.1.2 (autoFilter), 18.3.2 (filters).
 */
import {
  parseRange,
  type FilterColumn,
  type FilterModel,
  type NameModel,
  columnName,
  quoteSheet,
  rangeName,
} from '../sheet';
import { elementsOf, changeAttributes, replaceElements, withChild, SHEET_ORDER } from './elements';
import { XmlTree, type XmlElement } from './xml-tree';
import type { Package } from './package';
import { tablesOf } from './tables';
import { escapeXml, isTrue } from './xml';

/** The filter of a sheet's or a table's part; undefined where it has none. `table` is the name of the table. */
export function readFilter(xml: string, sheet: string, table?: string): FilterModel | undefined {
  if (!xml.includes('autoFilter')) return undefined;
  const [place] = elementsOf(xml, 'autoFilter');
  if (!place) return undefined;
  const { root } = new XmlTree(xml.slice(place.start, place.end));
  const range = parseRange(root.get('ref') ?? '', sheet);
  if (!range) return undefined;
  const columns = root.named('filterColumn').flatMap((column) => readColumn(column) ?? []);
  return {
    range,
    ...(table === undefined ? {} : { table }),
    columns: columns.sort((a, b) => a.column - b.column),
  };
}

/** undefined for a column that filters nothing; its element then only says how its button looks. */
function readColumn(element: XmlElement): FilterColumn | undefined {
  const column = Number(element.get('colId'));
  const [asked, ...more] = element.elements;
  if (!asked) return undefined;
  const isPlain =
    asked.name === 'filters' &&
    more.length === 0 &&
    asked.get('calendarType') === undefined &&
    asked.elements.every(({ name }) => name === 'filter');
  if (!isPlain) return { column };
  return {
    column,
    values: asked.named('filter').map((one) => one.get('val') ?? ''),
    ...(isTrue(asked.get('blank')) ? { blanks: true } : {}),
  };
}

/** A sheet's frame with its own filter as it shall be, or without one. */
export function withFilter(frame: string, filters: readonly FilterModel[]): string {
  const wanted = filters.find(({ table }) => table === undefined);
  if (!wanted) return replaceElements(frame, 'autoFilter', () => '');
  return withColumns(withChild(frame, 'autoFilter', SHEET_ORDER), rangeName(wanted.range), wanted.columns);
}

/** Filters of a sheet's tables; one that is not listed hides no rows. */
export function setTableFilters(
  file: Package,
  sheetPart: string,
  sheet: string,
  filters: readonly FilterModel[],
): void {
  for (const [name, { part }] of tablesOf(file, sheetPart, sheet)) {
    const columns = filters.find(({ table }) => table?.toLowerCase() === name)?.columns ?? [];
    const xml = file.text(part);
    const [place] = elementsOf(xml, 'autoFilter');
    if (!place && columns.length === 0) continue;
    const { root } = new XmlTree(xml);
    const totals = Number(root.get('totalsRowCount') ?? 0);
    const ref = (root.get('ref') ?? '').replace(/\d+$/, (row) => String(Number(row) - totals));
    // The filter is the first element inside a table.
    const ready = place ? xml : xml.replace(/<([^\s>/:]*:)?tableColumns\b/, `<$1autoFilter ref="${ref}"/>$&`);
    const after = withColumns(ready, undefined, columns);
    if (after !== xml) file.set(part, after);
  }
}

/**
 * The name by which programs know what a sheet's filter is over. Source: ECMA-376 part 1, 18.2.5 (definedName,
 * _xlnm._FilterDatabase); as programs write it, it is hidden.
 */
export const FILTER_NAME = '_xlnm._FilterDatabase';

/** That name for a sheet's own filter; none where its tables alone have filters. */
export const filterNames = (sheet: string, filters: readonly FilterModel[]): NameModel[] =>
  filters.flatMap(({ table, range: { row, column, rows, columns } }) => {
    const last = `$${columnName(column + columns - 1)}$${row + rows}`;
    const refersTo = `${quoteSheet(sheet)}!$${columnName(column)}$${row + 1}:${last}`;
    return table === undefined ? [{ name: FILTER_NAME, refersTo, scope: sheet }] : [];
  });

/** A part's first filter with the range, where one is given, and with the columns. */
function withColumns(part: string, ref: string | undefined, columns: readonly FilterColumn[]): string {
  const xml = ref === undefined ? part : changeAttributes(part, 'autoFilter', () => new Map([['ref', ref]]));
  const [place] = elementsOf(xml, 'autoFilter');
  const tree = new XmlTree(xml.slice(place!.start, place!.end));
  const wanted = new Map(columns.map((one) => [one.column, one]));
  for (const element of tree.root.named('filterColumn')) {
    const number = Number(element.get('colId'));
    const before = readColumn(element);
    const after = wanted.get(number);
    wanted.delete(number);
    if (JSON.stringify(before) === JSON.stringify(after) || (after && !after.values)) continue;
    for (const one of element.elements) one.remove();
    if (after) element.add(criteria(after));
    // What is left says how the button looks.
    else if (element.get('hiddenButton') === undefined && element.get('showButton') === undefined) element.remove();
  }
  for (const column of wanted.values()) {
    if (!column.values) continue;
    const next = tree.root.elements.find((one) => isBehind(one, column.column));
    tree.root.add(`<filterColumn colId="${column.column}">${criteria(column)}</filterColumn>`, next);
  }
  return xml.slice(0, place!.start) + tree.toString() + xml.slice(place!.end);
}

const isBehind = (element: XmlElement, column: number): boolean =>
  element.name !== 'filterColumn' || Number(element.get('colId')) > column;

function criteria({ values = [], blanks }: FilterColumn): string {
  const list = values.map((value) => `<filter val="${escapeXml(value)}"/>`).join('');
  return `<filters${blanks ? ' blank="1"' : ''}>${list}</filters>`;
}
