import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  loadWorkbook,
  calculatorHere,
  inTurns,
  startEngine,
  type EngineOptions,
  UniverWorkbook,
} from '../../../src/hosts/univer';
import type { Edit, WorkbookModel } from '../../../src/sheet';
import { calculatorLate } from './late-calculator';

/** A table with formulas under it and beside it, so that a result in the wrong place would be seen. */
const model: WorkbookModel = {
  styles: [],
  names: [],
  sheets: [
    {
      name: 'Parts',
      tables: [
        {
          name: 'Sizes',
          range: { sheet: 'Parts', row: 0, column: 0, rows: 4, columns: 2 },
          columns: ['size', 'twice'],
        },
      ],
      cells: [
        [{ value: 'size' }, { value: 'twice' }, undefined, { value: 24, formula: 'SUM(Sizes[size])' }],
        [{ value: 1 }, { value: null }],
        [{ value: 2 }, { value: null }],
        [{ value: 3 }, { value: null }],
        [],
        [
          { value: 6, formula: 'SUM(A2:A4)' },
          { value: 12, formula: 'A6*2' },
        ],
      ],
    },
  ],
};

type Step = {
  readonly kind: 'put' | 'insert' | 'remove';
  readonly at: number;
  readonly value: number;
  readonly pause: number;
};
const step = fc.record<Step>({
  kind: fc.constantFrom('put', 'put', 'insert', 'remove'),
  at: fc.nat(20),
  value: fc.integer({ min: 1, max: 99 }),
  pause: fc.constantFrom(-1, 0, 1, 3, 10, 25),
});
const wait = (ms: number): Promise<void> =>
  ms < 0 ? Promise.resolve() : new Promise((resolve) => setTimeout(resolve, ms));
let opened = 0;

const delays = [0, 0, 1, 5, 20];
let asked = 0;
const CALCULATORS: readonly (readonly [words: string, options: EngineOptions])[] = [
  ['in this thread', { calculator: calculatorHere }],
  ['that answers late', { calculator: calculatorLate(() => delays[(asked += 1) % delays.length]!), turns: inTurns }],
];

describe.each(CALCULATORS)('edits while the sheet is being calculated by a calculator %s', (_words, options) => {
  it('leave every value in its place, and the right results', { timeout: 600_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 14 }), async (steps) => {
        const engine = startEngine(options);
        const id = `race ${(opened += 1)}`;
        loadWorkbook(engine, model, id, 'Book');
        const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
        let sizes = [1, 2, 3];
        let undone: number[] | undefined;
        for (const { kind, at, value, pause } of steps) {
          const row = at % sizes.length;
          let edit: Edit;
          undone = sizes;
          if (kind === 'put') {
            edit = {
              kind: 'write',
              range: { sheet: 'Parts', row: row + 1, column: 0, rows: 1, columns: 1 },
              cells: [[value]],
            };
            sizes = sizes.with(row, value);
          } else if (kind === 'insert' || sizes.length === 1) {
            edit = { kind: 'insertTableRows', table: 'Sizes', at: row, cells: [[value]] };
            sizes = sizes.toSpliced(row, 0, value);
          } else {
            edit = { kind: 'removeTableRows', table: 'Sizes', at: row, count: 1 };
            sizes = sizes.toSpliced(row, 1);
          }
          await workbook.apply(kind, [edit]);
          await wait(pause);
        }
        const check = async (expected: readonly number[]): Promise<void> => {
          const cells = await workbook.read({
            sheet: 'Parts',
            row: 1,
            column: 0,
            rows: expected.length + 3,
            columns: 4,
          });
          const sum = expected.reduce((total, one) => total + one, 0);
          const under = cells[expected.length + 1]!;
          expect(cells.map((line) => line[0])).toEqual([...expected, null, under[0], null]);
          // The sum under the table has an error once all the rows are gone that it was written for.
          expect(under[0]).not.toBeNull();
          if (typeof under[0] === 'number') expect(under[1]).toBe(under[0] * 2);
          expect((await workbook.read({ sheet: 'Parts', row: 0, column: 3, rows: 1, columns: 1 }))[0]![0]).toBe(sum);
        };
        await workbook.settled();
        await check(sizes);
        await workbook.undo();
        await workbook.settled();
        await check(undone!);
        await workbook.settled();
        engine.univer.dispose();
      }),
      { numRuns: Number(process.env['TAREBOOK_RUNS'] ?? 25), endOnFailure: true },
    );
  });
});

describe('a long sheet that is read while it is edited', () => {
  const ROWS = 12_000;
  const long: WorkbookModel = {
    styles: [],
    names: [],
    sheets: [
      {
        name: 'Long',
        tables: [],
        cells: Array.from({ length: ROWS }, (_none, row) => [
          { value: 1 },
          { value: 1, formula: row === 0 ? 'A1' : `B${row}+A${row + 1}-1` },
        ]),
      },
    ],
  };

  it.each(CALCULATORS)('is read as it stands at one moment, by a calculator %s', async (_words, options) => {
    const engine = startEngine({ ...options, turns: inTurns });
    loadWorkbook(engine, long, 'long', 'Book');
    const workbook = new UniverWorkbook(engine, 'long', 'headless', 'Book');
    await workbook.settled();
    const type = (value: number) =>
      workbook.apply('Type', [
        {
          kind: 'write',
          range: { sheet: 'Long', row: 0, column: 0, rows: 1, columns: 1 },
          cells: [[value]],
        },
      ]);
    for (const pause of [0, 2, 5, 10]) {
      const reading = workbook.readSheets([{ sheet: 'Long', formulas: true }]);
      await wait(pause);
      await type(100 + pause);
      const [content] = await reading;
      expect(content!.values).toHaveLength(ROWS);
      expect(content!.formulas).toHaveLength(ROWS);
      // Before the edit or after it, results and all.
      const first = content!.values[0]![0];
      expect(new Set(content!.values.map((line) => line[1]))).toEqual(new Set([first]));
      await workbook.settled();
    }
    engine.univer.dispose();
  });
});
