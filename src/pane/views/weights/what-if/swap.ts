/** What has to be written so that parts are made of another material or thickness: the same edits are tried out and applied. */
import { isWeighed } from '../../../../core/mass';
import { nameKey, sameName } from '../../../../core/names';
import { inUnit, type Unit } from '../../../../core/quantity';
import { findPrices, placeOfRow, type PartRow, type PartsList } from '../../../../project';
import {
  cellName,
  isBlank,
  quoteSheet,
  type Cell,
  type CellPlace,
  type Edit,
  type WorkbookModel,
} from '../../../../sheet';
import { tryFormula, type FormulaNode } from '../../../../sheet/formula';
import { cellNumber, t } from '../../../locale';
import { gauge } from '../weight-figures';
import { cellIn, valueIn } from './book-copy';

export interface Wish {
  /** Rows on the parts list, from 0. */
  readonly rows: readonly number[];
  readonly material?: string;
  /** in */
  readonly thickness?: number;
  /** Where a cell only refers to another (=RibGauge): true changes that other cell, false writes over the formula. */
  readonly atSource: boolean;
  /** True keeps the weighed values and statuses though the parts are others then. */
  readonly keepWeighed: boolean;
}

export interface CellChange {
  readonly place: CellPlace;
  /** "Design!B15" */
  readonly cell: string;
  readonly from: string;
  readonly to: string;
  readonly value: Cell;
  readonly why: string;
}

export interface LeftRow {
  readonly row: number;
  readonly part: string;
  readonly why: string;
}

export interface Swap {
  readonly changes: readonly CellChange[];
  readonly edits: readonly Edit[];
  /** Picked rows that nothing is changed in. */
  readonly left: readonly LeftRow[];
}

/** What of a part is swapped. */
export type SwapKey = 'thickness' | 'material';

/** The status of a part that is drawn and, in its new material, not made yet. */
const STATUS_AGAIN = 'laid out';

export function planSwap(copy: WorkbookModel, parts: PartsList, wish: Wish): Swap {
  const plan = new SwapPlan(copy, parts, wish);
  const picked = new Set(wish.rows);
  for (const part of parts.rows) if (picked.has(part.row)) plan.swap(part);
  return {
    changes: plan.changes,
    edits: plan.changes.map(({ place, value }): Edit => ({
      kind: 'write',
      range: { ...place, rows: 1, columns: 1 },
      cells: [[value]],
    })),
    left: plan.left,
  };
}

/** What is swapped, and for what, as the column holds it: a thickness in the unit of the column on the row's own sheet. */
const wanted = ({ material, thickness }: Wish, unit: Unit | undefined): (readonly [SwapKey, string | number])[] => [
  ...(thickness === undefined ? [] : [['thickness', inUnit(thickness, unit)] as const]),
  ...(material === undefined ? [] : [['material', material] as const]),
];

/** The cell of a row that holds it; undefined where the list has no such column. */
export function placeIn(
  { form }: PartsList,
  row: number,
  key: keyof PartsList['form']['columns'],
): CellPlace | undefined {
  const { head, row: line } = placeOfRow(form, row);
  const column = head.columns[key];
  return column === undefined ? undefined : { sheet: head.sheet, row: line, column };
}

class SwapPlan {
  readonly left: LeftRow[] = [];
  private readonly byCell = new Map<string, CellChange>();
  private priced: ReadonlySet<string> | undefined;

  constructor(
    private readonly copy: WorkbookModel,
    private readonly parts: PartsList,
    private readonly wish: Wish,
  ) {}

  get changes(): readonly CellChange[] {
    return [...this.byCell.values()];
  }

  swap(part: PartRow): void {
    const leave = (why: string): void => void this.left.push({ row: part.row, part: part.part, why });
    if (!isBlank(cellsOfRow(this.parts, part.row).each))
      return leave(t('its weight was typed, so the gauge does not affect it'));
    if (part.area === undefined && !part.isBySize) return leave(t('it has no flat area'));
    const cells = wanted(this.wish, this.unitOf(part)).map(([key, to]) => ({
      key,
      to,
      place: placeIn(this.parts, part.row, key),
    }));
    if (cells.some(({ place }) => !place)) return leave(t('the parts list has no such column'));
    if (cells.some(({ place }) => cellIn(this.copy, place!)?.spilled))
      return leave(t('its cell is filled by a formula in another one: change that one in the sheet'));
    const changed = cells
      // A list of somebody's own may have a thickness as a text or a gauge.
      .filter(({ key }) => part[key] !== this.wish[key])
      .map(({ key, to, place }) => this.change(place!, key, to))
      .some(Boolean);
    if (!changed) return leave(t('it is already so'));
    this.changeItem(part);
    if (!this.wish.keepWeighed) this.clearWeighed(part);
  }

  /** True where the row is not so already. */
  private change(place: CellPlace, key: SwapKey, to: string | number): boolean {
    if (sameValue(valueIn(this.copy, place), to)) return false;
    const source = sourceOf(this.copy, place);
    const what = key === 'thickness' ? t('thickness') : t('material');
    if (source && this.wish.atSource) this.add(source, to, what);
    else {
      const formula = cellIn(this.copy, place)?.formula;
      this.add(
        place,
        to,
        formula === undefined ? what : t('{what}, in place of {formula}', { what, formula: `=${formula}` }),
      );
    }
    return true;
  }

  /** A typed price item that names the old thickness or material, where the price list has the same with the new one. */
  private changeItem(part: PartRow): void {
    const place = placeIn(this.parts, part.row, 'item');
    const cell = place && cellIn(this.copy, place);
    if (!cell || cell.formula !== undefined || cell.spilled || typeof cell.value !== 'string') return;
    const { material, thickness } = this.wish;
    let item = cell.value;
    if (material !== undefined && part.material) item = item.replace(part.material, material);
    if (thickness !== undefined && part.thickness !== undefined) {
      // A price list may name sheet in inches where the parts list is in millimetres.
      const named = [this.unitOf(part), undefined].find((unit) => item.includes(gauge(part.thickness!, unit)));
      item = item.replace(gauge(part.thickness, named), gauge(thickness, named));
    }
    if (item !== cell.value && this.isPriced(item)) this.add(place, item, t('price item'));
  }

  private unitOf(part: PartRow): Unit | undefined {
    return placeOfRow(this.parts.form, part.row).head.units.thickness;
  }

  private isPriced(item: string): boolean {
    this.priced ??= new Set(pricedNames(this.copy));
    return this.priced.has(nameKey(item));
  }

  private clearWeighed(part: PartRow): void {
    const weighed = placeIn(this.parts, part.row, 'weighed');
    if (part.weighed === undefined || !weighed || cellIn(this.copy, weighed)?.formula !== undefined) return;
    this.add(weighed, null, t('what was weighed is the part as it is now'));
    const status = placeIn(this.parts, part.row, 'status');
    if (status && isWeighed(part.status))
      this.add(status, STATUS_AGAIN, t('status: the new part has not been weighed'));
  }

  private add(place: CellPlace, value: Cell, why: string): void {
    const cell = placeName(place);
    if (!this.byCell.has(cell))
      this.byCell.set(cell, { place, cell, from: shown(valueIn(this.copy, place)), to: shown(value), value, why });
  }
}

/** What a price item may be found by: the texts of the price list's table. */
function pricedNames({ sheets }: WorkbookModel): string[] {
  const range = findPrices(
    [],
    sheets.flatMap((sheet) => sheet.tables),
  )?.table?.range;
  const sheet = sheets.find(({ name }) => name === range?.sheet);
  if (!range || !sheet) return [];
  return sheet.cells
    .slice(range.row + 1, range.row + range.rows)
    .flatMap((line) => line?.slice(range.column, range.column + range.columns) ?? [])
    .map((cell) => nameKey(String(cell?.value ?? '')));
}

type RowCells = PartsList['form']['rows'][number]['cells'];
const cellsByRow = new WeakMap<PartsList, ReadonlyMap<number, RowCells>>();

/** The cells of a row as the parts list has them. */
export function cellsOfRow(parts: PartsList, row: number): RowCells {
  const known = cellsByRow.get(parts) ?? new Map(parts.form.rows.map((one) => [one.row, one.cells]));
  cellsByRow.set(parts, known);
  return known.get(row) ?? {};
}

const shown = (value: Cell): string =>
  isBlank(value) ? t('blank') : typeof value === 'number' ? cellNumber(value) : String(value);

const sameValue = (a: Cell, b: Cell): boolean =>
  typeof a === 'string' && typeof b === 'string' ? sameName(a, b) : a === b;

export const placeName = ({ sheet, row, column }: CellPlace): string => `${quoteSheet(sheet)}!${cellName(row, column)}`;

/** A chain of references longer than this is not followed. */
const LONGEST_CHAIN = 10;

/**
 * The typed cell that the formula in a cell stands for: =RibGauge, =Design!B15, also by way of others like it.
 * Undefined where the cell holds no formula, or one that computes something.
 */
export function sourceOf(copy: WorkbookModel, place: CellPlace): CellPlace | undefined {
  let at = place;
  for (let steps = 0; steps < LONGEST_CHAIN; steps++) {
    const cell = cellIn(copy, at);
    if (cell?.spilled) return undefined;
    if (cell?.formula === undefined) return at === place ? undefined : at;
    const next = referredTo(copy, cell.formula, at.sheet);
    if (!next) return undefined;
    at = next;
  }
  return undefined;
}

function referredTo(copy: WorkbookModel, formula: string, sheet: string): CellPlace | undefined {
  const node = tryFormula(formula);
  if (node?.kind === 'name') {
    const name = copy.names.find((one) => one.name.toLowerCase() === node.name.toLowerCase());
    const target = name && tryFormula(name.refersTo);
    return target && singleCell(target, sheet);
  }
  return node && singleCell(node, sheet);
}

const singleCell = (node: FormulaNode, sheet: string): CellPlace | undefined =>
  node.kind === 'reference' && node.top.at === node.bottom.at && node.left.at === node.right.at
    ? { sheet: node.sheet ?? sheet, row: node.top.at, column: node.left.at }
    : undefined;
