/**
 * Numbers that are computed as typed although another unit was probably meant: thick sheets in inches among the joints,
 * and arguments of TARE functions in formulas of the parts list and the joints. The user is asked about each by its cell.
 */
import type { Dimension } from '../core/quantity';
import { findDefinition, type Definition, type Parameter } from '../functions';
import { cellName, type Cell, type SheetContent } from '../sheet';
import { matching, tokens, tryFormula, type BinaryOperator, type FormulaNode, type Token } from '../sheet/formula';
import { JOINTS, PARTS } from './forms';
import { once } from './once';
import type { Problem, SheetValues } from './problems';
import type { ProjectSheets } from './project-sheets';
import { readSheet } from './project-units';

/** A thickness of this many inches or more is thicker than any sheet that is bent and riveted. */
const THICK = 0.5;
/** An angle below this is smaller than any bend that a brake makes; a quarter turn is 1.57 radians. */
const FLAT = 5;

const COUNTED = 'It is counted as typed';

/** Sheets of joints that are thicker than any sheet that is riveted. */
export function askedThicknesses(values: SheetValues): Problem[] {
  const joints = readSheet(values, JOINTS);
  if (!joints) return [];
  return joints.rows.flatMap(({ row, cells }) =>
    (['sheet1', 'sheet2', 'sheet3'] as const).flatMap((key): Problem[] => {
      const [thickness, unit] = [cells[key], joints.units[key]];
      if (typeof thickness !== 'number' || thickness < THICK || unit?.system !== 'in-lb') return [];
      const message = `is ${Number(thickness.toPrecision(6))} ${unit.words}: were millimetres meant? ${COUNTED}`;
      return [{ sheet: joints.sheet, cell: cellName(row, joints.columns[key]!), message }];
    }),
  );
}

/** What is asked about in formulas of the parts list and the joints: arguments, and results in a column of another measure. */
export const askedInFormulas = ({ values, formulas }: Pick<ProjectSheets, 'values' | 'formulas'>): readonly Problem[] =>
  once(values, askedOfBoth, formulas(PARTS.sheet), formulas(JOINTS.sheet));

type Formulas = SheetContent['formulas'];

function askedOfBoth(values: SheetValues, ...both: readonly [parts: Formulas, joints: Formulas]): readonly Problem[] {
  const found: Problem[] = [];
  for (const [index, form] of [PARTS, JOINTS].entries()) {
    const { sheet } = form;
    const head = readSheet<string>(values, form);
    const dimensions = new Map(
      form.columns.flatMap(({ key, dimension }) => {
        const at = head?.columns[key];
        return at === undefined || dimension === undefined ? [] : [[at, dimension] as const];
      }),
    );
    found.push(...askedOf(sheet, both[index] ?? [], values, dimensions));
  }
  return found;
}

/** The questions about one sheet's formulas, which are given by row and column. */
function askedOf(
  sheet: string,
  formulas: readonly (readonly (string | null)[])[],
  values: SheetValues,
  dimensions: ReadonlyMap<number, Dimension>,
): Problem[] {
  return formulas.flatMap((line, row) =>
    line.flatMap((formula, column): Problem[] => {
      if (formula === null || !/\bTARE\./i.test(formula)) return [];
      const question = otherDimension(formula, dimensions.get(column)) ?? firstQuestion(formula, sheet, values);
      return question === undefined ? [] : [{ sheet, cell: cellName(row, column), message: question }];
    }),
  );
}

const MEASURES: Readonly<Partial<Record<Dimension, string>>> = {
  length: 'a length',
  area: 'an area',
  weight: 'a weight',
  moment: 'a moment',
};

/** A formula that is nothing but a function which gives another measure than its column takes: a flat width under an area. */
function otherDimension(formula: string, wanted: Dimension | undefined): string | undefined {
  const node = wanted && MEASURES[wanted] ? tryFormula(formula.replace(/^=/, '')) : undefined;
  const definition = node?.kind === 'call' ? findDefinition(node.name) : undefined;
  const given = definition?.result.kind === 'number' ? definition.result.dimension : undefined;
  if (!wanted || !given || given === wanted || !MEASURES[given]) return undefined;
  const hint = given === 'length' && wanted === 'area' ? '. Multiply it by the length of the part' : '';
  return `is ${MEASURES[given]} from TARE.${definition!.name}, and the column takes ${MEASURES[wanted]}${hint}`;
}

function firstQuestion(formula: string, sheet: string, values: SheetValues): string | undefined {
  const all = tokens(formula.replace(/^=/, ''));
  for (const [index, { kind, text }] of all.entries()) {
    const definition = kind === 'call' ? findDefinition(text.toUpperCase()) : undefined;
    const args = definition && argumentsAt(all, index + 1);
    if (!args) continue;
    const numbers = (at: number): number[] => (args[at] === undefined ? [] : numbersIn(args[at], sheet, values));
    for (const [at, parameter] of definition.parameters.entries()) {
      const message = questionOf(definition, parameter, numbers(at), isMetric(definition, args));
      if (message !== undefined) return message;
    }
  }
  return undefined;
}

function questionOf(
  { name }: Definition,
  parameter: Parameter,
  numbers: readonly number[],
  metric: boolean,
): string | undefined {
  if (parameter.name === 'angle' || parameter.name === 'bend_angles') {
    const slight = numbers.find((one) => one !== 0 && Math.abs(one) < FLAT);
    if (slight !== undefined)
      return `gives TARE.${name} a bend of ${short(slight)}°: were radians meant? Type degrees, such as 90. ${COUNTED}`;
  }
  if (parameter.name === 'thickness' && !metric) {
    const thick = numbers.find((one) => one >= THICK && one <= 1);
    if (thick !== undefined)
      return `gives TARE.${name} a thickness of ${short(thick)} inches: were millimetres meant? ${COUNTED}`;
  }
  return undefined;
}

const short = (value: number): string => String(Number(value.toPrecision(4)));

/** The texts of a call's arguments; undefined where its bracket does not close. */
function argumentsAt(all: readonly Token[], open: number): string[] | undefined {
  const close = matching(all, open, 1);
  if (close === undefined) return undefined;
  const args = [''];
  let depth = 0;
  for (const { kind, text } of all.slice(open + 1, close)) {
    if (kind === 'open' || kind === 'openArray') depth++;
    else if (kind === 'close' || kind === 'closeArray') depth--;
    if (kind === 'comma' && depth === 0) args.push('');
    else args[args.length - 1] += text;
  }
  return args;
}

const isMetric = ({ parameters }: Definition, args: readonly string[]): boolean =>
  /mm-kg/i.test(args[parameters.findIndex(({ name }) => name === 'units')] ?? '');

/** The numbers of an argument: as it says them, of the cells that it names, or what it comes to; none where that is not plain. */
function numbersIn(text: string, sheet: string, values: SheetValues): number[] {
  const node = tryFormula(text);
  if (!node) return [];
  if (node.kind === 'reference') {
    const cells = values(node.sheet ?? sheet) ?? [];
    const lines = cells.slice(node.top.at, node.bottom.at + 1);
    return numbersOf(lines.flatMap((line) => line.slice(node.left.at, node.right.at + 1)));
  }
  if (node.kind === 'array') return numbersOf(node.rows.flat());
  const value = constant(node);
  return value === undefined ? [] : [value];
}

const numbersOf = (cells: readonly Cell[]): number[] => cells.filter((cell) => typeof cell === 'number');

const OPERATORS: Readonly<Partial<Record<BinaryOperator, (a: number, b: number) => number>>> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '^': (a, b) => a ** b,
};

/** The value of an expression that reads no cell: 1.57, PI()/2, RADIANS(90); undefined for any other. */
function constant(node: FormulaNode | undefined): number | undefined {
  switch (node?.kind) {
    case 'value':
      return typeof node.value === 'number' ? node.value : undefined;
    case 'sign': {
      const of = constant(node.of);
      return of === undefined || !node.negative ? of : -of;
    }
    case 'binary': {
      const [a, b, of] = [constant(node.left), constant(node.right), OPERATORS[node.operator]];
      return a === undefined || b === undefined ? undefined : of?.(a, b);
    }
    case 'call': {
      if (node.name === 'PI') return Math.PI;
      const degrees = constant(node.args[0]);
      return node.name === 'RADIANS' && degrees !== undefined ? (degrees * Math.PI) / 180 : undefined;
    }
    default:
      return undefined;
  }
}
