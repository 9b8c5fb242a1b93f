import { describe, expect, it } from 'vitest';
import { readRowFigures, rowFiguresText } from '../../src/project';
import { CellError, type Cell, type Workbook } from '../../src/sheet';
import { cellsWorkbook } from '../helpers/project';

const PARTS_ROWS: readonly (readonly Cell[])[] = [
  ['Parts list'],
  ['Component', 'Part', 'Qty', 'Weight (lb)', 'Moment (lb·in)', 'Cost'],
  ['Ribs', 'Nose rib', 13, 1.39762, 95.178, 4.5],
  ['Ribs', 'Not yet measured', 1, null, null, null],
  ['Ribs', 'Wrong gauge', 1, new CellError('#VALUE!'), null, 0],
];

const textAt = async (workbook: Workbook, sheet: string, row: number): Promise<string | undefined> => {
  const figures = await readRowFigures(workbook, sheet, row);
  return figures && rowFiguresText(figures);
};
const open = (sheet: string, rows: readonly (readonly Cell[])[]) =>
  cellsWorkbook({ [sheet]: rows.map((row) => [...row]), Notes: [['a'], ['b'], ['c']] });

describe('what a row comes to', () => {
  it('is told by name, with the units of the header', async () => {
    const { workbook } = open('Parts', PARTS_ROWS);
    expect(await textAt(workbook, 'Parts', 2)).toBe('Nose rib: Weight 1.398 lb · Moment 95.18 lb·in · Cost 4.50');
    expect(await textAt(workbook, 'Parts', 4)).toBe('Wrong gauge: Weight #VALUE! · Cost 0.00');
  });

  it('is told in the units that a metric header names, and written as the language writes numbers', async () => {
    const metric = [
      ['Component', 'Part', 'Weight (kg)', 'Moment (kg·mm)'] as const,
      ['Ribs', 'Nose rib', 0.63, 1096.5],
    ];
    const figures = await readRowFigures(open('parts', metric).workbook, 'parts', 1);
    expect(rowFiguresText(figures!, (value, places) => value.toFixed(places).replace('.', ','))).toBe(
      'Nose rib: Weight 0,6300 kg · Moment 1097 kg·mm',
    );
  });

  it('is nothing above the list, for a row that comes to nothing, and on other sheets', async () => {
    const { workbook } = open('Parts', PARTS_ROWS);
    expect(await textAt(workbook, 'Parts', 0)).toBeUndefined();
    expect(await textAt(workbook, 'Parts', 1)).toBeUndefined();
    expect(await textAt(workbook, 'Parts', 3)).toBeUndefined();
    expect(await textAt(workbook, 'Parts', 40)).toBeUndefined();
    expect(await textAt(workbook, 'Notes', 2)).toBeUndefined();
  });

  it('reads the header once, and again after the sheet was changed', async () => {
    const cells = { Parts: PARTS_ROWS.map((row) => [...row]) };
    const { workbook, asked, change } = cellsWorkbook(cells);
    await textAt(workbook, 'Parts', 2);
    await textAt(workbook, 'Parts', 2);
    expect(asked).toHaveLength(3);
    cells.Parts.forEach((row) => row.unshift(null));
    change('Parts');
    expect(await textAt(workbook, 'Parts', 2)).toBe('Nose rib: Weight 1.398 lb · Moment 95.18 lb·in · Cost 4.50');
  });

  it('is told of rivet joints and of hardware', async () => {
    const joints = [
      ['Joint', 'Component', 'Rivets', 'Rivet', 'Weight (lb)', 'Check'],
      ['Nose rib to spar', 'Ribs', 234, 'MS20470AD3-4', 0.0655, 'in order'],
    ];
    expect(await textAt(open('Joints', joints).workbook, 'Joints', 1)).toBe(
      'Nose rib to spar: Rivets 234 · Rivet MS20470AD3-4 · Weight 0.0655 lb · Check in order',
    );
    const hardware = [
      ['Item', 'Component', 'Qty', 'Weight (lb)'],
      ['Bolt', 'Fittings', 4, 0.12],
    ];
    expect(await textAt(open('Hardware', hardware).workbook, 'Hardware', 1)).toBe('Bolt: Weight 0.1200 lb');
  });
});
