/**
 * Each row-wise function over long columns, against a loop written by hand: the same relation called row by
 * row on the same columns of cells, with no check, no unit, no message.
 */
import { call, catalogue, type Argument, type Cell, type Definition, type Matrix } from '../../src/functions';

export interface FunctionRatio {
  readonly name: string;
  readonly rows: number;
  /** Milliseconds, the best of several runs. */
  readonly ours: number;
  readonly byHand: number;
  readonly ratio: number;
}

/** The best of several runs, in milliseconds. */
export function best(runs: number, run: () => unknown): number {
  let least = Infinity;
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    run();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}

const isSingle = (value: Cell | Matrix): value is Cell => !Array.isArray(value);

/** The first example's arguments as columns, each row a trifle different where it is a number that may be. */
function columnsOf(definition: Definition, rows: number): Argument[] | undefined {
  const example = definition.examples.find((one) => one.args.every((arg, index) => isSingle(arg) || definition.parameters[index]?.shape !== 'cell'));
  return example?.args.map((arg, index) => {
    if (!isSingle(arg) || arg === null || definition.parameters[index]?.name === 'units') return arg;
    const wiggle = typeof arg === 'number' && !Number.isInteger(arg);
    return Array.from({ length: rows }, (_row, r) => [wiggle ? (arg as number) * (1 + (r % 7) * 1e-6) : arg]);
  });
}

function byHand(definition: Definition, args: readonly Argument[], rows: number): () => Matrix {
  const compute = definition.compute as (...values: unknown[]) => Cell;
  const read = definition.parameters.map((parameter, index) => {
    const argument = args[index];
    if (!Array.isArray(argument)) return { fixed: argument === undefined || argument === null ? parameter.default : parameter.read(argument as string | number | boolean, 'in-lb') };
    if (parameter.shape !== 'cell' && (argument.length !== rows || (argument[0]?.length ?? 0) > 1)) return { fixed: parameter.readBlock!(argument, 'in-lb') };
    // A text (a material, a rivet) is read once: a loop by hand would have looked it up ahead.
    const first = argument[0]![0] as string | number | boolean;
    return typeof first === 'number' && parameter.quick ? { column: argument } : { fixed: parameter.read(first, 'in-lb') };
  });
  return () => {
    const result: Matrix = new Array(rows);
    const values: unknown[] = read.map((one) => one.fixed);
    for (let r = 0; r < rows; r++) {
      for (let p = 0; p < read.length; p++) {
        const column = read[p]!.column;
        if (column) values[p] = column[r]![0];
      }
      result[r] = [compute(...values)];
    }
    return result;
  };
}

export function functionRatios(rows: number, runs: number): FunctionRatio[] {
  return catalogue
    .filter(({ rowWise }) => rowWise)
    .flatMap((definition) => {
      const args = columnsOf(definition, rows);
      if (!args) return [];
      const hand = byHand(definition, args, rows);
      const ours = (): unknown => call(definition, args);
      best(2, hand);
      best(2, ours);
      const [a, b] = [best(runs, ours), best(runs, hand)];
      return [{ name: definition.name, rows, ours: a, byHand: b, ratio: a / b }];
    });
}
