/** What is done to rows, columns, cells and sheets on the bench stands in the file that is saved. */
import { describe, expect, it } from 'vitest';
import { ICommandService, IUndoRedoService, UndoCommand } from '@univerjs/core';
import {
  calculate,
  headText,
  loadKept,
  loadWorkbook,
  NOT_SAVED,
  pieceKeys,
  pieceText,
  calculatorHere,
  startEngine,
  UniverWorkbook,
} from '../../../src/hosts/univer';
import { DeleteRangeMoveUpCommand, InsertRangeMoveDownCommand } from '@univerjs/sheets';
import { readWorkbook, shiftWorkbook, writeWorkbook, type Operation } from '../../../src/xlsx';
import { changedParts, partsOf } from '../../xlsx/parts';
import { facts } from '../../xlsx/structure/facts';
import { ruleFaults } from '../../xlsx/structure/valid';
import { byExceljs } from '../../xlsx/structure/writers';

let opened = 0;

async function open(bytes: Uint8Array) {
  const engine = startEngine({ calculator: calculatorHere });
  const id = `structure ${(opened += 1)}`;
  loadWorkbook(engine, readWorkbook(bytes), id, 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
  const book = engine.api.getUniverSheet(id)!;
  const sheet = (name: string) => book.getSheetByName(name)!;
  const saved = async (): Promise<Uint8Array> => {
    await workbook.settled();
    return workbook.saved(bytes);
  };
  return { engine, id, workbook, book, sheet, saved };
}

/** What stands around cells: all that the bench does not show, it must not lose. */
const around = (bytes: Uint8Array): string[] => facts(bytes).filter((one) => !/: [A-Z]+\d+ = /.test(one));

const asShifted = async (made: Uint8Array, bytes: Uint8Array, operations: readonly Operation[]): Promise<void> => {
  expect(ruleFaults(made)).toEqual([]);
  expect(around(made)).toEqual(around(shiftWorkbook(bytes, operations)));
};

describe('names that hold on one sheet', () => {
  it('go with it and come back with it; others of the same name stay', async () => {
    const { workbook, book, saved } = await open(
      await writeWorkbook({
        sheets: ['Parts', 'Old'].map((name) => ({ name, cells: [[{ value: 1 }]], tables: [] })),
        names: [
          { name: 'width', refersTo: 'Parts!$A$1' },
          { name: 'width', refersTo: 'Old!$A$1', scope: 'Old' },
        ],
        styles: [],
      }),
    );
    const before = workbook.toModel().names;
    book.deleteSheet(book.getSheetByName('Old')!);
    expect(readWorkbook(await saved()).names).toEqual([{ name: 'width', refersTo: 'Parts!$A$1' }]);
    await workbook.undo();
    expect(workbook.toModel().names).toEqual(before);
    expect(readWorkbook(await saved()).names).toHaveLength(2);
  });
});

describe('a workbook is edited on the bench and saved', async () => {
  const bytes = await byExceljs();

  it('as it came, where nothing was done', async () => {
    const { saved } = await open(bytes);
    const made = await saved();
    expect(facts(made)).toEqual(facts(bytes));
    // Values are calculated anew; nothing else is touched.
    for (const part of changedParts(bytes, made)) expect(part).toMatch(/^xl\/worksheets\/sheet\d\.xml$/);
  });

  it('with rows that came and went', async () => {
    const { sheet, saved } = await open(bytes);
    sheet('Parts').insertRowsBefore(3, 2);
    sheet('Parts').deleteRows(9, 1);
    await asShifted(await saved(), bytes, [
      { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 3, count: 2 },
      { kind: 'delete', sheet: 'Parts', axis: 'rows', at: 9, count: 1 },
    ]);
  });

  it('with columns that came and went', async () => {
    const { sheet, saved } = await open(bytes);
    sheet('Parts').insertColumnsBefore(1, 1);
    sheet('Table of parts').insertColumnsBefore(2, 1);
    await asShifted(await saved(), bytes, [
      { kind: 'insert', sheet: 'Parts', axis: 'columns', at: 1, count: 1 },
      { kind: 'insert', sheet: 'Table of parts', axis: 'columns', at: 2, count: 1 },
    ]);
  });

  it('with sheets that came, went, and have other names and places', async () => {
    const { book, sheet, saved, workbook } = await open(bytes);
    sheet('Lists').setName('Names');
    book.deleteSheet(sheet('Table of parts'));
    await workbook.apply('add', [{ kind: 'addSheet', name: 'New' }]);
    sheet('Parts').setName('Lists');
    const made = await saved();
    expect(readWorkbook(made).sheets.map(({ name }) => name)).toEqual(['Lists', 'Names', 'New']);
    expect(ruleFaults(made)).toEqual([]);
    expect(facts(made).filter((one) => /^(One|Lengths) is|^Names: B1/.test(one))).toEqual([
      'Lengths is Lists!$B$2:$B$9',
      'Names: B1 = Lists!D10',
    ]);
  });

  it('with sheets that the pane made, which are set up to be printed', async () => {
    const { saved, workbook } = await open(bytes);
    const range = { sheet: 'New parts', row: 0, column: 0, rows: 2, columns: 1 };
    await workbook.apply('add', [
      { kind: 'addSheet', name: 'New parts' },
      { kind: 'write', range, cells: [['Parts list'], ['Component']] },
      { kind: 'freeze', sheet: 'New parts', rows: 2, columns: 1 },
    ]);
    const made = await saved();
    const parts = partsOf(made);
    const [part] = [...parts].find(([, text]) => text.includes('fitToHeight="0"'))!;
    expect(part).toMatch(/^xl\/worksheets\//);
    expect(parts.get('xl/workbook.xml')).toMatch(/Print_Titles" localSheetId="3">'New parts'!\$2:\$2</);
    expect(ruleFaults(made)).toEqual([]);
    // What came with the file is left as it was.
    expect([...parts.values()].filter((text) => text.includes('fitToHeight="0"'))).toHaveLength(1);
  });

  it('with nothing lost over what was taken back', async () => {
    const { sheet, saved, workbook, book } = await open(bytes);
    sheet('Parts').deleteRows(1, 12);
    sheet('Parts').insertColumnsBefore(0, 3);
    book.deleteSheet(sheet('Lists'));
    expect(around(await saved())).not.toEqual(around(bytes));
    for (let step = 0; step < 3; step++) expect(await workbook.undo()).toBe(true);
    const made = await saved();
    expect(around(made)).toEqual(around(bytes));
    expect(facts(made)).toEqual(facts(bytes));
    await workbook.redo();
    await asShifted(await saved(), bytes, [{ kind: 'delete', sheet: 'Parts', axis: 'rows', at: 1, count: 12 }]);
  });

  it('with sheets of many cells, whose removal can be taken back', async () => {
    const { sheet, book, workbook, engine, id } = await open(bytes);
    const many = Array.from({ length: 700 }, (_row, row) => Array.from({ length: 10 }, (_cell, cell) => row + cell));
    sheet('Lists').insertRowsBefore(5, 700);
    sheet('Lists').getRange(6, 0, 700, 10).setValues(many);
    book.deleteSheet(sheet('Lists'));
    expect(engine.injector.get(IUndoRedoService).pitchTopUndoElement()?.unitID).toBe(id);
    await workbook.undo();
    expect((await workbook.sheets()).map(({ name }) => name)).toContain('Lists');
  });

  it('with cells that shifted in part', async () => {
    const { engine, saved } = await open(bytes);
    const commands = engine.injector.get(ICommandService);
    const range = { startRow: 4, endRow: 4, startColumn: 5, endColumn: 6 };
    expect(await commands.executeCommand(InsertRangeMoveDownCommand.id, { range })).toBe(true);
    expect(await commands.executeCommand(DeleteRangeMoveUpCommand.id, { range: { ...range, startRow: 6, endRow: 6 } })).toBe(true); // prettier-ignore
    const within = { from: 5, to: 6 };
    await asShifted(await saved(), bytes, [
      { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 4, count: 1, within },
      { kind: 'delete', sheet: 'Parts', axis: 'rows', at: 6, count: 1, within },
    ]);
  });

  it('with merged cells, and cells that are merged no more', async () => {
    const { sheet, saved } = await open(bytes);
    sheet('Parts').getRange('A14:B15').breakApart();
    sheet('Parts').getRange('D12:E13').merge();
    expect(facts(await saved()).filter((one) => one.includes('merge'))).toEqual(['Parts: merge A12:C12', 'Parts: merge D12:E13']); // prettier-ignore
  });

  it('with rows and columns hidden and shown, and sheets, too', async () => {
    const { sheet, saved } = await open(bytes);
    sheet('Parts').showRows(6, 1);
    sheet('Parts').hideRows(2, 2);
    sheet('Parts').hideColumns(4, 1);
    sheet('Lists').hideSheet();
    sheet('Parts').setTabColor('#ff8800');
    const [parts, lists] = readWorkbook(await saved()).sheets;
    expect(parts).toMatchObject({ hiddenRows: [2, 3], hiddenColumns: [4], tabColor: '#ff8800' });
    expect(lists).toMatchObject({ hidden: true });
  });

  it('with the heights that a person gives rows, and no other ones', async () => {
    const { engine, sheet, saved } = await open(bytes);
    const before = readWorkbook(bytes).sheets[0]!.rowHeights ?? new Map<number, number>();
    const commands = engine.injector.get(ICommandService);
    sheet('Parts').setRowHeightsForced(2, 1, 60);
    sheet('Parts').setRowHeightsForced(8, 1, 60);
    expect(await commands.executeCommand(UndoCommand.id)).toBe(true);
    const heights = async (): Promise<unknown> => readWorkbook(await saved()).sheets[0]!.rowHeights;
    expect(await heights()).toEqual(new Map([...before, [2, 45]]));
    sheet('Parts').insertRows(1, 1);
    expect(await heights()).toEqual(new Map([...before, [2, 45]].map(([row, points]) => [row! + 1, points])));
  });

  it('without edits that the file cannot take', async () => {
    const { engine, id, book, sheet, workbook, saved } = await open(bytes);
    const told: string[] = [];
    workbook.guard(bytes, (reason) => told.push(reason));
    book.setActiveSheet(sheet('Table of parts'));
    sheet('Table of parts').deleteRows(1, 1);
    sheet('Table of parts').deleteRows(2, 5);
    expect(told).toEqual([
      'Row 2 has the headers of the table Sizes. Keep it, or delete the whole table.',
      'The table Sizes needs one row. Clear the last one instead of deleting it.',
    ]);
    expect(engine.structure.of(id)).toEqual([]);
    sheet('Table of parts').deleteRows(2, 2);
    expect(facts(await saved())).toContain('Table of parts: table B2:D5');
    expect(told).toHaveLength(2);
  });

  it('without looks that are not saved', async () => {
    const { engine, sheet, workbook, saved } = await open(bytes);
    const told: string[] = [];
    workbook.guard(bytes, (reason) => told.push(reason));
    const commands = engine.injector.get(ICommandService);
    // Some of them come with the engine's face alone.
    const here = [...NOT_SAVED.keys()].filter((id) => commands.hasCommand(id));
    expect(here.length).toBeGreaterThan(2);
    for (const id of here) expect(await commands.executeCommand(id, {}), id).toBe(false);
    expect(told).toHaveLength(here.length);
    sheet('Parts').getRange('A1').setFontWeight('bold');
    expect(readWorkbook(await saved()).sheets[0]!.cells[0]![0]!.style).toBeGreaterThan(0);
  });

  it('with headers of a table that are texts, no two alike', async () => {
    const { sheet, saved, workbook } = await open(bytes);
    const table = sheet('Table of parts');
    table.getRange('B2:D2').setValues([['', 12, 'AREA']]);
    table.getRange('D2').setValue('part');
    table.getRange('B2').setValue('Part');
    table.insertColumnsBefore(2, 1);
    await workbook.settled();
    const made = await saved();
    expect(ruleFaults(made)).toEqual([]);
    const [, , kept] = readWorkbook(made).sheets;
    expect(kept!.tables[0]!.columns).toEqual(kept!.cells[1]!.slice(1, 5).map((cell) => cell!.value));
    const [shown] = await workbook.read({ sheet: 'Table of parts', row: 1, column: 1, rows: 1, columns: 4 });
    expect(shown).toEqual(kept!.tables[0]!.columns);
  });

  it('after it was kept and opened again', async () => {
    const { engine, id, sheet } = await open(bytes);
    sheet('Parts').insertRowsBefore(3, 2);
    const texts = new Map(pieceKeys(engine, id).map((one) => [one, pieceText(engine, id, one)!]));
    const again = startEngine({ calculator: calculatorHere });
    await loadKept(again, { unit: 'again', title: 'Book' }, headText(engine, id), texts);
    await calculate(again);
    const workbook = new UniverWorkbook(again, 'again', 'headless', 'Book');
    again.api.getUniverSheet('again')!.getSheetByName('Parts')!.deleteRows(0, 1);
    await workbook.settled();
    await asShifted(workbook.saved(bytes), bytes, [
      { kind: 'insert', sheet: 'Parts', axis: 'rows', at: 3, count: 2 },
      { kind: 'delete', sheet: 'Parts', axis: 'rows', at: 0, count: 1 },
    ]);
  });
});
