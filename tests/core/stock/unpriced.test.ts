import { describe, expect, it } from 'vitest';
import { planCosts } from '../../../src/core/stock/plan-input';
import { readCutLists } from '../../../src/core/stock';
import { readStockSheet, STOCK } from '../../../src/project';
import { sheet, valuesOf } from '../../project/sheets';

const bar = (name: string, cost?: number, offcut = false) => ({
  name,
  length: 100,
  offcut,
  ...(cost === undefined ? {} : { cost }),
});
const size = (): number => 100;

describe('stock without a cost', () => {
  it('is not free beside stock that has one', () => {
    expect(() => planCosts([bar('a', 10), bar('b')], size)).toThrow(
      'cost of stock "b": got a blank; takes its cost, since other stock has one; 0 where it costs nothing',
    );
  });
  it('may be free where 0 says so, and a leftover is', () => {
    expect(planCosts([bar('a', 10), bar('b', 0), bar('c', undefined, true)], size)).toEqual([10, 0, 0]);
  });
  it('counts by its size where nothing has a cost', () => {
    expect(planCosts([bar('a'), bar('b')], size)).toEqual([100, 100]);
  });
  it('is read as not priced from a table and from the sheet Stock, which names it', () => {
    const { stock } = readCutLists(
      [
        ['Name', 'Length', 'Quantity'],
        ['p', 10, 1],
      ],
      [
        ['Name', 'Length', 'Cost'],
        ['a', 100, 10],
        ['b', 100, ''],
      ],
    );
    expect(stock.map(({ cost }) => cost)).toEqual([10, undefined]);
    const { pieces, problems } = readStockSheet(
      valuesOf({
        Stock: sheet(STOCK, [
          { name: 'a', length: 100, cost: 10 },
          { name: 'b', length: 100 },
          { name: 'c', length: 100, offcut: 'yes' },
        ]),
      }),
    )!;
    expect(pieces.map(({ cost }) => cost)).toEqual([10, undefined, undefined]);
    expect(problems.map(({ cell, message }) => `${cell} ${message}`)).toEqual([
      'I4 is blank: not priced, and left out of cutting plans. Type its cost, or 0 for none',
    ]);
  });
});
