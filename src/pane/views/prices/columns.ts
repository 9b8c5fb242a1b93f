/** Which columns the grid has room for; the others stand in the item's second line and in the row's form. */
import { priceColumn, type PriceColumnKey } from '../../../core/price';
import { t } from '../../locale';

export type GridColumnId = PriceColumnKey | 'unit' | 'open';

/** What rows are ordered by. */
export type SortKey = PriceColumnKey | 'unit' | 'sheet';

export interface GridColumn {
  readonly id: GridColumnId;
  /** Pixels; 0 takes what is left. */
  readonly width: number;
  readonly numeric: boolean;
  readonly sort: SortKey | undefined;
}

/** What stands above a column: the sheet's own label, where it is a column of the sheet. */
export function columnLabel(id: GridColumnId): string {
  if (id === 'unit') return t('Unit price');
  return id === 'open' ? t('Details') : priceColumn(id).label;
}

const column = (id: GridColumnId, width: number, numeric = false): GridColumn => ({
  id,
  width,
  numeric,
  sort: id === 'open' ? undefined : id,
});

const COLUMNS = {
  item: column('item', 0),
  kind: column('kind', 58),
  soldBy: column('soldBy', 66),
  contents: column('contents', 84),
  /** Narrow where its cells have the currency and sale unit below the number. */
  narrowPrice: column('price', 72, true),
  /** Wider where the currency is beside the number. */
  price: column('price', 94, true),
  unit: column('unit', 106, true),
  from: column('from', 56, true),
  supplier: column('supplier', 120),
  quotedOn: column('quotedOn', 84),
  note: column('note', 150),
  open: column('open', 28),
};

/** Layouts by the least width in pixels that they need. */
const LAYOUTS: readonly { readonly from: number; readonly columns: readonly (keyof typeof COLUMNS)[] }[] = [
  {
    from: 900,
    columns: ['item', 'kind', 'soldBy', 'contents', 'from', 'price', 'unit', 'supplier', 'quotedOn', 'note', 'open'],
  },
  { from: 540, columns: ['item', 'kind', 'soldBy', 'contents', 'price', 'unit', 'open'] },
  { from: 420, columns: ['item', 'soldBy', 'price', 'unit', 'open'] },
  { from: 0, columns: ['item', 'narrowPrice', 'unit', 'open'] },
];

export const columnsFor = (width: number): readonly GridColumn[] =>
  LAYOUTS.find(({ from }) => width >= from)!.columns.map((name) => COLUMNS[name]);
