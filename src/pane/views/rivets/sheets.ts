/** What the view reads of the workbook: joints, options, prices. */
import type { PriceBook } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import { bookWithRivets } from '../../../core/rivet-choice';
import {
  NO_PRICES,
  OWN_RIVETS_SHEET,
  PARTS,
  PRICE_TABLE,
  readNamedSheets,
  readOwnRivetSheet,
  readRivetJoints,
  readRivetOptions,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  type OwnRivetSheet,
  type RivetJoints,
  type RivetOptionsSheet,
} from '../../../project';
import { type Workbook } from '../../../sheet';

export interface RivetSheets {
  readonly joints: RivetJoints | undefined;
  readonly options: RivetOptionsSheet | undefined;
  /** The builder's own rivets. */
  readonly own: OwnRivetSheet | undefined;
  readonly book: PriceBook;
  /** False where the workbook has no price list at all. */
  readonly priced: boolean;
  /** What the view is shown in. */
  readonly units: UnitSystem;
  /** Sheets whose change concerns the view, in lower case. */
  readonly names: ReadonlySet<string>;
}

export const NO_SHEETS: RivetSheets = {
  joints: undefined,
  options: undefined,
  own: undefined,
  book: NO_PRICES,
  priced: false,
  units: 'in-lb',
  names: new Set(),
};

export async function readRivetSheets(workbook: Workbook): Promise<RivetSheets> {
  // The parts list says by its labels which units the workbook is in.
  const wanted = {
    [PARTS.sheet]: 'top',
    [RIVET_JOINTS.sheet]: 'all',
    [RIVET_OPTIONS_SHEET]: 'all',
    [OWN_RIVETS_SHEET]: 'all',
  } as const;
  const { values, prices, units } = await readNamedSheets(workbook, wanted);
  const own = readOwnRivetSheet(values, units);
  const book = bookWithRivets(prices?.book ?? NO_PRICES, own?.rivets);
  return {
    joints: readRivetJoints(values, units, own?.rivets),
    options: readRivetOptions(values, own?.rivets),
    own,
    book,
    priced: book.list.rows.length > 0,
    units,
    names: new Set([...Object.keys(wanted), prices?.sheet ?? PRICE_TABLE].map((name) => name.toLowerCase())),
  };
}
