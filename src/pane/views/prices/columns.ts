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

const ITEM = column('item', 0);
const KIND = column('kind', 58);
const SOLD_BY = column('soldBy', 66);
const CONTENTS = column('contents', 84);
/** The price column: narrow where its cells have the currency and sale unit below the number, wider where the currency is beside it. */
const PRICE_NARROW = column('price', 72, true);
const PRICE = column('price', 94, true);
const UNIT = column('unit', 106, true);
const FROM = column('from', 56, true);
const SUPPLIER = column('supplier', 120);
const QUOTED_ON = column('quotedOn', 84);
const NOTE = column('note', 150);
const OPEN = column('open', 28);

/** Layouts by the least width in pixels that they need. */
const LAYOUTS: readonly { readonly from: number; readonly columns: readonly GridColumn[] }[] = [
  { from: 900, columns: [ITEM, KIND, SOLD_BY, CONTENTS, FROM, PRICE, UNIT, SUPPLIER, QUOTED_ON, NOTE, OPEN] },
  { from: 540, columns: [ITEM, KIND, SOLD_BY, CONTENTS, PRICE, UNIT, OPEN] },
  { from: 420, columns: [ITEM, SOLD_BY, PRICE, UNIT, OPEN] },
  { from: 0, columns: [ITEM, PRICE_NARROW, UNIT, OPEN] },
];

export const columnsFor = (width: number): readonly GridColumn[] => LAYOUTS.find(({ from }) => width >= from)!.columns;
