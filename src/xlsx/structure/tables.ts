/** A table's part after an edit of the structure: its range, its columns, its formulas and its filter. */
import { parseRange, rangeName } from '../../sheet';
import { escapeText, escapeTitle, unescapeText } from '../read-strings';
import { escapeXml } from '../xml';
import { XmlTree, type XmlElement } from '../xml-tree';
import { areaAfter, common, isSheet, refAfter, targetOf, type Area } from './areas';
import { formulaAfter, ruledAfter, type FormulaEdit } from './formulas';
import { drop, followFilterColumns } from './frame';
import { isCellOperation, type CellOperation } from './operation';

/** A header cell that has to be given its column's name. */
export interface HeaderCell {
  readonly row: number;
  readonly column: number;
  readonly name: string;
}

export class TableParts extends XmlTree {
  /** Columns whose header cell is new, or was moved away. */
  private readonly suspects = new Set<XmlElement>();

  constructor(
    readonly part: string,
    xml: string,
  ) {
    super(xml);
  }

  get name(): string {
    return unescapeText(this.root.get('displayName') ?? this.root.get('name') ?? '');
  }

  /** The whole range, with headers and totals. */
  get area(): Area {
    return parseRange(this.root.get('ref') ?? '', '') ?? { row: 0, column: 0, rows: 0, columns: 0 };
  }

  get headerRows(): number {
    return Number(this.root.get('headerRowCount') ?? 1);
  }

  get totalsRows(): number {
    return Number(this.root.get('totalsRowCount') ?? 0);
  }

  get columns(): string[] {
    return this.columnElements.map(nameOf);
  }

  /** Header cells that have to be given their column's name again. */
  get headers(): HeaderCell[] {
    const { row, column } = this.area;
    return this.headerRows === 0
      ? []
      : this.columnElements.flatMap((element, index) =>
          this.suspects.has(element) ? [{ row, column: column + index, name: nameOf(element) }] : [],
        );
  }

  rename(name: string): void {
    this.root.set('name', escapeText(name));
    this.root.set('displayName', escapeText(name));
  }

  renameColumn(column: string, name: string): void {
    const found = this.columnElements.find((one) => nameOf(one).toLowerCase() === column.toLowerCase());
    if (!found) return;
    found.set('name', escapeTitle(name));
    this.suspects.add(found);
  }

  /** Only formulas of the table are changed. */
  followFormulas(sheet: string, edit: FormulaEdit): void {
    this.columnElements.forEach((column, index) => {
      for (const element of column.elements) {
        const text = /^(calculatedColumnFormula|totalsRowFormula)$/.test(element.name) ? element.text : '';
        if (text !== '') element.text = this.formulaAfter(text, this.dataOf(index), sheet, edit);
      }
    });
  }

  /** The range, columns and filter follow; false where the table is gone. Gives the names of the columns that went. */
  follow(sheet: string, edit: CellOperation): { readonly isGone: boolean; readonly goneColumns: readonly string[] } {
    const before = this.area;
    const left = edit.kind === 'move' ? this.carried(sheet, edit) : areaAfter(before, sheet, edit);
    if (!left) return { isGone: true, goneColumns: [] };
    const after = { ...left, rows: Math.max(left.rows, this.headerRows + this.totalsRows + 1) };
    const hadTotals = this.totalsRows > 0;
    const totals = hadTotals && areaAfter({ ...before, row: before.row + before.rows - 1, rows: 1 }, sheet, edit);
    this.root.set('ref', rangeName(after));
    if (hadTotals && !totals) {
      this.root.set('totalsRowCount', undefined);
      this.root.set('totalsRowShown', '0');
    }
    const goneColumns = edit.kind === 'move' ? [] : this.followColumns({ sheet, edit }, before, after);
    this.followFilter({ sheet, edit }, before, after);
    return { isGone: false, goneColumns };
  }

  private get columnElements(): XmlElement[] {
    return this.root.listed('tableColumns', 'tableColumn');
  }

  /** The cells of a column that hold data. */
  private dataOf(index: number): Area {
    const { row, rows, column } = this.area;
    return {
      row: row + this.headerRows,
      rows: Math.max(1, rows - this.headerRows - this.totalsRows),
      column: column + index,
      columns: 1,
    };
  }

  /** A column's formula is written for its first cell. */
  private formulaAfter(text: string, data: Area, sheet: string, edit: FormulaEdit): string {
    return isCellOperation(edit)
      ? (ruledAfter({ areas: [data], formulas: [text] }, sheet, edit)?.formulas[0] ?? text)
      : formulaAfter(text, { sheet, isInTable: true }, edit);
  }

  /** A table moves as a whole, or it stays and its headers with it. */
  private carried(sheet: string, edit: Extract<CellOperation, { kind: 'move' }>): Area {
    const { area } = this;
    const text = rangeName(area);
    const whole = refAfter(text, sheet, { ...edit, to: { ...edit.to, sheet: edit.from.sheet } });
    if (whole !== undefined && whole !== text && isSheet(edit.from.sheet, edit.to.sheet))
      return parseRange(whole, sheet)!;
    const touched = [edit.from, targetOf(edit)].filter((one) => isSheet(one.sheet, sheet));
    this.columnElements.forEach((element, index) => {
      const head = { row: area.row, rows: 1, column: area.column + index, columns: 1 };
      if (touched.some((one) => common(one, head))) this.suspects.add(element);
    });
    return area;
  }

  private followColumns(
    { sheet, edit }: { readonly sheet: string; readonly edit: CellOperation },
    before: Area,
    after: Area,
  ): string[] {
    const elements = this.columnElements;
    const gone: string[] = [];
    const places: (XmlElement | undefined)[] = Array.from({ length: after.columns });
    elements.forEach((element, index) => {
      const place = areaAfter({ ...before, column: before.column + index, columns: 1 }, sheet, edit);
      if (place) places[place.column - after.column] = element;
      else {
        gone.push(nameOf(element));
        element.remove();
      }
    });
    const [list] = this.root.named('tableColumns');
    if (!list || (gone.length === 0 && elements.length === after.columns)) return gone;
    for (const element of elements) element.remove();
    places.forEach((element, index) => {
      if (element) list.children.push(element);
      else this.suspects.add(list.add(this.newColumn(places, index)));
    });
    list.set('count', String(after.columns));
    return gone;
  }

  private newColumn(places: readonly (XmlElement | undefined)[], index: number): string {
    const taken = new Set([...places, ...this.suspects].flatMap((one) => (one ? [nameOf(one).toLowerCase()] : [])));
    let number = index + 1;
    while (taken.has(`column${number}`)) number++;
    const ids = [...places, ...this.suspects].map((one) => Number(one?.get('id') ?? 0));
    return `<tableColumn id="${Math.max(0, ...ids) + 1}" name="${escapeXml(`Column${number}`)}"/>`;
  }

  private followFilter(
    { sheet, edit }: { readonly sheet: string; readonly edit: CellOperation },
    before: Area,
    after: Area,
  ): void {
    for (const element of this.root.elements) {
      if (element.name === 'autoFilter') {
        element.set('ref', rangeName({ ...after, rows: after.rows - this.totalsRows }));
        followFilterColumns(element, before, after, { sheet, edit });
      }
      for (const one of [...element.walk()].filter(({ name }) => name === 'sortState' || name === 'sortCondition')) {
        const ref = refAfter(one.get('ref') ?? '', sheet, edit);
        if (ref === undefined) drop(one);
        else one.set('ref', ref);
      }
    }
    for (const sort of this.root.named('sortState')) if (sort.elements.length === 0) drop(sort);
  }
}

const nameOf = (element: XmlElement): string => unescapeText(element.get('name') ?? '');
