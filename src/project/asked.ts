/**
 * Numbers that are computed as typed although another unit was probably meant: thick sheets in inches among the joints,
 * and arguments of TARE functions in formulas of the parts list and the joints. The user is asked about each by its cell.
 */
import type { Dimension } from '../core/quantity';
import { findDefinition, type Definition } from '../functions';
import { cellName, type Cell, type SheetContent } from '../sheet';
import { templateKey, tryFormula, type BinaryOperator, type Coordinate, type FormulaNode } from '../sheet/formula';
import { JOINTS, PARTS } from './forms';
import { partsOf } from './new/formula-terms';
import { once, type Problem, type SheetValues } from './reading';
import type { ProjectSheets } from './project-reader';
import { headOf, readSheet } from './project-units';
import { THICK } from './units';

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

type Formulas = NonNullable<SheetContent['formulas']>;
type Dimensions = ReadonlyMap<number, Dimension>;

/**
 * Looks through the formulas ahead of `askedInFormulas`, which then answers at once: of a long list that takes a while,
 * and whoever goes through the steps can have a page answer between them.
 */
export function* askingSteps({ values, formulas }: Pick<ProjectSheets, 'values' | 'formulas'>): Generator<void> {
  for (const { lines, dimensions } of lookedThrough(values, [formulas(PARTS.sheet), formulas(JOINTS.sheet)]))
    yield* askingCells(lines, dimensions);
}

const askedOfBoth = (values: SheetValues, ...both: readonly (Formulas | undefined)[]): readonly Problem[] =>
  lookedThrough(values, both).flatMap(({ sheet, lines, dimensions }) => askedOf(sheet, lines, values, dimensions));

interface LookedThrough {
  readonly sheet: string;
  readonly lines: Formulas;
  /** What each column measures, by its index. */
  readonly dimensions: Dimensions;
}

const lookedThrough = (values: SheetValues, both: readonly (Formulas | undefined)[]): LookedThrough[] =>
  [PARTS, JOINTS].flatMap((form, index): LookedThrough[] => {
    const lines = both[index];
    if (!lines) return [];
    const head = headOf<string>(values, form);
    const dimensions = new Map(
      form.columns.flatMap(({ key, dimension }) => {
        const at = head?.columns[key];
        return at === undefined || dimension === undefined ? [] : [[at, dimension] as const];
      }),
    );
    return [{ sheet: form.sheet, lines, dimensions }];
  });

/** The questions about one sheet's formulas, which are given by row and column. */
const askedOf = (sheet: string, formulas: Formulas, values: SheetValues, dimensions: Dimensions): Problem[] =>
  askedCells(formulas, dimensions).flatMap(({ row, column, told, asks, down, across }): Problem[] => {
    let message = told;
    for (const ask of asks) message ??= questionOf(ask, numbersIn(ask.argument, { sheet, down, across, values }));
    return message === undefined ? [] : [{ sheet, cell: cellName(row, column), message }];
  });

/** A number of a formula that is looked at: an argument of a TARE function. */
interface Ask {
  readonly name: string;
  readonly of: 'angle' | 'thickness';
  readonly argument: FormulaNode;
}

/** What is to be looked at in formulas that differ only by the cell they stand in. */
interface Template {
  readonly row: number;
  readonly column: number;
  /** The function that the formula is nothing but. */
  readonly whole: Definition | undefined;
  readonly asks: readonly Ask[];
}

/** A formula that may be asked about. */
interface AskedCell {
  readonly row: number;
  readonly column: number;
  /** What is said of it, whatever the cells hold. */
  readonly told: string | undefined;
  readonly asks: readonly Ask[];
  /** How far it stands from the first one of its kind, for which the arguments are written. */
  readonly down: number;
  readonly across: number;
}

/** Edits of values leave the formulas what they are: what is to be looked at in them is found once. */
const askedBefore = new WeakMap<Formulas, { readonly dimensions: string; readonly cells: readonly AskedCell[] }>();

function askedCells(formulas: Formulas, dimensions: Dimensions): readonly AskedCell[] {
  const steps = askingCells(formulas, dimensions);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** Rows of formulas that are looked through in one step. */
const ROWS_A_STEP = 2000;

function* askingCells(formulas: Formulas, dimensions: Dimensions): Generator<void, readonly AskedCell[]> {
  const key = [...dimensions].join(' ');
  const known = askedBefore.get(formulas);
  if (known?.dimensions === key) return known.cells;
  const templates = new Map<string, Template>();
  const cells: AskedCell[] = [];
  for (const [row, line] of formulas.entries()) {
    if (row > 0 && row % ROWS_A_STEP === 0) yield;
    for (const [column, formula] of line.entries()) {
      if (formula === null || !/\bTARE\./i.test(formula)) continue;
      const { whole, asks, ...first } = templateOf(templates, formula.replace(/^=/, ''), row, column);
      const told = otherDimension(whole, dimensions.get(column));
      if (told !== undefined || asks.length > 0)
        cells.push({ row, column, told, asks, down: row - first.row, across: column - first.column });
    }
  }
  askedBefore.set(formulas, { dimensions: key, cells });
  return cells;
}

function templateOf(templates: Map<string, Template>, text: string, row: number, column: number): Template {
  const kind = templateKey(text, row, column);
  const known = templates.get(kind);
  if (known) return known;
  const node = tryFormula(text);
  const whole = node?.kind === 'call' ? findDefinition(node.name) : undefined;
  const template = { row, column, whole, asks: asksIn(node) };
  templates.set(kind, template);
  return template;
}

const MEASURES: Readonly<Partial<Record<Dimension, string>>> = {
  length: 'a length',
  area: 'an area',
  weight: 'a weight',
  moment: 'a moment',
};

/** A formula that is nothing but a function which gives another measure than its column takes: a flat width under an area. */
function otherDimension(definition: Definition | undefined, wanted: Dimension | undefined): string | undefined {
  const given = definition?.result.kind === 'number' ? definition.result.dimension : undefined;
  if (!wanted || !given || given === wanted || !MEASURES[wanted] || !MEASURES[given]) return undefined;
  const hint = given === 'length' && wanted === 'area' ? '. Multiply it by the length of the part' : '';
  return `is ${MEASURES[given]} from TARE.${definition!.name}, and the column takes ${MEASURES[wanted]}${hint}`;
}

function asksIn(formula: FormulaNode | undefined): Ask[] {
  return [...(formula ? partsOf(formula) : [])].flatMap((part): Ask[] => {
    const definition = part.kind === 'call' ? findDefinition(part.name) : undefined;
    if (part.kind !== 'call' || !definition) return [];
    const { name, parameters } = definition;
    const units = part.args[parameters.findIndex((one) => one.name === 'units')];
    const isMetric =
      units && [...partsOf(units)].some((one) => one.kind === 'value' && /mm-kg/i.test(String(one.value)));
    return parameters.flatMap((parameter, at): Ask[] => {
      const [of, argument] = [ASKED[parameter.name], part.args[at]];
      return !of || !argument || (of === 'thickness' && isMetric) ? [] : [{ name, of, argument }];
    });
  });
}

/** What parameters of functions are asked about, by their names. */
const ASKED: Readonly<Partial<Record<string, Ask['of']>>> = {
  angle: 'angle',
  bend_angles: 'angle',
  thickness: 'thickness',
};

/** Which numbers are asked about, and in what words. */
const QUESTIONS: Readonly<
  Record<Ask['of'], { readonly isOdd: (one: number) => boolean; readonly words: (one: number) => string }>
> = {
  angle: {
    isOdd: (one) => one !== 0 && Math.abs(one) < FLAT,
    words: (one) => `a bend of ${short(one)}°: were radians meant? Type degrees, such as 90.`,
  },
  thickness: {
    isOdd: (one) => one >= THICK && one <= 1,
    words: (one) => `a thickness of ${short(one)} inches: were millimetres meant?`,
  },
};

function questionOf({ name, of }: Ask, numbers: readonly number[]): string | undefined {
  const { isOdd, words } = QUESTIONS[of];
  const odd = numbers.find(isOdd);
  return odd === undefined ? undefined : `gives TARE.${name} ${words(odd)} ${COUNTED}`;
}

const short = (value: number): string => String(Number(value.toPrecision(4)));

/** Where an argument is read: for a cell that stands so far from the one that it is written for. */
interface Place {
  readonly sheet: string;
  readonly down: number;
  readonly across: number;
  readonly values: SheetValues;
}

/** The numbers of an argument: as it says them, of the cells that it names, or what it comes to; none where that is not plain. */
function numbersIn(node: FormulaNode, { sheet, down, across, values }: Place): number[] {
  if (node.kind === 'reference') {
    const cells = values(node.sheet ?? sheet) ?? [];
    const row = ({ at, fixed }: Coordinate): number => (fixed ? at : at + down);
    const column = ({ at, fixed }: Coordinate): number => (fixed ? at : at + across);
    const lines = cells.slice(Math.max(0, row(node.top)), Math.max(0, row(node.bottom) + 1));
    return numbersOf(
      lines.flatMap((line) => line.slice(Math.max(0, column(node.left)), Math.max(0, column(node.right) + 1))),
    );
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
