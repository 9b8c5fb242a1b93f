/** What stands around a sheet's cells, after an edit of the structure. */
import { cellName, isInRange, parseCell, parseRange, rangeName } from '../../sheet';
import { LAST_COLUMN, LAST_ROW } from '../../sheet/formula';
import { XmlTree, type XmlElement } from '../xml-tree';
import {
  areaAfter,
  areasAfter,
  areasText,
  around,
  isOfWholeLines,
  isSheet,
  parseAreas,
  refAfter,
  sheetsOf,
  type Area,
} from './areas';
import { formulaAfter, ruledAfter, type FormulaEdit } from './formulas';
import { FRAME_RULES, HOLDERS, LISTS, type FrameRule } from './frame-rules';
import { isCellOperation, type CellOperation } from './operation';

/** The sheet's part with an empty sheetData. */
export class Frame extends XmlTree {
  follow(sheet: string, edit: FormulaEdit): void {
    const touches = isCellOperation(edit) && sheetsOf(edit).some((name) => isSheet(name, sheet));
    for (const element of [...this.root.walk()]) {
      if (RULED.has(element.name)) {
        if (!followRule(element, sheet, edit)) drop(element);
      } else if (!isInRule(element))
        for (const rule of FRAME_RULES[element.name] ?? []) {
          if (rule.kind === 'formula' || rule.kind === 'link') followFormula(element, rule, sheet, edit);
          else if (touches) followRef(element, rule, sheet, edit);
        }
    }
    if (!touches) return;
    this.followLines(sheet, edit);
    this.followFilters(sheet, edit);
    this.tidyMerges();
    this.tidySelections(sheet);
  }

  get merges(): string[] {
    return this.root.listed('mergeCells', 'mergeCell').flatMap((one) => one.get('ref') ?? []);
  }

  get hasLinks(): boolean {
    return this.root.named('hyperlinks').length > 0;
  }

  /** Only the cells of links get new places. */
  followLinks(sheet: string, edit: CellOperation): void {
    for (const link of this.root.listed('hyperlinks', 'hyperlink')) {
      const after = refAfter(link.get('ref') ?? '', sheet, edit);
      if (after !== undefined) link.set('ref', after);
    }
  }

  /** Takes out the entry of a table by the id of its relationship. */
  dropTable(id: string): void {
    for (const one of this.root.listed('tableParts', 'tablePart')) if (one.getPrefixed('id') === id) drop(one);
  }

  /** The used range, where the sheet states it, grown over its tables: their new headers stand in cells. */
  growDimension(tables: ReadonlyMap<string, { readonly area: Area }>): void {
    const [dimension] = this.root.named('dimension');
    const stated = parseRange(dimension?.get('ref') ?? '', '');
    if (!dimension || !stated) return;
    dimension.set('ref', rangeName([...tables.values()].map(({ area }) => area).reduce(around, stated)));
  }

  /** Widths and page breaks go by the numbers of columns and rows. */
  private followLines(sheet: string, edit: CellOperation): void {
    for (const list of this.root.named('cols')) {
      const columns = list.named('col').flatMap((col) => {
        const [min, max] = [Number(col.get('min')), Number(col.get('max'))];
        const area: Area = { row: 0, rows: LAST_ROW + 1, column: min - 1, columns: max - min + 1 };
        return isOfWholeLines(edit, 'columns')
          ? areasAfter([area], sheet, edit).map((one) => ({ col, area: one }))
          : [{ col, area }];
      });
      for (const one of list.named('col')) one.remove();
      for (const { col, area } of columns.sort((a, b) => a.area.column - b.area.column)) {
        const copy = list.add(`<col/>`);
        for (const name of COL_ATTRIBUTES) copy.set(name, col.get(name));
        copy.set('min', String(area.column + 1));
        copy.set('max', String(Math.min(area.column + area.columns, LAST_COLUMN + 1)));
      }
      if (columns.length === 0) drop(list);
    }
    for (const list of [...this.root.walk()].filter(({ name }) => name === 'rowBreaks' || name === 'colBreaks'))
      for (const brk of list.named('brk')) followBreak(brk, list.name === 'rowBreaks', sheet, edit);
  }

  /** A filter's columns are counted from its first. */
  private followFilters(sheet: string, edit: CellOperation): void {
    for (const filter of this.root.all('autoFilter')) {
      const now = parseRange(filter.get('ref') ?? '', sheet);
      if (!now) continue;
      followFilterColumns(filter, this.filterBefore.get(filter) ?? now, now, { sheet, edit });
      this.filterBefore.set(filter, now);
    }
  }

  private readonly filterBefore = new Map<XmlElement, Area>();

  /** Where filters stand before an edit; to be called before `follow`. */
  note(sheet: string): void {
    for (const filter of this.root.all('autoFilter')) {
      const area = parseRange(filter.get('ref') ?? '', sheet);
      if (area) this.filterBefore.set(filter, area);
    }
  }

  /** A merge of a single cell is not a merge any more and is left out. */
  private tidyMerges(): void {
    for (const merge of this.root.listed('mergeCells', 'mergeCell')) if (!merge.get('ref')?.includes(':')) drop(merge);
  }

  /** Sees to it that the active cell lies in its selection, as the standard asks. */
  private tidySelections(sheet: string): void {
    for (const selection of this.root.all('selection')) {
      const active = selection.get('activeCell');
      const cell = active === undefined ? undefined : parseCell(active);
      const areas = parseAreas(selection.get('sqref') ?? 'A1', sheet);
      if (!cell || areas?.some((area) => isInRange(area, cell.row, cell.column))) continue;
      selection.set('sqref', active);
      selection.set('activeCellId', undefined);
    }
  }
}

const COL_ATTRIBUTES = ['min', 'max', 'width', 'style', 'hidden', 'bestFit', 'customWidth', 'phonetic', 'outlineLevel', 'collapsed']; // prettier-ignore

const isInRule = (element: XmlElement): boolean =>
  element.parent !== undefined && (RULED.has(element.parent.name) || isInRule(element.parent));

/** A text of an element that may be changed: an attribute's, or its own. */
interface TextPlace {
  readonly text: string;
  put(text: string): void;
}

function placeIn(element: XmlElement, attribute: string | undefined): TextPlace | undefined {
  const text = attribute === undefined ? element.text : element.get(attribute);
  return text === undefined
    ? undefined
    : {
        text,
        put(after) {
          if (attribute === undefined) element.text = after;
          else element.set(attribute, after);
        },
      };
}

function followFormula(element: XmlElement, rule: FrameRule, sheet: string, edit: FormulaEdit): void {
  const place = placeIn(element, rule.attribute);
  if (!place?.text) return;
  const after = formulaAfter(place.text, { sheet }, edit);
  if (rule.kind !== 'link' || !after.includes('#REF!')) place.put(after);
}

function followRef(element: XmlElement, rule: FrameRule, sheet: string, edit: CellOperation): void {
  const place = placeIn(element, rule.attribute);
  if (!place?.text.trim()) return;
  const after = refsAfter(place.text, rule.kind, sheet, edit);
  if (after !== undefined) place.put(after);
  else if (rule.kind === 'optional') element.set(rule.attribute!, undefined);
  else drop(holderOf(element));
}

function refsAfter(text: string, kind: FrameRule['kind'], sheet: string, edit: CellOperation): string | undefined {
  if (kind === 'view')
    return text
      .split(/\s+/)
      .map((ref) => viewAfter(ref, sheet, edit))
      .join(' ');
  if (kind === 'ref') return refAfter(text, sheet, edit);
  const areas = parseAreas(text, sheet);
  if (!areas) {
    const left = text.split(/\s+/).flatMap((ref) => refAfter(ref, sheet, edit) ?? []);
    return left.length ? left.join(' ') : undefined;
  }
  const after = areasAfter(areas, sheet, edit);
  return after.length ? areasText(after) : undefined;
}

/** What is seen of a sheet moves with its cells, and stays where they were when they go. */
function viewAfter(ref: string, sheet: string, edit: CellOperation): string {
  const after = edit.kind === 'move' ? ref : refAfter(ref, sheet, edit);
  if (after !== undefined) return after;
  const area = parseRange(ref, sheet);
  if (!area || edit.kind === 'move') return 'A1';
  return edit.axis === 'rows' ? cellName(edit.at, area.column) : cellName(area.row, edit.at);
}

/** What an element stands for as a whole. */
function holderOf(element: XmlElement): XmlElement {
  for (let one: XmlElement | undefined = element; one; one = one.parent)
    if (HOLDERS[element.name]?.includes(one.name)) return one;
  return element;
}

/** Takes an element away, and lists that are then empty; counts follow. */
export function drop(element: XmlElement): void {
  const { parent } = element;
  element.remove();
  if (!parent) return;
  if (LISTS.has(parent.name) && parent.elements.length === 0) drop(parent);
  else if (parent.get('count') !== undefined) parent.set('count', String(parent.elements.length));
}

function followBreak(brk: XmlElement, isRow: boolean, sheet: string, edit: CellOperation): void {
  if (!isOfWholeLines(edit, isRow ? 'rows' : 'columns')) return;
  const line = Number(brk.get('id'));
  const area = areaAfter(
    isRow ? { row: line, rows: 1, column: 0, columns: LAST_COLUMN + 1 } : { column: line, columns: 1, row: 0, rows: LAST_ROW + 1 },
    sheet,
    edit,
  ); // prettier-ignore
  if (area) brk.set('id', String(isRow ? area.row : area.column));
  else {
    const list = brk.parent!;
    drop(brk);
    const manual = list.get('manualBreakCount');
    if (manual !== undefined)
      list.set('manualBreakCount', String(list.named('brk').filter((one) => one.get('man') === '1').length));
  }
}

export function followFilterColumns(
  filter: XmlElement,
  before: Area,
  now: Area,
  { sheet, edit }: { readonly sheet: string; readonly edit: CellOperation },
): void {
  if (edit.kind === 'move') return;
  for (const column of filter.named('filterColumn')) {
    const place = areaAfter(
      { row: before.row, rows: before.rows, column: before.column + Number(column.get('colId')), columns: 1 },
      sheet,
      edit,
    );
    if (!place) drop(column);
    else column.set('colId', String(place.column - now.column));
  }
}

/** Rules of looks and of validation, in the main schema and in extensions: cells, and formulas that are written for the first of them. */
const RULED: ReadonlySet<string> = new Set(['conditionalFormatting', 'dataValidation']);

/** Lets a rule follow an edit; false where none of its cells is left. */
function followRule(element: XmlElement, sheet: string, edit: FormulaEdit): boolean {
  const place = cellsOf(element);
  const formulas = formulasOf(element);
  const areas = place && parseAreas(place.text, sheet);
  if (!place || !areas) {
    // Of whole columns, and of ranges that cannot be read, the formulas are changed without regard to the cells.
    for (const one of formulas) one.put(formulaAfter(one.text, { sheet }, edit));
    return true;
  }
  const after = ruledAfter({ areas, formulas: formulas.map(({ text }) => text) }, sheet, edit);
  if (!after) return false;
  if (after.areas !== areas) {
    const text = areasText(after.areas);
    if (text !== areasText(areas)) place.put(text);
  }
  formulas.forEach((one, index) => one.put(after.formulas[index]!));
  return true;
}

function cellsOf(element: XmlElement): TextPlace | undefined {
  const [child] = element.named('sqref');
  return placeIn(element, 'sqref') ?? (child && placeIn(child, undefined));
}

/** formula, formula1 and formula2 hold their text themselves, or in an element f. */
const formulasOf = (element: XmlElement): TextPlace[] =>
  [...element.walk()].flatMap((one) => {
    const isFormula = /^(formula[12]?|f)$/.test(one.name) && one.elements.length === 0;
    const value = one.name === 'cfvo' ? one.get('val') : undefined;
    const isValue = value !== undefined && Number.isNaN(Number(value));
    return isFormula || isValue ? (placeIn(one, isFormula ? undefined : 'val') ?? []) : [];
  });
