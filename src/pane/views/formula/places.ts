/**
 * Cells of the form: those that an argument reads, where they are and how they move when the formula is filled down; and
 * those that the formula is written into, with the reasons not to write it there.
 */
import {
  cellName,
  fullName,
  isBlank,
  overlap,
  rangeName,
  type Cell,
  type NameModel,
  type RangeAddress,
  type SheetInfo,
  type TableModel,
  type Workbook,
} from '../../../sheet';
import { LAST_COLUMN, LAST_ROW, partRange, tablePart, tryFormula, type FormulaNode } from '../../../sheet/formula';
import { mark, t, type Marked } from '../../locale';

/** What the form has to know of a workbook. */
export interface Facts {
  readonly sheets: readonly SheetInfo[];
  readonly tables: readonly TableModel[];
  readonly names: readonly NameModel[];
}

export interface Place {
  readonly range: RangeAddress;
  /** Whether the first and the last row move with the formula. */
  readonly moves: { readonly top: boolean; readonly bottom: boolean };
}

/** From where a formula is read: the sheet of references that name none, and the row of a table's "this row". */
export interface Standpoint {
  readonly sheet: string;
  readonly row: number;
}

const FIXED = { top: false, bottom: false };
/** How many names are followed, each of which refers to the next. It ends the search where a name refers to itself. */
const DEEPEST = 8;

/** The place that a reference stands for; undefined for any other formula, and where there is no such table, column or name. */
export function placeOf(node: FormulaNode, facts: Facts, from: Standpoint, depth = 0): Place | undefined {
  switch (node.kind) {
    case 'reference': {
      const { top, left, bottom, right } = node;
      return {
        range: {
          sheet: node.sheet ?? from.sheet,
          row: top.at,
          column: left.at,
          rows: bottom.at - top.at + 1,
          columns: right.at - left.at + 1,
        },
        moves: { top: !top.fixed, bottom: !bottom.fixed },
      };
    }
    case 'table': {
      const table = facts.tables.find(({ name, range }) =>
        node.table === '' ? contains(range, from) : name.toLowerCase() === node.table.toLowerCase(),
      );
      const part = table && tablePart(table, node.part);
      const range = table && part && partRange(table, part, from.row);
      return range && { range, moves: part.area === 'row' ? { top: true, bottom: true } : FIXED };
    }
    case 'name': {
      const name =
        node.sheet === undefined
          ? facts.names.find((one) => one.name.toLowerCase() === node.name.toLowerCase())
          : undefined;
      const meant = name && depth < DEEPEST ? tryFormula(name.refersTo) : undefined;
      return meant && placeOf(meant, facts, from, depth + 1);
    }
    default:
      return undefined;
  }
}

/** All places that a formula reads, as far as they can be told. */
export function placesIn(node: FormulaNode, facts: Facts, from: Standpoint): Place[] {
  const within = (child: FormulaNode | undefined): Place[] => (child ? placesIn(child, facts, from) : []);
  switch (node.kind) {
    case 'binary':
    case 'intersection':
      return [...within(node.left), ...within(node.right)];
    case 'sign':
    case 'percent':
    case 'single':
    case 'spill':
      return within(node.of);
    case 'union':
      return node.of.flatMap(within);
    case 'apply':
      return [node.of, ...node.args].flatMap(within);
    case 'span':
      return [...within(node.from), ...within(node.to)];
    case 'call':
      return node.args.flatMap(within);
    default: {
      const place = placeOf(node, facts, from);
      return place ? [place] : [];
    }
  }
}

/** True where the place, in the formula filled `down` rows further, holds the cell `down` rows below. */
function reads({ range, moves }: Place, sheet: string, row: number, column: number, down: number): boolean {
  const top = range.row + (moves.top ? down : 0);
  const bottom = range.row + range.rows - 1 + (moves.bottom ? down : 0);
  return (
    range.sheet.toLowerCase() === sheet.toLowerCase() &&
    column >= range.column &&
    column < range.column + range.columns &&
    row >= Math.min(top, bottom) &&
    row <= Math.max(top, bottom)
  );
}

export const isOneCell = ({ range }: Place): boolean => range.rows === 1 && range.columns === 1;

/** True for B:B or 3:3. */
export const isWhole = ({ rows, columns }: RangeAddress): boolean => rows > LAST_ROW || columns > LAST_COLUMN;

/** A range without what lies below and beside all that the sheet holds. */
export function within(range: RangeAddress, used: RangeAddress | undefined): RangeAddress {
  const end = { row: used ? used.row + used.rows : 0, column: used ? used.column + used.columns : 0 };
  return {
    ...range,
    rows: Math.max(1, Math.min(range.rows, end.row - range.row)),
    columns: Math.max(1, Math.min(range.columns, end.column - range.column)),
  };
}

const contains = (range: RangeAddress, { sheet, row }: Standpoint): boolean =>
  range.sheet.toLowerCase() === sheet.toLowerCase() && row >= range.row && row < range.row + range.rows;

// The cells that the formula is written into

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
