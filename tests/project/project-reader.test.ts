/** The project of an open workbook is read sheet by sheet, once, and what is made of a sheet is made once. */
import { describe, expect, it } from 'vitest';
import {
  NO_SHEETS,
  ProjectReader,
  readHardware,
  readParts,
  summarise,
  weightsModel,
  wholeProject,
} from '../../src/project';
import { once } from '../../src/project/reading';
import type { Cell } from '../../src/sheet';
import { cellsWorkbook } from '../helpers/project';

const sheets = (): Record<string, Cell[][]> => ({
  Parts: [
    ['Component', 'Part', 'Qty', 'Weight (lb)', 'Arm (in)'],
    ['Wing', 'Rib', 4, 1.5, 60],
  ],
  Hardware: [
    ['Item', 'Component', 'Qty', 'Each (lb)'],
    ['AN3-5A', 'Wing', 8, 0.02],
  ],
  Prices: [
    ['Item', 'Kind', 'Sold by', 'Price'],
    ['Pin', 'other', 'each', 2],
  ],
  Notes: [['mine']],
});

async function open(cells = sheets()) {
  const { workbook, asked, change } = cellsWorkbook(cells);
  const reader = ProjectReader.over(workbook);
  const first = await reader.read(wholeProject);
  const read = [...asked];
  asked.length = 0;
  return { cells, reader, first, read, asked, change };
}

describe('the sheets of a workbook', () => {
  it('are read once, and again only where they have changed', async () => {
    const { cells, reader, read, asked, change } = await open();
    expect(read.sort()).toEqual(['Hardware', 'Parts', 'Prices']);
    await reader.read(wholeProject);
    expect(asked).toEqual([]);
    cells['Parts']![1]![3] = 2;
    change('Parts');
    change('Notes');
    expect(weightsModel((await reader.read(wholeProject)).values)!.total.current).toBe(2);
    expect(asked).toEqual(['Parts']);
  });

  it('have the formulas that they had where a cell changed and their first rows were read meanwhile', async () => {
    const { cells, reader, change } = await open();
    const wanted = () => [{ sheet: 'Parts', formulas: true }];
    const before = await reader.read(wanted);
    cells['Parts']![1]![3] = 2;
    change('Parts');
    // The units of the project are in the first rows of its sheets.
    await reader.read(() => []);
    const after = await reader.read(wanted);
    expect(after.values('Parts')).not.toBe(before.values('Parts'));
    expect(after.formulas('Parts')).toBe(before.formulas('Parts'));
  });

  it('are read whole where only their first rows were known, with formulas where these were not', async () => {
    const { workbook, asked } = cellsWorkbook(sheets());
    const reader = ProjectReader.over(workbook);
    expect((await reader.read(() => [])).units).toBe('in-lb');
    expect(asked.sort()).toEqual(['Hardware', 'Parts']);
    await reader.read(() => [{ sheet: 'Parts' }]);
    const { formulas } = await reader.read(() => [{ sheet: 'Parts', formulas: true }]);
    expect(formulas('parts')).toHaveLength(2);
    expect(asked.filter((sheet) => sheet === 'Parts')).toHaveLength(3);
  });

  it('that read as they were stay the same, and so does all that was made of them', async () => {
    const { reader, first, change } = await open();
    const [parts, summary, book] = [readParts(first.values), summarise(first.values), first.prices!.book];
    change('Parts');
    change('Prices');
    const next = await reader.read(wholeProject);
    expect(next.values('Parts')).toBe(first.values('Parts'));
    expect(readParts(next.values)).toBe(parts);
    expect(summarise(next.values)).toBe(summary);
    expect(next.prices!.book).toBe(book);
  });

  it('that change have made anew what was made of them, and nothing else', async () => {
    const { cells, reader, first, change } = await open();
    const [parts, hardware, summary] = [readParts(first.values), readHardware(first.values), summarise(first.values)];
    cells['Hardware']![1]![2] = 9;
    change('Hardware');
    const { values } = await reader.read(wholeProject);
    expect(readParts(values)).toBe(parts);
    expect(readHardware(values)).not.toBe(hardware);
    expect(readHardware(values)!.rows[0]!.quantity).toBe(9);
    expect(summarise(values)).not.toBe(summary);
  });

  it('show an edit before it is made; made or refused, nothing of it is read twice', async () => {
    const { cells, reader, first, asked } = await open();
    const before = first.prices!.book;
    const write = (price: number) =>
      reader.lay([
        { kind: 'write', range: { sheet: 'Prices', row: 1, column: 3, rows: 1, columns: 1 }, cells: [[price]] },
      ]);
    const laid = write(3);
    const { book } = laid.prices!;
    expect([before.list.rows[0]!.price, book.list.rows[0]!.price]).toEqual([2, 3]);
    expect(reader.now.prices!.book).toBe(before);
    expect(reader.show(laid)).toEqual(['prices']);
    // Refused: the sheet is as it was.
    expect((await reader.read(wholeProject, ['Prices'])).prices!.book).toBe(before);
    reader.show(write(3));
    cells['Prices']![1]![3] = 3;
    const made = await reader.read(wholeProject, ['Prices']);
    expect(made.prices!.book.list.rows[0]!.price).toBe(3);
    expect(asked).toEqual(['Prices', 'Prices']);
  });

  it('that are gone, or could not be read, are not remembered', async () => {
    const { cells, reader, change } = await open();
    delete cells['Hardware'];
    change('Hardware');
    expect((await reader.read(wholeProject)).values('Hardware')).toBeUndefined();
    const parts = cells['Parts']!;
    cells['Parts'] = undefined as never;
    change('Parts');
    await expect(reader.read(() => [{ sheet: 'Parts' }, { sheet: 'Nowhere' }])).resolves.toBeDefined();
    cells['Parts'] = parts;
    change('Parts');
    expect((await reader.read(wholeProject)).values('Parts')).toHaveLength(2);
  });
});

describe('what is made of sheets', () => {
  it('is made again by other arguments, and when a sheet has changed that something inside has looked at', () => {
    const cells: Record<string, Cell[][]> = { A: [[1]], B: [[2]] };
    const made: string[] = [];
    const one = (values: typeof NO_SHEETS.values, sheet: string): number => {
      made.push(sheet);
      return values(sheet)![0]![0] as number;
    };
    const sum = (values: typeof NO_SHEETS.values): number => once(values, one, 'A') + once(values, one, 'B');
    const values = (sheet: string) => cells[sheet];
    expect([once(values, sum), once(values, sum), once(values, one, 'B')]).toEqual([3, 3, 2]);
    expect(made).toEqual(['A', 'B']);
    cells['B'] = [[5]];
    expect([once(values, sum), once(values, one, 'A')]).toEqual([6, 1]);
    expect(made).toEqual(['A', 'B', 'B']);
  });
});
