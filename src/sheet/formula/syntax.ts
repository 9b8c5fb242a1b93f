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

export type FormulaNode =
  | { readonly kind: 'value'; readonly value: Cell }
  | { readonly kind: 'array'; readonly rows: Cell[][] }
  | ReferenceNode
  /** A1#: all that the formula in A1 spills. */
  | { readonly kind: 'spill'; readonly of: ReferenceNode }
  | { readonly kind: 'name'; readonly name: string; readonly sheet: string | undefined }
  /** Parts[width]: `part` is what stands between the outer brackets. */
  | { readonly kind: 'table'; readonly table: string; readonly part: string }
  | { readonly kind: 'sign'; readonly negative: boolean; readonly of: FormulaNode }
  | { readonly kind: 'percent'; readonly of: FormulaNode }
  | {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: FormulaNode;
      readonly right: FormulaNode;
    }
  /** A1:INDEX(…): from one reference to another, one of which is computed. */
  | { readonly kind: 'span'; readonly from: FormulaNode; readonly to: FormulaNode }
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly (FormulaNode | undefined)[] };

/** Thrown for a formula that cannot be read. */
export class FormulaError extends Error {
  override readonly name = 'FormulaError';
}

export const LAST_ROW = 1_048_575;
export const LAST_COLUMN = 16_383;
