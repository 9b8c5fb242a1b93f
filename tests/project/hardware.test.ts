/** The sheet Hardware: read, rolled up, priced and bought; wrong and missing cells named. */
import { describe, expect, it } from 'vitest';
import { openPriceBook, readPriceList } from '../../src/core/price';
import { gatherNeeds } from '../../src/core/shopping';
import { missingRowEdits, readHardware, summarise, weightsModel } from '../../src/project';
import type { Cell } from '../../src/sheet';

const HEADER = [
  'Item',
  'Component',
  'Qty',
  'Each (lb)',
  'Weight from',
  'Arm (in)',
  'Weight (lb)',
  'Moment (lb·in)',
  'Cost',
];
const book = (rows: readonly Cell[][], parts: readonly Cell[][] = [], header: Cell[] = HEADER) => {
  const sheets: Record<string, Cell[][]> = {
    Hardware: [['Hardware of the kit'], header, ...rows],
    Parts: [
      ['Component', 'Part', 'Weight (lb)', 'Arm (in)', 'Cost', 'Each (lb)'],
      ['Wing', 'Rib', 2, 60, 5, null],
      ...parts,
    ],
  };
  return (name: string) => sheets[name];
};
const said = (values: ReturnType<typeof book>): string[] =>
  summarise(values)!.problems.map(({ sheet, cell, message }) => `${sheet}!${cell} ${message}`);

describe('the sheet Hardware', () => {
  const bolt = ['Bolt AN4-7A', 'Wing', 8, 0.032, 'weighed', 62, 0.256, 15.872, 7.04];
  const carried = ['Wing', 'Hardware, from the sheet Hardware', 0.256, 62, null, 0.032];

  it('counts its cost and its pieces beside the parts, and its weight through their row', () => {
    const values = book([bolt], [carried]);
    const { total, hardwareCosts, problems } = summarise(values)!;
    expect(problems).toEqual([]);
    expect(total.weight).toBeCloseTo(2.256, 12);
    expect(total.cost).toBeCloseTo(12.04, 12);
    expect(hardwareCosts.amounts).toEqual([{ amount: 7.04, currency: '' }]);
  });

  it('names a component without a row of hardware, and adds the row', () => {
    const values = book([bolt]);
    expect(said(values)).toEqual([
      'Hardware!G3 weighs the hardware of Wing, which no row Hardware of the parts list brings in: their cost counts and their weight does not',
    ]);
    const model = weightsModel(values)!;
    expect(model.missing.map(({ of, component }) => [of, component])).toEqual([['hardware', 'Wing']]);
    const edits = missingRowEdits(values, model.parts, model.missing)!;
    const cells = edits.flatMap((edit) =>
      edit.kind === 'write' ? [[edit.range.row, edit.range.column, edit.cells[0]![0]]] : [],
    );
    expect(cells).toContainEqual([2, 1, 'Hardware, from the sheet Hardware']);
    expect(cells).toContainEqual([2, 5, { formula: '=SUMIFS(Hardware!$G$3:$G$102,Hardware!$B$3:$B$102,A3)' }]);
  });

  it('names hardware of a component that no part has', () => {
    expect(said(book([['Bolt', 'Wign', 2, 0.1, '', 5, 0.2, 1, 1]]))).toEqual([
      expect.stringMatching(/^Hardware!G3 weighs the hardware of Wign, .*No part has a component of that name$/),
    ]);
  });

  it('names blanks and what is no number, by their cells', () => {
    const rows: Cell[][] = [
      ['', 'Wing', 2, 0.1, '', 5, 0.2, 1, 1],
      ['Bolt', 'Wing', null, 0.1, '', 5, null, null, null],
      ['Nut', 'Wing', 4, null, '', 5, null, null, 1],
      ['Pin', 'Wing', 4, 'heavy', '', 5, 0.1, 0.5, 1],
      ['Screw', 'Wing', 4, 0.01, '', null, 0.04, null, 1],
      ['Washer', 'Wing', -3, 0.01, '', 5, 0.04, 0.2, 1],
    ];
    expect(said(book(rows, [['Wing', 'Hardware', 0.1, 62]]))).toEqual([
      expect.stringMatching(/^Hardware!A3 is blank; takes what the hardware is/),
      expect.stringMatching(/^Hardware!C4 is blank; takes pieces/),
      expect.stringMatching(/^Hardware!D5 is blank, so Nut weighs nothing here: weigh a few/),
      expect.stringMatching(/^Hardware!D6 got "heavy"; takes pounds above 0/),
      expect.stringMatching(/^Hardware!F7 is blank: its moment is missing/),
      expect.stringMatching(/^Hardware!C8 got -3; takes pieces, 0 or more/),
    ]);
  });

  it('reads columns in any order and in grams', () => {
    const header = ['Qty', 'Each (g)', 'Item', 'Note', 'Component', 'Arm (mm)'];
    const read = readHardware(book([[10, 45.359237, 'Pin', 'x', 'Wing', 254]], [], header))!;
    expect(read.rows).toMatchObject([{ item: 'Pin', quantity: 10, weight: 1, arm: 10 }]);
    expect(read.problems).toEqual([]);
  });

  it('is bought by the piece, by the hundred and by weight', () => {
    const list = openPriceBook(
      readPriceList([
        ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'],
        ['Pin', 'other', '100', '', 5, 'USD'],
        ['Bolt', 'other', 'each', '', 1, 'USD'],
      ]),
    );
    const use = (item: string, count: number) => ({ component: 'Wing', item, count, each: 0.1 });
    const needs = gatherNeeds([], [], list, undefined, [
      use('pin', 30),
      use('Bolt', 4),
      use('Bolt', 3),
      use('Clip', 2),
    ]);
    expect(needs.map(({ item, quantity }) => [item, quantity])).toEqual([
      ['Pin', 30],
      ['Bolt', 7],
      ['Clip', 2],
    ]);
  });
});
