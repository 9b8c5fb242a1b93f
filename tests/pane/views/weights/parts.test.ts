import { describe, expect, it } from 'vitest';
import { filledBudget, newBudget } from '../../../../src/pane/views/weights/new-budget';
import { figures, gauge, signed } from '../../../../src/pane/views/weights/weight-figures';
import { unitIn } from '../../../../src/core/quantity';
import { rowRuns } from '../../../../src/pane/views/weights/weights-store';
import { BUDGET, projectSheetsOf, readForm, weightsModel } from '../../../../src/project';
import { withWrites } from '../../../../src/pane/views/weights/what-if/book-copy';
import type { Cell } from '../../../../src/sheet';
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

describe('a budget from today’s forecast, in the workbook that was just made ready', () => {
  it('is written into the sheet Budget that is there, beside the components that are typed', () => {
    const cells = (rows: readonly (readonly Cell[])[]) => rows.map((row) => row.map((value) => ({ value })));
    const book = smallBook({ budget: false });
    const ready = {
      ...book,
      sheets: [
        ...book.sheets,
        {
          name: 'Budget',
          tables: [],
          cells: cells([
            ['Against the design weight'],
            [],
            ['Component', 'Budget (kg)'],
            [],
            [model.components[1]!.name, null],
            ['x', 3],
          ]),
        },
      ],
    };
    const { cells: values } = ready.sheets.at(-1)!;
    const form = readForm(
      BUDGET,
      values.map((line) => line.map((cell) => cell?.value ?? null)),
    )!;
    const below = Array.from({ length: 12 }, (_row, row) =>
      Array.from({ length: 3 }, (_column, column) => values[3 + row]?.[column]?.value ?? null),
    );
    const edits = filledBudget(model, form, below);
    expect(edits.some(({ kind }) => kind === 'addSheet')).toBe(false);
    const { components } = weightsModel(projectSheetsOf(withWrites(ready, edits)).values)!;
    const before = weightsModel(projectSheetsOf(ready).values)!;
    expect(before.components.every(({ budget }) => budget === undefined || budget > 0)).toBe(true);
    for (const { name, budget, forecast } of components.filter(({ name }) => name !== 'x')) {
      expect(budget! - forecast, name).toBeGreaterThanOrEqual(-1e-9);
      // A tenth of a kilogram.
      expect(budget! - forecast, name).toBeLessThan(0.2205);
    }
    // What was typed stays: nothing is written over, and nothing twice.
    expect(components.filter(({ name }) => name === model.components[1]!.name)).toHaveLength(1);
    expect(components.find(({ name }) => name === 'x')!.budget).toBeCloseTo(3 / 0.45359237, 6);
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
