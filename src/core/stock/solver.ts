/**
 * What the planner asks of a linear solver. The planner is given one, so that it knows no library and
 * no way of loading one.
 */

/** A column of a linear model: its cost and its entries by row. */
export interface Column {
  readonly cost: number;
  /** Lower and upper bound; 0 and no bound where they are not given. */
  readonly lower?: number;
  readonly upper?: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

export interface RowBounds {
  readonly lower: number;
  readonly upper: number;
}

export interface LinearSolution {
  readonly objective: number;
  readonly values: Float64Array;
  /** Change of the objective for one more of a row's bound. */
  readonly duals: Float64Array;
}

/** A linear model that columns are added to while it is solved again and again (minimisation). */
export interface LinearModel {
  addColumns(columns: readonly Column[]): void;
  setRow(row: number, bounds: RowBounds): void;
  setColumn(column: number, lower: number, upper: number): void;
  /** Undefined where there is no solution. */
  solve(): LinearSolution | undefined;
  dispose(): void;
}

export interface IntegerProblem {
  readonly rows: readonly RowBounds[];
  readonly columns: readonly Column[];
  /** A whole-number solution to start from. */
  readonly start?: ArrayLike<number>;
}

export interface IntegerLimits {
  /** Nodes of the search: a limit that gives the same result on every machine. */
  readonly nodes: number;
  /** Nodes without a better solution after which the search ends. */
  readonly stallNodes?: number;
  /** Ends the search where it is polled and true: time is up, or the user cancelled. */
  readonly stop?: () => boolean;
  /** Only solutions cheaper than this count. */
  readonly below?: number;
  readonly seed?: number;
}

export interface IntegerSolution {
  readonly objective: number;
  readonly values: Float64Array;
}

export interface LinearSolver {
  model(rows: readonly RowBounds[], columns: readonly Column[]): LinearModel;
  /** The best whole-number solution found; undefined where none was found within the limits. */
  solveInteger(problem: IntegerProblem, limits: IntegerLimits): IntegerSolution | undefined;
}
