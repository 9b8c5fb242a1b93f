/** After an edit only what hangs on it is calculated: the results are those of calculating everything. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Calculator, type Calculation } from '../../src/calculation';
import { CellError, type CellModel, type Result, type WorkbookModel } from '../../src/sheet';

const SIZE = 6;

const FORMULAS = [
  'A1+1',
  'B2*C3',
  'SUM(A1:C3)',
  'SUM(A:A)',
  'IF(A1>2,B1,C1)',
  'A1:A3*2',
  'B1:C2',
  'C3#',
  'SUM(C3#)',
  'TARE.AREA.RECT(A1:A3,B1:B3)',
  'TARE.WEIGHT.SHEET(A1,0.02,"6061-T6")',
  'TARE.AREA.RECT(A1,B1)',
  'VLOOKUP(A1,B1:D6,2,FALSE)',
  'INDEX(A1:C6,A1,2)',
  'SUM(A1:INDEX(A1:A6,2))',
  'COUNTIF(A1:F6,">1")',
  'ROWS(C3#)',
  'Other!A1*2',
  'SUM(Other!A1:B2)',
  'A1&"x"',
  'FILTER(A1:A6,B1:B6>0)',
  'SUBTOTAL(9,A1:B6)',
  'LEN(D4)',
  'ISBLANK(E5)',
  'Total+1',
  'ROWS(UNIQUE(A1:C6))',
  'ROW(INDEX(A1:A6,B2))',
  'SUMIF(A1:A6,">0",B1)',
  'SUM(INDEX(A1:C6,A1,1):INDEX(A1:C6,3,B1))',
  'OFFSET(A1,B1,C1)',
  'SUM(OFFSET(B2,0,0,A1,2))',
  'INDIRECT("A"&B1)',
  'SEQUENCE(A1)',
  'SEQUENCE(1,B1)',
  'SUM(B2#)',
  'IF(A1>0,D4,B1)',
  'IF(B1>0,C3,A1)',
  'ROWS(A:A)+COLUMNS(1:1)',
  'SUMPRODUCT(A:A*(Other!A:A>0))',
  'NOSUCH(A1)',
  'CHOOSE(A1,B1,C2,D4)',
];

const content = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: -2, max: 5 }).map((value): CellModel => ({ value })) },
  { weight: 1, arbitrary: fc.constantFrom('x', '3', '').map((value): CellModel => ({ value })) },
  { weight: 1, arbitrary: fc.constant<CellModel | undefined>(undefined) },
  {
    weight: 4,
    arbitrary: fc
      .constantFrom(...FORMULAS)
      .map((formula): CellModel => ({ value: formula.startsWith('NOSUCH') ? 3 : null, formula })),
  },
);
const place = fc.record({ sheet: fc.constantFrom(0, 0, 1), row: fc.nat(SIZE - 1), column: fc.nat(SIZE - 1) });
const edit = fc.record({ place, content });

const empty = (): WorkbookModel => ({
  sheets: ['Parts', 'Other'].map((name) => ({ name, cells: Array.from({ length: SIZE }, () => []), tables: [] })),
  names: [{ name: 'Total', refersTo: 'Parts!$A$1' }],
  styles: [],
});

const keyOf = ({ sheet, row, column }: { sheet: number; row: number; column: number }): string =>
  `${sheet} ${row} ${column}`;
const plain = (result: Result): unknown =>
  JSON.stringify(result, (_key, value: unknown) =>
    value instanceof CellError ? `${value.code} ${value.message}` : value,
  );
const noted = (shown: Map<string, unknown>, { results }: Calculation): void =>
  results.forEach((one) => void shown.set(keyOf(one), plain(one.result)));
const markedIn = ({ notRecalculated }: Calculation): string[] => notRecalculated.map(keyOf).sort();

function calculatedWhole(model: WorkbookModel): { shown: Map<string, unknown>; marked: string[] } {
  const shown = new Map<string, unknown>();
  const calculation = new Calculator({
    ...model,
    sheets: model.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map((line) => [...line]) })),
  }).run();
  noted(shown, calculation);
  return { shown, marked: markedIn(calculation) };
}

describe('an update after edits', () => {
  it('gives what calculating everything gives, for any edits', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(
        fc.array(edit, { minLength: 5, maxLength: 20 }),
        fc.array(fc.array(edit, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 12 }),
        fc.boolean(),
        (filling, steps, prepares) => {
          const model = empty();
          for (const { place: at, content: cell } of filling) model.sheets[at.sheet]!.cells[at.row]![at.column] = cell;
          const calculator = new Calculator(model, true);
          const shown = new Map<string, unknown>();
          noted(shown, calculator.run());
          for (const step of steps) {
            if (prepares) calculator.prepare();
            for (const { place: at, content: cell } of step) {
              calculator.edit(at.sheet, at.row, at.column, cell);
              shown.delete(keyOf(at));
            }
            const calculation = calculator.update();
            for (const circle of calculation.circles)
              for (const { grid, row, column } of circle) shown.delete(keyOf({ sheet: grid.index, row, column }));
            noted(shown, calculation);
            const whole = calculatedWhole(model);
            expect(markedIn(calculation)).toEqual(whole.marked);
            expect(Object.fromEntries(shown)).toEqual(Object.fromEntries(whole.shown));
          }
        },
      ),
      { numRuns: Number(process.env['FUZZ_RUNS'] ?? 300) },
    );
  });

  it('gives the same where ranges are long or wide, and where much changes at once', () => {
    const model = empty();
    const cells = model.sheets[0]!.cells;
    const ROWS = 1200;
    const COLUMNS = 80;
    for (let row = 0; row < ROWS; row++)
      cells[row] = [
        { value: row },
        { value: null, formula: `A${row + 1}*$E$1` },
        { value: null, formula: `SUM(B$1:B${row + 1})` },
        { value: null, formula: `SUM(B${row + 1}:B${row + 3})` },
      ];
    cells[0]![4] = { value: 2 };
    for (let column = 5; column < COLUMNS; column++) cells[0]![column] = { value: column };
    cells[1]![5] = { value: null, formula: 'SUM(A1:CA1)' };
    cells[2]![5] = { value: null, formula: 'SUM(Other!A1:A400)+SUM(C:C)' };
    const calculator = new Calculator(model, true);
    const shown = new Map<string, unknown>();
    noted(shown, calculator.run());
    calculator.prepare();
    const edits: readonly (readonly [sheet: number, row: number, column: number, results: number])[] = [
      // Its product, the totals from there on, the sums of three that hold it, and the total of the totals.
      [0, ROWS - 5, 0, 1 + 5 + 3 + 1],
      [0, 0, COLUMNS - 2, 1],
      [1, 20, 0, 1],
      [0, 0, 4, 3 * ROWS + 1 - 1 + 1],
      [0, 3, 0, 1 + (ROWS - 3) + 3 + 1],
    ];
    for (const [sheet, row, column, results] of edits) {
      calculator.edit(sheet, row, column, { value: 1000 + row });
      const calculation = calculator.update();
      noted(shown, calculation);
      const whole = calculatedWhole(model);
      expect(Object.fromEntries(shown)).toEqual(Object.fromEntries(whole.shown));
      expect({ row, column, results: calculation.results.length }).toEqual({ row, column, results });
    }
  });

  it('calculates just what hangs on the edit', () => {
    const model = empty();
    const cells = model.sheets[0]!.cells;
    for (let row = 0; row < SIZE; row++)
      cells[row]!.push(
        { value: row },
        { value: null, formula: `A${row + 1}*2` },
        { value: null, formula: `B${row + 1}+1` },
      );
    cells[0]![4] = { value: null, formula: 'SUM(C1:C3)' };
    const calculator = new Calculator(model, true);
    calculator.run();
    calculator.edit(0, 1, 0, { value: 10 });
    expect(calculator.update().results).toEqual([
      { sheet: 0, row: 1, column: 1, result: 20 },
      { sheet: 0, row: 1, column: 2, result: 21 },
      { sheet: 0, row: 0, column: 4, result: 1 + 21 + 5 },
    ]);
    calculator.edit(0, 5, 5, { value: 'a remark' });
    expect(calculator.update().results).toEqual([]);
  });

  it('follows a formula that is typed, changed and taken away, and a value in the way of a spill', () => {
    const model = empty();
    const [first] = model.sheets;
    first!.cells[0] = [{ value: 1 }, { value: null, formula: 'A1:A3*2' }];
    first!.cells[1] = [{ value: 2 }];
    first!.cells[2] = [{ value: 3 }, undefined, { value: null, formula: 'SUM(B1:B3)' }];
    const calculator = new Calculator(model, true);
    calculator.run();
    const given = (): unknown =>
      Object.fromEntries(
        calculator
          .update()
          .results.map((one) => [keyOf(one), one.result instanceof CellError ? one.result.code : one.result]),
      );
    calculator.edit(0, 1, 1, { value: 7 });
    expect(given()).toEqual({ '0 0 1': '#SPILL!', '0 2 2': '#SPILL!' });
    calculator.edit(0, 1, 1, undefined);
    expect(given()).toEqual({ '0 0 1': [[2], [4], [6]], '0 2 2': 12 });
    calculator.edit(0, 4, 0, { value: null, formula: 'C3+1' });
    expect(given()).toEqual({ '0 4 0': 13 });
    calculator.edit(0, 0, 1, { value: 5 });
    expect(given()).toEqual({ '0 2 2': 5, '0 4 0': 6 });
  });
});
