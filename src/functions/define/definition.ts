/** What a worksheet function is: one object, from which everything that hosts and pages need is derived. */
import { CellError, type Cell, type Matrix } from '../../sheet/cell';
import { NAMESPACE } from '../../sheet/formula/namespace';
import { choice, optional, type Parameter, type ValuesOf } from './parameter';
import { UNIT_SYSTEMS, type Dimension } from '../../core/quantity';

export const FAMILIES = [
  'Areas',
  'Airfoils',
  'Bends',
  'Material',
  'Rivets',
  'Hardware',
  'Mass',
  'Balance',
  'Prices',
  'Stock',
] as const;
export type Family = (typeof FAMILIES)[number];

export type ResultShape =
  | {
      readonly kind: 'number' | 'text' | 'flag' | 'any';
      readonly dimension?: Dimension;
      readonly columns?: undefined;
      readonly help: string;
    }
  | {
      readonly kind: 'table';
      readonly dimension?: undefined;
      /** Of the rows that spill. */
      readonly columns: readonly { readonly name: string; readonly dimension?: Dimension }[];
      readonly help: string;
    };

export interface Example {
  /** Arguments as a builder would give them; null omits one. */
  readonly args: readonly (Cell | Matrix)[];
  readonly gives: Cell | Matrix;
  /** Absolute tolerance on numbers; 1e-9 of the value where it is not given. */
  readonly within?: number;
  /** The case in a few words, for the reference. */
  readonly note?: string;
  /** Where the value is published, when it is. */
  readonly source?: string;
}

export interface Definition {
  /** Without the namespace: "AREA.RECT". */
  readonly name: string;
  readonly family: Family;
  /** One sentence, for the autocomplete. */
  readonly summary: string;
  readonly parameters: readonly Parameter[];
  readonly result: ResultShape;
  /** True: the function takes cells or columns and gives one value a row. */
  readonly rowWise: boolean;
  /** The relation as it would stand in a handbook, in the parameters' names. */
  readonly formula?: string;
  /** The published source, or "definition" where it is plain geometry or arithmetic. */
  readonly source: string;
  /** What it does not know or does not do. */
  readonly limits?: readonly string[];
  readonly examples: readonly Example[];
  readonly compute: (...values: never[]) => unknown;
}

interface Common {
  readonly name: string;
  readonly family: Family;
  readonly summary: string;
  readonly formula?: string;
  readonly source: string;
  readonly limits?: readonly string[];
  readonly examples: readonly [Example, ...Example[]];
}

/** `units`, of every function that has a dimension; only parameters that came after version 0.1 stand behind it. */
export const unitsParameter = optional(
  choice('units', {
    help: '"in-lb" (inch, pound: the default) or "mm-kg" (millimetre, kilogram)',
    choices: UNIT_SYSTEMS as readonly ['in-lb', 'mm-kg'],
  }),
  'in-lb',
);

/** Where `units` stands among the parameters; -1 where the function has none. */
export const unitsPlace = (parameters: readonly Parameter[]): number =>
  parameters.findIndex(({ name }) => name === unitsParameter.name);

function complete(definition: Omit<Definition, 'rowWise'>, rowWise: boolean): Definition {
  const { parameters, result } = definition;
  const dimensioned = [...parameters, ...(result.columns ?? [result])].some(({ dimension }) => dimension);
  const isAppended = dimensioned && unitsPlace(parameters) < 0;
  return { ...definition, rowWise, parameters: isAppended ? [...parameters, unitsParameter] : parameters };
}

/**
 * A function with one value a row. `compute` receives the parameters' values in inch-pound units, in
 * order, and returns the value in inch-pound units; it throws InputError for what limits cannot say.
 * (The parameter `units` is appended here. A definition that lists unitsParameter receives it and converts by itself.)
 */
export const defineRowWise = <const P extends readonly Parameter[]>(
  definition: Common & {
    readonly parameters: P;
    readonly result: Exclude<ResultShape, { kind: 'table' }>;
    readonly compute: (...values: ValuesOf<P>) => Cell;
  },
): Definition => complete(definition, true);

/** A function over whole blocks: it gives one value, or rows that spill in the order of result.columns. */
export const defineWhole = <const P extends readonly Parameter[]>(
  definition: Common & {
    readonly parameters: P;
    readonly result: ResultShape;
    readonly compute: (...values: ValuesOf<P>) => Cell | Matrix;
  },
): Definition => complete(definition, false);

/** "TARE.WEIGHT.SHEET(area, thickness, material, [quantity], [units])" */
export const signature = (definition: Definition): string =>
  `${NAMESPACE}.${definition.name}(${definition.parameters.map(({ name, optional: may }) => (may ? `[${name}]` : name)).join(', ')})`;

/** The example as it would be typed: =TARE.AREA.RECT(12, 4) */
export const exampleFormula = (definition: Definition, example: Example): string =>
  `=${NAMESPACE}.${definition.name}(${example.args.map(literal).join(', ')})`;

function literal(argument: Cell | Matrix): string {
  if (Array.isArray(argument))
    return `{${argument.map((row) => row.map((cell) => (cell === null ? '""' : literal(cell))).join(',')).join(';')}}`;
  if (argument === null) return '';
  if (typeof argument === 'string') return `"${argument.replaceAll('"', '""')}"`;
  if (typeof argument === 'boolean') return argument ? 'TRUE' : 'FALSE';
  return argument instanceof CellError ? argument.code : String(argument);
}
