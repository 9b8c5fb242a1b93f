/** The cells that the formula is written into, and reasons not to write it there. */
import {
  cellName,
  fullName,
  isBlank,
  overlap,
  rangeName,
  type Cell,
  type RangeAddress,
  type Workbook,
} from '../../../sheet';
import { LAST_COLUMN, LAST_ROW } from '../../../sheet/formula';
import { t, type Marked, mark } from '../../locale';
import { isOneCell, reads, type Facts, type Place } from './places';

/** one: a formula; fill: one in each row; spill: one whose results take several cells. */
export type TargetKind = 'one' | 'fill' | 'spill';

export interface Target {
  readonly kind: TargetKind;
  /** All cells that will be written or filled by results. */
  readonly range: RangeAddress;
  /** Cells in it that are not empty. */
  readonly filled: number;
  /** Why it cannot be inserted there, in words. */
  readonly problem?: string;
}

/** More rows than these are not filled at once. */
const MOST_ROWS = 10_000;
/** Names of filled cells that a message gives. */
const NAMED = 3;

interface Wanted {
  readonly kind: TargetKind;
  readonly range: RangeAddress;
  readonly places: readonly Place[];
}

/** Looks at the cells of a target, before anything is written. */
export async function inspect(workbook: Workbook, facts: Facts, wanted: Wanted): Promise<Target> {
  const { kind, range } = wanted;
  const barred = barrier(facts, wanted);
  if (barred !== undefined) return { kind, range, filled: 0, problem: barred };
  const [values, formulas] = await Promise.all([workbook.read(range), workbook.readFormulas(range)]);
  const filled = values.flatMap((line, r) =>
    line.flatMap((value, c) =>
      isBlank(value) && !formulas[r]?.[c] ? [] : [{ r, c, formula: formulas[r]?.[c] ?? null }],
    ),
  );
  if (kind !== 'spill') return { kind, range, filled: filled.length };
  const first = filled.find(({ r, c }) => r === 0 && c === 0);
  // Below a formula that gives several cells stand its own results: they go when it is written over.
  const own = first?.formula && /[:[{#]/.test(first.formula);
  const inTheWay = filled.filter(({ r, c, formula }) => (r > 0 || c > 0) && !(own && formula === null));
  if (inTheWay.length === 0) return { kind, range, filled: first ? 1 : 0 };
  const names = inTheWay.slice(0, NAMED).map(({ r, c }) => cellName(range.row + r, range.column + c));
  return {
    kind,
    range,
    filled: first ? 1 : 0,
    problem: t(
      'The results need {range}, and {count, plural, one {{cells} is not empty} other {# cells there are not empty ({cells})}}. Clear them, or choose another cell.',
      {
        range: rangeName(range),
        count: inTheWay.length,
        cells: inTheWay.length > NAMED ? `${names.join(', ')} …` : names.join(', '),
      },
    ),
  };
}

/** What bars the way whatever the cells hold. */
function barrier(facts: Facts, { kind, range, places }: Wanted): string | undefined {
  const sheet = facts.sheets.find(({ name }) => name.toLowerCase() === range.sheet.toLowerCase());
  if (sheet?.protected)
    return t('The sheet {sheet} is protected: unprotect it, or choose a cell on another sheet.', { sheet: sheet.name });
  if (range.row + range.rows - 1 > LAST_ROW || range.column + range.columns - 1 > LAST_COLUMN)
    return t('The results reach past the end of the sheet: choose a cell further up.');
  if (kind === 'fill' && range.rows > MOST_ROWS)
    return t('That is {count, number} rows: up to {most, number} are filled at once.', {
      count: range.rows,
      most: MOST_ROWS,
    });
  const circle = circleAt(range, places, kind);
  if (circle !== undefined)
    return t(
      '{cell} is one of the cells that the formula reads, which makes a circle. Choose another cell for the result.',
      { cell: circle },
    );
  const table = kind === 'spill' ? facts.tables.find((one) => overlap(one.range, range)) : undefined;
  return (
    table &&
    t(
      '{range} reaches into the table {table}, where a formula fills one cell only. Give it the cells of one row, and fill it down.',
      { range: rangeName(range), table: table.name },
    )
  );
}

/** The first cell of the target that its own formula would read. */
function circleAt(range: RangeAddress, places: readonly Place[], kind: TargetKind): string | undefined {
  for (let r = 0; r < range.rows; r++) {
    for (let c = 0; c < range.columns; c++) {
      const down = kind === 'fill' ? r : 0;
      if (places.some((place) => reads(place, range.sheet, range.row + r, range.column + c, down)))
        return cellName(range.row + r, range.column + c);
    }
    // Once filled cells move with all that they read, one row is like the other.
    if (kind === 'fill' && places.every(({ moves }) => moves.top && moves.bottom)) return undefined;
  }
  return undefined;
}

/** Places of a single cell that move down: what a formula is filled down along. */
export const along = (places: readonly Place[]): readonly Place[] =>
  places.filter((place) => isOneCell(place) && place.moves.top);

/** Blocks that move down too, where they most likely are to stay: a price list, an envelope. */
export const strays = (places: readonly Place[]): readonly Place[] =>
  places.filter((place) => !isOneCell(place) && place.moves.top);

/** Rows, the first included, as far as the list goes in which these cells stand. */
export async function rowsBelow(workbook: Workbook, facts: Facts, places: readonly Place[]): Promise<number> {
  const columns = await Promise.all(
    places.map(async ({ range }): Promise<readonly Cell[]> => {
      const used = await workbook.usedRange(range.sheet);
      const table = facts.tables.find((one) => overlap(one.range, range));
      const end = Math.min(
        used ? used.row + used.rows : 0,
        table ? table.range.row + table.range.rows : Infinity,
        range.row + MOST_ROWS,
      );
      return end <= range.row
        ? []
        : (await workbook.read({ ...range, rows: end - range.row })).map(([cell]) => cell ?? null);
    }),
  );
  let rows = 0;
  while (columns.some((column) => !isBlank(column[rows]))) rows += 1;
  return rows;
}

const KIND_WORDS: Readonly<Record<TargetKind, Marked>> = {
  one: mark('One formula in {range}.'),
  fill: mark('A formula in each of the {count, number} rows of {range}.'),
  spill: mark('One formula, whose results take {range}.'),
};

export const targetWords = ({ kind, range }: Pick<Target, 'kind' | 'range'>): string =>
  t(KIND_WORDS[kind], { range: kind === 'one' ? fullName(range) : rangeName(range), count: range.rows });
