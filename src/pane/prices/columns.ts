/** Which columns the grid has room for; the others stand in the item's second line and in the row's form. */
import type { PriceColumnKey } from '../../core/price';
import type { SortKey } from './arrange';

export type GridColumnId = PriceColumnKey | 'unit' | 'open';

export interface GridColumn {
  readonly id: GridColumnId;
  readonly label: string;
  /** Pixels; 0 takes what is left. */
  readonly width: number;
  readonly numeric: boolean;
  readonly sort: SortKey | undefined;
}

const column = (id: GridColumnId, label: string, width: number, numeric = false): GridColumn => ({ id, label, width, numeric, sort: id === 'open' ? undefined : id });

const ITEM = column('item', 'Item', 0);
const KIND = column('kind', 'Kind', 58);
const SOLD_BY = column('soldBy', 'Sold by', 66);
const CONTENTS = column('contents', 'Contents', 84);
/** With its currency and sale unit under it, or with its currency beside it. */
const PRICE_NARROW = column('price', 'Price', 72, true);
const PRICE = column('price', 'Price', 94, true);
const UNIT = column('unit', 'Unit price', 100, true);
const FROM = column('from', 'From', 56, true);
const SUPPLIER = column('supplier', 'Supplier', 120);
const QUOTED_ON = column('quotedOn', 'Quoted on', 84);
const NOTE = column('note', 'Note', 150);
const OPEN = column('open', 'Details', 28);

/** Layouts by the least width in pixels that they need. */
const LAYOUTS: readonly { readonly from: number; readonly columns: readonly GridColumn[] }[] = [
  { from: 900, columns: [ITEM, KIND, SOLD_BY, CONTENTS, FROM, PRICE, UNIT, SUPPLIER, QUOTED_ON, NOTE, OPEN] },
  { from: 540, columns: [ITEM, KIND, SOLD_BY, CONTENTS, PRICE, UNIT, OPEN] },
  { from: 420, columns: [ITEM, SOLD_BY, PRICE, UNIT, OPEN] },
  { from: 0, columns: [ITEM, PRICE_NARROW, UNIT, OPEN] },
];

export const columnsFor = (width: number): readonly GridColumn[] => LAYOUTS.find(({ from }) => width >= from)!.columns;
