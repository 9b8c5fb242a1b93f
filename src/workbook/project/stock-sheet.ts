/** Reading the sheet Stock: sheets, bars and leftovers on the shelf. */
import { STOCK, type StockSheetKey } from './buying-forms';
import { RowReader, type Problem, type SheetValues } from './problems';
import { readForm, textIn, type FormSheet } from './rows';

export interface StockPiece {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly name: string;
  readonly material: string;
  /** in */
  readonly thickness: number | undefined;
  /** Along the grain, in. */
  readonly length: number;
  /** Of a sheet, in; undefined for a bar. */
  readonly width: number | undefined;
  /** Undefined: as many as are needed. */
  readonly available: number | undefined;
  readonly offcut: boolean;
  readonly cost: number;
  /** True where it shortens the shopping list. */
  readonly takesOff: boolean;
}

export interface StockSheet {
  readonly form: FormSheet<StockSheetKey>;
  readonly pieces: readonly StockPiece[];
  readonly problems: readonly Problem[];
}

const SIDE = { above: 0, max: 12_000, takes: 'inches above 0' } as const;
const isYes = (text: string): boolean => /^(?:yes|y|true|x|1)$/i.test(text);

/** The stock; undefined where no sheet has its header. */
export function readStockSheet(values: SheetValues): StockSheet | undefined {
  const cells = values(STOCK.sheet);
  const form = cells && readForm(STOCK, cells);
  if (!form) return undefined;
  const problems: Problem[] = [];
  const reader = new RowReader(form, problems);
  const pieces = form.rows.flatMap((row): StockPiece[] => {
    const { name, material, grain, offcut, off } = row.cells;
    const sides = { length: reader.needed(row, 'length', SIDE), width: reader.number(row, 'width', SIDE) };
    const available = reader.number(row, 'available', { min: 0, max: 1e5, takes: 'pieces, 0 or more' });
    if (available !== undefined && !Number.isInteger(available)) reader.problem(row, 'available', `got ${available}; takes a whole number of pieces`);
    const thickness = reader.number(row, 'thickness', { above: 0, max: 4, takes: 'inches above 0: 0.025' });
    const cost = reader.number(row, 'cost', { min: 0, max: 1e9, takes: 'money, 0 or more' }) ?? 0;
    if (sides.length === undefined) return [];
    // A plan takes the grain to run along the length.
    const turned = textIn(grain).toLowerCase() === 'across' && sides.width !== undefined;
    const isOffcut = isYes(textIn(offcut));
    return [
      {
        row: row.row,
        name: textIn(name) || `row ${row.row + 1}`,
        material: textIn(material),
        thickness,
        length: turned ? sides.width! : sides.length,
        width: turned ? sides.length : sides.width,
        available: available === undefined ? (isOffcut ? 1 : undefined) : Math.floor(available),
        offcut: isOffcut,
        cost,
        takesOff: isYes(textIn(off)),
      },
    ];
  });
  return { form, pieces, problems };
}
