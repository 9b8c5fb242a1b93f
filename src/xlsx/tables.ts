/** Tables of a workbook: read, new ones, and ranges and columns that changed. */
import { parseRange, rangeName, type TableModel } from '../sheet';
import { addToList, changeAttributes, elementsOf, prefixOf, withPrefix, changeTexts } from './elements';
import { XlsxError } from './error';
import { withColumnNames } from '../sheet/formula';
import { RELATIONSHIPS, SPREADSHEET, XML_HEAD, type Package } from './package';
import { escapeTitle, unescapeText } from './read-strings';
import { escapeXml } from './xml';

const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml';

/** Tables of a sheet's part by name in lower case, with the parts they stand in. */
export const tablesOf = (
  file: Package,
  sheetPart: string,
  sheet: string,
): Map<string, { part: string; table: TableModel }> =>
  new Map(
    file.related(sheetPart, 'table').flatMap((part) => {
      const table = readTable(file.text(part), sheet);
      return table ? [[table.name.toLowerCase(), { part, table }] as const] : [];
    }),
  );

/** Gives a table another range and other column names; what else it holds (totals, styles, filters' choices) stays. */
export function changeTable(file: Package, part: string, before: TableModel, after: TableModel): void {
  let xml = file.text(part);
  const totals = Number(elementsOf(xml, 'table')[0]?.attributes.get('totalsRowCount') ?? 0);
  // A table always has a row of data; it may be blank.
  const rows = Math.max(2, after.range.rows);
  xml = changeAttributes(xml, 'table', () => new Map([['ref', rangeName({ ...after.range, rows: rows + totals })]]));
  // Of several filters the first one is the table's own.
  const [own] = elementsOf(xml, 'autoFilter');
  xml = changeAttributes(xml, 'autoFilter', ({ start }) =>
    start === own?.start ? new Map([['ref', rangeName({ ...after.range, rows })]]) : undefined,
  );
  if (before.columns.join('\n') !== after.columns.join('\n')) xml = changeColumns(xml, after.columns);
  file.set(part, withRenamedColumns(xml, before, after));
}

/** Formulas of the table's own columns follow columns that have other names. */
function withRenamedColumns(xml: string, before: TableModel, after: TableModel): string {
  if (before.columns.length !== after.columns.length) return xml;
  const kept = new Set(after.columns.map((name) => name.toLowerCase()));
  const renamed = before.columns.flatMap((name, index): [string, string][] =>
    kept.has(name.toLowerCase()) ? [] : [[name.toLowerCase(), after.columns[index]!]],
  );
  if (renamed.length === 0) return xml;
  return changeTexts(xml, new Set(['calculatedColumnFormula', 'totalsRowFormula']), (formula) =>
    withColumnNames(formula, before.name, new Map(renamed), true),
  );
}

/** A column keeps its element where its name stays, or where only the name at its place changed. */
function changeColumns(xml: string, columns: readonly string[]): string {
  const elements = elementsOf(xml, 'tableColumn').map(({ start, end, attributes }) => ({
    name: attributes.get('name') ?? '',
    id: Number(attributes.get('id') ?? 0),
    text: xml.slice(start, end),
  }));
  let highest = Math.max(0, ...elements.map(({ id }) => id));
  const [list] = elementsOf(xml, 'tableColumns');
  if (!list) throw new XlsxError('corrupt', 'A table of the file has no columns');
  const prefix = prefixOf(xml.slice(list.start, list.end));
  const spellings = columns.map(escapeTitle);
  const left = new Map(elements.map((element) => [element.name, element]));
  const chosen = spellings.map((name) => left.get(name)?.text);
  const used = new Set(chosen);
  const text = spellings.map((name, index) => {
    const same = chosen[index];
    if (same) return same;
    const there = elements[index];
    if (there && columns.length === elements.length && !used.has(there.text))
      return changeAttributes(there.text, 'tableColumn', () => new Map([['name', escapeXml(name)]]));
    return withPrefix(columnXml(++highest, name), prefix);
  });
  return `${xml.slice(0, list.start)}<${prefix}tableColumns count="${columns.length}">${text.join('')}</${prefix}tableColumns>${xml.slice(list.end)}`;
}

/** Makes a new table; returns the sheet's frame (its part without cells) with the table in it. */
export function addTable(file: Package, sheetPart: string, frame: string, table: TableModel): string {
  if (
    table.columns.length !== table.range.columns ||
    new Set(table.columns.map((name) => name.toLowerCase())).size !== table.columns.length ||
    table.columns.includes('')
  ) {
    throw new XlsxError('unsupported', `Table ${table.name}: no two columns may have the same name`);
  }
  const part = file.freeName('xl/tables/table', '.xml');
  file.addPart(part, TYPE, newTable(table, nextId(file)));
  const id = file.relate(sheetPart, 'table', part);
  const element = `<tablePart xmlns:r="${file.inForm(RELATIONSHIPS)}" r:id="${id}"/>`;
  return addToList(frame, 'tableParts', 'tablePart', element);
}

function newTable({ name, range, columns }: TableModel, id: number): string {
  const ref = rangeName(range);
  const label = escapeXml(name);
  return [
    XML_HEAD,
    `<table xmlns="${SPREADSHEET}" id="${id}" name="${label}" displayName="${label}" ref="${ref}" totalsRowShown="0">`,
    `<autoFilter ref="${ref}"/><tableColumns count="${columns.length}">`,
    ...columns.map((column, index) => columnXml(index + 1, escapeTitle(column))),
    '</tableColumns><tableStyleInfo name="TableStyleLight9" showFirstColumn="0" showLastColumn="0" showRowStripes="1" showColumnStripes="0"/></table>',
  ].join('');
}

const columnXml = (id: number, name: string): string => `<tableColumn id="${id}" name="${escapeXml(name)}"/>`;

function nextId(file: Package): number {
  const ids = tableParts(file).map((name) =>
    Number(elementsOf(file.text(name), 'table')[0]?.attributes.get('id') ?? 0),
  );
  return Math.max(0, ...ids) + 1;
}

/** The parts of all tables of a file. */
export const tableParts = (file: Package): string[] =>
  file.parts().filter((name) => /^\/?xl\/tables\/[^/]+\.xml$/i.test(name));

/** A table's part; its totals row does not belong to the model's range. A table without a header row has no names to go by. */
export function readTable(xml: string, sheet: string): TableModel | undefined {
  const table = elementsOf(xml, 'table')[0]?.attributes;
  const range = parseRange(table?.get('ref') ?? '', sheet);
  if (!table || !range || table.get('headerRowCount') === '0') return undefined;
  const totals = Number(table.get('totalsRowCount') ?? 0);
  return {
    name: table.get('displayName') ?? table.get('name') ?? '',
    range: { ...range, rows: range.rows - totals },
    ...(totals ? { totals: true } : {}),
    columns: elementsOf(xml, 'tableColumn').map(({ attributes }) => unescapeText(attributes.get('name') ?? '')),
  };
}
