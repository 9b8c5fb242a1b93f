/** Names that are spelled like functions, in formulas that hand on functions: written, patched, and read by other programs. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { recalculate } from '../../src/calculation';
import type { CellModel, WorkbookModel } from '../../src/sheet';
import { patchWorkbook, readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { python, soffice } from '../helpers/programs';
import { partsOf } from './parts';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-names-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FORMULAS = ['BYROW(A1:C1,SUM)', 'BYROW(A1:C1,MAX)', 'BYROW(A1:C1,MIN)', 'BYROW(A1:C1,_xleta.SUM)'];
const model: WorkbookModel = {
  styles: [],
  names: [
    { name: 'Sum', refersTo: 'Parts!$A$1' },
    { name: 'Min', refersTo: 'LAMBDA(r,SUM(r)*10)', scope: 'Parts' },
  ],
  sheets: [
    {
      name: 'Parts',
      tables: [],
      cells: [
        [1, 2, 3].map((value) => ({ value })),
        ...FORMULAS.map((formula): CellModel[] => [{ value: 6, formula }]),
      ],
    },
    { name: 'Other', tables: [], cells: [[{ value: 6, formula: 'BYROW(Parts!A1:C1,MIN)' }]] },
  ],
};
const FILED = [
  '_xlfn.BYROW(A1:C1,SUM)',
  '_xlfn.BYROW(A1:C1,_xleta.MAX)',
  '_xlfn.BYROW(A1:C1,MIN)',
  '_xlfn.BYROW(A1:C1,_xleta.SUM)',
];

const formulasIn = (bytes: Uint8Array, sheet: number): string[] =>
  [
    ...partsOf(bytes)
      .get(`xl/worksheets/sheet${sheet}.xml`)!
      .matchAll(/<f[^>]*>([^<]*)</g),
  ].map(([, text]) => text!);

const READ = `
import json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
text = lambda cell: getattr(cell.value, 'text', cell.value)
# Version 3.0 has one list, version 3.1 a mapping for the workbook and one for each sheet.
listed = getattr(book.defined_names, 'definedName', None)
names = [one.name for one in listed] if listed is not None else [*book.defined_names, *book['Parts'].defined_names]
print(json.dumps({
  'names': sorted(names),
  'formulas': [text(row[0]) for row in book['Parts'].iter_rows(min_row=2)],
}))`;

describe('a name that is spelled like a function', async () => {
  const bytes = await writeWorkbook(model);

  it('stays that name where a function may be handed on, on the sheets that see it', () => {
    expect(formulasIn(bytes, 1)).toEqual(FILED);
    // Min is a name of the sheet Parts alone.
    expect(formulasIn(bytes, 2)).toEqual(['_xlfn.BYROW(Parts!A1:C1,_xleta.MIN)']);
  });

  it('stays it when it comes, goes and is read again', () => {
    const cells = FORMULAS.map((formula, index) => ({ row: index + 1, column: 0, value: 6, formula }));
    const without = patchWorkbook(bytes, { sheets: [{ sheet: 'Parts', cells }], removedNames: [{ name: 'Sum' }] });
    expect(formulasIn(without, 1)[0]).toBe('_xlfn.BYROW(A1:C1,_xleta.SUM)');
    expect(formulasIn(without, 1)[2]).toBe(FILED[2]);
    const again = patchWorkbook(without, {
      sheets: [{ sheet: 'Parts', cells }],
      names: [{ name: 'sum', refersTo: 'Parts!$B$1' }],
    });
    expect(formulasIn(again, 1)).toEqual(FILED);
    expect(
      readWorkbook(again)
        .sheets[0]!.cells.slice(1)
        .map((line) => line[0]!.formula),
    ).toEqual(FORMULAS);
  });

  it('is told from the function by what is calculated', () => {
    const { cells } = recalculate(readWorkbook(bytes)).model.sheets[0]!;
    expect(cells.slice(1).map((line) => line[0]!.value)).toEqual([
      expect.objectContaining({ code: '#CALC!' }),
      3,
      60,
      6,
    ]);
  });

  it.skipIf(!python('openpyxl'))('is read by openpyxl', () => {
    const path = join(folder, 'names.xlsx');
    writeFileSync(path, bytes);
    const { stdout, stderr } = spawnSync(python('openpyxl')!, ['-c', READ, path], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(JSON.parse(stdout)).toEqual({ names: ['Min', 'Sum'], formulas: FILED.map((text) => `=${text}`) });
  });

  it.skipIf(!soffice())('is found as a name by LibreOffice, which writes it as it is defined', () => {
    const [first] = formulasIn(recalculatedByLibreOffice(soffice()!, bytes), 1);
    expect(first).toMatch(/BYROW\(A1:C1,Sum\)$/i);
    expect(first).toContain('Sum');
  });
});
