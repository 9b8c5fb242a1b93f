/** A filter's element → what it asks of its columns. Source: ECMA-376 part 1, 18.3.1.2 (autoFilter), 18.3.2 (filters). */
import { parseRange, type FilterColumn, type FilterModel } from '../sheet';
import { eachElement } from './elements';
import { parseTree, type XmlElement } from './xml-tree';

/** The filter of a sheet's or a table's part; undefined where it has none. `table` is the name of the table. */
export function readFilter(xml: string, sheet: string, table?: string): FilterModel | undefined {
  if (!xml.includes('autoFilter')) return undefined;
  const [place] = eachElement(xml, 'autoFilter', () => undefined);
  if (!place) return undefined;
  const { root } = parseTree(xml.slice(place.start, place.end));
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
export function readColumn(element: XmlElement): FilterColumn | undefined {
  const column = Number(element.get('colId'));
  const [asked, ...more] = element.elements;
  if (!asked) return undefined;
  const isPlain =
    asked.name === 'filters' &&
    more.length === 0 &&
    asked.get('calendarType') === undefined &&
    asked.elements.every(({ name }) => name === 'filter');
  if (!isPlain) return { column };
  const values = asked.named('filter').map((one) => one.get('val') ?? '');
  return { column, values, ...(/^(1|true)$/.test(asked.get('blank') ?? '') ? { blanks: true } : {}) };
}
