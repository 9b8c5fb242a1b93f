/** Workbooks of other writers, patched: nothing is lost, and nothing but the change is changed. */
import { describe, expect, it } from 'vitest';
import { recalculate } from '../../src/calculation';
import { difference, patchWorkbook, readWorkbook } from '../../src/xlsx';
import { changedParts, fixture, partOf } from './parts';

const WRITERS = ['xlsxwriter', 'openpyxl', 'exceljs', 'libreoffice', 'dates1904', 'prefixed'] as const;
const SHEET = 'xl/worksheets/sheet1.xml';

describe.each(WRITERS)('a workbook of %s', (writer) => {
  const bytes = fixture(writer);
  const model = readWorkbook(bytes);

  it('is read with its parts list', () => {
    const [head, first, second] = model.sheets[0]!.cells;
    expect(head!.slice(0, 4).map((cell) => cell?.value)).toEqual(['part', 'length', 'width', 'area']);
    expect(first!.slice(0, 3).map((cell) => cell?.value)).toEqual(['rib cap', 40, 0.75]);
    expect(second![3]!.formula).toBe('B3*C3');
    expect(model.sheets[0]!.cells[5]![3]!.formula).toBe('SUM(D2:D5)');
    // LibreOffice loses the frozen panes when it converts without a screen.
    if (writer !== 'libreoffice') expect(model.sheets[0]!.frozen?.rows).toBe(1);
  });

  it('differs from itself in nothing', () =>
    expect(difference(model, model)).toMatchObject({ sheets: [], newSheets: [], names: [] }));

  it('stays byte for byte but for one changed value', () => {
    const patched = patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells: [{ row: 2, column: 1, value: 6.25 }] }] });
    expect(changedParts(bytes, patched)).toEqual([SHEET]);
    const value = /(<(?:x:)?c r="B3"[^>]*><(?:x:)?v>)5(<)/;
    expect(partOf(bytes, SHEET)).toMatch(value);
    // Compared by a flag: the texts are too long to be shown.
    expect(partOf(patched, SHEET) === partOf(bytes, SHEET).replace(value, '$16.25$2')).toBe(true);
    expect(readWorkbook(patched).sheets[0]!.cells[2]![1]!.value).toBe(6.25);
  });

  it('keeps the compressed bytes of untouched parts', () => {
    const patched = patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells: [{ row: 2, column: 1, value: 6.25 }] }] });
    const styles = compressed(bytes, 'xl/styles.xml');
    expect(styles.length).toBeGreaterThan(100);
    expect(compressed(patched, 'xl/styles.xml')).toEqual(styles);
  });

  it('is recalculated to what its writer computed', async () => {
    const { problems, kept, changed } = recalculate(model);
    expect(problems).toEqual([]);
    expect(kept).toEqual([]);
    // openpyxl writes no values; LibreOffice knows no SORT.
    const missing = { openpyxl: 13, prefixed: 13, libreoffice: 4 } as Record<string, number>;
    expect(changed).toBe(missing[writer] ?? 0);
  });

  it('is recalculated in no part but its sheets', async () => {
    const { model: after } = recalculate(model);
    const patched = patchWorkbook(bytes, difference(model, after));
    for (const part of changedParts(bytes, patched))
      expect(part).toMatch(/^(xl\/worksheets\/sheet1|xl\/metadata|xl\/_rels\/workbook\.xml|\[Content_Types\])/);
    expect(readWorkbook(patched).sheets[0]!.cells[5]![3]!.value).toBeCloseTo(49.625, 10);
  });
});

/** An entry's bytes as they stand in the archive, by its local header. */
function compressed(archive: Uint8Array, name: string): Uint8Array {
  const buffer = Buffer.from(archive);
  for (
    let at = buffer.indexOf('PK\x01\x02', 0, 'latin1');
    at >= 0;
    at = buffer.indexOf('PK\x01\x02', at + 4, 'latin1')
  ) {
    const length = buffer.readUInt16LE(at + 28);
    if (buffer.toString('latin1', at + 46, at + 46 + length) !== name) continue;
    const local = buffer.readUInt32LE(at + 42);
    const start = local + 30 + buffer.readUInt16LE(local + 26) + buffer.readUInt16LE(local + 28);
    return new Uint8Array(buffer.subarray(start, start + buffer.readUInt32LE(at + 20)));
  }
  throw new Error(`no entry ${name}`);
}
