/** One difference between two calculators, with what its formula calls and is given, evaluated by ours. */
import { Calculator } from '../../src/calculation';
import type { Cell, Matrix, WorkbookModel } from '../../src/sheet';
import { parseFormula, printFormula, type FormulaNode } from '../../src/sheet/formula';
import { COLUMN, FIRST_ROW, workbookOf } from './sheet';

export type Value = Cell | Matrix | undefined;

/** A call of a function, or an operator between two operands. */
export interface Call {
  readonly name: string;
  /** undefined for what is left out. */
  readonly nodes: readonly (FormulaNode | undefined)[];
  /** What the arguments are in our calculator. */
  readonly args: readonly Value[];
  /** What the call itself gives in our calculator. */
  readonly result: Value;
}

export class Case {
  private found: readonly Call[] | undefined;

  constructor(
    readonly formula: string,
    readonly ours: Cell | Matrix,
    readonly theirs: Cell | Matrix,
  ) {}

  /** All calls and operators of the formula, the outermost first. */
  get calls(): readonly Call[] {
    this.found ??= callsOf(parseFormula(this.formula));
    return this.found;
  }

  /** True where one of these functions (names with bars between them) is called with such arguments. */
  some(names: string, holds: (args: readonly Value[], call: Call) => boolean = () => true): boolean {
    const wanted = new Set(names.split('|'));
    return this.calls.some((call) => wanted.has(call.name) && holds(call.args, call));
  }

  /** True where one of the values that functions and operators are given is such a cell, in a block or alone. */
  someCell(holds: (cell: Cell) => boolean): boolean {
    return this.calls.some(({ args }) => args.some((arg) => cellsOf(arg).some(holds)));
  }

  /** What our calculator gives once logical values are the numbers 1 and 0. */
  get byNumbers(): Cell | Matrix {
    const formula = printFormula(withNumbers(parseFormula(this.formula)));
    const model = flagsAsNumbers(workbookOf([{ formula }]));
    const { results } = new Calculator(model).run();
    return results.at(-1)!.result;
  }
}

export const cellsOf = (value: Value): Cell[] =>
  Array.isArray(value) ? value.flat() : value === undefined ? [] : [value];
export const numbersOf = (value: Value): number[] =>
  cellsOf(value).filter((cell): cell is number => typeof cell === 'number');

let evaluator: ((formula: string) => Cell | Matrix) | undefined;

/** What a formula gives beside the compared ones. */
function evaluate(formula: string): Cell | Matrix {
  if (!evaluator) {
    const calculator = new Calculator(workbookOf([]), true);
    calculator.run();
    evaluator = (text) => calculator.evaluator(0, FIRST_ROW, COLUMN, text)(FIRST_ROW, COLUMN);
  }
  return evaluator(formula);
}

const flagsAsNumbers = (model: WorkbookModel): WorkbookModel => ({
  ...model,
  sheets: model.sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((line) =>
      line.map((cell) => (typeof cell?.value === 'boolean' ? { ...cell, value: Number(cell.value) } : cell)),
    ),
  })),
});

function callsOf(node: FormulaNode | undefined): Call[] {
  if (!node) return [];
  const call = (name: string, nodes: readonly (FormulaNode | undefined)[]): Call[] => [
    {
      name,
      nodes,
      args: nodes.map((one) => one && evaluate(printFormula(one))),
      get result() {
        return evaluate(printFormula(node));
      },
    },
    ...nodes.flatMap(callsOf),
  ];
  switch (node.kind) {
    case 'call':
      return call(node.name, node.args);
    case 'binary':
      return call(node.operator, [node.left, node.right]);
    case 'sign':
      return call('sign', [node.of]);
    case 'percent':
      return call('%', [node.of]);
    default:
      return [];
  }
}

const COMPARING = new Set(['=', '<>', '<', '>', '<=', '>=']);
const LOGICAL = /^(?:AND|OR|NOT|XOR|EXACT|TRUE|FALSE|IS[A-Z]+)$/;

/** A formula in which every logical value is made a number. */
function withNumbers(node: FormulaNode): FormulaNode {
  const number = (of: FormulaNode): FormulaNode => ({ kind: 'call', name: 'N', args: [of] });
  switch (node.kind) {
    case 'value':
      return typeof node.value === 'boolean' ? { kind: 'value', value: Number(node.value) } : node;
    case 'call': {
      const args = node.args.map((arg) => arg && withNumbers(arg));
      // IF without a third argument is FALSE where its condition is.
      if (node.name === 'IF' && args.length === 2) args.push({ kind: 'value', value: 0 });
      const inner: FormulaNode = { ...node, args };
      return LOGICAL.test(node.name) ? number(inner) : inner;
    }
    case 'binary': {
      const inner: FormulaNode = { ...node, left: withNumbers(node.left), right: withNumbers(node.right) };
      return COMPARING.has(node.operator) ? number(inner) : inner;
    }
    case 'sign':
    case 'percent':
      return { ...node, of: withNumbers(node.of) };
    default:
      return node;
  }
}
