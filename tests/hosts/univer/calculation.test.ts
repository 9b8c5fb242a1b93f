/** The embedded engine with the calculator in it: edits in the grid, against recalculating what they left. */
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Calculator } from '../../../src/calculation';
import { recalculate, type Recalculation } from '../../../src/calculation';
import {
  calculate,
  loadWorkbook,
  calculatorHere,
  startEngine,
  UniverWorkbook,
  type Engine,
  inTurns,
  type EngineOptions,
} from '../../../src/hosts/univer';
import {
  CellError,
  type Cell,
  type CellInput,
  type CellModel,
  type Edit,
  type WorkbookModel,
} from '../../../src/sheet';
import { calculatorLate } from './late-calculator';

const MODEL: WorkbookModel = {
  styles: [{ numberFormat: '$#,##0.00' }],
  names: [{ name: 'Waste', refersTo: 'Parts!$F$1' }],
  sheets: [
    {
      name: 'Parts',
      tables: [
        {
          name: 'Sizes',
          range: { sheet: 'Parts', row: 0, column: 0, rows: 5, columns: 3 },
          columns: ['length', 'width', 'area'],
        },
      ],
      cells: [
        [{ value: 'length' }, { value: 'width' }, { value: 'area' }, undefined, undefined, { value: 1.15 }],
        [
          { value: 4 },
          { value: 5 },
          { value: null, formula: 'TARE.AREA.RECT(A2:A5,B2:B5)' },
          undefined,
          { value: null, formula: 'SUM(Sizes[length])' },
        ],
        [{ value: 6 }, { value: 7 }, undefined, undefined, { value: null, formula: 'SUM(C2#)*Waste' }],
        [{ value: 8 }, { value: 9 }, undefined, undefined, { value: null, formula: 'TARE.AREA.RECT(A4,B4)' }],
        [{ value: 10 }, { value: 11 }, undefined, undefined, { value: null, formula: 'E4*2' }],
      ],
    },
    {
      name: 'Sums',
      tables: [],
      cells: [[{ value: null, formula: 'SUM(Parts!C2:C5)' }], [{ value: null, formula: 'A1/2' }]],
    },
  ],
};

let opened = 0;
async function open(
  model = MODEL,
  options: EngineOptions = { calculator: calculatorHere },
): Promise<{ engine: Engine; workbook: UniverWorkbook; close: () => void }> {
  const engine = startEngine(options);
  const id = `calculated ${(opened += 1)}`;
  loadWorkbook(engine, model, id, 'Book');
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  await calculate(engine);
  return { engine, workbook, close: () => engine.univer.dispose() };
}

const write = (row: number, column: number, content: CellInput, sheet = 'Parts'): Edit => ({
  kind: 'write',
  range: { sheet, row, column, rows: 1, columns: 1 },
  cells: [[content]],
});
const valueAt = async (workbook: UniverWorkbook, row: number, column: number, sheet = 'Parts'): Promise<Cell> =>
  (await workbook.read({ sheet, row, column, rows: 1, columns: 1 }))[0]![0]!;
const after = async (workbook: UniverWorkbook, ...edits: Edit[]): Promise<void> => {
  await workbook.apply('edit', edits);
  await workbook.settled();
};

const shown = (cell: CellModel | undefined): unknown => {
  const value = cell?.value ?? null;
  return value instanceof CellError
    ? value.code
    : value === ''
      ? null
      : typeof value === 'number'
        ? Number(value.toPrecision(12))
        : value;
};
const valuesOf = ({ sheets }: WorkbookModel): unknown =>
  sheets.map(({ name, cells }) => [
    name,
    cells.flatMap((line, row) =>
      (line ?? []).flatMap((cell, column) => (shown(cell) === null ? [] : [`${row} ${column} ${String(shown(cell))}`])),
    ),
  ]);

/** The same workbook read as a file is, and calculated from nothing. */
async function recalculated(workbook: UniverWorkbook): Promise<Recalculation> {
  const now = workbook.toModel(MODEL);
  const bare = now.sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((line) =>
      line.map((cell) =>
        cell?.spilled ? undefined : cell?.formula === undefined ? cell : { value: null, formula: cell.formula },
      ),
    ),
  }));
  return recalculate({ ...now, sheets: bare });
}

const FORMULAS = [
  '=A2+B2',
  '=SUM(A2:B9)',
  '=A2:A4*2',
  '=Sizes[width]*2',
  '=C2#',
  '=Waste*A3',
  '=TARE.AREA.RECT(A2:A9,B2:B9)',
  '=TARE.AREA.RECT(A2,B2)',
  '=Sums!A1+1',
  '=SUM(A:A)',
  '=COUNTIF(A2:A9,">5")',
  '=1/0',
  '=IF(A3>6,B3,"small")',
];

type Step =
  | { readonly kind: 'write'; readonly row: number; readonly column: number; readonly content: CellInput }
  | { readonly kind: 'insertRow' | 'removeRow' | 'insertColumn' | 'removeColumn'; readonly at: number }
  | { readonly kind: 'tableRow'; readonly at: number; readonly value: number }
  | { readonly kind: 'undo' | 'redo' | 'rename' | 'name' };

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant('write' as const),
      row: fc.integer({ min: 1, max: 8 }),
      column: fc.integer({ min: 0, max: 6 }),
      content: fc.oneof<fc.Arbitrary<CellInput>[]>(
        fc.integer({ min: 1, max: 20 }),
        fc.constantFrom(null, 'text'),
        fc.constantFrom(...FORMULAS).map((formula) => ({ formula })),
      ),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom(
        'insertRow' as const,
        'removeRow' as const,
        'insertColumn' as const,
        'removeColumn' as const,
      ),
      at: fc.integer({ min: 1, max: 7 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('tableRow' as const),
      at: fc.integer({ min: 0, max: 3 }),
      value: fc.integer({ min: 1, max: 9 }),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom('undo' as const, 'redo' as const, 'rename' as const, 'name' as const),
    }),
  },
);

async function take(one: Step, { engine, workbook }: { engine: Engine; workbook: UniverWorkbook }): Promise<void> {
  const sheet = engine.api.getActiveWorkbook()!.getSheets()[0]!;
  if (one.kind === 'write')
    await workbook.apply('edit', [write(one.row, one.column, one.content, sheet.getSheetName())]);
  if (one.kind === 'insertRow') sheet.insertRowsBefore(one.at, 1);
  if (one.kind === 'removeRow') sheet.deleteRows(one.at, 1);
  if (one.kind === 'insertColumn') sheet.insertColumnsBefore(one.at, 1);
  if (one.kind === 'removeColumn') sheet.deleteColumns(one.at, 1);
  if (one.kind === 'tableRow')
    await workbook
      .apply('row', [{ kind: 'insertTableRows', table: 'Sizes', at: one.at, cells: [[one.value, one.value]] }])
      .catch(() => undefined);
  if (one.kind === 'undo') await workbook.undo();
  if (one.kind === 'redo') await workbook.redo();
  if (one.kind === 'rename') sheet.setName(sheet.getSheetName() === 'Parts' ? 'Pieces' : 'Parts');
  if (one.kind === 'name')
    engine.api.getActiveWorkbook()!.getDefinedName('Waste')?.setRef(`${sheet.getSheetName()}!$A$2`);
}

describe('calculation in the engine', () => {
  it('gives after any edits what recalculating the workbook gives', { timeout: 300_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 10 }), async (steps) => {
        const book = await open();
        for (const one of steps) {
          await take(one, book);
          await book.workbook.settled();
        }
        const fresh = await recalculated(book.workbook);
        // Formulas in a circle keep their values, which hang on what was there before.
        if (fresh.kept.length === 0) expect(valuesOf(book.workbook.toModel(MODEL))).toEqual(valuesOf(fresh.model));
        book.close();
      }),
      { numRuns: Number(process.env['TAREBOOK_RUNS'] ?? 40) },
    );
  });

  it(
    'gives the same by a calculator that answers late, while one edit follows the other',
    { timeout: 300_000 },
    async () => {
      let asked = 0;
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.tuple(step, fc.constantFrom(-1, 0, 3, 20)), { minLength: 3, maxLength: 10 }),
          fc.array(fc.constantFrom(0, 1, 4, 15), { minLength: 1, maxLength: 5 }),
          async (steps, delays) => {
            const calculator = calculatorLate(() => delays[(asked += 1) % delays.length]!);
            const book = await open(MODEL, { calculator, turns: inTurns });
            for (const [one, pause] of steps) {
              await take(one, book);
              if (pause >= 0) await new Promise((resolve) => setTimeout(resolve, pause));
            }
            await book.workbook.settled();
            const fresh = await recalculated(book.workbook);
            if (fresh.kept.length === 0) expect(valuesOf(book.workbook.toModel(MODEL))).toEqual(valuesOf(fresh.model));
            book.close();
          },
        ),
        { numRuns: Number(process.env['TAREBOOK_RUNS'] ?? 40) },
      );
    },
  );

  it('has a function that is not known be an error in its cell, and leaves all others as they are', async () => {
    const { workbook, close } = await open();
    const before = valuesOf(workbook.toModel(MODEL));
    await after(workbook, write(6, 1, { formula: '=NOSUCH(A7,5,100)' }));
    expect(await valueAt(workbook, 6, 1)).toEqual(new CellError('#NAME?'));
    expect(await workbook.explain('Parts', 6, 1)).toContain('NOSUCH');
    await workbook.undo();
    await workbook.settled();
    expect(valuesOf(workbook.toModel(MODEL))).toEqual(before);
    close();
  });

  it('of a formula that nobody can read is an error in its cell alone, which says why', async () => {
    const { workbook, close } = await open();
    await after(
      workbook,
      write(7, 0, { formula: '=1+' }),
      write(7, 1, { formula: '=NOSUCH(1)' }),
      write(7, 2, { formula: '=A2+1' }),
    );
    expect(await workbook.read({ sheet: 'Parts', row: 7, column: 0, rows: 1, columns: 3 })).toEqual([
      [new CellError('#VALUE!'), new CellError('#NAME?'), 5],
    ]);
    expect(await workbook.explain('Parts', 7, 0)).toMatch(/missing/);
    expect(await workbook.explain('Parts', 7, 1)).toMatch(/^There is no function NOSUCH/);
    close();
  });

  it('explains an error by what now gives it, and not by what the cell held before', async () => {
    const { workbook, close } = await open();
    await after(
      workbook,
      write(7, 0, { formula: '=TARE.AREA.RECT(-1,2)' }),
      write(7, 1, { formula: '=TARE.AREA.RECT(1,-2)' }),
    );
    expect(await workbook.explain('Parts', 7, 1)).toMatch(/^width: got -2/);
    await after(workbook, write(7, 1, { formula: '=A8*2' }));
    expect(await workbook.explain('Parts', 7, 1)).toMatch(/^A8: length: got -1/);
    close();
  });

  it('keeps all values where the calculator itself is at fault, tells that, and goes on with the next edit', async () => {
    const { engine, workbook, close } = await open();
    const fault = vi.spyOn(Calculator.prototype, 'update').mockImplementation(() => {
      throw new Error('a fault of ours');
    });
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    await after(workbook, write(1, 0, 40));
    expect([await valueAt(workbook, 1, 4), await valueAt(workbook, 1, 2)]).toEqual([28, 20]);
    expect(engine.calculation.fault).toMatchObject({ message: 'a fault of ours' });
    expect(told).toHaveBeenCalled();
    fault.mockRestore();
    told.mockRestore();
    await after(workbook, write(1, 0, 50));
    expect(await valueAt(workbook, 1, 4)).toBe(74);
    expect(engine.calculation.fault).toBeUndefined();
    close();
  });

  it('gives a typed formula the number format of what it hands on', async () => {
    const { engine, workbook, close } = await open();
    await after(
      workbook,
      { kind: 'format', range: { sheet: 'Parts', row: 1, column: 0, rows: 1, columns: 1 }, numberFormat: '$#,##0.00' },
      write(9, 0, { formula: '=A2' }),
      write(9, 1, { formula: '=DATE(2026,1,2)' }),
      write(9, 2, { formula: '=A2*2' }),
    );
    const book = engine.api.getActiveWorkbook()!.getWorkbook();
    const formats = [0, 1, 2].map(
      (column) =>
        book.getStyles().getStyleByCell(book.getSheetByIndex(0)!.getCellMatrix().getValue(9, column))?.n?.pattern,
    );
    expect(formats).toEqual(['$#,##0.00', expect.stringMatching(/^yyyy/), undefined]);
    close();
  });

  it('keeps the values of formulas that go round in a circle, and calculates the others', async () => {
    const { workbook, close } = await open();
    await after(workbook, write(3, 4, { formula: '=E5+1' }), write(1, 0, 40));
    expect([await valueAt(workbook, 1, 4), await valueAt(workbook, 1, 2)]).toEqual([64, 200]);
    await after(workbook, write(3, 4, { formula: '=A4' }));
    expect([await valueAt(workbook, 3, 4), await valueAt(workbook, 4, 4)]).toEqual([8, 16]);
    close();
  });

  it('leaves what is in the way of a result as it is, in the workbook too that is saved', async () => {
    const { workbook, close } = await open();
    await after(workbook, write(2, 2, 'mine'), write(3, 2, { formula: '=A2+1' }));
    const saved = workbook.toModel(MODEL).sheets[0]!.cells;
    expect([saved[1]?.[2]?.value, saved[2]?.[2], saved[3]?.[2], saved[4]?.[2]]).toEqual([
      expect.objectContaining({ code: '#SPILL!' }),
      { value: 'mine' },
      { value: 5, formula: 'A2+1' },
      undefined,
    ]);
    close();
  });

  it('says which cells are in the way of a result, and fills them once they are free', async () => {
    const { workbook, close } = await open();
    await after(workbook, write(2, 2, 'mine'));
    expect(await workbook.read({ sheet: 'Parts', row: 1, column: 2, rows: 3, columns: 1 })).toEqual([
      [new CellError('#SPILL!')],
      ['mine'],
      [null],
    ]);
    expect(await workbook.explain('Parts', 1, 2)).toMatch(/needs 4 × 1 cells/);
    await after(workbook, write(2, 2, null));
    expect(await workbook.read({ sheet: 'Parts', row: 1, column: 2, rows: 4, columns: 1 })).toEqual([
      [20],
      [42],
      [72],
      [110],
    ]);
    close();
  });

  it('follows a formula that is filled down, which the engine keeps once for all its cells', async () => {
    const { engine, workbook, close } = await open();
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    sheet.getRange(1, 8, 1, 1).setValue({ f: '=A2*$B$2', si: 'filled' });
    sheet.getRange(2, 8, 3, 1).setValues([[{ si: 'filled' }], [{ si: 'filled' }], [{ si: 'filled' }]]);
    await workbook.settled();
    const products = (): Promise<Cell[][]> => workbook.read({ sheet: 'Parts', row: 1, column: 8, rows: 4, columns: 1 });
    expect(await products()).toEqual([[20], [30], [40], [50]]);
    await after(workbook, write(1, 1, 2), write(1, 8, { formula: '=A2' }));
    expect(await products()).toEqual([[4], [12], [16], [20]]);
    sheet.insertRowsBefore(3, 1);
    await workbook.settled();
    expect(await workbook.read({ sheet: 'Parts', row: 1, column: 8, rows: 5, columns: 1 })).toEqual([
      [4],
      [12],
      [null],
      [16],
      [20],
    ]);
    close();
  });

  it('finds the columns of a table by their titles after others came and went', async () => {
    const { engine, workbook, close } = await open();
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    await after(
      workbook,
      write(6, 6, { formula: '=SUM(Sizes[width])' }),
      write(7, 6, { formula: '=SUM(Sizes[length])' }),
    );
    const sums = (column: number): Promise<Cell[]> =>
      Promise.all([valueAt(workbook, 6, column), valueAt(workbook, 7, column)]);
    expect(await sums(6)).toEqual([32, 28]);
    sheet.insertColumnsBefore(1, 1);
    await workbook.settled();
    expect((await workbook.tables())[0]!.columns).toEqual(['length', 'Column2', 'width', 'area']);
    expect(await sums(7)).toEqual([32, 28]);
    sheet.deleteColumns(0, 1);
    await workbook.settled();
    expect((await workbook.tables())[0]!.columns).toEqual(['Column2', 'width', 'area']);
    expect(await sums(6)).toEqual([32, expect.any(CellError)]);
    await workbook.undo();
    await workbook.settled();
    expect((await workbook.tables())[0]!.columns).toEqual(['length', 'Column2', 'width', 'area']);
    expect(await sums(7)).toEqual([32, 28]);
    close();
  });
});
