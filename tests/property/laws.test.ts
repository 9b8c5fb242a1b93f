/**
 * Laws that follow from what a definition says of itself, for every function of the catalogue: columns are
 * their cells, a default is what it stands for, a number in a text is the number, and units are units.
 * What the trade knows of each family stands in laws/.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  call,
  catalogue,
  fromInch,
  plainNumber,
  unitsParameter,
  unitsPlace,
  type Definition,
  type Dimension,
  type Parameter,
} from '../../src/functions';
import { CellError, type Argument, type Cell, type Result } from '../../src/sheet';
import { cellFor, soundArguments } from './arbitraries';
import { runs } from './runs';
import { tare } from './tare';

/** Six laws: together they take as many cases as the calls of every function. */
const RUNS = runs(1 / catalogue.length / 6);

/** Functions whose numbers have units that hang on the item or on another argument: their own laws are in laws/. */
const UNITS_FROM_DATA = new Set(['PRICE.EACH', 'PRICE.COST', 'PRICE.BUY', 'ROLLUP.BAND']);

/** Functions that look sizes up: twice the size is another row of the table. */
const TABLES_OF_SIZES = new Set([
  ...['GAUGE.THICKNESS', 'GAUGE.NEAREST', 'TOLERANCE.SHEET', 'BEND.MINRADIUS', 'BEND.CHECK'],
  ...[
    'RIVET.PICK',
    'RIVET.WEIGHT',
    'RIVET.PERPOUND',
    'RIVET.HOLE',
    'RIVET.DRILL',
    'RIVET.HOLEMETAL',
    'RIVET.SHEAR',
    'RIVET.CHECK',
    'RIVET.COMPARE',
    'RIVET.STRENGTH',
    'RIVET.PERINCH',
    'HARDWARE.WEIGHT',
  ],
]);

const hasUnits = ({ parameters }: Definition): boolean => unitsPlace(parameters) >= 0;

function withUnits(definition: Definition, args: readonly Argument[], units: Argument): Argument[] {
  const given = [...args];
  given[unitsPlace(definition.parameters)] = units;
  return given;
}

/** The arguments with each number of a dimension multiplied by what `factor` gives for it. */
function converted(
  { parameters }: Definition,
  args: readonly Argument[],
  factor: (dimension: Dimension) => number,
): Argument[] {
  return args.map((argument, index): Argument => {
    const parameter = parameters[index]!;
    const one = (cell: Cell, column: number): Cell => {
      const dimension = parameter.name === 'envelope' ? (['length', 'weight'] as const)[column] : parameter.dimension;
      if (!dimension) return cell;
      const sum = typeof cell === 'string' ? sheetsOf(cell) : undefined;
      if (sum) return sum.map((part) => part * factor(dimension)).join('+');
      // Four digits of a density are a designation: "2014".
      const number =
        typeof cell === 'string'
          ? dimension === 'density' && /^\s*\d{4}/.test(cell)
            ? undefined
            : plainNumber(cell.trim())
          : cell;
      return typeof number === 'number' ? number * factor(dimension) : cell;
    };
    return Array.isArray(argument) ? argument.map((row) => row.map(one)) : one(argument ?? null, 0);
  });
}

/** The numbers of "0.016+0.020+0.016", as sheets of a joint are written in one cell. */
function sheetsOf(text: string): number[] | undefined {
  const parts = text.split('+').map((part) => plainNumber(part.trim()));
  return parts.length > 1 && parts.every((part) => part !== undefined) ? parts : undefined;
}

const dimensionOf = ({ result }: Definition, column: number): Dimension | undefined =>
  result.kind === 'table' ? result.columns[column]?.dimension : result.dimension;
const rowsOf = (result: Result): Cell[][] => (Array.isArray(result) ? result : [[result]]);

/** Words that say lengths in the user's unit: only how much is said can be compared. */
const comparable = (cell: Cell): Cell =>
  typeof cell === 'string' && /\d/.test(cell) ? cell.split(';').length : cell instanceof CellError ? cell.code : cell;

/** Whether results agree: texts and errors in kind, numbers once they are brought to the same unit, each within `slack`. */
function disagreement(
  definition: Definition,
  got: Result,
  wanted: Result,
  factor: (dimension: Dimension) => number,
  slack: (row: number, column: number) => number,
): string | undefined {
  const [one, other] = [rowsOf(got), rowsOf(wanted)];
  if (one.length !== other.length || one[0]!.length !== other[0]!.length) return `${String(got)} for ${String(wanted)}`;
  for (const [r, row] of one.entries()) {
    for (const [c, cell] of row.entries()) {
      const wish = other[r]![c]!;
      if (typeof cell === 'number' && typeof wish === 'number') {
        const dimension = dimensionOf(definition, c);
        const scaled = wish * (dimension ? factor(dimension) : 1);
        if (!(Math.abs(cell - scaled) <= 1e-12 * Math.abs(scaled) + slack(r, c))) return `${cell} for ${scaled}`;
      } else if (comparable(cell) !== comparable(wish)) return `${String(cell)} for ${String(wish)}`;
    }
  }
  return undefined;
}

/** About thirty units in the last place: what converting a number back and forth may cost it, several times over. */
const LAST_PLACES = 2 ** -47;

/** The result with each number of the arguments off by its last places, one at a time, up and down. */
function neighbours(definition: Definition, args: readonly Argument[]): Result[] {
  const results: Result[] = [];
  args.forEach((argument, index) => {
    const block = Array.isArray(argument) ? argument : [[argument ?? null]];
    block.forEach((row, r) =>
      row.forEach((cell, c) => {
        if (typeof cell !== 'number') return;
        for (const factor of [1 + LAST_PLACES, 1 - LAST_PLACES]) {
          const moved = block.map((line, at) =>
            at === r ? line.map((one, place) => (place === c ? cell * factor : one)) : line,
          );
          const list = [...args];
          list[index] = Array.isArray(argument) ? moved : moved[0]![0]!;
          results.push(call(definition, list));
        }
      }),
    );
  });
  return results;
}

/**
 * Throws where `got` is not `wanted` in the other scale to 1e-12. What the last places of the arguments alone
 * change is allowed on top: a small difference of large numbers, or a number on the edge of a limit.
 */
function expectScaled(
  definition: Definition,
  args: readonly Argument[],
  got: Result,
  wanted: Result,
  factor: (dimension: Dimension) => number,
): void {
  const fault = disagreement(definition, got, wanted, factor, () => 0);
  if (!fault) return;
  const around = neighbours(definition, args).map(rowsOf);
  const base = rowsOf(wanted);
  const moved = (r: number, c: number): number => {
    const dimension = dimensionOf(definition, c);
    const scale = dimension ? factor(dimension) : 1;
    return around.reduce(
      (sum, rows) => sum + Math.abs(Number(rows[r]?.[c] ?? Number.NaN) - Number(base[r]![c])) * scale,
      0,
    );
  };
  if (!disagreement(definition, got, wanted, factor, moved)) return;
  // On an edge: a neighbour of the arguments gives what was got.
  if (around.some((rows) => !disagreement(definition, got, rows, factor, () => 1e-9))) return;
  throw new Error(fault);
}

const metric = (dimension: Dimension): number => fromInch(1, dimension, 'mm-kg');

/** Powers of length and of weight in each dimension. */
const POWERS: Readonly<Record<Dimension, readonly [length: number, weight: number]>> = {
  length: [1, 0],
  area: [2, 0],
  volume: [3, 0],
  weight: [0, 1],
  moment: [1, 1],
  inertia: [2, 1],
  density: [-3, 1],
  perArea: [-2, 1],
  perWeight: [0, -1],
  force: [0, 1],
};

/** Designations as the densities that they stand for, which can be scaled. */
function withDensities({ parameters }: Definition, args: readonly Argument[]): Argument[] {
  return args.map((argument, index) =>
    parameters[index]!.dimension === 'density' ? tare('MATERIAL.DENSITY', argument ?? null) : argument,
  );
}

const isValue = (result: Result): boolean =>
  rowsOf(result)
    .flat()
    .some((cell) => !(cell instanceof CellError) && cell !== '');
/** A 0 that may be a host's blank cell: a "0" in a text never is one. */
const hasZero = ({ parameters }: Definition, args: readonly Argument[]): boolean =>
  args.some(
    (argument, index) =>
      parameters[index]!.zeroIsNoValue && (argument === 0 || (typeof argument === 'string' && Number(argument) === 0)),
  );
const isBlankLike = (cell: Cell | undefined): boolean =>
  cell === null || cell === undefined || cell === '' || cell === 0;

describe.each(catalogue)('$name', (definition) => {
  const { parameters } = definition;
  const sound = soundArguments(definition);
  const firstCells = (args: Argument[]): Argument[] =>
    args.map((argument, index) =>
      parameters[index]!.shape === 'cell' && Array.isArray(argument) ? argument[0]![0]! : argument,
    );

  // A law that does not fit a function is none of its tests, and not one left out.
  if (definition.rowWise)
    it('gives for columns what it gives for their cells', () => {
      const rows = fc.array(
        fc.tuple(
          ...parameters.map((parameter) =>
            parameter.shape === 'block' ? fc.constant<Argument>(null) : cellFor(parameter),
          ),
        ),
        { minLength: 2, maxLength: 5 },
      );
      fc.assert(
        fc.property(
          sound.map(firstCells),
          rows,
          fc.array(fc.boolean(), { minLength: parameters.length, maxLength: parameters.length }),
          (base, cells, lifts) => {
            const isLifted = (parameter: Parameter, index: number): boolean =>
              parameter.shape !== 'block' && parameter.name !== unitsParameter.name && lifts[index]!;
            const lifted = base.map((argument, index): Argument =>
              isLifted(parameters[index]!, index) ? cells.map((row) => [row[index] as Cell]) : argument,
            );
            if (!parameters.some(isLifted)) return;
            const result = call(definition, lifted);
            expect(Array.isArray(result), String(result)).toBe(true);
            cells.forEach((row, r) => {
              // A row whose required cells are blank is blank in a column, and an error alone.
              if (
                parameters.every(
                  (parameter, index) =>
                    !isLifted(parameter, index) || parameter.optional || isBlankLike(row[index] as Cell),
                )
              )
                return;
              const alone = call(
                definition,
                base.map((argument, index) => (isLifted(parameters[index]!, index) ? row[index]! : argument)),
              );
              expect((result as Cell[][])[r]![0]).toEqual(alone);
            });
          },
        ),
        RUNS,
      );
    });

  it('takes a default for what is left out', () => {
    fc.assert(
      fc.property(sound, (args) => {
        parameters.forEach((parameter, index) => {
          if (
            !parameter.optional ||
            !['number', 'string', 'boolean'].includes(typeof parameter.default) ||
            parameter.name === unitsParameter.name
          )
            return;
          // A default is in inch-pound units, as the definition states it.
          const given = hasUnits(definition) ? withUnits(definition, args, null) : args;
          const at = (argument: Argument): Argument[] => given.map((one, place) => (place === index ? argument : one));
          expect(call(definition, at(parameter.default as Cell))).toEqual(call(definition, at(null)));
        });
        if (hasUnits(definition))
          expect(call(definition, withUnits(definition, args, 'in-lb'))).toEqual(
            call(definition, withUnits(definition, args, '')),
          );
      }),
      RUNS,
    );
  });

  it('reads a number in a text as the number', () => {
    fc.assert(
      fc.property(sound, (args) => {
        if (hasZero(definition, args)) return;
        const written = args.map((argument, index) =>
          ['number', 'integer'].includes(parameters[index]!.kind) && typeof argument === 'number'
            ? ` ${argument}`
            : argument,
        );
        expect(call(definition, written)).toEqual(call(definition, args));
      }),
      RUNS,
    );
  });

  const convertible = hasUnits(definition) && !UNITS_FROM_DATA.has(definition.name);
  if (convertible)
    it('gives the same quantity in mm-kg, to 1e-12', () => {
      let values = 0;
      fc.assert(
        fc.property(sound, (args) => {
          if (hasZero(definition, args)) return;
          const inch = withUnits(definition, args, 'in-lb');
          const wanted = call(definition, inch);
          if (isValue(wanted)) values++;
          expectScaled(
            definition,
            inch,
            call(definition, withUnits(definition, converted(definition, args, metric), 'mm-kg')),
            wanted,
            metric,
          );
        }),
        RUNS,
      );
      expect(values).toBeGreaterThan(RUNS.numRuns / 5);
    });

  if (convertible && !TABLES_OF_SIZES.has(definition.name))
    it.each([
      ['lengths', 0],
      ['weights', 1],
    ] as const)('scales with its %s', (_what, power) => {
      const twice = (dimension: Dimension): number => 2 ** POWERS[dimension][power];
      let values = 0;
      fc.assert(
        fc.property(sound, (args) => {
          const one = withUnits(definition, withDensities(definition, args), null);
          const [wanted, got] = [call(definition, one), call(definition, converted(definition, one, twice))];
          // Twice the size may be over a limit.
          if (!isValue(wanted) || !isValue(got)) return;
          values++;
          expectScaled(definition, one, got, wanted, twice);
        }),
        RUNS,
      );
      expect(values).toBeGreaterThan(RUNS.numRuns / 10);
    });
});
