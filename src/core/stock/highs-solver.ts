/** The linear solver HiGHS (WebAssembly) behind the planner's interface: in Node and in a web worker. */
import type { Highs, InitOptions, Model, ModelData } from 'highs';
import type { Column, IntegerLimits, IntegerProblem, LinearModel, LinearSolver, RowBounds } from './control';

/**
 * Loads HiGHS. In a browser give `locateFile`, which turns "highs.wasm" into its address; Node finds it
 * beside the package.
 */
export async function loadHighsSolver(options?: InitOptions): Promise<LinearSolver> {
  const { default: load } = await import('highs');
  const highs = await load(options);
  const far = (value: number): number =>
    value === Infinity ? highs.infinity : value === -Infinity ? -highs.infinity : value;
  return {
    model: (rows, columns) => linearModel(highs, far, rows, columns),
    solveInteger: (problem, limits) => solveInteger(highs, far, problem, limits),
  };
}

type Far = (value: number) => number;

function packed(columns: readonly Column[], numRows: number) {
  const starts = new Int32Array(columns.length + 1);
  columns.forEach((column, index) => (starts[index + 1] = starts[index]! + column.rows.length));
  return {
    format: 'csc' as const,
    numRows,
    numCols: columns.length,
    starts,
    indices: Int32Array.from(columns.flatMap((column) => column.rows)),
    values: Float64Array.from(columns.flatMap((column) => column.values)),
  };
}

const modelData = (far: Far, rows: readonly RowBounds[], columns: readonly Column[]): ModelData => ({
  numCols: columns.length,
  numRows: rows.length,
  colCost: Float64Array.from(columns, ({ cost }) => cost),
  colLower: new Float64Array(columns.length),
  colUpper: new Float64Array(columns.length).fill(far(Infinity)),
  rowLower: Float64Array.from(rows, ({ lower }) => far(lower)),
  rowUpper: Float64Array.from(rows, ({ upper }) => far(upper)),
  matrix: packed(columns, rows.length),
});

function linearModel(highs: Highs, far: Far, rows: readonly RowBounds[], columns: readonly Column[]): LinearModel {
  const model: Model = highs.createModel(modelData(far, rows, columns));
  model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex' });
  return {
    addColumns(more) {
      if (more.length === 0) return;
      model.addCols({
        cost: Float64Array.from(more, ({ cost }) => cost),
        lower: new Float64Array(more.length),
        upper: new Float64Array(more.length).fill(far(Infinity)),
        matrix: packed(more, rows.length),
      });
    },
    setRow: (row, { lower, upper }) => void model.changeRowBounds(row, far(lower), far(upper)),
    setColumn: (column, lower, upper) => void model.changeColBounds(column, far(lower), far(upper)),
    solve() {
      const { optimal } = highs.constants.modelStatus;
      if (model.run().modelStatus !== optimal) {
        // A warm start can end in numerical trouble: once more from nothing.
        model.clearSolver();
        if (model.run().modelStatus !== optimal) throw new Error('the linear relaxation has no solution');
      }
      const { colValue, rowDual } = model.getSolution();
      return { objective: model.getObjectiveValue(), values: colValue, duals: rowDual };
    },
    dispose: () => model.dispose(),
  };
}

function solveInteger(
  highs: Highs,
  far: Far,
  problem: IntegerProblem,
  limits: IntegerLimits,
): Float64Array | undefined {
  const { modelStatus, variableType, callbackType } = highs.constants;
  const { columns } = problem;
  const model: Model = highs.createModel({
    ...modelData(far, problem.rows, columns),
    integrality: columns.map(() => variableType.integer),
  });
  try {
    model.options.set({
      output_flag: false,
      mip_max_nodes: limits.nodes,
      mip_rel_gap: 0,
      mip_abs_gap: 1e-6,
      random_seed: limits.seed ?? 0,
    });
    if (problem.start) model.setSolution({ colValue: Float64Array.from(problem.start) });
    const { stop } = limits;
    model.run(
      stop && {
        [callbackType.mipInterrupt](event) {
          if (stop()) event.interrupt();
          return undefined;
        },
      },
    );
    if (model.getModelStatus() === modelStatus.infeasible || model.info.get('primal_solution_status') !== 2)
      return undefined;
    return model.getSolution().colValue.map(Math.round);
  } finally {
    model.dispose();
  }
}
