/**
 * Parts beside those of sheets that name cells and sheets: notes and their shapes, threads of comments, drawings, controls,
 * pivot tables and where they take their data, charts.
 */
import { isTrue } from '../xml';
import type { XmlElement } from '../xml-tree';
import { cellAfter, common, isOfWholeLines, isSheet, refAfter, type Area } from './areas';
import { formulaAfter, type FormulaEdit } from './formulas';
import { drop } from './frame';
import { isCellOperation, type CellOperation } from './operation';
import { parseRange } from '../../sheet';
import type { CellsMove, LineEdit } from '../../sheet/formula';

/** Elements that name a cell or range in a part of their own, and are removed with it. Source: ECMA-376 part 1, 18.7, 18.14; [MS-XLSX] 2.6.201. */
const PLACED: Readonly<Record<string, string>> = {
  comment: 'ref',
  threadedComment: 'ref',
  singleXmlCell: 'r',
  location: 'ref',
};

/** Notes, threads of comments, cells bound to XML, a pivot table's place. */
export function followPlaced(root: XmlElement, sheet: string, edit: FormulaEdit): void {
  if (!isCellOperation(edit)) return;
  for (const element of [...root.walk()]) {
    const attribute = PLACED[element.name];
    const text = attribute === undefined ? undefined : element.get(attribute);
    if (text === undefined) continue;
    const after = refAfter(text, sheet, edit);
    if (after === undefined) drop(element);
    else element.set(attribute!, after);
  }
}

/** Formulas in attributes of drawings and controls. Source: ECMA-376 part 1, 20.5.2.29 (sp); [MS-XLSX] 2.6.9 (formControlPr). */
const FORMULA_ATTRIBUTES = ['textlink', 'fmlaGroup', 'fmlaLink', 'fmlaRange', 'fmlaTxbx'];

/** Places of drawings, and of controls in a sheet's part; formulas that they show. */
export function followAnchors(root: XmlElement, sheet: string, edit: FormulaEdit): void {
  for (const element of root.walk()) {
    for (const name of FORMULA_ATTRIBUTES) {
      const text = element.get(name);
      if (text) element.set(name, formulaAfter(text, { sheet }, edit));
    }
    if (isCellOperation(edit)) followAnchor(element, sheet, edit);
  }
}

interface Marker {
  readonly element: XmlElement;
  row: number;
  column: number;
}

function followAnchor(element: XmlElement, sheet: string, edit: CellOperation): void {
  const from = markerIn(element, 'from');
  const how = behaviour(element);
  if (!from || how === 'absolute') return;
  const to = markerIn(element, 'to');
  if (edit.kind === 'move') return carry(from, to, sheet, edit);
  if (edit.within || !isSheet(sheet, edit.sheet)) return;
  const axis = edit.axis === 'rows' ? 'row' : 'column';
  const first = from[axis];
  putLine(from, axis, edit);
  if (!to) return;
  const last = to[axis];
  if (how === 'oneCell') return put(to, axis, from[axis] + last - first);
  putLine(to, axis, edit);
  // A drawing that would lose its size keeps the one that it had.
  if (last !== first && to[axis] === from[axis] && isIn(last, edit)) put(to, axis, from[axis] + last - first);
}

/** Whether a drawing moves and grows with its cells. Source: ECMA-376 part 1, 20.5.3.2 (ST_EditAs), 18.3.1.2 (anchor). */
function behaviour(element: XmlElement): 'twoCell' | 'oneCell' | 'absolute' {
  if (element.name === 'anchor') {
    const grows = isTrue(element.get('sizeWithCells')) ? 'twoCell' : 'oneCell';
    return isTrue(element.get('moveWithCells')) ? grows : 'absolute';
  }
  const edit = element.get('editAs');
  return edit === 'oneCell' || edit === 'absolute' ? edit : 'twoCell';
}

function markerIn(anchor: XmlElement, name: string): Marker | undefined {
  const [element] = anchor.named(name);
  const [row] = element?.named('row') ?? [];
  const [column] = element?.named('col') ?? [];
  return element && row && column ? { element, row: Number(row.text), column: Number(column.text) } : undefined;
}

function put(marker: Marker, axis: 'row' | 'column', line: number): void {
  marker[axis] = line;
  marker.element.named(axis === 'row' ? 'row' : 'col')[0]!.text = String(line);
}

const isIn = (line: number, { kind, at, count }: LineEdit): boolean =>
  kind === 'delete' && line >= at && line < at + count;

function putLine(marker: Marker, axis: 'row' | 'column', edit: LineEdit): void {
  const line = marker[axis];
  if (line < edit.at) return;
  if (isIn(line, edit)) {
    put(marker, axis, edit.at);
    for (const offset of marker.element.named(axis === 'row' ? 'rowOff' : 'colOff')) offset.text = '0';
  } else put(marker, axis, edit.kind === 'insert' ? line + edit.count : line - edit.count);
}

/** A drawing that lies in cells which are moved goes with them. */
function carry(from: Marker, to: Marker | undefined, sheet: string, edit: CellsMove): void {
  if (!isSheet(edit.from.sheet, sheet) || !isSheet(edit.to.sheet, sheet)) return;
  const inside = ({ row, column }: Marker): Area | undefined => common({ row, column, rows: 1, columns: 1 }, edit.from);
  if (!inside(from) || (to && !inside(to))) return;
  for (const marker of to ? [from, to] : [from]) {
    put(marker, 'row', marker.row + edit.to.row - edit.from.row);
    put(marker, 'column', marker.column + edit.to.column - edit.from.column);
  }
}

/** Shapes of notes and controls in the older drawing language, which is not always well-formed XML. Source: ECMA-376 part 4, 19.4 (VML, spreadsheet data). */
export const vmlAfter = (text: string, sheet: string, edit: FormulaEdit): string =>
  text.replace(/<v:shape\b[^>]*>[^]*?<\/v:shape>\s*/g, (shape) => shapeAfter(shape, sheet, edit));

function shapeAfter(shape: string, sheet: string, edit: FormulaEdit): string {
  const withFormulas = shape.replace(
    /(<x:Fmla(?:Link|Range|Txbx|Group)>)([^<]*)(?=<)/g,
    (_whole, tag: string, formula: string) => tag + formulaAfter(formula, { sheet }, edit),
  );
  if (!isCellOperation(edit)) return withFormulas;
  const [row, column] = ['Row', 'Column'].map((name) => new RegExp(`<x:${name}>\\s*(\\d+)\\s*<`).exec(shape)?.[1]);
  if (!/ObjectType="Note"/.test(shape) || row === undefined || column === undefined)
    return isOfWholeLines(edit, 'rows') || isOfWholeLines(edit, 'columns')
      ? controlAfter(withFormulas, sheet, edit)
      : withFormulas;
  const place = cellAfter(Number(row), Number(column), sheet, edit);
  if (!place) return '';
  const [down, across] = [place.row - Number(row), place.column - Number(column)];
  return withAnchor(withFormulas, ([a, b, c, d, e, f, g, h]) => [
    a! + across,
    b!,
    c! + down,
    d!,
    e! + across,
    f!,
    g! + down,
    h!,
  ])
    .replace(/(<x:Row>)\s*\d+\s*(?=<)/, `$1${place.row}`)
    .replace(/(<x:Column>)\s*\d+\s*(?=<)/, `$1${place.column}`);
}

function controlAfter(shape: string, sheet: string, edit: CellOperation): string {
  // The element says that the shape does not move.
  if (/<x:MoveWithCells\b/.test(shape)) return shape;
  return withAnchor(shape, ([a, b, c, d, e, f, g, h]) => {
    const place = cellAfter(c!, a!, sheet, edit);
    if (!place) return [a!, b!, c!, d!, e!, f!, g!, h!];
    const [down, across] = [place.row - c!, place.column - a!];
    return [place.column, b!, place.row, d!, e! + across, f!, g! + down, h!];
  });
}

const withAnchor = (shape: string, change: (numbers: number[]) => number[]): string =>
  shape.replace(/(<x:Anchor>)([^<]*)(?=<)/, (whole, tag: string, list: string) => {
    const numbers = list.split(',').map(Number);
    if (numbers.length !== 8 || numbers.some(Number.isNaN)) return whole;
    return `${tag}${change(numbers)
      .map((one) => Math.max(0, one))
      .join(', ')}`;
  });

/** By content type: charts of both kinds, the texts in them, pivot caches. */
export const isElsewhere = (contentType: string): boolean =>
  /drawingml\.chart\+xml|chartex\+xml|pivotCacheDefinition\+xml/.test(contentType);

/** Elements of charts whose text is a formula. Source: ECMA-376 part 1, 21.2.2.65 (f); [MS-ODRAWXML] 2.24.3 (f, sqref, fullRef…). */
const CHART_FORMULAS = new Set(['f', 'sqref']);

export function followElsewhere(root: XmlElement, edit: FormulaEdit): void {
  for (const element of root.walk()) {
    if (element.name === 'worksheetSource' || element.name === 'rangeSet') followSource(element, root, edit);
    else if (CHART_FORMULAS.has(element.name) && element.elements.length === 0) {
      element.text = formulaAfter(element.text, { sheet: '' }, edit);
    } else if (element.name === 'name' && element.parent?.name === 'pivotSource' && edit.kind === 'renameSheet')
      element.text = element.text.replace(
        /^(\[[^\]]*\])(.*)(!.*)$/,
        (whole, book: string, sheet: string, rest: string) =>
          isSheet(sheet, edit.sheet) ? book + edit.name + rest : whole,
      );
  }
}

function followSource(source: XmlElement, root: XmlElement, edit: FormulaEdit): void {
  const sheet = source.get('sheet') ?? '';
  if (edit.kind === 'renameSheet' && isSheet(sheet, edit.sheet)) source.set('sheet', edit.name);
  else if (edit.kind === 'renameTable' && source.get('name')?.toLowerCase() === edit.table.toLowerCase())
    source.set('name', edit.name);
  if (!isCellOperation(edit)) return;
  const before = source.get('ref');
  if (before === undefined) return;
  const after = refAfter(before, sheet, edit);
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
