/**
 * What the loops by hand share: how a column of the benchmark is filled, and the tests that a careful programmer puts
 * before the arithmetic. A test takes a cell as a host hands it over, so that a text where a number belongs is refused.
 */
import type { Cell, Matrix } from '../../../src/sheet';

/** The cell of a row, or a block that is one argument for all rows. */
export type Column = ((row: number) => Cell) | Matrix;

/** One function's job, done by hand. */
export interface Job {
  readonly columns: readonly Column[];
  /** Rows of cells in, rows of one cell out, as a host wants them. */
  readonly loop: (...columns: Matrix[]) => Matrix;
}

/** A fraction from 0 to 1 that differs from row to row and is the same in every run. */
const scatter = (row: number, seed: number): number => (row * 0.6180339887 + seed * 0.7548776662) % 1;

let seeds = 0;
/** Numbers with three decimals, as they are typed. */
export const between = (from: number, to: number): Column => {
  const seed = ++seeds;
  return (row) => Math.round((from + (to - from) * scatter(row, seed)) * 1000) / 1000;
};
export const whole = (from: number, to: number): Column => {
  const seed = ++seeds;
  return (row) => Math.floor(from + (to + 1 - from) * scatter(row, seed));
};
/** A few different cells over and over, as the materials of a parts list are. */
export const among = (...cells: Cell[]): Column => {
  const seed = ++seeds;
  return (row) => cells[Math.floor(scatter(row, seed) * cells.length)]!;
};

export const METALS = among('6061-T6', '2024-T3', '4130', '5052-H32');
export const RIVETS = among('MS20470AD4-4', 'MS20470AD4-5', 'MS20426AD3-4', 'MS20470AD3-4', 'MS20426AD4-5');
export const PIECES = whole(1, 12);

type Given = Cell | undefined;
export const isLength = (cell: Given): cell is number => typeof cell === 'number' && cell > 0 && cell <= 12_000;
export const isLengthOrZero = (cell: Given): cell is number => typeof cell === 'number' && cell >= 0 && cell <= 12_000;
export const isStation = (cell: Given): cell is number => typeof cell === 'number' && cell >= -12_000 && cell <= 12_000;
export const isThickness = (cell: Given): cell is number => typeof cell === 'number' && cell > 0 && cell <= 1;
export const isArea = (cell: Given): cell is number => typeof cell === 'number' && cell > 0 && cell <= 1e8;
export const isAngle = (cell: Given): cell is number => typeof cell === 'number' && cell > 0 && cell < 180;
export const isQuantity = (cell: Given): cell is number => typeof cell === 'number' && cell >= 0 && cell <= 1e7;
export const isCount = (cell: Given): cell is number =>
  typeof cell === 'number' && cell >= 1 && cell <= 1e6 && Number.isInteger(cell);
export const isWeight = (cell: Given): cell is number => typeof cell === 'number' && cell >= 0 && cell <= 1e6;

export const isBlank = (cell: Given): boolean => cell === '' || cell === null || cell === undefined;
/** The cell, or what an omitted one stands for. */
export const or = (cell: Given, standsFor: Cell): Given => (isBlank(cell) ? standsFor : cell);

/** What a row gives that cannot be computed: blank where its first cell is, else the spreadsheet's error. */
export const otherwise = (first: Given): Cell[] => [isBlank(first) ? '' : '#VALUE!'];

/** What a text stands for, looked up once for each different text of a column; undefined where it is none of the trade's. */
export function lookUp<T>(read: (text: string) => T): (cell: Given) => T | undefined {
  const known = new Map<Given, T | undefined>();
  return (cell) => {
    const value = known.get(cell);
    if (value !== undefined || typeof cell !== 'string' || cell === '') return value;
    try {
      known.set(cell, read(cell));
    } catch {
      return undefined;
    }
    return known.get(cell);
  };
}
