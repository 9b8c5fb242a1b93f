/** Public cutting instances, read from ../shared/data; they are not ours to ship, and absent elsewhere. */
import { existsSync, readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { BarPart, SheetPart, SheetStock } from '../../src/core/stock';

const folder = new URL('../shared/data/', pathToFileURL(`${process.cwd()}/`));
export const haveInstances = (): boolean => existsSync(folder);
const lines = (path: string): string[] => readFileSync(new URL(path, folder), 'utf8').trim().split(/\r?\n/);

export interface BarInstance {
  readonly name: string;
  readonly capacity: number;
  readonly parts: readonly BarPart[];
  readonly bestKnown: number;
}

/** Falkenauer's bin-packing sets (1996): u250, t60, t120 by file. */
export function barInstances(file: 'binpack2' | 'binpack5' | 'binpack6'): BarInstance[] {
  const words = lines(`bars-1d/${file}.txt`).map((line) => line.trim());
  const instances: BarInstance[] = [];
  for (let at = 1; instances.length < Number(words[0]);) {
    const name = words[at++]!;
    const [capacity, items, bestKnown] = words[at++]!.split(/\s+/).map(Number) as [number, number, number];
    const counts = new Map<number, number>();
    for (const size of words.slice(at, at + items).map(Number)) counts.set(size, (counts.get(size) ?? 0) + 1);
    at += items;
    instances.push({
      name,
      capacity,
      bestKnown,
      parts: [...counts].map(([length, quantity]) => ({ name: String(length), length, quantity })),
    });
  }
  return instances;
}

export interface SheetInstance {
  readonly name: string;
  readonly parts: readonly SheetPart[];
  readonly stock: readonly SheetStock[];
  readonly bestKnown: number;
}

function table(path: string): Record<string, number>[] {
  const [head, ...rows] = lines(path).map((line) => line.split(',').map((cell) => cell.trim()));
  return rows.map((row) => Object.fromEntries(row.map((cell, index) => [head![index]!.toLowerCase(), Number(cell)])));
}

/** Cintra et al. (2008): several sheet sizes, two stages with trimming, first cut along the sheet, no turning. */
export function sheetInstance(number: number): SheetInstance {
  const name = `gcut${number}d`;
  const best = lines('sheets-2stage/best-known.csv')
    .map((line) => line.split(','))
    .find(([path]) => path!.includes(name))!;
  return {
    name,
    parts: table(`sheets-2stage/${name}_items.csv`).map(({ id, width, height, copies }) => ({
      name: String(id),
      length: width!,
      width: height!,
      quantity: copies!,
    })),
    stock: table(`sheets-2stage/${name}_bins.csv`).map(({ id, width, height, cost }) => ({
      name: String(id),
      length: width!,
      width: height!,
      cost: cost!,
    })),
    bestKnown: Number(best[1]),
  };
}
