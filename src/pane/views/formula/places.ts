/** The cells that an argument reads: where they are, and how they move when the formula is filled down. */
import type { NameModel, RangeAddress, SheetInfo, TableModel } from '../../../sheet';
import { LAST_COLUMN, LAST_ROW, partRange, tablePart, tryFormula, type FormulaNode } from '../../../sheet/formula';

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
export function reads({ range, moves }: Place, sheet: string, row: number, column: number, down: number): boolean {
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
