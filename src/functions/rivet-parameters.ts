/** Parameters that the functions of rivets share. */
import { InputError, unlessRefused } from '../core/input-error';
import {
  HEAD_FORMS,
  inInches,
  inMillimetres,
  readOwnRivets,
  rivet as readRivet,
  type LengthText,
  type OwnRivets,
  type Rivet,
} from '../core/fastener';
import { memoized } from '../core/memoized';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';
import { block, choice, number, optional, text, type Lookalike, type UnitSystem } from './define';
import { length, thousandthsAbove } from './parameters';

const TAKES_RIVET = 'a rivet as "MS20470AD4-6", "MS20426AD3-3.5" or "BLIND-AA-42"';

/** A rivet by its designation or its label; rivetOf reads it. */
export const rivet = text('rivet', {
  help: 'designation: "MS20470AD4-6", "MS20426AD3-3.5" (half size), "BLIND-AA-42" (the stem breaks off), "BLIND-AA-42R" (the stem is retained); AN470 and AN426 serve too; or a label of rivets',
  of: TAKES_RIVET,
});

const TAKES_RIVETS =
  'the table of your own rivets with its header row: Rivet, Kind, Diameter, Grip from, Grip to, 1000 bought, 1000 installed …';

/** By the block that they were read from, so that a column of calls reads the table once. */
const tablesRead = new WeakMap<Matrix, Partial<Record<UnitSystem, OwnRivets>>>();

/** The builder's own rivets, as the last argument. */
export const rivets = optional(
  block<OwnRivets>('rivets', {
    help: 'table of your own rivets, such as Rivets[#All], with its header row; its labels come before the designations',
    takes: TAKES_RIVETS,
    read(cells, units) {
      const known = tablesRead.get(cells) ?? {};
      const table = known[units] ?? readOwnRivets(plain(cells), units);
      const { problems } = table;
      if (table.header === undefined) throw new InputError('rivets', cells, TAKES_RIVETS, problems[0]?.message);
      tablesRead.set(cells, { ...known, [units]: table });
      return table;
    },
  }),
);

/** Cells as tables of the trade take them: an error by its code. */
export const plain = (cells: Matrix): (string | number | boolean | null)[][] =>
  cells.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell)));

const standard = memoized((designation: string) => readRivet(designation));
const ofTable = new WeakMap<OwnRivets, (designation: string) => Rivet>();

/** The rivet of a designation or label; throws as core/fastener does. */
export function rivetOf(designation: string, own: OwnRivets | undefined): Rivet {
  if (!own) return standard(designation);
  let find = ofTable.get(own);
  if (!find) ofTable.set(own, (find = memoized((one: string) => readRivet(one, 'rivet', own))));
  return find(designation);
}

const dashNumber: Lookalike = {
  when: (value) => Number.isInteger(value) && value > 0 && value <= 16,
  guess: (typed) => `${typed} looks like the diameter number of a designation: write ${typed}/32`,
};

/** Diameter of a rivet: inches, also as a fraction ("1/8"). */
export const rivetDiameter = number('diameter', {
  help: 'nominal diameter, also as a fraction: 0.125 or "1/8"',
  dimension: 'length',
  limits: { above: 0, below: 1 },
  lookalike: dashNumber,
});

/** How a grip is checked. */
export const GRIP = { dimension: 'length', limits: { above: 0, max: 4 }, lookalike: thousandthsAbove(4) } as const;

/** Sum of the sheets. */
export const grip = (help = 'thickness of everything that the rivet goes through') => number('grip', { help, ...GRIP });

/** How a flush head is let in. */
export const headForm = optional(
  choice('head', {
    help: 'of a flush rivet: "countersunk" or "dimpled"; when omitted, thin sheet is taken to be dimpled',
    choices: HEAD_FORMS,
  }),
);

export const pitch = length('pitch', 'from centre to centre of neighbouring rivets in a row');

const oneSheet = number('thicknesses', {
  help: '',
  dimension: 'length',
  limits: { above: 0, max: 2 },
  lookalike: thousandthsAbove(2),
});

/** Thicknesses, one in each cell or several in one: "0.016+0.020+0.016". */
export const sheets = block<number[]>('thicknesses', {
  help: 'thickness of each sheet, in a column or a row, or in one cell as "0.016+0.020+0.016", the sheet under the head first; blanks are passed over',
  takes: (units) => `a column of ${oneSheet.takes(units)}`,
  dimension: 'length',
  read(cells, units) {
    const across = cells.length === 1;
    if (!across && cells.some((row) => row.length > 1))
      throw new InputError('thicknesses', cells, 'one column or one row of cells');
    return (across ? cells[0]! : cells.map((row) => row[0] ?? null)).flatMap((cell, index) =>
      isBlank(cell) ? [] : pieces(cell).map((one) => sheetAt(one, index, units)),
    );
  },
});

const pieces = (cell: Cell): Cell[] => (typeof cell === 'string' ? cell.split('+') : [cell]);

function sheetAt(cell: Cell, index: number, units: UnitSystem): number {
  const place = `thicknesses, row ${index + 1}`;
  if (cell instanceof CellError) throw new InputError(place, cell.code, oneSheet.takes(units));
  return unlessRefused(
    () => oneSheet.read(typeof cell === 'string' ? cell.trim() : cell!, units),
    ({ got, takes, guess }): never => {
      throw new InputError(place, got, takes, guess);
    },
  );
}

/** How lengths are written in a text for whoever works in `units`. */
export const lengthText = (units: UnitSystem): LengthText => (units === 'mm-kg' ? inMillimetres : inInches);
