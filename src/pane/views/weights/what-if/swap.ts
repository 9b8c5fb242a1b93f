/** What has to be written so that parts are made of another material or thickness: the same edits are tried out and applied. */
import { nameKey, sameName } from '../../../../core/names';
import { isWeighed } from '../../../../core/mass';
import { inUnit, type Unit } from '../../../../core/quantity';
import { isBlank, type Cell } from '../../../../sheet';
import { findPrices, placeOfRow, type PartRow, type PartsList } from '../../../../project';
import type { Edit, WorkbookModel } from '../../../../sheet';
import { cellNumber, t } from '../../../locale';
import { gauge } from '../weight-figures';
import { cellIn, valueIn, type Place } from './book-copy';
import { placeName, sourceOf } from './source-cell';

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
  readonly place: Place;
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
  const { changes, left } = plan;
  return {
    changes,
    edits: changes.map(({ place, value }): Edit => ({
      kind: 'write',
      range: { ...place, rows: 1, columns: 1 },
      cells: [[value]],
    })),
    left,
  };
}

const wanted = ({ material, thickness }: Pick<Wish, 'material' | 'thickness'>): SwapKey[] => [
  ...(thickness === undefined ? [] : (['thickness'] as const)),
  ...(material === undefined ? [] : (['material'] as const)),
];

/** The cell of a row that holds it; undefined where the list has no such column. */
export function placeIn({ form }: PartsList, row: number, key: keyof PartsList['form']['columns']): Place | undefined {
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
    if (!isBlank(cellsOfRow(this.parts, part.row).each ?? null))
      return leave(t('its weight was typed, so the gauge does not affect it'));
    if (part.area === undefined && !part.isBySize) return leave(t('it has no flat area'));
    const keys = wanted(this.wish);
    if (keys.some((key) => !placeIn(this.parts, part.row, key))) return leave(t('the parts list has no such column'));
    if (keys.some((key) => cellIn(this.copy, placeIn(this.parts, part.row, key)!)?.spilled))
      return leave(t('its cell is filled by a formula in another one: change that one in the sheet'));
    const changed = keys.map((key) => this.change(part, key)).some(Boolean);
    if (!changed) return leave(t('it is already so'));
    this.changeItem(part);
    if (!this.wish.keepWeighed) this.clearWeighed(part);
  }

  /** True where the row is not so already. */
  private change(part: PartRow, key: SwapKey): boolean {
    const place = placeIn(this.parts, part.row, key)!;
    const to = this.wanted(part, key);
    // A list of somebody's own may have a thickness as a text or a gauge.
    if (sameValue(valueIn(this.copy, place), to) || part[key] === this.wish[key]) return false;
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

  /** The value as the column holds it: a thickness in the unit of the column on the row's own sheet. */
  private wanted(part: PartRow, key: SwapKey): string | number {
    return key === 'material' ? this.wish.material! : inUnit(this.wish.thickness!, this.unitOf(part));
  }

  private unitOf(part: PartRow): Unit | undefined {
    return placeOfRow(this.parts.form, part.row).head.units.thickness;
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

  private add(place: Place, value: Cell, why: string): void {
    const cell = placeName(place);
    if (this.byCell.has(cell)) return;
    this.byCell.set(cell, { place, cell, from: shown(valueIn(this.copy, place)), to: shown(value), value, why });
  }
}

/** What a price item may be found by: the texts of the price list's table. */
function pricedNames(copy: WorkbookModel): string[] {
  const tables = copy.sheets.flatMap((sheet) => sheet.tables);
  const table = findPrices([], tables)?.table;
  if (!table) return [];
  const { sheet, row, rows, column, columns } = table.range;
  const names: string[] = [];
  for (let r = row + 1; r < row + rows; r++)
    for (let c = column; c < column + columns; c++)
      names.push(nameKey(String(valueIn(copy, { sheet, row: r, column: c }) ?? '')));
  return names;
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
