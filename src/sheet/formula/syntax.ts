/** What a formula says, as a tree. */
import type { Cell } from '../cell';

/** A row or column number from 0; a relative one moves with the formula. */
export interface Coordinate {
  readonly at: number;
  readonly fixed: boolean;
}

export interface ReferenceNode {
  readonly kind: 'reference';
  /** undefined: the formula's own sheet. */
  readonly sheet: string | undefined;
  readonly top: Coordinate;
  readonly left: Coordinate;
  readonly bottom: Coordinate;
  readonly right: Coordinate;
}

export type BinaryOperator = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '>' | '<=' | '>=';

export type Arguments = readonly (FormulaNode | undefined)[];

export type FormulaNode =
  | { readonly kind: 'value'; readonly value: Cell }
  | { readonly kind: 'array'; readonly rows: Cell[][] }
  | ReferenceNode
  /** A1#: all that the formula in A1 spills. */
  | { readonly kind: 'spill'; readonly of: ReferenceNode }
  | { readonly kind: 'name'; readonly name: string; readonly sheet: string | undefined }
  /** Parts[width]: `part` is what stands between the outer brackets. */
  | { readonly kind: 'table'; readonly table: string; readonly part: string }
  /** A reference into another workbook or through several sheets, as it is typed: [2]Prices!B2, Jan:Mar!B2. */
  | { readonly kind: 'elsewhere'; readonly text: string }
  | { readonly kind: 'sign'; readonly negative: boolean; readonly of: FormulaNode }
  | { readonly kind: 'percent'; readonly of: FormulaNode }
  /** @A1:A9: the cell of the formula's own row or column. */
  | { readonly kind: 'single'; readonly of: FormulaNode }
  | {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: FormulaNode;
      readonly right: FormulaNode;
    }
  /** A1:INDEX(…): from one reference to another, one of which is computed. */
  | { readonly kind: 'span'; readonly from: FormulaNode; readonly to: FormulaNode }
  /** A1:B3 B1:C9: the cells that both have. */
  | { readonly kind: 'intersection'; readonly left: FormulaNode; readonly right: FormulaNode }
  /** (A1,B2): the cells of each. */
  | { readonly kind: 'union'; readonly of: readonly FormulaNode[] }
  | { readonly kind: 'call'; readonly name: string; readonly args: Arguments }
  /** LAMBDA(x,x+1)(2): the function that an expression gives is called. */
  | { readonly kind: 'apply'; readonly of: FormulaNode; readonly args: Arguments };

/** Thrown for a formula that cannot be read. The message says in a builder's words what to do. */
export class FormulaError extends Error {
  override readonly name = 'FormulaError';

  constructor(
    message: string,
    /** Place of the fault in the formula, from 0. */
    readonly at = 0,
  ) {
    super(message);
  }
}

export const LAST_ROW = 1_048_575;
export const LAST_COLUMN = 16_383;
