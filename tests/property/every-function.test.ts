/**
 * Every function of the catalogue over whatever a host can hand over: call() gives finite numbers, texts,
 * truth values, blanks or typed errors in the documented shape, in bounded time, changes nothing that it was
 * given, and gives the same again when it is asked again.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { call, catalogue, unitsParameter, type Definition, type Parameter } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix, type Result } from '../../src/sheet';
import { argumentsFor } from './arbitraries';
import { CASES, runs } from './runs';

/** No call may take longer, ms: the largest result (a million stations) takes a tenth of it. */
const LONGEST_CALL = 5_000;
const TIMEOUT = 30_000 + CASES * 10;

const tally = { cases: 0, values: 0, slowest: 0, slowestName: '' };

const isBlock = (argument: Argument): argument is Matrix => Array.isArray(argument);
const isOneCell = (argument: Argument): boolean =>
  isBlock(argument) && argument.length === 1 && argument[0]!.length === 1;
const isRectangle = (block: Matrix): boolean => block.every((row) => row.length === block[0]!.length);

/** The blocks that a row-wise function goes through cell by cell. */
function liftedBlocks({ parameters }: Definition, args: readonly Argument[]): Matrix[] {
  return parameters.flatMap((parameter, index): Matrix[] => {
    const argument = args[index];
    if (!isBlock(argument) || isOneCell(argument) || parameter.shape === 'block') return [];
    return parameter.shape === 'either' && (argument[0]?.length ?? 0) > 1 ? [] : [argument];
  });
}

/** `rows` × `columns` where a row-wise call gives a block, 'cell' where one value, 'any' where the blocks are no columns of one kind. */
function expectedShape(
  definition: Definition,
  args: readonly Argument[],
): { rows: number; columns: number } | 'cell' | 'any' {
  const blocks = liftedBlocks(definition, args);
  const [first] = blocks;
  if (!first) return 'cell';
  if (
    first.length === 0 ||
    !blocks.every(
      (block) => isRectangle(block) && block.length === first.length && block[0]?.length === first[0]?.length,
    )
  )
    return 'any';
  return { rows: first.length, columns: first[0]!.length };
}

function fail(what: string): never {
  throw new Error(what);
}

/** What is wrong with the call as a whole is one error: too many arguments, the units. */
function isRefusedWhole({ parameters }: Definition, args: readonly Argument[], result: Result): boolean {
  if (!(result instanceof CellError)) return false;
  if (args.length > parameters.length) return true;
  const place = parameters.findIndex(({ name }) => name === unitsParameter.name);
  if (place < 0) return false;
  return result.message.startsWith('units: ') || args[place] === result || isSame(args[place] ?? null, [[result]]);
}

// eslint-disable-next-line complexity -- one shape of result after the other
function checkShape(definition: Definition, args: readonly Argument[], result: Result): void {
  if (isRefusedWhole(definition, args, result)) return;
  if (!definition.rowWise) {
    if (!isBlock(result)) return;
    if (result.length === 0 || result[0]!.length === 0) fail('an empty block');
    if (!isRectangle(result)) fail('a ragged block');
    if (definition.result.kind === 'table' && result[0]!.length > definition.result.columns.length)
      fail(`${result[0]!.length} columns of ${definition.result.columns.length}`);
    return;
  }
  const shape = expectedShape(definition, args);
  if (shape === 'any') return;
  if (shape === 'cell') {
    if (isBlock(result)) fail('a block for single cells');
    return;
  }
  if (!isBlock(result)) fail(`one cell for a block of ${shape.rows} × ${shape.columns}: ${String(result)}`);
  if (result.length !== shape.rows || result.some((row) => row.length !== shape.columns))
    fail(`${result.length} × ${result[0]?.length ?? 0} for a block of ${shape.rows} × ${shape.columns}`);
}

const cellsOf = (result: Argument): readonly (Cell | undefined)[] => (isBlock(result) ? result.flat() : [result]);

const QUOTED = /"[^"]*(?:"|$)/g;
/** Words of the program's inside, which no user should read. */
const LEAKS = /undefined|\bnull\b|NaN|\[object|native code|=>|\bfunction\b|Tarebook/;
const TOO_LARGE = /^The result is too large to be a number/;

function checkError(definition: Definition, { code, message }: CellError): void {
  if (code !== '#VALUE!' && code !== '#N/A') fail(`an error ${code}, which no function makes`);
  if (message === '') fail('an error without a message');
  if (message.length > 1500) fail(`a message of ${message.length} characters`);
  const own = definition.parameters.some(({ name }) => message.includes(name));
  if (!own && !TOO_LARGE.test(message) && !message.startsWith(definition.name))
    fail(`a message that names no parameter: ${message}`);
  // What was typed is quoted and may hold anything.
  if (LEAKS.test(message.replace(QUOTED, ''))) fail(`a message that shows the program's inside: ${message}`);
}

function checkCells(definition: Definition, args: readonly Argument[], result: Result): boolean {
  const { kind } = definition.result;
  const given = args.flatMap(cellsOf);
  let value = false;
  for (const cell of cellsOf(result)) {
    if (cell instanceof CellError) {
      if (!given.includes(cell)) checkError(definition, cell);
      continue;
    }
    if (cell === '') continue;
    if (
      typeof cell === 'number'
        ? !Number.isFinite(cell) || Object.is(cell, -0)
        : typeof cell !== 'string' && typeof cell !== 'boolean'
    )
      fail(`${String(cell)} in a result`);
    value = true;
    if (kind === 'table' || kind === 'any') continue;
    if (typeof cell !== (kind === 'flag' ? 'boolean' : kind === 'text' ? 'string' : 'number'))
      fail(`a ${typeof cell} where the result is a ${kind}`);
  }
  return value;
}

function isSame(one: Argument, other: Argument): boolean {
  if (isBlock(one))
    return (
      isBlock(other) &&
      one.length === other.length &&
      one.every((row, r) => row.length === other[r]!.length && row.every((cell, c) => isSame(cell, other[r]![c])))
    );
  if (one instanceof CellError)
    return other instanceof CellError && one.code === other.code && one.message === other.message;
  return Object.is(one, other);
}

const copyOf = (argument: Argument): Argument => (isBlock(argument) ? argument.map((row) => [...row]) : argument);

function freeze(argument: Argument): Argument {
  if (isBlock(argument)) {
    argument.forEach((row) => Object.freeze(row));
    Object.freeze(argument);
  }
  return argument;
}

/** One case; true where it gave a value. */
function check(definition: Definition, args: readonly Argument[]): boolean {
  const before = args.map(copyOf);
  const start = performance.now();
  const result = call(definition, Object.freeze(args.map(freeze)));
  const took = performance.now() - start;
  if (took > tally.slowest) [tally.slowest, tally.slowestName] = [took, definition.name];
  if (took > LONGEST_CALL) fail(`a call of ${took} ms`);
  checkShape(definition, args, result);
  const value = checkCells(definition, args, result);
  if (!isSame(result, call(definition, before))) fail('another result for the same arguments');
  return value;
}

describe.each(catalogue)('$name', (definition) => {
  it('gives values or typed errors for any arguments', { timeout: TIMEOUT }, () => {
    let [cases, values] = [0, 0];
    fc.assert(
      fc.property(argumentsFor(definition), (args) => {
        cases++;
        if (check(definition, args)) values++;
      }),
      runs(1 / catalogue.length),
    );
    tally.cases += cases;
    tally.values += values;
    if (process.env['FUZZ_SHARES']) console.log(`${definition.name}: ${values} of ${cases}`);
    // Cases that are all refused while they are read would test the reading alone.
    expect(values).toBeGreaterThan(cases / 10);
  });

  it('takes each argument alone, whatever it is', () => {
    const places = definition.parameters.map((_parameter: Parameter, index) => index);
    for (const index of places)
      check(
        definition,
        definition.parameters.map((_one, at) => (at === index ? 1 : null)),
      );
    check(definition, []);
    check(definition, [...places, 1]);
  });
});

describe('all functions together', () => {
  it('ran the number of cases that was asked for, a fifth and more of them to a value', () => {
    expect(tally.cases).toBeGreaterThanOrEqual(CASES);
    expect(tally.values).toBeGreaterThan(tally.cases / 5);
  });
});

afterAll(() => {
  if (CASES > 5_000)
    console.log(
      `${tally.cases} calls, ${Math.round((100 * tally.values) / tally.cases)} % gave a value; slowest ${tally.slowest.toFixed(0)} ms (${tally.slowestName})`,
    );
});
