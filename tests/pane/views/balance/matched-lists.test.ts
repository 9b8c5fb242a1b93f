/** What the view Balance reads of lists whose columns are matched. */
import { expect, it } from 'vitest';
import { balanceSheets } from '../../../../src/pane/views/balance/balance-store';
import { ProjectReader, readParts, readSurfaces } from '../../../../src/project';
import type { Cell } from '../../../../src/sheet';
import { cellsWorkbook } from '../../../helpers/project';

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

it('a matched list balances its surface, and is read anew when it changes', async () => {
  const reader = ProjectReader.over(cellsWorkbook(SHEETS).workbook);
  const { values } = await reader.read(balanceSheets);
  const surfaces = readSurfaces(values, readParts(values))!;
  // 2 × 0.5 lb at 3 in behind the hinge line, 4 × 0.25 lb at 1 in ahead of it.
  expect(surfaces.surfaces[0]!.parts).toMatchObject({ weight: 2, moment: 2 });
  const concerned = ['Aileron', 'Matches', 'Notes'].map((name) => reader.concerns(balanceSheets, [name]));
  expect(concerned).toEqual([true, true, false]);
});
