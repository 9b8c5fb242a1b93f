import { describe, expect, it } from 'vitest';
import { newBudget } from '../../../../src/pane/views/weights/new-budget';
import { figures, gauge, signed } from '../../../../src/pane/views/weights/figures';
import { unitIn } from '../../../../src/core/quantity';
import { rowRuns } from '../../../../src/pane/views/weights/row-runs';
import { projectSheetsOf, weightsModel } from '../../../../src/project';
import { withWrites } from '../../../../src/pane/views/weights/what-if/book-copy';
import { smallBook } from './small-book';

const model = weightsModel(projectSheetsOf(smallBook({ budget: false })).values)!;

describe('rows that a bar selects', () => {
  it('are stretches over all columns of the list', () => {
    const spar = model.components.find(({ name }) => name === 'Spar')!;
    expect(rowRuns(model.parts, spar.rows)).toEqual([
      { sheet: 'Parts', row: 1, column: 0, rows: 2, columns: 14 },
      { sheet: 'Parts', row: 4, column: 0, rows: 1, columns: 14 },
    ]);
    expect(rowRuns(model.parts, [])).toEqual([]);
  });
});

describe('a new budget', () => {
  it('starts from the forecasts, a tenth of a pound upwards, and is read as a budget', () => {
    const edits = newBudget(model);
    const empty = {
      ...smallBook({ budget: false }),
      sheets: [...smallBook({ budget: false }).sheets, { name: 'Budget', cells: [], tables: [] }],
    };
    const made = withWrites(
      empty,
      edits.filter(({ kind }) => kind === 'write'),
    );
    const { components, total } = weightsModel(projectSheetsOf(made).values)!;
    for (const { budget, forecast } of components) {
      expect(budget! - forecast).toBeGreaterThanOrEqual(0);
      expect(budget! - forecast).toBeLessThan(0.1);
    }
    expect(total.budget).toBeCloseTo(
      components.reduce((sum, { budget }) => sum + budget!, 0),
      9,
    );
  });
});

describe('signed figures', () => {
  it('have a true minus, and none where nothing is left of them', () => {
    expect([2.345, -2.345, -0.001, 0, undefined].map((value) => signed(value, figures('in-lb').weight))).toEqual([
      '+2.35',
      '−2.35',
      '0.00',
      '0.00',
      '',
    ]);
    expect(signed(-2.345, figures('mm-kg').weight)).toBe('−1.064');
  });

  it('name a gauge as sheet is ordered, in the unit of the column', () => {
    expect([0.02, 0.0625, 0.125, 1].map((thickness) => gauge(thickness, undefined))).toEqual([
      '.020',
      '.0625',
      '.125',
      '1.000',
    ]);
    expect(gauge(0.025, unitIn('length', 'mm-kg'))).toBe('0.635');
  });
});
