/** How an ordinary function is described to the compiler. */
import type { Cell } from '../sheet';
import type { FormulaNode } from '../sheet/formula';
import type { Grid } from './grid';
import type { Value } from './values';

/** The cell whose formula is evaluated. */
export interface Place {
  readonly grid: Grid;
  readonly row: number;
  readonly column: number;
  /** What names of LET and LAMBDA stand for here, the innermost first. */
  readonly frame?: Frame | undefined;
}

/** The value of one name of a LET or LAMBDA, and those around it. */
export interface Frame {
  /** undefined: an argument that was left out. */
  readonly value: Value;
  readonly next: Frame | undefined;
}

export type Evaluate = (place: Place) => Value;

/** A function that takes values. */
export interface EagerFunction {
  readonly kind: 'eager';
  readonly min: number;
  readonly max: number;
  /**
   * One letter a parameter, the last one for all that follow: "c" a cell, over which the function is lifted
   * when it is given several; "n" the same, but that a logical value is #VALUE!; "v" whatever is given. An error
   * in a cell is the result, unless takesErrors.
   *
   * "n" is for functions that mostly came with Excel's Analysis ToolPak. Source of the dates' and of QUOTIENT: what Excel
   * gives, in github.com/ironcalc/IronCalc, issue 625 and pull requests 524, 1393, 1401 and 1410; of the others
   * IronCalc 0.8.4.
   */
  readonly takes: string;
  readonly takesErrors?: boolean;
  /** True: its arguments are computed as arrays even in a plain formula. */
  readonly arrays?: boolean;
  /** True: it asks where a reference is, and not what is there. */
  readonly place?: boolean;
  /** True: it may read cells that its arguments do not name, as OFFSET does. */
  readonly reaches?: boolean;
  /** True: equal arguments need not give equal results. */
  readonly volatile?: boolean;
  /** Gives false for arguments with which the function is not known here, such as CELL("filename"). */
  readonly knows?: (args: readonly (FormulaNode | undefined)[]) => boolean;
  readonly apply: (args: Value[], place: Place) => Value;
}

/** A function that evaluates only the arguments that it needs. */
interface LazyFunction {
  readonly kind: 'lazy';
  readonly min: number;
  readonly max: number;
  /** Which arguments (from 0, of so many) are cells: a plain formula takes the cell of its own row from a range. Else the first. */
  readonly cells?: (index: number, count: number) => boolean;
  readonly apply: (args: readonly (Evaluate | undefined)[], place: Place) => Value;
}

export type FunctionSpec = EagerFunction | LazyFunction;

/** A function of single cells. */
export const cells = (
  min: number,
  max: number,
  apply: (...args: (Cell | undefined)[]) => Cell,
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({
  kind: 'eager',
  min,
  max,
  takes: 'c',
  apply: (args) => apply(...(args as (Cell | undefined)[])),
  ...options,
});

/** A function of whatever it is given. */
export const values = (
  min: number,
  max: number,
  apply: (...args: Value[]) => Value,
  options: Partial<EagerFunction> = {},
): FunctionSpec => ({
  kind: 'eager',
  min,
  max,
  takes: 'v',
  apply: (args) => apply(...args),
  ...options,
});

export const MANY = 255;
