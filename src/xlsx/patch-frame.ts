/** What stands around a sheet's cells: extent, widths, frozen panes, merges and drop-down lists. */
import {
  absoluteName,
  cellName,
  parseRange,
  quoteSheet,
  rangeName,
  type ChoiceValidation,
  type NameModel,
  type RangeAddress,
  type SheetModel,
} from '../sheet';
import type { ListMove, SheetChanges } from './difference';
import {
  addToList,
  changeAttributes,
  dropFromList,
  elementsOf,
  insertLast,
  isCells,
  prefixOf,
  replaceElements,
  SHEET_ORDER,
  withChild,
  withPrefix,
} from './elements';
import { XlsxError } from './error';
import { joined } from './part-bytes';
import { around, type Area } from './structure/areas';
import { escapeXml, XmlScanner } from './xml';

/** A sheet's part in two: the text around its cells with an empty sheetData, and its cells. */
export function splitSheet(xml: string): { readonly frame: string; readonly data: string } {
  const scanner = new XmlScanner(xml);
  for (const token of scanner.knownTags()) {
    if (!isCells(scanner, token)) continue;
    const { start } = scanner;
    const tag = xml.slice(start, scanner.end);
    if (token === 'open' && !closesFirst(xml, scanner)) scanner.skip();
    const { end } = scanner;
    return {
      frame: `${xml.slice(0, start)}<${prefixOf(tag)}sheetData/>${xml.slice(end)}`,
      data: xml.slice(start, end),
    };
  }
  throw new XlsxError('corrupt', 'A sheet of the file has no cells element');
}

/** Moves to the end of the cells without reading them; false where something in them has the name of their element, so that they must be read. */
function closesFirst(xml: string, scanner: XmlScanner): boolean {
  const close = `</${prefixOf(xml.slice(scanner.start, scanner.end))}sheetData`;
  const from = xml.indexOf('sheetData', scanner.end) - close.length + 'sheetData'.length;
  const end = xml.indexOf('>', from) + 1;
  if (!xml.startsWith(close, from) || end === 0) return false;
  scanner.end = end;
  scanner.depth--;
  return true;
}

export function joinSheet(frame: string, data: string | Uint8Array): Uint8Array {
  const [place] = elementsOf(frame, 'sheetData');
  return joined([frame.slice(0, place!.start), data, frame.slice(place!.end)]);
}

/** The frame with what the changes say of it; tables come elsewhere. */
export function patchFrame(frame: string, changes: SheetChanges): string {
  let xml = frame;
  if (changes.cells?.length) xml = withDimension(xml, changes);
  if (changes.frozen) xml = withPane(xml, changes.frozen);
  const columns = columnChanges(changes);
  if (columns.size) xml = withColumns(xml, columns);
  if (changes.isMadeHere) xml = withPageSetup(xml);
  if (changes.tabColor !== undefined) xml = withTabColor(xml, changes.tabColor);
  if (changes.unmerged?.length) xml = withoutMerges(xml, changes.unmerged);
  if (changes.merges?.length) xml = withMerges(xml, changes.merges);
  if (changes.movedValidations?.length) xml = withMovedLists(xml, changes.movedValidations);
  if (changes.validations?.length) xml = withValidations(xml, changes.validations);
  return xml;
}

/** The used range, where the sheet states it, grown over cells that came. */
function withDimension(xml: string, { cells = [], sheet }: SheetChanges): string {
  const kept = cells.filter((cell) => cell.value !== null || typeof cell.formula === 'string');
  if (!kept.length) return xml;
  return changeAttributes(xml, 'dimension', (scanner) => {
    const ref = scanner.attribute('ref') ?? '';
    const old = parseRange(ref, sheet);
    const used = kept.map(({ row, column }): Area => ({ row, column, rows: 1, columns: 1 }));
    const range = rangeName([...(old ? [old] : []), ...used].reduce(around));
    return range === ref ? undefined : new Map([['ref', range]]);
  });
}

function withPane(frame: string, { rows, columns }: { rows: number; columns: number }): string {
  const [old] = elementsOf(frame, 'pane');
  const bare = old ? frame.slice(0, old.start) + frame.slice(old.end) : frame;
  if (!rows && !columns) return bare;
  let xml = withChild(bare, 'sheetViews', SHEET_ORDER);
  if (!elementsOf(xml, 'sheetView').length)
    xml = insertLast(xml, 'sheetViews', '<sheetView workbookViewId="0"></sheetView>');
  const corner = cellName(rows, columns);
  const side = rows && columns ? 'bottomRight' : rows ? 'bottomLeft' : 'topRight';
  const split = `${columns ? ` xSplit="${columns}"` : ''}${rows ? ` ySplit="${rows}"` : ''}`;
  return insertFirst(xml, 'sheetView', `<pane${split} topLeftCell="${corner}" activePane="${side}" state="frozen"/>`);
}

function insertFirst(xml: string, parent: string, element: string): string {
  const scanner = new XmlScanner(xml);
  for (const token of scanner.tags()) {
    if (scanner.name !== parent) continue;
    if (token === 'empty') return insertLast(xml, parent, element);
    return (
      xml.slice(0, scanner.end) +
      withPrefix(element, prefixOf(xml.slice(scanner.start, scanner.end))) +
      xml.slice(scanner.end)
    );
  }
  return xml;
}

type ColumnAttributes = readonly (readonly [name: string, value: string])[];

/** Attributes of columns that get another width, or are hidden or shown. */
function columnChanges({ columnWidths, hiddenColumns }: SheetChanges): Map<number, ColumnAttributes> {
  const changes = new Map<number, ColumnAttributes>();
  for (const [column, width] of columnWidths ?? [])
    changes.set(column, [
      ['width', String(width)],
      ['customWidth', '1'],
    ]);
  for (const [column, hidden] of hiddenColumns ?? [])
    changes.set(column, [...(changes.get(column) ?? []), ['hidden', hidden ? '1' : '0']]);
  return changes;
}

/** The first element of a sheet's properties. */
function withTabColor(frame: string, color: string): string {
  const bare = replaceElements(frame, 'tabColor', () => '');
  if (color === '') return bare;
  return insertFirst(
    withChild(bare, 'sheetPr', SHEET_ORDER),
    'sheetPr',
    `<tabColor rgb="FF${color.slice(1).toUpperCase()}"/>`,
  );
}

function withoutMerges(frame: string, merges: readonly RangeAddress[]): string {
  const gone = new Set(merges.map(rangeName));
  return dropFromList(frame, 'mergeCells', 'mergeCell', ({ attributes }) => gone.has(attributes.get('ref') ?? ''));
}

/** Attributes by column; a run of columns that shared an entry is split where one of them changes. */
function withColumns(frame: string, widths: ReadonlyMap<number, ColumnAttributes>): string {
  const entries = elementsOf(frame, 'col').map(({ attributes }) => ({
    min: Number(attributes.get('min')),
    max: Number(attributes.get('max')),
    attributes,
  }));
  for (const [column, changed] of widths) {
    const number = column + 1;
    const index = entries.findIndex(({ min, max }) => number >= min && number <= max);
    const old = entries[index];
    const own = { min: number, max: number, attributes: new Map([...(old?.attributes ?? []), ...changed]) };
    if (!old) entries.push(own);
    else {
      const parts = [{ ...old, max: number - 1 }, own, { ...old, min: number + 1 }];
      entries.splice(index, 1, ...parts.filter(({ min, max }) => min <= max));
    }
  }
  entries.sort((a, b) => a.min - b.min);
  const bare = replaceElements(frame, 'cols', () => '');
  const text = entries.map(({ min, max, attributes }) => {
    const all = new Map([...attributes, ['min', String(min)], ['max', String(max)]]);
    return `<col${[...all].map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('')}/>`;
  });
  return insertLast(withChild(bare, 'cols', SHEET_ORDER), 'cols', text.join(''));
}

const withMerges = (frame: string, merges: readonly RangeAddress[]): string =>
  addToList(frame, 'mergeCells', 'mergeCell', merges.map((merge) => `<mergeCell ref="${rangeName(merge)}"/>`).join(''));

/** Gives drop-down lists other cells. One list may have several ranges, of which only some change. */
function withMovedLists(before: string, moves: readonly ListMove[]): string {
  const places = new Map(moves.map(({ from, to }) => [rangeName(from), to ? [rangeName(to)] : []]));
  const moved = (sqref = ''): string[] => sqref.split(/\s+/).flatMap((place) => places.get(place) ?? [place]);
  const left = dropFromList(
    before,
    'dataValidations',
    'dataValidation',
    ({ attributes }) => moved(attributes.get('sqref')).length === 0,
  );
  return changeAttributes(
    left,
    'dataValidation',
    (scanner) => new Map([['sqref', moved(scanner.attribute('sqref')).join(' ')]]),
  );
}

/** A list in place is limited to 255 characters by the programs that read it. */
const MAX_LIST = 255;

/** A list for the same cells takes the place of the one that was there. */
function withValidations(before: string, validations: readonly ChoiceValidation[]): string {
  const places = new Set(validations.map(({ range }) => rangeName(range)));
  const frame = replaceElements(before, 'dataValidation', ({ attributes }) =>
    places.has(attributes.get('sqref') ?? '') ? '' : undefined,
  );
  const elements = validations.map(({ range, choices, from, open }) => {
    const source = from ? absoluteName(from) : listIn(range, choices);
    const refuses = open ? '' : ' showErrorMessage="1"';
    return `<dataValidation type="list" allowBlank="1"${refuses} sqref="${rangeName(range)}"><formula1>${escapeXml(source)}</formula1></dataValidation>`;
  });
  return addToList(frame, 'dataValidations', 'dataValidation', elements.join(''));
}

/** Choices in place, as the formula of their list. */
function listIn(range: RangeAddress, choices: readonly string[]): string {
  const list = choices.join(',');
  if (list.length > MAX_LIST || choices.some((choice) => choice.includes(',')))
    throw new XlsxError(
      'unsupported',
      `A drop-down list at ${rangeName(range)} is too long or holds a comma: keep its choices in cells`,
    );
  return `"${list.replaceAll('"', '""')}"`;
}

/** In inches. */
const MARGINS = { left: '0.5', right: '0.5', top: '0.5', bottom: '0.7', header: '0.3', footer: '0.3' };
/** 0 pages high is as many as it takes. */
const SETUP = { orientation: 'landscape', fitToWidth: '1', fitToHeight: '0' };
/** The file and the sheet at the left, "Page 2 of 9" at the right. */
const FOOTER = '<oddFooter>&amp;L&amp;F: &amp;A&amp;RPage &amp;P of &amp;N</oddFooter>';

/**
 * A sheet's frame with the setup by which a sheet that is made here comes out of a printer: landscape, all columns on one
 * page's width, the header on every page, pages numbered. Source: ECMA-376 part 1, 18.3.1.46 (headerFooter), 18.3.1.62 to
 * 18.3.1.65 (margins, setup, fit). One that somebody has set up stays as it is.
 */
function withPageSetup(frame: string): string {
  if (has(frame, 'pageSetup')) return frame;
  let xml = withChild(frame, 'sheetPr', SHEET_ORDER);
  if (!has(xml, 'pageSetUpPr')) xml = insertLast(xml, 'sheetPr', '<pageSetUpPr/>');
  xml = withAttributes(xml, 'pageSetUpPr', { fitToPage: '1' });
  if (!has(xml, 'pageMargins'))
    xml = withAttributes(withChild(xml, 'pageMargins', SHEET_ORDER), 'pageMargins', MARGINS);
  xml = withAttributes(withChild(xml, 'pageSetup', SHEET_ORDER), 'pageSetup', SETUP);
  if (has(xml, 'headerFooter')) return xml;
  return insertLast(withChild(xml, 'headerFooter', SHEET_ORDER), 'headerFooter', FOOTER);
}

/** The name that repeats a sheet's header: the last of the rows that are kept in view. */
export const printTitles = ({ name, frozen }: Pick<SheetModel, 'name' | 'frozen'>): NameModel[] =>
  frozen?.rows
    ? [{ name: '_xlnm.Print_Titles', refersTo: `${quoteSheet(name)}!$${frozen.rows}:$${frozen.rows}`, scope: name }]
    : [];

const has = (xml: string, name: string): boolean => elementsOf(xml, name).length > 0;

const withAttributes = (xml: string, name: string, attributes: Readonly<Record<string, string>>): string =>
  changeAttributes(xml, name, () => new Map(Object.entries(attributes)));
