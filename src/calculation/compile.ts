/** Trees of formulas → functions that evaluate them at any cell to which the formula may be moved. */
import { memoized } from '../core/memoized';
import { call as callDefinition, findDefinition, NAMESPACE, type Definition } from '../functions';
import { CellError, type Argument, type Cell, type Matrix } from '../sheet';
import type { Book } from './book';
import type { EagerFunction, Evaluate, FunctionSpec, Place } from './functions/define';
import { FUNCTIONS } from './functions';
import { binary, lift, overlap, scaled, united } from './operators';
import {
  FormulaError,
  functionFacts,
  HANDED_ON,
  LAST_COLUMN,
  LAST_ROW,
  parseFormula,
  partRange,
  tablePart,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from '../sheet/formula';
import { depthOf, lambda, letting, parameterOf, valueAt, type Parameter, type Scope } from './scope';
import { overSheets } from './several-sheets';
import { unknownFunction } from './unknown-function';
import { failure, firstCell, Lambda, noSheet, offSheet, read, Reference, type Value } from './values';

export type Locate = (place: Place) => Reference | CellError;

export interface Program {
  /** True: ranges are computed as arrays. */
  readonly arrays: boolean;
  readonly evaluate: Evaluate;
  /** Where the formula looks. */
  readonly references: readonly Locate[];
  /** True where some of what it looks at is found out only while it is calculated: the end of a span, an OFFSET. */
  readonly reaches: boolean;
  /** A function that the calculator does not know. */
  readonly unknown: string | undefined;
  /** Why the formula cannot be read. */
  readonly unreadable?: string;
  /** True where it is calculated again each time, whatever has changed: NOW, RAND, OFFSET. */
  readonly isVolatile: boolean;
}

export interface CompileOptions {
  readonly book: Book;
  /** Sheet that names are looked up for. */
  readonly sheet: string;
  /** The cell that the text was written for: relative references are kept relative to it. */
  readonly row: number;
  readonly column: number;
  /** True: ranges are computed as arrays; false: an operator takes the cell of its own row or column from one. */
  readonly arrays: boolean;
}

/** A formula that cannot be read gives an error that says why. */
export function compiled(text: string, options: CompileOptions): Program {
  const { arrays } = options;
  const giving = (error: CellError, unknown?: string): Program => ({
    arrays,
    evaluate: () => error,
    references: [],
    reaches: false,
    unknown,
    isVolatile: false,
  });
  try {
    const compiler = new Compiler(options, []);
    const evaluate = compiler.any(parseFormula(text));
    const { references, reaches, unknown, isVolatile } = compiler;
    return unknown === undefined
      ? { arrays, evaluate, references, reaches, unknown, isVolatile }
      : giving(new CellError('#NAME?', unknownFunction(unknown)), unknown);
  } catch (error) {
    if (!(error instanceof FormulaError)) throw error;
    return { ...giving(new CellError('#VALUE!', error.message)), unreadable: error.message };
  }
}

const DEEPEST_NAMES = 20;

type Nodes = readonly (FormulaNode | undefined)[];

/** A name of the workbook while what it stands for is compiled. */
interface NameUnderWay {
  readonly key: string;
  /** How many LAMBDAs there are around it. */
  readonly lambdas: number;
  evaluate: Evaluate | undefined;
}

class Compiler {
  readonly references: Locate[] = [];
  unknown: string | undefined;
  isVolatile = false;
  reaches = false;
  private readonly book: Book;

  constructor(
    private readonly options: CompileOptions,
    private readonly names: readonly NameUnderWay[],
    private scope?: Scope,
    /** How many LAMBDAs there are around what is compiled. */
    private lambdas = 0,
  ) {
    this.book = options.book;
  }

  /** A node as whatever it gives: a reference stays one. */
  // eslint-disable-next-line complexity -- one case a kind of node
  any(node: FormulaNode): Evaluate {
    switch (node.kind) {
      case 'value':
        return () => node.value;
      case 'array':
        return () => node.rows;
      case 'reference':
        return this.collected(this.locate(node));
      case 'spill': {
        const anchor = this.locate(node.of);
        // Its size is known once it is calculated, so even a function that asks for the place alone depends on it.
        this.references.push(anchor);
        return (place) => {
          const at = anchor(place);
          if (!(at instanceof Reference)) return at;
          const { rows, columns } = at.grid.spillOf(at.row, at.column);
          return new Reference(at.grid, at.row, at.column, rows, columns);
        };
      }
      case 'name':
        return this.name(node.name, node.sheet);
      case 'table':
        return this.collected(this.table(node.table, node.part));
      case 'sign': {
        const of = this.value(node.of);
        return node.negative ? (place) => scaled(of(place), -1) : of;
      }
      case 'percent': {
        const of = this.value(node.of);
        return (place) => scaled(of(place), 0.01);
      }
      case 'binary': {
        const left = this.value(node.left);
        const right = this.value(node.right);
        const operation = binary(node.operator);
        return (place) => operation(left(place), right(place));
      }
      case 'span':
        return this.span(node.from, node.to);
      case 'single': {
        const of = this.any(node.of);
        return (place) => intersected(of(place), place);
      }
      case 'elsewhere':
        throw new FormulaError(`${node.text} is in another workbook or on several sheets.`);
      case 'union': {
        const parts = node.of.map((one) => this.any(one));
        return (place) => united(parts.map((part) => part(place)));
      }
      case 'intersection': {
        const left = this.any(node.left);
        const right = this.any(node.right);
        return (place) => overlap(left(place), right(place));
      }
      case 'apply':
        return this.applied(this.any(node.of), node.args);
      case 'call':
        return this.call(node.name, overSheets(node.name, node.args, this.book));
    }
  }

  /** A node as cells: one, or a block of them in an array formula. */
  private value(node: FormulaNode): (place: Place) => Cell | Matrix {
    if (node.kind === 'value') return () => node.value;
    const evaluate = this.any(node);
    return this.options.arrays ? (place) => read(evaluate(place)) : (place) => intersected(evaluate(place), place);
  }

  private locate(node: ReferenceNode): Locate {
    const { row, column } = this.options;
    const top = shift(node.top, row);
    const bottom = shift(node.bottom, row);
    const left = shift(node.left, column);
    const right = shift(node.right, column);
    const sheet = node.sheet === undefined ? undefined : this.book.grid(node.sheet);
    if (node.sheet !== undefined && !sheet) return () => noSheet(node.sheet!);
    return (place) => {
      const first = top(place.row);
      const last = bottom(place.row);
      const from = left(place.column);
      const to = right(place.column);
      if (
        first < 0 ||
        last < 0 ||
        from < 0 ||
        to < 0 ||
        last > LAST_ROW ||
        first > LAST_ROW ||
        to > LAST_COLUMN ||
        from > LAST_COLUMN
      )
        return offSheet();
      return new Reference(
        sheet ?? place.grid,
        Math.min(first, last),
        Math.min(from, to),
        Math.abs(last - first) + 1,
        Math.abs(to - from) + 1,
      );
    };
  }

  private collected(locate: Locate): Locate {
    this.references.push(locate);
    return locate;
  }

  private name(name: string, sheet: string | undefined): Evaluate {
    const depth = sheet === undefined ? depthOf(this.scope, name) : undefined;
    if (depth !== undefined) return valueAt(depth);
    const found = this.book.name(name, sheet ?? this.options.sheet);
    if (!found) {
      const table = sheet === undefined ? this.book.table(name) : undefined;
      if (table) return this.collected(this.table(name, ''));
      const known = sheet === undefined ? this.functionNamed(functionName(name)) : undefined;
      return known ?? (() => new CellError('#NAME?', `There is no name or function "${name}"`));
    }
    const key = name.toLowerCase();
    const again = this.names.find((one) => one.key === key);
    // A LAMBDA that calls itself by its name finds itself when it is called. Any other name that refers to itself has no value.
    if (again && this.lambdas > again.lambdas) return (place) => again.evaluate?.(place);
    if (again || this.names.length >= DEEPEST_NAMES) return () => failure('#REF!');
    // A name's relative references count from the sheet's first cell.
    const own: NameUnderWay = { key, lambdas: this.lambdas, evaluate: undefined };
    const inner = new Compiler({ ...this.options, row: 0, column: 0 }, [...this.names, own], undefined, this.lambdas);
    own.evaluate = inner.any(parseFormula(found.refersTo.replace(/^=/, '')));
    this.takeFrom(inner);
    return own.evaluate;
  }

  /**
   * A function that is handed on by its bare name: in BYROW(A1:C3,SUM) the word SUM does what LAMBDA(x,SUM(x)) does, with
   * as many parameters as it is called with. Source: Microsoft, "New aggregation functions in Excel: GROUPBY and PIVOTBY" (eta reduced lambdas).
   */
  private functionNamed(name: string): Evaluate | undefined {
    const definition = name.startsWith(`${NAMESPACE}.`) ? findDefinition(name) : undefined;
    const spec = definition ? undefined : FUNCTIONS.get(name);
    if (!definition && !spec) return undefined;
    const least = spec?.min ?? definition!.parameters.filter(({ optional }) => !optional).length;
    const most = spec?.max ?? definition!.parameters.length;
    if (spec?.kind === 'eager') {
      this.isVolatile ||= spec.volatile === true;
      this.reaches ||= spec.reaches === true;
    }
    const of = memoized((count: number): Evaluate => {
      const parameters = Array.from({ length: count }, (_one, index) => ({ name: `#${index}`, isOptional: false }));
      const inner = new Compiler(this.options, this.names);
      for (const parameter of parameters) inner.scope = { name: parameter.name, next: inner.scope };
      const body = inner.call(
        name,
        parameters.map((parameter): FormulaNode => ({ kind: 'name', name: parameter.name, sheet: undefined })),
      );
      return lambda(parameters, body);
    });
    return (place) => new Lambda(least, most, (args) => (of(args.length)(place) as Lambda).call(args));
  }

  private table(name: string, text: string): Locate {
    const table = name === '' ? undefined : this.book.table(name);
    if (name !== '' && !table) return () => new CellError('#REF!', `There is no table "${name}"`);
    const known = table && tablePart(table, text);
    if (table && !known) return () => new CellError('#REF!', `Table ${name} has no [${text}]`);
    return (place) => {
      const own = table ?? this.book.tableAt(place.grid, place.row, place.column);
      const part = known ?? (own && tablePart(own, text));
      const range = own && part && partRange(own, part, place.row);
      return range ? this.book.range(range) : failure('#VALUE!');
    };
  }

  private span(from: FormulaNode, to: FormulaNode): Evaluate {
    // A function says where it ends.
    this.reaches = true;
    const first = this.any(from);
    const last = this.any(to);
    return (place) => {
      const a = first(place);
      const b = last(place);
      if (!(a instanceof Reference) || !(b instanceof Reference) || a.grid !== b.grid)
        return a instanceof CellError ? a : b instanceof CellError ? b : failure('#VALUE!');
      const row = Math.min(a.row, b.row);
      const column = Math.min(a.column, b.column);
      const rows = Math.max(a.row + a.rows, b.row + b.rows) - row;
      return new Reference(a.grid, row, column, rows, Math.max(a.column + a.columns, b.column + b.columns) - column);
    };
  }

  private call(name: string, args: Nodes): Evaluate {
    if (name === 'LET') return this.letting(args);
    if (name === 'LAMBDA') return this.lambda(args);
    const named = this.called(name);
    if (named) return this.applied(named, args);
    const definition = name.startsWith(`${NAMESPACE}.`) ? findDefinition(name) : undefined;
    if (definition)
      return ours(
        definition,
        args.map((arg) => arg && this.any(arg)),
      );
    const spec = FUNCTIONS.get(name);
    if (!spec || (spec.kind === 'eager' && spec.knows?.(args) === false)) {
      return this.unknownCall(name, args);
    }
    if (functionFacts(name)?.endsWithFunction) this.noteHandedOn(args.at(-1));
    if (args.length < spec.min || args.length > spec.max)
      return () => new CellError('#VALUE!', `${name}: got ${args.length} arguments, takes ${countOf(spec)}`);
    return spec.kind === 'eager' ? this.eager(spec, args) : this.lazy(spec, args);
  }

  private lazy(spec: Exclude<FunctionSpec, EagerFunction>, args: Nodes): Evaluate {
    // A plain formula takes one cell of a range for a condition: the one in its own row.
    const isCell = spec.cells ?? ((index) => index === 0);
    const lazy = args.map(
      (arg, index) => arg && (!this.options.arrays && isCell(index, args.length) ? this.value(arg) : this.any(arg)),
    );
    return (place) => spec.apply(lazy, place);
  }

  /** A function that is handed on by its bare name may be one that is not known here. */
  private noteHandedOn(node: FormulaNode | undefined): void {
    if (node?.kind !== 'name' || node.sheet !== undefined) return;
    const name = functionName(node.name);
    const isFound = [node.name.toUpperCase(), name].some(
      (one) => this.book.name(one, this.options.sheet) ?? depthOf(this.scope, one) ?? FUNCTIONS.get(one),
    );
    if (!isFound && functionFacts(name)) this.unknown ??= name;
  }

  private unknownCall(name: string, args: Nodes): Evaluate {
    for (const arg of args) if (arg) this.any(arg);
    this.unknown ??= name;
    return () => new CellError('#NAME?', unknownFunction(name));
  }

  /** What a call runs where its name is a parameter of a LET or LAMBDA, or a name of the workbook that no ordinary function has. */
  private called(name: string): Evaluate | undefined {
    const depth = depthOf(this.scope, name);
    if (depth !== undefined) return valueAt(depth);
    const isOrdinary = functionFacts(name) !== undefined || name.startsWith(`${NAMESPACE}.`);
    return isOrdinary || !this.book.name(name, this.options.sheet) ? undefined : this.name(name, undefined);
  }

  /** LET(x,5,x+1) */
  private letting(args: Nodes): Evaluate {
    const outer = this.scope;
    const values: Evaluate[] = [];
    for (let index = 0; index + 1 < args.length; index += 2) {
      const parameter = parameterOf(args[index]);
      if (!parameter || parameter.isOptional)
        throw new FormulaError('LET takes a name and its value in turn: LET(x,5,x+1).');
      values.push(args[index + 1] ? this.any(args[index + 1]!) : () => null);
      this.scope = { name: parameter.name, next: this.scope };
    }
    const body = args.at(-1);
    if (args.length < 3 || args.length % 2 === 0 || !body)
      throw new FormulaError('LET ends with what is computed of its names: LET(x,5,x+1).');
    const evaluate = letting(values, this.any(body));
    this.scope = outer;
    return evaluate;
  }

  /** LAMBDA(x,[y],x+1) */
  private lambda(args: Nodes): Evaluate {
    const outer = this.scope;
    const parameters: Parameter[] = [];
    for (const arg of args.slice(0, -1)) {
      const parameter = parameterOf(arg);
      if (!parameter) throw new FormulaError('LAMBDA takes names and then what is computed of them: LAMBDA(x,x+1).');
      if (!parameter.isOptional && parameters.at(-1)?.isOptional)
        throw new FormulaError('Parameters of LAMBDA in brackets come behind the others: LAMBDA(x,[y],x).');
      parameters.push(parameter);
      this.scope = { name: parameter.name, next: this.scope };
    }
    const body = args.at(-1);
    if (!body) throw new FormulaError('LAMBDA ends with what is computed of its names: LAMBDA(x,x+1).');
    this.lambdas++;
    const evaluate = lambda(parameters, this.any(body));
    this.lambdas--;
    this.scope = outer;
    return evaluate;
  }

  /** Calls the function that an expression gives: LAMBDA(x,x+1)(2). */
  private applied(of: Evaluate, args: Nodes): Evaluate {
    const given = args.map((arg) => arg && this.any(arg));
    return (place) => {
      const called = of(place);
      if (called instanceof CellError) return called;
      if (!(called instanceof Lambda)) return failure('#VALUE!');
      if (given.length < called.least || given.length > called.most) return failure('#VALUE!');
      return called.call(given.map((arg) => arg?.(place)));
    };
  }

  private eager(spec: EagerFunction, nodes: Nodes): Evaluate {
    if (spec.volatile) this.isVolatile = true;
    if (spec.reaches) this.reaches = true;
    const compiler = spec.arrays && !this.options.arrays ? this.inArrays() : this;
    const args = nodes.map((node, index) => {
      if (!node) return undefined;
      if (letter(spec, index) !== 'v') return compiler.value(node);
      // The function asks where the reference is and not what it holds, so the formula does not depend on those cells.
      if (spec.place && node.kind === 'reference') return compiler.locate(node);
      return compiler.any(node);
    });
    if (compiler !== this) this.takeFrom(compiler);
    const lifted = nodes.flatMap((_node, index) => (letter(spec, index) === 'v' ? [] : [index]));
    const call = withoutFlags(
      spec,
      lifted.filter((index) => letter(spec, index) === 'n'),
    );
    return (place) =>
      apply(
        call,
        lifted,
        args.map((arg) => arg?.(place)),
        place,
      );
  }

  private takeFrom(inner: Compiler): void {
    this.references.push(...inner.references);
    this.reaches ||= inner.reaches;
    this.unknown ??= inner.unknown;
    this.isVolatile ||= inner.isVolatile;
  }

  private inArrays(): Compiler {
    return new Compiler({ ...this.options, arrays: true }, this.names, this.scope, this.lambdas);
  }
}

/** Calls a function whose parameters at `lifted` are cells; where one of them is a block, once for each of its cells. */
function apply(spec: EagerFunction, lifted: readonly number[], args: Value[], place: Place): Value {
  let several = false;
  for (const index of lifted) {
    const arg = args[index];
    if (Array.isArray(arg)) several = true;
    else if (arg instanceof CellError && !spec.takesErrors) return arg;
  }
  if (!several) return spec.apply(args, place);
  const blocks = lifted.map((index) => args[index] as Cell | Matrix | undefined);
  const one = (cells: (Cell | undefined)[]): Cell => {
    const own = [...args];
    lifted.forEach((index, at) => (own[index] = cells[at]));
    return firstCell(spec.apply(own, place));
  };
  return lift(blocks, one, spec.takesErrors);
}

/** The function, to which a logical value in one of these places is #VALUE!. */
function withoutFlags(spec: EagerFunction, places: readonly number[]): EagerFunction {
  if (places.length === 0) return spec;
  const isRefused = (args: readonly Value[]): boolean => places.some((index) => typeof args[index] === 'boolean');
  return {
    ...spec,
    apply: (args, place) => (isRefused(args) ? new CellError('#VALUE!') : spec.apply(args, place)),
  };
}

/** The function that a bare name stands for, in capitals. */
const functionName = (name: string): string =>
  (name.toLowerCase().startsWith(HANDED_ON) ? name.slice(HANDED_ON.length) : name).toUpperCase();

const letter = (spec: EagerFunction, index: number): string => spec.takes[Math.min(index, spec.takes.length - 1)]!;
const countOf = ({ min, max }: FunctionSpec): string =>
  min === max ? String(min) : max >= 254 ? `${min} or more` : `${min} to ${max}`;

function shift({ at, fixed }: Coordinate, base: number): (own: number) => number {
  if (fixed) return () => at;
  const by = at - base;
  return (own) => own + by;
}

/** The cell of a range in the formula's own row or column. */
export function intersected(value: Value, place: Place): Cell | Matrix {
  if (!(value instanceof Reference) || value.isCell) return read(value);
  const { grid, row, column, rows, columns } = value;
  if (columns === 1 && place.row >= row && place.row < row + rows) return grid.get(place.row, column);
  if (rows === 1 && place.column >= column && place.column < column + columns) return grid.get(row, place.column);
  return failure('#VALUE!');
}

/** A TARE function: what is given as a range reaches it as a block. */
const ours =
  (definition: Definition, args: readonly (Evaluate | undefined)[]): Evaluate =>
  (place) =>
    callDefinition(
      definition,
      args.map((arg): Argument => read(arg?.(place))),
    );
