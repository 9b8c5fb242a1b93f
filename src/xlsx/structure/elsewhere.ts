/** Parts of the workbook, not of a sheet, that name cells and sheets: charts, and where pivot tables take their data. */
import { parseRange } from '../../sheet';
import type { XmlElement } from '../xml-tree';
import { refAfter } from './areas';
import { formulaAfter, type FormulaEdit } from './formulas';
import { isCellOperation, type CellOperation, type Operation } from './operation';

/** By content type: charts of both kinds, the texts in them, pivot caches. */
export const isElsewhere = (contentType: string): boolean =>
  /drawingml\.chart\+xml|chartex\+xml|pivotCacheDefinition\+xml/.test(contentType);

/** Elements of charts whose text is a formula. Source: ECMA-376 part 1, 21.2.2.65 (f); [MS-ODRAWXML] 2.24.3 (f, sqref, fullRef…). */
const CHART_FORMULAS = new Set(['f', 'sqref']);

export function followElsewhere(root: XmlElement, edit: FormulaEdit): void {
  for (const element of root.walk()) {
    if (element.name === 'worksheetSource' || element.name === 'rangeSet') followSource(element, root, edit);
    else if (CHART_FORMULAS.has(element.name) && element.elements.length === 0) {
      const text = element.text;
      const after = formulaAfter(text, { sheet: '' }, edit);
      if (after !== text) element.text = after;
    } else if (element.name === 'name' && element.parent?.name === 'pivotSource' && edit.kind === 'renameSheet')
      element.text = element.text.replace(
        /^(\[[^\]]*\])(.*)(!.*)$/,
        (whole, book: string, sheet: string, rest: string) =>
          sheet.toLowerCase() === edit.sheet.toLowerCase() ? book + edit.name + rest : whole,
      );
  }
}

function followSource(source: XmlElement, root: XmlElement, edit: FormulaEdit): void {
  const sheet = source.get('sheet') ?? '';
  if (edit.kind === 'renameSheet' && sheet.toLowerCase() === edit.sheet.toLowerCase()) source.set('sheet', edit.name);
  else if (edit.kind === 'renameTable' && source.get('name')?.toLowerCase() === edit.table.toLowerCase())
    source.set('name', edit.name);
  if (!isCellOperation(edit as Operation)) return;
  const before = source.get('ref');
  if (before === undefined) return;
  const after = refAfter(before, sheet, edit as CellOperation);
  if (after === undefined || after === before) return;
  source.set('ref', after);
  const [was, is] = [before, after].map((text) => parseRange(text, sheet));
  // The records no longer fit their source: they are read again when the file is opened.
  if (was && is && (was.rows !== is.rows || was.columns !== is.columns)) root.set('refreshOnLoad', '1');
}

/** "#'My parts'!A1" after an edit; it stays where its cells are gone. */
export function linkAfter(target: string, sheet: string, edit: FormulaEdit): string {
  const [text, isEncoded] = decoded(target.slice(1));
  const after = formulaAfter(text, { sheet }, edit);
  if (after === text || after.includes('#REF!')) return target;
  return `#${isEncoded ? encodeURI(after) : after}`;
}

function decoded(text: string): [text: string, isEncoded: boolean] {
  if (!text.includes('%')) return [text, false];
  try {
    return [decodeURI(text), true];
  } catch {
    return [text, false];
  }
}
