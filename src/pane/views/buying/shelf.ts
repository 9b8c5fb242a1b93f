/** The edits that put a cut plan's leftovers on the sheet Stock, and take off it what the plan has spent. */
import { inUnit } from '../../../core/quantity';
import { planLeftovers } from '../../../core/stock';
import type { Cell } from '../../../sheet';
import type { FormSheet, StockPiece, StockSheetKey } from '../../../project';
import type { Edit } from '../../../sheet';
import { stockKey, type CuttingGroup } from './cutting-needs';
import type { MadePlan } from './made-plans';

export interface ShelfChange {
  readonly edits: readonly Edit[];
  /** Leftovers that are written, and pieces of the sheet Stock that are taken off, in pieces. */
  readonly put: number;
  readonly taken: number;
}

/** Pieces of the sheet Stock that the plan spends, where their number is limited. */
export function spent({ plan, sources }: MadePlan): { readonly piece: StockPiece; readonly used: number }[] {
  const byKey = new Map(sources.map((source) => [stockKey(source.stock), source]));
  return plan.stockUsed.flatMap((use) => {
    const from = byKey.get(stockKey(use))?.from;
    return from && 'piece' in from && from.piece.available !== undefined && use.used > 0
      ? [{ piece: from.piece, used: use.used }]
      : [];
  });
}

/** How many pieces would be written, and how many taken off. */
export const shelfCounts = (made: MadePlan): Pick<ShelfChange, 'put' | 'taken'> => ({
  put: planLeftovers(made.plan).reduce((sum, { count }) => sum + count, 0),
  taken: spent(made).reduce((sum, { used }) => sum + used, 0),
});

/** @param note says on the sheet where a leftover comes from */
export function shelfChange(
  made: MadePlan,
  group: CuttingGroup,
  form: FormSheet<StockSheetKey>,
  note: (stock: string) => string,
): ShelfChange {
  const { sheet, columns, units } = form;
  const write = (row: number, key: StockSheetKey, cell: Cell): Edit[] => {
    const column = columns[key];
    return column === undefined
      ? []
      : [{ kind: 'write', range: { sheet, row, column, rows: 1, columns: 1 }, cells: [[cell]] }];
  };
  const taken = spent(made).flatMap(({ piece: { row, available = 0 }, used }): Edit[] =>
    used >= available
      ? (Object.keys(columns) as StockSheetKey[]).flatMap((key) => write(row, key, null))
      : write(row, 'available', available - used),
  );
  const { thickness, material } = group.parts[0]!;
  const nameOf = new Map(
    made.sources.map(({ stock, from }) => [stock.name, 'piece' in from ? from.piece.name : from.item]),
  );
  const first = Math.max(form.header, ...form.rows.map(({ row }) => row)) + 1;
  const put = planLeftovers(made.plan).flatMap(({ stock, length, width, count }, index): Edit[] => {
    const cells: Partial<Record<StockSheetKey, Cell>> = {
      name: nameOf.get(stock) ?? stock,
      ...(group.kind === 'sheets'
        ? {
            material,
            thickness: inUnit(thickness!, units.thickness),
            width: side(width!, form, 'width'),
            grain: 'along',
          }
        : {}),
      length: side(length, form, 'length'),
      available: count,
      offcut: 'yes',
      note: note(stock),
    };
    return (Object.keys(cells) as StockSheetKey[]).flatMap((key) => write(first + index, key, cells[key] ?? null));
  });
  return { edits: [...taken, ...put], ...shelfCounts(made) };
}

/** The smallest step of a length: a hundredth of a millimetre, or a thousandth of an inch. */
const STEP = { 'mm-kg': 0.01 / 25.4, 'in-lb': 0.001 } as const;

/** A side in the column's unit, rounded down, so that a leftover is never listed longer than it is. */
function side(inches: number, { units }: FormSheet<StockSheetKey>, key: 'length' | 'width'): number {
  const unit = units[key];
  const scale = Math.round(1 / inUnit(STEP[unit?.system ?? 'in-lb'], unit));
  return Math.floor(inUnit(inches, unit) * scale + 1e-6) / scale;
}
