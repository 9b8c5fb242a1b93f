/** What the view Balance reads of lists whose columns are matched. */
import { expect, it } from 'vitest';
import { SheetCache } from '../../../../src/pane/views/balance/sheet-cache';
import { readParts, readSurfaces } from '../../../../src/project';
import type { Cell, Workbook } from '../../../../src/sheet';

const SHEETS: Record<string, Cell[][]> = {
  Aileron: [
    ['Part', 'Weight each', 'Qty', 'Station'],
    ['Skin', 0.5, 2, 100],
    ['Hinge', 0.25, 4, 96],
  ],
  Matches: [
    ['Sheet', 'Header', 'Means', 'Unit', 'Read as'],
    ['Aileron', 'Part', 'Part'],
    ['Aileron', 'Weight each', 'Weight', 'lb', 'each piece'],
    ['Aileron', 'Qty', 'Qty'],
    ['Aileron', 'Station', 'Arm', 'in'],
    ['Aileron', '(sheet name)', 'Component'],
  ],
  'Control surfaces': [
    ['Surface', 'Component', 'Hinge line (in)'],
    ['Left', 'Aileron', 97],
  ],
  Notes: [['x']],
};

const workbook = {
  sheets: () => Promise.resolve(Object.keys(SHEETS).map((name) => ({ name, visible: true, protected: false }))),
  usedRange: (sheet: string) =>
    Promise.resolve({ sheet, row: 0, column: 0, rows: SHEETS[sheet]!.length, columns: SHEETS[sheet]![0]!.length }),
  read: ({ sheet }: { readonly sheet: string }) => Promise.resolve(SHEETS[sheet]),
  readFormulas: ({ sheet }: { readonly sheet: string }) =>
    Promise.resolve(SHEETS[sheet]!.map((line) => line.map(() => null))),
} as unknown as Workbook;

it('a matched list balances its surface, and is read anew when it changes', async () => {
  const cache = new SheetCache(workbook);
  const { values } = await cache.read();
  const surfaces = readSurfaces(values, readParts(values))!;
  // 2 × 0.5 lb at 3 in behind the hinge line, 4 × 0.25 lb at 1 in ahead of it.
  expect(surfaces.surfaces[0]!.parts).toMatchObject({ weight: 2, moment: 2 });
  expect(['Aileron', 'Matches', 'Notes'].map((name) => cache.concerns([name]))).toEqual([true, true, false]);
});
