/** A copy for those who have no Tarebook: what it holds, what it leaves alone, and what another spreadsheet makes of it. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CellError, type CellModel, type WorkbookModel } from '../../src/sheet';
import { callsTare } from '../../src/sheet/formula';
import { readWorkbook, valuesCopy, writeWorkbook } from '../../src/xlsx';
import { convertedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';
import { changedParts, partOf, partsOf, rowsOf, workbookOf } from './parts';
import { hasSchemas, ruleFaults, schemaFaults } from './structure/valid';

const FOLDER = new URL('../../sample-workbooks/', import.meta.url);
/** The self-check holds no values until it is opened. */
const samples = readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx') && name !== 'self-check.xlsx');
const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(name, FOLDER)));

const cellsOf = ({ sheets }: WorkbookModel): [place: string, cell: CellModel][] =>
  sheets.flatMap(({ name, cells }) =>
    cells.flatMap((line, row) =>
      line.flatMap((cell, column): [string, CellModel][] => (cell ? [[`${name} ${row},${column}`, cell]] : [])),
    ),
  );

describe.each(samples)('%s as values', (name) => {
  const before = sample(name);
  const { bytes, formulas } = valuesCopy(before);
  const was = new Map(cellsOf(readWorkbook(before)));

  it('has the values, the ordinary formulas and the looks', () => {
    const now = new Map(cellsOf(readWorkbook(bytes)));
    expect(now.size).toBe(was.size);
    let replaced = 0;
    for (const [place, { value, formula, style }] of was) {
      const isOurs = formula !== undefined && callsTare(formula);
      if (isOurs) replaced++;
      const cell = now.get(place)!;
      expect([place, cell.value, cell.style]).toEqual([place, value, style]);
      if (!formula?.includes('#')) expect([place, cell.formula]).toEqual([place, isOurs ? undefined : formula]);
    }
    expect(formulas).toBe(replaced);
    expect(replaced).toBeGreaterThan(0);
  });

  it('changes sheets alone, and leaves no trace of a function there', () => {
    for (const part of changedParts(before, bytes)) expect(part).toMatch(/^xl\/worksheets\//);
    for (const [part, text] of partsOf(bytes)) if (/worksheets|tables/.test(part)) expect(text).not.toContain('TARE_');
  });

  it.skipIf(!hasSchemas)('is valid', async () => {
    expect(await schemaFaults(new Map([[name, bytes]]))).toEqual([]);
    expect(ruleFaults(bytes)).toEqual([]);
  });
});

describe.skipIf(!soffice())('opened by LibreOffice, which has no TARE functions', () => {
  const copies = ['wing.xlsx', 'budget.xlsx'].map((name) => valuesCopy(sample(name)).bytes);
  let recalculated: readonly Uint8Array[] | undefined;

  it.each([
    ['wing.xlsx', 0],
    ['budget.xlsx', 1],
  ])('%s shows the same', { timeout: 180_000 }, (_name, index) => {
    const bytes = copies[index]!;
    recalculated ??= convertedByLibreOffice(soffice()!, copies);
    const theirs = new Map(cellsOf(readWorkbook(recalculated[index]!)));
    for (const [place, { value }] of cellsOf(readWorkbook(bytes))) {
      const their = theirs.get(place)?.value ?? null;
      if (typeof value === 'number') expect([place, their]).toEqual([place, expect.closeTo(value, 6)]);
      else if (value instanceof CellError) expect([place, their]).toEqual([place, value]);
      // It reads an empty text of a file as a blank cell, which a formula then passes on as 0.
      else expect([place, value ? their : '']).toEqual([place, value ?? '']);
    }
  });
});

describe('what rests on a TARE formula', () => {
  it('finds the cells that it filled', async () => {
    const workbook = await writeWorkbook({
      styles: [],
      names: [
        { name: 'Areas', refersTo: "'My parts'!$A$1#" },
        { name: 'Ours', refersTo: 'LAMBDA(w,TARE.AREA.RECT(w,2))' },
        { name: 'Twice', refersTo: 'LAMBDA(w,2*Ours(w))' },
      ],
      sheets: [
        {
          name: 'My parts',
          cells: [
            [
              { value: 2, formula: 'TARE.AREA.RECT({1;2},2)', spill: { rows: 2, columns: 1 } },
              { value: 6, formula: 'SUM(A1#)' },
              { value: 6, formula: 'SUM($A$1#)+0' },
              { value: 8, formula: 'Twice(2)' },
              { value: 4, formula: 'A1#*2', spill: { rows: 2, columns: 1 } },
            ],
            [
              { value: 4, spilled: true },
              { value: 6, formula: 'SUM(Areas)' },
              undefined,
              undefined,
              { value: 8, spilled: true },
            ],
          ],
          tables: [],
        },
      ],
    });
    const { bytes, formulas } = valuesCopy(workbook);
    expect(formulas).toBe(2);
    const { sheets, names } = readWorkbook(bytes);
    expect(sheets[0]!.cells.map((line) => line.map((cell) => cell?.formula ?? cell?.value))).toEqual([
      [2, 'SUM(A1:A2)', 'SUM($A$1:$A$2)+0', 8, 'A1:A2*2'],
      [4, 'SUM(Areas)', undefined, undefined, 8],
    ]);
    expect(sheets[0]!.cells[0]![4]!.spill).toEqual({ rows: 2, columns: 1 });
    expect(names[0]!.refersTo).toBe("'My parts'!$A$1:$A$2");
  });

  it('takes the formula out of shared cells and of a table’s column', () => {
    const table =
      '<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="T" displayName="T" ref="A1:B3" totalsRowShown="0"><tableColumns count="2"><tableColumn id="1" name="a"><calculatedColumnFormula>1+1</calculatedColumnFormula></tableColumn><tableColumn id="2" name="b" totalsRowFunction="custom"><calculatedColumnFormula>_xldudf_TARE_AREA_RECT(T[[#This Row],[a]],2)</calculatedColumnFormula><totalsRowFormula>_xldudf_TARE_AREA_RECT(1,2)</totalsRowFormula></tableColumn></tableColumns></table>';
    const bytes = workbookOf(
      '<row r="2"><c r="A2"><v>1</v></c><c r="B2" s="1"><f t="shared" ref="B2:B3" si="0">_xldudf_TARE_AREA_RECT(A2,2)</f><v>2</v></c></row><row r="3"><c r="A3"><v>2</v></c><c r="B3"><f t="shared" si="0"/><v>4</v></c></row>',
      { 'xl/tables/table1.xml': table },
    );
    const copy = valuesCopy(bytes);
    expect(copy.formulas).toBe(2);
    expect(rowsOf(copy.bytes)).toBe(
      '<row r="2"><c r="A2"><v>1</v></c><c r="B2" s="1"><v>2</v></c></row><row r="3"><c r="A3"><v>2</v></c><c r="B3"><v>4</v></c></row>',
    );
    expect(partOf(copy.bytes, 'xl/tables/table1.xml')).toContain(
      '<calculatedColumnFormula>1+1</calculatedColumnFormula></tableColumn><tableColumn id="2" name="b" totalsRowFunction="none"></tableColumn>',
    );
  });
});
