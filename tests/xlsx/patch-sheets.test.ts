import { describe, expect, it } from 'vitest';
import type { SheetModel } from '../../src/sheet';
import { difference, patchWorkbook, readWorkbook } from '../../src/xlsx';
import { fixture, partOf, partsOf } from './parts';

const bytes = fixture('xlsxwriter');
const model = readWorkbook(bytes);
const [parts, table, guarded, hidden] = model.sheets as [SheetModel, SheetModel, SheetModel, SheetModel];
const extra: SheetModel = { name: 'Parts', cells: [[{ value: 'new' }]], tables: [] };

describe('sheets', () => {
  it('are renamed, with the references of names and charts', () => {
    const after = {
      ...model,
      names: [{ name: 'Lengths', refersTo: "'Rib parts'!$B$2:$B$5" }, ...model.names.slice(1)],
      sheets: [{ ...parts, name: 'Rib parts' }, table, guarded, hidden],
      loadedAs: [0, 1, 2, 3],
    };
    const patched = patchWorkbook(bytes, difference(model, after));
    expect(readWorkbook(patched).sheets.map(({ name }) => name)).toEqual(['Rib parts', 'Table', 'Guarded', 'Hidden']);
    expect(partOf(patched, 'xl/charts/chart1.xml')).toContain("<c:f>'Rib parts'!$D$2:$D$5</c:f>");
    expect(partOf(patched, 'xl/workbook.xml')).toContain(`localSheetId="0" hidden="1">'Rib parts'!$A$1:$E$5<`);
    expect(readWorkbook(patched).names).toEqual(after.names);
    expect(partsOf(patched).get('xl/worksheets/sheet1.xml')).toBe(partsOf(bytes).get('xl/worksheets/sheet1.xml'));
  });

  it('are removed with what only they had', () => {
    const after = {
      ...model,
      names: model.names.filter(({ scope }) => !scope),
      sheets: [parts, hidden],
      loadedAs: [0, 3],
    };
    const patched = patchWorkbook(bytes, difference(model, after));
    const left = [...partsOf(patched).keys()];
    expect(left).not.toContain('xl/worksheets/sheet2.xml');
    expect(left).not.toContain('xl/tables/table1.xml');
    expect(left).toContain('xl/charts/chart1.xml');
    expect(partOf(patched, '[Content_Types].xml')).not.toMatch(/table1|sheet2|sheet3/);
    expect(partOf(patched, 'xl/workbook.xml')).not.toContain('Local');
    expect(readWorkbook(patched).sheets.map(({ name }) => name)).toEqual(['Parts', 'Hidden']);
  });

  it('are moved, and names stay with theirs', () => {
    const patched = patchWorkbook(
      bytes,
      difference(model, { ...model, sheets: [guarded, hidden, parts, table], loadedAs: [2, 3, 0, 1] }),
    );
    const read = readWorkbook(patched);
    expect(read.sheets.map(({ name }) => name)).toEqual(['Guarded', 'Hidden', 'Parts', 'Table']);
    expect(read.names).toContainEqual({ name: 'Local', refersTo: 'Guarded!$A$1', scope: 'Guarded' });
    expect(partOf(patched, 'xl/workbook.xml')).toMatch(/_FilterDatabase" localSheetId="2"/);
  });

  it('can take the name of one that is renamed', () => {
    const after = {
      ...model,
      sheets: [{ ...parts, name: 'Old' }, extra, table, guarded, hidden],
      loadedAs: [0, undefined, 1, 2, 3],
    };
    const read = readWorkbook(patchWorkbook(bytes, difference(model, after)));
    expect(read.sheets.map(({ name }) => name)).toEqual(['Old', 'Parts', 'Table', 'Guarded', 'Hidden']);
    expect(read.sheets[1]!.cells[0]![0]!.value).toBe('new');
    expect(read.sheets[0]!.cells[1]![0]!.value).toBe('rib cap');
  });

  it('that go take no name along that is spelled as one of theirs', () => {
    const local = model.names.find(({ scope }) => scope === 'Guarded')!;
    const own = { name: local.name, refersTo: 'Parts!$A$1' };
    const both = patchWorkbook(bytes, { sheets: [], names: [own] });
    const after = { ...model, names: [...model.names.filter(({ scope }) => !scope), own], sheets: [parts, hidden] };
    const patched = patchWorkbook(both, difference(readWorkbook(both), { ...after, loadedAs: [0, 3] }));
    expect(readWorkbook(patched).names).toContainEqual(own);
    expect(readWorkbook(patched).names.filter(({ scope }) => scope)).toEqual([]);
  });

  it('cannot all go', () => {
    expect(() => patchWorkbook(bytes, difference(model, { ...model, names: [], sheets: [], loadedAs: [] }))).toThrow(
      /needs sheets/,
    );
  });
});
