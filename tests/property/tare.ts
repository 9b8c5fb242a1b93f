/** Calls of worksheet functions as the laws write them, and numbers compared. */
import fc from 'fast-check';
import { call, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix, type Result } from '../../src/sheet';
import { runs } from './runs';

/** The result of TARE.name, whatever it is. */
export function tare(name: string, ...args: Argument[]): Result {
  const definition = findDefinition(name);
  if (!definition) throw new Error(`no function ${name}`);
  return call(definition, args);
}

/** The number that TARE.name gives; anything else is a fault of the test's arguments or of the function. */
export function value(name: string, ...args: Argument[]): number {
  const result = tare(name, ...args);
  if (typeof result !== 'number') throw new Error(`${name}: ${String(result)}`);
  return result;
}

/** The rows that TARE.name gives, without an error in them. */
export function table(name: string, ...args: Argument[]): Matrix {
  const result = tare(name, ...args);
  if (!Array.isArray(result)) throw new Error(`${name}: ${String(result)}`);
  const error = result.flat().find((cell) => cell instanceof CellError);
  if (error) throw new Error(`${name}: ${String(error)}`);
  return result;
}

/** The first row of numbers that TARE.name gives. */
export const row = (name: string, ...args: Argument[]): number[] => table(name, ...args)[0]!.map(Number);

export const column = <T extends Cell>(cells: readonly T[]): Matrix => cells.map((cell) => [cell]);

/**
 * Throws where two numbers differ by more than rounding.
 * @param scale of the numbers that went into them, where they are small beside those
 */
export function near(got: number, wanted: number, scale = Math.abs(wanted), relative = 1e-10): void {
  if (!(Math.abs(got - wanted) <= relative * Math.max(scale, Math.abs(wanted)) + 1e-300))
    throw new Error(`got ${got}, wanted ${wanted}`);
}

export function holds(truth: boolean, what: string): void {
  if (!truth) throw new Error(what);
}

/** A law over any inputs of these kinds; each law takes a two-hundredth of the cases, and 25 at least. */
export function law<T extends [unknown, ...unknown[]]>(
  arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> },
  predicate: (...values: T) => void,
): void {
  fc.assert(fc.property(...arbitraries, predicate), runs(1 / 100));
}

/** A number between two, evenly on a logarithmic scale, with six digits as a builder would type it. */
export const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc
    .double({ min: Math.log(low), max: Math.log(high), noNaN: true })
    .map((power) => Math.min(high, Math.max(low, Number(Math.exp(power).toPrecision(6)))));

export const lengths = between(0.05, 240);
export const thicknesses = between(0.012, 0.25);
export const stations = fc.integer({ min: -200_000, max: 400_000 }).map((thousandths) => thousandths / 1000);
export const weights = between(0.001, 500);
export const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
export const factors = between(0.25, 4);
/** Between 0 and 1, the ends included. */
export const shares = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

/** A list with its entries in another order. */
export function shuffled<T>(list: readonly T[], keys: readonly number[]): T[] {
  return list
    .map((entry, index) => ({ entry, key: keys[index % Math.max(1, keys.length)] ?? 0, index }))
    .sort((a, b) => a.key - b.key || b.index - a.index)
    .map(({ entry }) => entry);
}

export const orders = fc.array(whole(0, 1000), { minLength: 12, maxLength: 12 });
