import { describe, expect, it } from 'vitest';
import { cuttingGroups, planRequest } from '../../../../src/pane/views/buying/cutting-needs';
import { openPriceBook, readPriceList } from '../../../../src/core/price';
import { PARTS, readParts, USUAL_CUTTING, usualTerms } from '../../../../src/project';
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

describe('what a plan is asked for', () => {
  it('is each part’s own grain, and for the rest what holds for all', () => {
    const sheet = formSheet(PARTS, [
      row,
      { ...row, part: 'Rib', grain: 'across' },
      { ...row, part: 'Clip', grain: 'any' },
    ]);
    const values = sheet.cells.map((cells) => cells.map((cell) => cell?.value ?? null));
    const [group] = cuttingGroups(readParts((name) => (name === PARTS.sheet ? values : undefined))!.rows, 'in-lb');
    const book = openPriceBook(readPriceList([['Item', 'Kind', 'Sold by', 'Price']]));
    const lies = (turn: boolean) =>
      planRequest(
        group!,
        { stock: undefined, book, terms: usualTerms('USD'), cutting: { ...USUAL_CUTTING, turn } },
        1,
      ).parts.map((part) => ('lie' in part ? part.lie : undefined));
    expect(lies(false)).toEqual(['along', 'across', 'any']);
    expect(lies(true)).toEqual(['any', 'across', 'any']);
  });
});
