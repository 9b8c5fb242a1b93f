import { describe, expect, it } from 'vitest';
import { cuttingGroups, planRequest, type CuttingGroup } from '../../../../src/pane/views/buying/cutting-needs';
import { openPriceBook, readPriceList } from '../../../../src/core/price';
import { PARTS, readParts, USUAL_CUTTING, usualTerms, type StockPiece } from '../../../../src/project';
import { formSheet } from './model';

const row = {
  component: 'Wing',
  part: 'Skin',
  quantity: 2,
  material: '6061-T6',
  thickness: 0.025,
  weight: 1,
  cutLength: 40,
  cutWidth: 20,
};

const groupOf = (rows: readonly Readonly<Record<string, string | number>>[]): CuttingGroup => {
  const values = formSheet(PARTS, rows).cells.map((cells) => cells.map((cell) => cell?.value ?? null));
  return cuttingGroups(readParts((name) => (name === PARTS.sheet ? values : undefined))!.rows, 'in-lb')[0]!;
};
const sheets = {
  stock: undefined,
  book: openPriceBook(readPriceList([['Item', 'Kind', 'Sold by', 'Price']])),
  terms: usualTerms('USD'),
  cutting: USUAL_CUTTING,
};

describe('what a plan is asked for', () => {
  it('is each part’s own grain, and for the rest what holds for all', () => {
    const group = groupOf([row, { ...row, part: 'Rib', grain: 'across' }, { ...row, part: 'Clip', grain: 'any' }]);
    const lies = (turn: boolean) =>
      planRequest(group, { ...sheets, cutting: { ...USUAL_CUTTING, turn } }, 1).parts.map((part) =>
        'lie' in part ? part.lie : undefined,
      );
    expect(lies(false)).toEqual(['along', 'across', 'any']);
    expect(lies(true)).toEqual(['any', 'across', 'any']);
  });

  it('names pieces of one name and size apart, whatever others are called', () => {
    const pieces = ['Skin', 'Skin', 'Skin (2)'].map((name, index): StockPiece => ({
      row: index + 1,
      name,
      material: row.material,
      thickness: row.thickness,
      length: 48,
      width: 48,
      available: 1,
      offcut: true,
      cost: undefined,
      takesOff: false,
    }));
    const { stock } = planRequest(groupOf([row]), { ...sheets, stock: { pieces } });
    expect(stock.map(({ name }) => name)).toEqual(['Skin', 'Skin (2)', 'Skin (2) (2)']);
  });
});
