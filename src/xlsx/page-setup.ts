/**
 * How a sheet that is made here comes out of a printer: landscape, all columns on one page's width, the header on every
 * page, pages numbered. Source: ECMA-376 part 1, 18.3.1.46 (headerFooter), 18.3.1.62 to 18.3.1.65 (margins, setup, fit).
 */
import { quoteSheet, type NameModel, type SheetModel } from '../sheet';
import { changeAttributes, eachElement, insertLast, withChild } from './elements';
import { SHEET_ORDER } from './sheet-order';

/** In inches. */
const MARGINS = { left: '0.5', right: '0.5', top: '0.5', bottom: '0.7', header: '0.3', footer: '0.3' };
/** 0 pages high is as many as it takes. */
const SETUP = { orientation: 'landscape', fitToWidth: '1', fitToHeight: '0' };
/** The file and the sheet at the left, "Page 2 of 9" at the right. */
const FOOTER = '<oddFooter>&amp;L&amp;F: &amp;A&amp;RPage &amp;P of &amp;N</oddFooter>';

/** A sheet's frame with the setup; one that somebody has set up stays as it is. */
export function withPageSetup(frame: string): string {
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
export function printTitles({ name, frozen }: Pick<SheetModel, 'name' | 'frozen'>): NameModel[] {
  if (!frozen?.rows) return [];
  return [{ name: '_xlnm.Print_Titles', refersTo: `${quoteSheet(name)}!$${frozen.rows}:$${frozen.rows}`, scope: name }];
}

const has = (xml: string, name: string): boolean => eachElement(xml, name, () => undefined).length > 0;

const withAttributes = (xml: string, name: string, attributes: Readonly<Record<string, string>>): string =>
  changeAttributes(xml, name, () => new Map(Object.entries(attributes)));
