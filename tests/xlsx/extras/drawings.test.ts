/** Pictures and charts as other writers anchor them, and where they lie after edits of the structure. */
import { describe, expect, it } from 'vitest';
import { drawingsText } from '../../../src/hosts/bench/extras/state';
import { shiftWorkbook } from '../../../src/xlsx';
import { readExtras, readPart } from '../../../src/xlsx/extras/read';
import { withoutCells } from '../../../src/xlsx/extras/without-cells';
import { python } from '../../helpers/programs';
import { made } from './made';

const drawingsOf = (bytes: Uint8Array) =>
  readExtras(bytes)
    .get('Parts')!
    .drawings.map(({ kind, name, from, to }) => [
      kind,
      name,
      from.row,
      from.column,
      'row' in to ? [to.row, to.column] : to,
    ]);

const withXlsxwriter = python('xlsxwriter');
const withOpenpyxl = python('openpyxl');

describe.skipIf(!withXlsxwriter)('drawings by XlsxWriter', () => {
  const bytes = made(withXlsxwriter, 'xlsxwriter-drawings');

  it('are read with both corners', () => {
    // 64 pixels a column, 20 a row: 264 by 192 pixels from D2 reach into H11.
    expect(drawingsOf(bytes)).toEqual([
      ['picture', 'Picture 1', 3, 7, [5, 9]],
      ['chart', 'Weight by part', 1, 3, [10, 7]],
      ['chart', 'Chart 3', 19, 3, [28, 7]],
    ]);
  });

  it('follow rows that come, as in the file with its cells', () => {
    const operations = [{ kind: 'insert', sheet: 'Parts', axis: 'rows', at: 2, count: 2 }] as const;
    const bare = shiftWorkbook(withoutCells(bytes), operations);
    expect(drawingsOf(bare).map(([, , row]) => row)).toEqual([5, 1, 21]);
    expect(readExtras(bare)).toEqual(readExtras(shiftWorkbook(bytes, operations)));
  });

  it('name the part that holds a picture', () => {
    const { picture } = readExtras(bytes).get('Parts')!.drawings[0]!;
    expect([...readPart(withoutCells(bytes), picture!)!.subarray(1, 4)]).toEqual([...new TextEncoder().encode('PNG')]);
  });
});

describe.skipIf(!withOpenpyxl)('drawings by openpyxl', () => {
  it('are read with one corner and a size in English metric units', () => {
    expect(drawingsOf(made(withOpenpyxl, 'openpyxl-drawings'))).toEqual([
      // 15 by 7.5 cm.
      ['chart', 'Chart 1', 1, 3, { width: 5_400_000, height: 2_700_000 }],
    ]);
  });
});

describe('what lies over a sheet', () => {
  const corner = { row: 0, column: 0, down: 0, across: 0 };
  const one = (kind: 'picture' | 'chart' | 'shape') => ({ kind, name: '', from: corner, to: corner });
  it.each([
    [[], undefined],
    [[one('picture')], '1 picture on this sheet. The file keeps it.'],
    [[one('picture'), one('picture')], '2 pictures on this sheet. The file keeps them.'],
    [
      [one('shape'), one('chart'), one('picture')],
      '1 chart, 1 picture and 1 shape on this sheet. The file keeps them; charts and shapes show as frames.',
    ],
  ])('is told in words', (drawings, text) => expect(drawingsText(drawings)).toBe(text));
});
