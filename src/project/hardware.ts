/** The hardware of the sheet Hardware: what is counted by the piece and is no rivet. Wrong and missing cells are named. */
import { ByName } from '../core/names';
import { textIn } from '../sheet';
import { HARDWARE_FORM, type HardwareKey } from './forms';
import { COST, NO_COMPONENT } from './parts';
import { kept, type Problem, type SheetValues } from './reading';
import { readerOf } from './project-units';
import { INCHES, type FormRow, type FormSheet, type NumberRule, type RowReader } from './rows';

interface HardwareRow {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly item: string;
  readonly component: string;
  readonly quantity: number;
  /** All pieces, lb; undefined where nobody has said. */
  readonly weight: number | undefined;
  /** in */
  readonly arm: number | undefined;
  readonly cost: number | undefined;
  /** Where the weight comes from, as the sheet says it. */
  readonly basis: string;
}

export interface HardwareSheet {
  readonly form: FormSheet<HardwareKey>;
  readonly rows: readonly HardwareRow[];
  readonly problems: readonly Problem[];
}

const PIECES: NumberRule = { min: 0, max: 1e7, takes: 'pieces, 0 or more; not counted until then' };
const EACH: NumberRule = { above: 0, max: 100, takes: ({ unit }) => `${unit} above 0, the weight of one` };
const ALL: NumberRule = { min: 0, max: 1e5, takes: ({ unit }) => `${unit}; left out of the weights` };

/** The hardware; undefined where no sheet has its header. */
export const readHardware = kept((values: SheetValues): HardwareSheet | undefined => {
  const reader = readerOf(values, HARDWARE_FORM);
  if (!reader) return undefined;
  const components = new ByName((name) => name, NO_COMPONENT);
  const rows = reader.sheet.rows.flatMap((row) => readRow(row, reader, components) ?? []);
  return { form: reader.sheet, rows, problems: reader.problems };
});

function readRow(
  row: FormRow<HardwareKey>,
  reader: RowReader<HardwareKey>,
  components: ByName<string>,
): HardwareRow | undefined {
  const { cells } = row;
  const item = textIn(cells.item);
  if (item === '') reader.problem(row, 'item', 'is blank; takes what the hardware is, as the price list calls it');
  const quantity = reader.needed(row, 'quantity', PIECES);
  const each = reader.number(row, 'each', EACH);
  const arm = reader.number(row, 'arm', INCHES);
  if (quantity === undefined) return undefined;
  const byEach = each === undefined ? undefined : each * quantity;
  // The sheet's own sum; where it has no such column, pieces × each.
  const weight = reader.sheet.columns.weight === undefined ? byEach : reader.number(row, 'weight', ALL);
  // An error or a text in the weight's cell has been named already.
  if (quantity > 0 && weight === undefined && cells.weight === undefined)
    reader.problem(
      row,
      'each',
      `is blank, so ${item || 'the row'} weighs nothing here: weigh a few, or copy the weight of one from its document`,
    );
  if (weight && arm === undefined && cells.arm === undefined && reader.sheet.columns.arm !== undefined)
    reader.problem(row, 'arm', 'is blank: its moment is missing from the balance');
  return {
    row: row.row,
    item,
    component: components.get(textIn(cells.component)),
    quantity,
    weight,
    arm,
    cost: reader.number(row, 'cost', COST),
    basis: textIn(cells.basis) || textIn(cells.source),
  };
}
