import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../../src/functions';
import { CellError, type Cell, type Matrix } from '../../../src/sheet';

const MIXED: readonly Cell[] = [
  0.032,
  '1/32',
  1,
  0,
  '',
  null,
  20,
  '0.04',
  -1,
  'thin',
  true,
  new CellError('#N/A'),
  Infinity,
  0.05,
];
const METALS: readonly Cell[] = ['6061-T6', '2024-T3', 0.1, '', 'unobtainium', 6061, null, '6061-T6', 0, false];
/** More than two stretches of the loop. */
const ROWS = 2500;

const columns = (): readonly [Matrix, Matrix, Matrix, Matrix] => {
  const column = (cells: readonly Cell[], step: number): Matrix =>
    Array.from({ length: ROWS }, (_, row) => [cells[(row * step) % cells.length]!]);
  return [
    column([48, 120.5, '', 0, 7], 1),
    column(MIXED, 1),
    column(METALS, 3),
    column([2, '', null, 0, '3', 'two'], 1),
  ];
};

describe('a column', () => {
  it.each(['in-lb', 'mm-kg'])('gives in every row what the same cells give one by one, in %s', (units) => {
    const definition = findDefinition('WEIGHT.SHEET')!;
    const [areas, sheets, metals, pieces] = columns();
    const together = call(definition, [areas, sheets, metals, pieces, units]) as Matrix;
    for (let row = 0; row < ROWS; row++) {
      const cells = [areas, sheets, metals, pieces].map((column) => column[row]![0]!);
      expect(together[row]![0], `row ${row + 1}: ${cells.map(String).join(' | ')}`).toEqual(
        call(definition, [...cells, units]),
      );
    }
  });

  it('gives texts, refused rows and blanks in their own rows', () => {
    const definition = findDefinition('RIVET.PICK')!;
    const styles: Matrix = [['universal'], ['blind'], [''], ['flush'], ['round']];
    const grips: Matrix = [[0.072], [5], [''], [0.064], [0.072]];
    const picked = call(definition, [styles, '1/8', grips]) as Matrix;
    expect(picked.map(([cell]) => (cell instanceof CellError ? cell.code : cell))).toEqual([
      'MS20470AD4-4',
      '#VALUE!',
      '',
      'MS20426AD4-4',
      '#VALUE!',
    ]);
  });

  it('of several cells a row keeps its shape', () => {
    const lengths: Matrix = [
      [1, 2, ''],
      [3, 'x', 5],
    ];
    const areas = call(findDefinition('AREA.RECT')!, [lengths, 10]) as Matrix;
    expect(areas.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell)))).toEqual([
      [10, 20, ''],
      [30, '#VALUE!', 50],
    ]);
  });

  it('has no minus nought', () => {
    const [[cell]] = call(findDefinition('BALANCE.MAC')!, [[[-0], [1]], 0, 5]) as [[Cell]];
    expect(Object.is(cell, 0)).toBe(true);
  });
});
