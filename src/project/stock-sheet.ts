/** Reading the sheet Stock: sheets, bars and leftovers on the shelf. */
import type { UnitSystem } from '../core/quantity';
import { STOCK, type StockSheetKey } from './buying-forms';
import { once } from './once';
import type { Problem, SheetValues } from './problems';
import { readSheet, unitsOfProject } from './project-units';
import { RowReader, type NumberRule } from './row-reader';
import { type FormSheet } from './rows';
import { textIn } from '../sheet';

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
  /** Undefined: not priced. */
  readonly cost: number | undefined;
  /** True where it shortens the shopping list. */
  readonly takesOff: boolean;
}

export interface StockSheet {
  readonly form: FormSheet<StockSheetKey>;
  /** The system that the stock is shown in: the workbook's. */
  readonly units: UnitSystem;
  readonly pieces: readonly StockPiece[];
  readonly problems: readonly Problem[];
}

const SIDE: NumberRule = { above: 0, max: 12_000, takes: ({ unit }) => `${unit} above 0` };
const GAUGE: NumberRule = { above: 0, max: 4, takes: ({ unit, number }) => `${unit} above 0: ${number(0.025)}` };
const isYes = (text: string): boolean => /^(?:yes|y|true|x|1)$/i.test(text);

/** The stock; undefined where no sheet has its header. */
export function readStockSheet(values: SheetValues, units = unitsOfProject(values)): StockSheet | undefined {
  return once(values, stockOf, units);
}

function stockOf(values: SheetValues, units: UnitSystem): StockSheet | undefined {
  const form = readSheet(values, STOCK);
  if (!form) return undefined;
  const problems: Problem[] = [...form.problems];
  const reader = new RowReader(form, problems);
  const pieces = form.rows.flatMap((row): StockPiece[] => {
    const { name, material, grain, offcut, off } = row.cells;
    const sides = { length: reader.needed(row, 'length', SIDE), width: reader.number(row, 'width', SIDE) };
    const available = reader.number(row, 'available', { min: 0, max: 1e5, takes: 'pieces, 0 or more' });
    if (available !== undefined && !Number.isInteger(available))
      reader.problem(row, 'available', `got ${available}; takes a whole number of pieces`);
    const thickness = reader.number(row, 'thickness', GAUGE);
    const cost = reader.number(row, 'cost', { min: 0, max: 1e9, takes: 'money, 0 or more' });
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
  // Beside stock with a cost, one without would be taken for free.
  const priced = pieces.some(({ cost = 0, offcut }) => cost > 0 && !offcut);
  const silent = new Set(pieces.flatMap(({ row, cost, offcut }) => (cost === undefined && !offcut ? [row] : [])));
  if (priced)
    for (const row of form.rows)
      if (silent.has(row.row) && row.cells.cost === undefined)
        reader.problem(
          row,
          'cost',
          'is blank: not priced, and left out of cutting plans. Type its cost, or 0 for none',
        );
  return { form, units, pieces, problems };
}
