import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { unitIn } from '../../../../src/core/quantity';
import { recalculateCopy } from '../../../../src/calculation/recalculate-copy';
import { sourceOf } from '../../../../src/pane/views/weights/what-if/source-cell';
import type { Wish } from '../../../../src/pane/views/weights/what-if/swap';
import { Trial } from '../../../../src/pane/views/weights/what-if/trial';
import { readWish } from '../../../../src/pane/views/weights/what-if/wish';
import type { CellModel, WorkbookModel } from '../../../../src/sheet';
import { readWorkbook } from '../../../../src/xlsx';
import { blindWorkbook, copyOf } from './blind-workbook';
import { smallBook } from './small-book';

const trialOf = async (model: WorkbookModel): Promise<Trial> =>
  Trial.of(await copyOf(blindWorkbook(model)), recalculateCopy)!;
const wish = (rows: readonly number[], more: Partial<Wish>): Wish => ({
  rows,
  atSource: true,
  keepWeighed: false,
  ...more,
});

describe('a trial in the sample wing', () => {
  let trial: Trial;
  const rowOf = (part: string, component: string): number =>
    trial.standing.weights.parts.rows.find((row) => row.part === part && row.component === component)!.row;
  beforeAll(async () => {
    trial = await trialOf(
      readWorkbook(readFileSync(new URL('../../../../sample-workbooks/wing.xlsx', import.meta.url))),
    );
  });

  it('recalculates the whole workbook as the file has it, from what the port tells', () => {
    expect(trial.doubts).toEqual([]);
  });

  it('ribs .020 to .025: one gauge cell, weight in proportion, moment and arm with it', () => {
    const rows = [rowOf('Nose ribs', 'Ribs')];
    const { swap, picked, standing, rows: moved, components } = trial.outcome(wish(rows, { thickness: 0.025 }));
    expect(swap.changes.map(({ cell, from, to }) => [cell, from, to])).toEqual([['Design!B15', '0.02', '0.025']]);
    expect(picked.after.weight / picked.before.weight).toBeCloseTo(1.25, 9);
    expect(picked.after.arm).toBeCloseTo(picked.before.arm!, 9);
    expect(picked.after.moment / picked.before.moment).toBeCloseTo(1.25, 9);
    // The .025 sheet has a price of its own, found by the price item's formula.
    expect(picked.after.cost).toBeGreaterThan(picked.before.cost!);
    expect(components).toContain('Ribs');
    // The main ribs follow the same gauge; they are weighed, so that their weight stays.
    expect(moved.find(({ name }) => name === 'Main ribs')).toMatchObject({ picked: false, weighedStays: true });
    const added = picked.after.weight - picked.before.weight;
    expect(standing.after.weights.total.current - standing.before.weights.total.current).toBeGreaterThanOrEqual(
      added - 1e-9,
    );
    expect(standing.after.weights.total.margin!).toBeLessThan(standing.before.weights.total.margin! - added);
  });

  it('writes over the formula where that is asked, and leaves the gauge cell alone', () => {
    const row = rowOf('Nose ribs', 'Ribs');
    const { swap, rows: moved } = trial.outcome(wish([row], { thickness: 0.025, atSource: false }));
    expect(swap.changes.map(({ cell, why }) => [cell, why])).toEqual([
      [`Parts!E${row + 1}`, 'thickness, in place of =RibGauge'],
    ]);
    expect(moved.map(({ name }) => name)).toEqual(['Nose ribs']);
  });

  it('takes the weighed value out of a part that becomes another, or keeps it where that is asked', () => {
    const row = rowOf('Main ribs', 'Ribs');
    const changed = trial.outcome(wish([row], { thickness: 0.025, atSource: false }));
    expect(changed.swap.changes.map(({ cell, to }) => [cell, to])).toEqual([
      [`Parts!E${row + 1}`, '0.025'],
      [`Parts!H${row + 1}`, 'blank'],
      [`Parts!J${row + 1}`, 'laid out'],
    ]);
    expect(changed.picked.after.weight).toBeGreaterThan(4);
    const keeping = trial.outcome(wish([row], { thickness: 0.025, atSource: false, keepWeighed: true }));
    expect(keeping.picked.after.weight).toBe(3.49);
    expect(keeping.rows).toMatchObject([{ name: 'Main ribs', weighedStays: true }]);
  });

  it('says of which cost nothing is known any more', () => {
    const { unpriced, picked } = trial.outcome(
      wish([rowOf('Nose ribs', 'Ribs')], { thickness: 0.0215, atSource: false }),
    );
    expect(picked.after.cost).toBeUndefined();
    expect(unpriced.join()).toMatch(/Nose ribs has no cost then: item: got "6061-T6 \.02/);
  });

  it('leaves rows alone that are no sheet, and those that are so already', () => {
    const rows = trial.standing.weights.components.find(({ name }) => name === 'Ribs')!.rows;
    const { swap } = trial.outcome(wish(rows, { thickness: 0.025 }));
    expect(swap.left.map(({ part }) => part)).toEqual([
      'Tip rib',
      'Front spar clips',
      'Rear spar clips',
      'Rivets, from the joints',
    ]);
    expect(swap.changes.filter(({ cell }) => cell === 'Design!B15')).toHaveLength(1);
  });
});

describe('a trial in a small list', () => {
  it('follows a flat pattern that depends on the thickness, with the sheet’s own formula', async () => {
    const trial = await trialOf(smallBook());
    const { picked } = trial.outcome(wish([1], { thickness: 0.04 }));
    const area = trial.outcome(wish([1], { thickness: 0.04 })).standing.after.weights.parts.rows[0]!.area!;
    expect(area).not.toBeCloseTo(trial.standing.weights.parts.rows[0]!.area!, 3);
    expect(picked.after.weight).toBeCloseTo(area * 0.04 * 0.1, 12);
  });

  it('weighs a list of sizes anew, in the unit of each list', async () => {
    const sheet = (name: string, rows: readonly (readonly (string | number)[])[]) => ({
      name,
      tables: [],
      cells: rows.map((line) => line.map((value): CellModel => ({ value }))),
    });
    const meanings = ['Part', 'Material', 'Thickness', 'Cut length', 'Cut width'];
    const trial = await trialOf({
      names: [],
      styles: [],
      sheets: [
        sheet('Cone', [
          ['P', 'M', 'T', 'L', 'W'],
          ['Skin', '6061-T6', '.025', 60, 20],
          ['Web', '6061-T6', '1/32', 10, 8],
        ]),
        sheet('Fin', [
          ['P', 'M', 'T', 'L', 'W'],
          ['Rib', '6061-T6', 0.5, 300, 100],
        ]),
        sheet('Matches', [
          ['Sheet', 'Header', 'Means', 'Unit', 'Read as'],
          ...['Cone', 'Fin'].flatMap((name) =>
            meanings.map((means, column) => [
              name,
              'PMTLW'[column]!,
              means,
              column < 2 ? '' : name === 'Cone' ? 'in' : 'mm',
              '',
            ]),
          ),
        ]),
      ],
    });
    const rows = trial.standing.weights.parts.rows.map(({ row }) => row);
    const { swap, picked } = trial.outcome(wish(rows, { thickness: 1 / 32 }));
    expect(swap.changes.map(({ cell, to }) => [cell, to])).toEqual([
      ['Cone!C2', '0.03125'],
      ['Fin!C2', '0.79375'],
    ]);
    expect(swap.left.map(({ part, why }) => [part, why])).toEqual([['Web', 'it is already so']]);
    const volume = (thin: number, fin: number): number => 1200 * thin + 80 / 32 + ((300 * 100) / 25.4 ** 2) * fin;
    expect(picked.after.weight / picked.before.weight).toBeCloseTo(
      volume(1 / 32, 1 / 32) / volume(0.025, 0.5 / 25.4),
      9,
    );
  });

  it('leaves no trace in what it was made of', async () => {
    const copy = await copyOf(blindWorkbook(smallBook()));
    const before = JSON.stringify(copy);
    const trial = Trial.of(copy, recalculateCopy)!;
    const baseline = JSON.stringify(trial.model);
    trial.outcome(wish([1, 2, 3], { thickness: 0.05, material: '0.1' }));
    expect(JSON.stringify(copy)).toBe(before);
    expect(JSON.stringify(trial.model)).toBe(baseline);
  });

  it('changes a typed price item where the price list has the other one', async () => {
    const { swap, picked } = (await trialOf(smallBook())).outcome(wish([2], { thickness: 0.032 }));
    expect(swap.changes.map(({ cell, to }) => [cell, to])).toEqual([
      ['Parts!D3', '0.032'],
      ['Parts!I3', 'sheet .032'],
    ]);
    expect(picked.after.cost).toBeCloseTo((96 * 50) / 6912, 2);
    const { swap: unknown } = (await trialOf(smallBook())).outcome(wish([2], { thickness: 0.05 }));
    expect(unknown.changes.map(({ cell }) => cell)).toEqual(['Parts!D3']);
  });

  it('names what it does not know, keeps its value and does not take it for typed', async () => {
    const book = smallBook();
    const cells = book.sheets[0]!.cells;
    cells[2]![3] = { value: 0.025, formula: 'NO.SUCH.FUNCTION(1)' };
    const trial = await trialOf(book);
    expect(trial.doubts).toEqual([
      'Parts!D3 uses NO.SUCH.FUNCTION, which the trial does not know: its value is kept as it is.',
    ]);
    const { swap } = trial.outcome(wish([2], { thickness: 0.032 }));
    expect(swap.changes[0]!.why).toBe('thickness, in place of =NO.SUCH.FUNCTION(1)');
  });

  it('names figures that do not come out as the sheet shows them', async () => {
    const book = smallBook();
    book.sheets[0]!.cells[1]![5] = { value: 99, formula: 'E2*D2*0.1' };
    expect((await trialOf(book)).doubts).toEqual(['Parts!F2 does not come out as the sheet shows it.']);
  });
});

describe('the cell that a formula stands for', () => {
  const cell = (value: number, formula?: string): CellModel => ({ value, ...(formula ? { formula } : {}) });
  const book: WorkbookModel = {
    styles: [],
    names: [
      { name: 'Gauge', refersTo: 'Design!$B$1' },
      { name: 'Twice', refersTo: 'Design!$B$1*2' },
      { name: 'Many', refersTo: 'Design!$A$1:$B$1' },
    ],
    sheets: [
      {
        name: 'Design',
        cells: [
          [cell(1), cell(0.02)],
          [cell(0.02, 'Gauge'), cell(0.02, '$B$1')],
        ],
        tables: [],
      },
      {
        name: 'Parts',
        cells: [
          [
            cell(0.02, 'gauge'),
            cell(0.02, 'Design!A2'),
            cell(0.04, 'Twice'),
            cell(0.04, 'Gauge*2'),
            cell(0, 'Many'),
            cell(0, 'F1'),
            cell(3),
          ],
        ],
        tables: [],
      },
    ],
  };
  it.each([
    [0, { sheet: 'Design', row: 0, column: 1 }],
    [1, { sheet: 'Design', row: 0, column: 1 }],
    [2, undefined],
    [3, undefined],
    [4, undefined],
    [5, undefined],
    [6, undefined],
  ])('Parts, column %i', (column, source) => {
    expect(sourceOf(book, { sheet: 'Parts', row: 0, column })).toEqual(source);
  });
});

const INCH = unitIn('length', 'in-lb');
const MM = unitIn('length', 'mm-kg');

describe('what is typed', () => {
  const draft = {
    rows: [
      { row: 5, name: 'a', on: true },
      { row: 6, name: 'b', on: false },
    ],
    material: '',
    thickness: '',
    atSource: true,
    keepWeighed: false,
  };
  it('is read as the functions read it, with their messages', () => {
    expect(readWish({ ...draft, thickness: '.025' }, INCH).wish).toMatchObject({ rows: [5], thickness: 0.025 });
    expect(readWish({ ...draft, thickness: '1/32 in' }, INCH).wish).toMatchObject({ thickness: 0.03125 });
    expect(readWish({ ...draft, thickness: '20' }, INCH)).toMatchObject({
      thicknessProblem: expect.stringContaining('thousandths'),
    });
    expect(readWish({ ...draft, thickness: '20' }, INCH).wish).toBeUndefined();
    expect(readWish({ ...draft, material: 'unobtainium' }, INCH).materialProblem).toMatch(
      /^material: got "unobtainium"/,
    );
    expect(readWish(draft, INCH).wish).toBeUndefined();
  });

  it('is in the unit of the column, or brings its own', () => {
    expect(readWish({ ...draft, thickness: '0.635' }, MM).wish).toMatchObject({ thickness: 0.025 });
    expect(readWish({ ...draft, thickness: '1/32 in' }, MM).wish).toMatchObject({ thickness: 0.03125 });
    expect(readWish({ ...draft, thickness: '0.8 mm' }, INCH).wish!.thickness).toBeCloseTo(0.8 / 25.4, 12);
    expect(readWish({ ...draft, thickness: '2 kg' }, MM).thicknessProblem).toContain('kg is not a unit here');
    expect(readWish({ ...draft, thickness: '0.02' }, MM).thicknessProblem).toBeUndefined();
  });
});

describe('a workbook that counts days from 1904', () => {
  // 14 March 2026: 46095 in a cell that shows a date, 44633 as the file counts.
  const [DAY, COUNTED] = [46_095, 44_633];

  it('is computed in its own days', async () => {
    const model: WorkbookModel = {
      styles: [{}, { numberFormat: 'yyyy-mm-dd' }],
      names: [],
      dates1904: true,
      sheets: [
        {
          name: 'Log',
          tables: [],
          cells: [
            [
              { value: DAY, style: 1 },
              { value: COUNTED, formula: 'A1' },
            ],
            [{ value: COUNTED }, { value: 2026, formula: 'YEAR(A2)' }],
            [undefined, { value: COUNTED, formula: 'DATE(2026,3,14)' }],
          ],
        },
      ],
    };
    const { model: after } = recalculateCopy(await copyOf(blindWorkbook(model)));
    const column = after.sheets[0]!.cells.map((line) => line?.[1]?.value);
    expect(column).toEqual([COUNTED, 2026, COUNTED]);
  });
});
