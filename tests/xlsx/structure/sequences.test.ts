/** Invented sequences of edits: what names a cell names the same one afterwards, by a model that only splices lists. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellName, parseCell, type CellModel, type SheetModel } from '../../../src/sheet';
import { readWorkbook, shiftWorkbook, writeWorkbook, XlsxError, type Operation } from '../../../src/xlsx';
import { runs } from '../../property/runs';
import { facts } from './facts';
import { ruleFaults } from './valid';

const ROWS = 14;
const COLUMNS = 6;
const label = (row: number, column: number): string => `cell ${row} ${column}`;
const merges = [
  { sheet: 'Parts', row: 2, column: 1, rows: 2, columns: 2 },
  { sheet: 'Parts', row: 8, column: 3, rows: 1, columns: 3 },
];

/** A sheet of labels, and one whose formulas name each of them. */
async function made(): Promise<Uint8Array> {
  const grid = <T>(cell: (row: number, column: number) => T): T[][] =>
    Array.from({ length: ROWS }, (_line, row) => Array.from({ length: COLUMNS }, (_cell, column) => cell(row, column)));
  const parts: SheetModel = {
    name: 'Parts',
    cells: grid((row, column): CellModel => ({ value: label(row, column) })),
    tables: [],
    merges,
    validations: [{ range: { sheet: 'Parts', row: 5, column: 1, rows: 4, columns: 1 }, choices: ['thin', 'thick'] }],
  };
  const lists: SheetModel = {
    name: 'Lists',
    cells: grid((row, column): CellModel => ({ value: 0, formula: `Parts!${cellName(row, column)}`, plain: true })),
    tables: [
      { name: 'Sizes', range: { sheet: 'Lists', row: 20, column: 1, rows: 4, columns: 3 }, columns: ['a', 'b', 'c'] },
    ],
  };
  for (let row = 20; row < 24; row++)
    lists.cells[row] = [undefined, ...['a', 'b', 'c'].map((name) => ({ value: row === 20 ? name : row }))];
  for (let row = 0; row < 24; row++) lists.cells[row] ??= [];
  return writeWorkbook({
    sheets: [parts, lists],
    names: [{ name: 'Fixed', refersTo: 'Parts!$C$5' }],
    styles: [],
  });
}

const line = fc.record({
  kind: fc.constantFrom('insert' as const, 'delete' as const),
  sheet: fc.constantFrom('Parts', 'Lists'),
  axis: fc.constantFrom('rows' as const, 'columns' as const),
  at: fc.nat(12),
  count: fc.integer({ min: 1, max: 3 }),
});
const part = fc
  .tuple(line, fc.nat(5), fc.nat(3))
  .map(([edit, from, more]) => ({ ...edit, within: { from, to: from + more } }));
const move = fc
  .record({ sheet: fc.constantFrom('Parts', 'Lists'), row: fc.nat(12), column: fc.nat(5), rows: fc.integer({ min: 1, max: 3 }), columns: fc.integer({ min: 1, max: 3 }) })
  .chain((from) =>
    fc.record({ kind: fc.constant('move' as const), from: fc.constant(from), to: fc.record({ sheet: fc.constantFrom('Parts', 'Lists'), row: fc.nat(30), column: fc.nat(8) }) }),
  ); // prettier-ignore
const lines = fc.record({
  kind: fc.constant('moveLines' as const),
  sheet: fc.constantFrom('Parts', 'Lists'),
  axis: fc.constantFrom('rows' as const, 'columns' as const),
  from: fc.nat(10),
  count: fc.integer({ min: 1, max: 3 }),
  to: fc.nat(16),
});
const operations = fc.array(fc.oneof({ weight: 4, arbitrary: line }, part, move, lines), {
  minLength: 1,
  maxLength: 6,
});

/** Cells as lists of lists; what an edit does to them, said as plainly as can be. */
type Cells = Record<string, (string | undefined)[][]>;

function edit(cells: Cells, operation: Operation): void {
  if (operation.kind === 'insert' || operation.kind === 'delete') splice(cells[operation.sheet]!, operation);
  else if (operation.kind === 'move') carry(cells, operation);
  else if (operation.kind === 'moveLines') drag(cells[operation.sheet]!, operation);
}

function splice(
  grid: (string | undefined)[][],
  { kind, axis, at, count, within }: Extract<Operation, { kind: 'insert' | 'delete' }>,
): void {
  const { from = 0, to = 48 } = within ?? {};
  for (let across = from; across <= to; across++) {
    const list = Array.from({ length: 48 }, (_none, index) =>
      axis === 'rows' ? grid[index]?.[across] : grid[across]?.[index],
    );
    if (kind === 'insert') list.splice(at, 0, ...Array.from({ length: count }, () => undefined));
    else list.splice(at, count);
    for (let index = 0; index < 48; index++) {
      const [row, column] = axis === 'rows' ? [index, across] : [across, index];
      (grid[row] ??= [])[column] = list[index];
    }
  }
}

function carry(cells: Cells, { from, to }: Extract<Operation, { kind: 'move' }>): void {
  const each = <T>(take: (row: number, column: number) => T): T[] =>
    Array.from({ length: from.rows * from.columns }, (_cell, index) =>
      take(Math.floor(index / from.columns), index % from.columns),
    );
  const taken = each((row, column) => cells[from.sheet]![from.row + row]?.[from.column + column]);
  each((row, column) => ((cells[from.sheet]![from.row + row] ??= [])[from.column + column] = undefined));
  let next = 0;
  each((row, column) => ((cells[to.sheet]![to.row + row] ??= [])[to.column + column] = taken[next++]));
}

/** Labels that a move puts cells over. */
function under(cells: Cells, { from, to }: Extract<Operation, { kind: 'move' }>): string[] {
  const found: string[] = [];
  for (let row = to.row; row < to.row + from.rows; row++)
    for (let column = to.column; column < to.column + from.columns; column++) {
      const one = cells[to.sheet]![row]?.[column];
      if (one?.startsWith('cell')) found.push(one);
    }
  return found;
}

function drag(
  grid: (string | undefined)[][],
  { axis, from, count, to }: Extract<Operation, { kind: 'moveLines' }>,
): void {
  if (to >= from && to <= from + count) return;
  const order = Array.from({ length: 48 }, (_none, index) => index);
  const taken = order.splice(from, count);
  order.splice(to > from ? to - count : to, 0, ...taken);
  const old = grid.map((one) => [...(one ?? [])]);
  for (let row = 0; row < 48; row++)
    for (let column = 0; column < 48; column++)
      (grid[row] ??= [])[column] = axis === 'rows' ? old[order[row]!]?.[column] : old[row]?.[order[column]!];
}

describe('invented edits, one after the other', async () => {
  const bytes = await made();

  it('leave every name with its cell, and the file valid', () => {
    fc.assert(
      fc.property(operations, (list) => {
        const cells: Cells = { Parts: [], Lists: [] };
        for (const { name, cells: old } of readWorkbook(bytes).sheets)
          cells[name] = old.map((row) =>
            Array.from(row, (cell) => (cell?.formula === undefined ? text(cell?.value) : `= ${text(cell.formula)}`)),
          );
        const kept: Operation[] = [];
        let step = bytes;
        // Programs differ on what names a cell over which another is put: that cell, or nothing.
        const covered = new Set<string>();
        for (const operation of list) {
          try {
            step = shiftWorkbook(step, [operation]);
          } catch (error) {
            if (error instanceof XlsxError && error.reason === 'unsupported') continue;
            throw error;
          }
          kept.push(operation);
          if (operation.kind === 'move') for (const one of under(cells, operation)) covered.add(one);
          edit(cells, operation);
        }
        const after = shiftWorkbook(bytes, kept);
        expect(ruleFaults(after)).toEqual([]);
        const model = readWorkbook(after);
        const faults: string[] = [];
        const places = new Map<string, string>();
        for (const [sheet, grid] of Object.entries(cells))
          grid.forEach((row, r) =>
            row?.forEach((cell, c) => cell?.startsWith('cell') && places.set(cell, `${sheet}!${cellName(r, c)}`)),
          );
        for (const { name, cells: now } of model.sheets)
          now.forEach((row, r) =>
            row.forEach((cell, c) => {
              const stood = cells[name]![r]?.[c];
              if (cell?.formula === undefined) {
                if (stood?.startsWith('cell') && cell?.value !== stood)
                  faults.push(`${name}!${cellName(r, c)} lacks ${stood}`);
                return;
              }
              // Its own first text says which cell it named.
              const first = parseCell(stood!.replace(/^= Parts!/, ''))!;
              if (covered.has(label(first.row, first.column))) return;
              const place = places.get(label(first.row, first.column)) ?? '#REF!';
              if (cell.formula !== place && cell.formula !== place.replace(`${name}!`, ''))
                faults.push(`${cell.formula} is not ${place}`);
            }),
          );
        expect(faults).toEqual([]);
        if (!covered.has(label(4, 2)))
          expect(model.names[0]!.refersTo.replaceAll('$', '')).toBe(places.get(label(4, 2)) ?? '#REF!');
        expect(facts(after).length).toBeGreaterThan(0);
      }),
      runs(0.04),
    );
  });
});

const text = (value: unknown): string | undefined => (value === null || value === undefined ? undefined : String(value)); // prettier-ignore
