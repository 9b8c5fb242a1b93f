/** Random workbooks and random edits, written, patched and read back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CellError, type Cell, type CellModel, type SheetModel, type WorkbookModel } from '../../src/sheet';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../src/xlsx';
import { fixture } from './parts';

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 150);

const text = fc
  .oneof(
    fc.string({ unit: 'binary', maxLength: 12 }),
    fc.string({ maxLength: 12 }),
    fc.constantFrom(' a ', 'line\nbreak', '_x0041_', ']]>', '&amp;', '=1+1', '\u0000\u001f\r', '<c r="A1"/>'),
  )
  .map((one) =>
    // Half a pair of surrogates is no text, and XML cannot hold it.
    Buffer.from(one, 'utf8').toString('utf8'),
  );
const value: fc.Arbitrary<Cell> = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
  fc.integer(),
  text.filter((one) => one !== ''),
  fc.boolean(),
  fc.constantFrom(new CellError('#N/A'), new CellError('#DIV/0!')),
);
const formula = fc.constantFrom(
  'A1+1',
  'SUM(A1:B2)',
  '"a<b>"&C3',
  "'Rib''s'!A1",
  'TARE.AREA.RECT(A1,2)',
  'XLOOKUP(1,A1:A3,B1:B3)',
);
const style = fc.integer({ min: 1, max: 3 });
const cell: fc.Arbitrary<CellModel | undefined> = fc.oneof(
  { weight: 3, arbitrary: fc.constant(undefined) },
  { weight: 3, arbitrary: value.map((one): CellModel => ({ value: one })) },
  { weight: 1, arbitrary: fc.tuple(value, style).map(([one, index]): CellModel => ({ value: one, style: index })) },
  { weight: 1, arbitrary: style.map((index): CellModel => ({ value: null, style: index })) },
  { weight: 1, arbitrary: fc.tuple(value, formula).map(([one, typed]): CellModel => ({ value: one, formula: typed })) },
);
const grid = fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 8 });
const styles = [
  {},
  { bold: true },
  { numberFormat: '0.00', fill: '#ffeedd' },
  { italic: true, align: 'center' as const, wrap: true, color: '#112233', size: 20, borderBottom: true },
];

const book = (cells: readonly (readonly (CellModel | undefined)[])[]): WorkbookModel => ({
  styles,
  names: [],
  sheets: [{ name: 'Parts', cells: cells.map((line) => [...line]), tables: [] }],
});

/** Cells as they count: without blanks at the end, marks of the file, and the difference of a blank and no cell. */
function counted({ cells }: SheetModel, list: readonly object[]): string {
  const plain = (one: CellModel | undefined): unknown => {
    if (!one) return null;
    const shown =
      one.value instanceof CellError
        ? one.value.code
        : typeof one.value === 'number'
          ? String(one.value)
          : one.value === ''
            ? null
            : one.value;
    const looks = one.style === undefined ? [] : Object.entries(list[one.style] ?? {}).sort();
    return shown === null && one.formula === undefined && looks.length === 0
      ? null
      : [typeof one.value, shown, one.formula ?? null, looks];
  };
  const rows = Array.from(cells, (line) => {
    const all = Array.from(line ?? [], plain);
    while (all.at(-1) === null) all.pop();
    return all;
  });
  while (rows.at(-1)?.length === 0) rows.pop();
  return JSON.stringify(rows);
}

describe('any workbook', () => {
  it('reads back as it was written', async () => {
    await fc.assert(
      fc.asyncProperty(grid, async (cells) => {
        const read = readWorkbook(await writeWorkbook(book(cells)));
        expect(counted(read.sheets[0]!, read.styles)).toBe(counted(book(cells).sheets[0]!, styles));
      }),
      { numRuns: RUNS },
    );
  });

  it('becomes another one by a patch', async () => {
    await fc.assert(
      fc.asyncProperty(grid, grid, async (from, to) => {
        const bytes = await writeWorkbook(book(from));
        const before = readWorkbook(bytes);
        const read = readWorkbook(patchWorkbook(bytes, difference(before, book(to))));
        // Looks cannot be taken away by a patch: a cell that gives up its content keeps them.
        const bare = ({ cells }: SheetModel): SheetModel => ({
          name: '',
          tables: [],
          cells: cells.map((line) =>
            line.map(
              (one) => one && { value: one.value, ...(one.formula === undefined ? {} : { formula: one.formula }) },
            ),
          ),
        });
        expect(counted(bare(read.sheets[0]!), [])).toBe(counted(bare(book(to).sheets[0]!), []));
      }),
      { numRuns: RUNS },
    );
  });
});

describe.each(['xlsxwriter', 'libreoffice', 'openpyxl', 'exceljs', 'prefixed'])(
  'edits of a workbook of %s',
  (writer) => {
    const bytes = fixture(writer);
    const before = readWorkbook(bytes);

    it('are all there, and nothing else is changed', () => {
      const edits = fc.array(
        fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 0, max: 12 }), fc.oneof(value, fc.constant(null))),
        { maxLength: 12 },
      );
      fc.assert(
        fc.property(edits, (list) => {
          const cells = before.sheets[0]!.cells.map((line) => [...line]);
          for (const [row, column, one] of list) {
            const old = cells[row]?.[column];
            (cells[row] ??= [])[column] = { value: one, ...(old?.style === undefined ? {} : { style: old.style }) };
          }
          const after = { ...before, sheets: [{ ...before.sheets[0]!, cells }, ...before.sheets.slice(1)] };
          const read = readWorkbook(patchWorkbook(bytes, difference(before, after)));
          expect(counted(read.sheets[0]!, read.styles)).toBe(counted(after.sheets[0]!, after.styles));
          expect(read.sheets.slice(1)).toEqual(before.sheets.slice(1));
        }),
        { numRuns: Math.ceil(RUNS / 3) },
      );
    });
  },
);
