import { describe, expect, it } from 'vitest';
import { CellError, type Cell } from '../../src/sheet';
import { BUDGET, JOINTS, PARTS, summarise } from '../../src/project';

const header = (form: { columns: readonly { label: string }[] }): Cell[] => form.columns.map(({ label }) => label);
const row = (form: { columns: readonly { key: string }[] }, cells: Record<string, Cell>): Cell[] =>
  form.columns.map(({ key }) => cells[key] ?? null);

const sheets: Record<string, Cell[][]> = {
  Parts: [
    ['Title'],
    header(PARTS),
    row(PARTS, { component: 'Spar', part: 'web', quantity: 1, weight: 2, arm: 10, cost: 3.5 }),
    row(PARTS, { component: 'Rib', part: 'nose', quantity: 12, weight: 1.5, arm: 20, cost: 1 }),
    row(PARTS, { weight: '' }),
    row(PARTS, { component: 'Spar', part: 'cap', quantity: 2, weight: 4, arm: 10 }),
    row(PARTS, { component: 'Rib', part: 'bad', weight: new CellError('#VALUE!', 'thickness: got 20'), arm: 1 }),
  ],
  Joints: [header(JOINTS), row(JOINTS, { joint: 'a', component: 'Spar', count: 100, weight: 0.05, cost: 2 })],
  Budget: [header(BUDGET), row(BUDGET, { component: 'spar', budget: 7 })],
};

describe('the summary of a project', () => {
  const summary = summarise((name) => sheets[name])!;

  it('sums components in the order of the parts list', () => {
    expect(
      summary.components.map(({ name, weight, moment, arm, cost, parts, rivets }) => [
        name,
        weight,
        moment,
        arm,
        cost,
        parts,
        rivets,
      ]),
    ).toEqual([
      ['Spar', 6, 60, 10, 5.5, 3, 100],
      ['Rib', 1.5, 30, 20, 1, 13, 0],
    ]);
    expect(summary.total).toMatchObject({ weight: 7.5, moment: 90, arm: 12, cost: 6.5, parts: 16, rivets: 100 });
  });

  it('finds a component’s budget in any case', () => {
    expect(summary.components.map(({ budget }) => budget)).toEqual([7, undefined]);
  });

  it('names a cell in error and leaves it out of the sum, and a component whose rivets no row weighs', () => {
    expect(summary.problems).toEqual([
      { sheet: 'Parts', cell: 'M7', message: 'is #VALUE! and is left out of the sum: thickness: got 20' },
      {
        sheet: 'Joints',
        cell: 'Q2',
        message:
          'weighs the rivets of Spar, which no row Rivets of the parts list brings in: their cost counts and their weight does not',
      },
    ]);
  });

  it('is undefined without a parts list', () => {
    expect(summarise(() => undefined)).toBeUndefined();
    expect(summarise(() => [['Component', 'Something else']])).toBeUndefined();
  });
});
