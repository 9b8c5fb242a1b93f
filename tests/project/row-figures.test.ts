import { describe, expect, it } from 'vitest';
import { RowFiguresReader, rowFiguresText } from '../../src/project';
import { CellError, type Cell, type RangeAddress } from '../../src/sheet';

/** A workbook of one sheet, and how many ranges of it were read. */
function workbookOf(sheet: string, rows: readonly (readonly Cell[])[]) {
  let reads = 0;
  return {
    get reads() {
      return reads;
    },
    usedRange: async (name: string) =>
      name === sheet
        ? { sheet, row: 0, column: 0, rows: rows.length, columns: Math.max(...rows.map((row) => row.length)) }
        : undefined,
    read: async ({ row, column, rows: height, columns: width }: RangeAddress) => {
      reads += 1;
      return Array.from({ length: height }, (_, down) =>
        Array.from({ length: width }, (__, right): Cell => rows[row + down]?.[column + right] ?? null),
      );
    },
  };
}

const PARTS_ROWS: readonly (readonly Cell[])[] = [
  ['Parts list'],
  ['Component', 'Part', 'Qty', 'Weight (lb)', 'Moment (lb·in)', 'Cost'],
  ['Ribs', 'Nose rib', 13, 1.39762, 95.178, 4.5],
  ['Ribs', 'Not yet measured', 1, null, null, null],
  ['Ribs', 'Wrong gauge', 1, new CellError('#VALUE!'), null, 0],
];

const textAt = async (reader: RowFiguresReader, sheet: string, row: number): Promise<string | undefined> => {
  const figures = await reader.read(sheet, row);
  return figures && rowFiguresText(figures);
};

describe('what a row comes to', () => {
  it('is told by name, with the units of the header', async () => {
    const reader = new RowFiguresReader(workbookOf('Parts', PARTS_ROWS));
    expect(await textAt(reader, 'Parts', 2)).toBe('Nose rib: Weight 1.398 lb · Moment 95.18 lb·in · Cost 4.50');
    expect(await textAt(reader, 'Parts', 4)).toBe('Wrong gauge: Weight #VALUE! · Cost 0.00');
  });

  it('is told in the units that a metric header names, and written as the language writes numbers', async () => {
    const metric = [
      ['Component', 'Part', 'Weight (kg)', 'Moment (kg·mm)'] as const,
      ['Ribs', 'Nose rib', 0.63, 1096.5],
    ];
    const figures = await new RowFiguresReader(workbookOf('parts', metric)).read('parts', 1);
    expect(rowFiguresText(figures!, (value, places) => value.toFixed(places).replace('.', ','))).toBe(
      'Nose rib: Weight 0,6300 kg · Moment 1097 kg·mm',
    );
  });

  it('is nothing above the list, for a row that comes to nothing, and on other sheets', async () => {
    const reader = new RowFiguresReader(workbookOf('Parts', PARTS_ROWS));
    expect(await textAt(reader, 'Parts', 0)).toBeUndefined();
    expect(await textAt(reader, 'Parts', 1)).toBeUndefined();
    expect(await textAt(reader, 'Parts', 3)).toBeUndefined();
    expect(await textAt(reader, 'Parts', 40)).toBeUndefined();
    expect(await textAt(reader, 'Notes', 2)).toBeUndefined();
  });

  it('reads the header once, and again after the sheet was changed', async () => {
    const rows = PARTS_ROWS.map((row) => [...row]);
    const workbook = workbookOf('Parts', rows);
    const reader = new RowFiguresReader(workbook);
    await textAt(reader, 'Parts', 2);
    await textAt(reader, 'Parts', 2);
    expect(workbook.reads).toBe(3);
    rows.forEach((row) => row.unshift(null));
    reader.forget(['Parts']);
    expect(await textAt(reader, 'Parts', 2)).toBe('Nose rib: Weight 1.398 lb · Moment 95.18 lb·in · Cost 4.50');
  });

  it('is told of rivet joints and of hardware', async () => {
    const joints = [
      ['Joint', 'Component', 'Rivets', 'Rivet', 'Weight (lb)', 'Check'],
      ['Nose rib to spar', 'Ribs', 234, 'MS20470AD3-4', 0.0655, 'in order'],
    ];
    expect(await textAt(new RowFiguresReader(workbookOf('Joints', joints)), 'Joints', 1)).toBe(
      'Nose rib to spar: Rivets 234 · Rivet MS20470AD3-4 · Weight 0.0655 lb · Check in order',
    );
    const hardware = [
      ['Item', 'Component', 'Qty', 'Weight (lb)'],
      ['Bolt', 'Fittings', 4, 0.12],
    ];
    expect(await textAt(new RowFiguresReader(workbookOf('Hardware', hardware)), 'Hardware', 1)).toBe(
      'Bolt: Weight 0.1200 lb',
    );
  });
});
