/** Formulas as builders and users of spreadsheets type them, in every spelling: stored, saved, opened, taken back as typed. */
import { ICommandService } from '@univerjs/core';
import { SetRangeValuesCommand } from '@univerjs/sheets';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../../src/hosts/univer';
import type { WorkbookModel } from '../../../src/sheet';
import { difference, patchWorkbook, readWorkbook, writeWorkbook } from '../../../src/xlsx';

const MODEL: WorkbookModel = {
  styles: [],
  names: [{ name: 'Höhe', refersTo: 'Parts!$B$2' }],
  sheets: [
    {
      name: 'Parts',
      cells: [
        [{ value: 'length' }, { value: 'net width' }],
        [{ value: 3 }, { value: 2 }],
        [{ value: 4 }, { value: 5 }],
      ],
      tables: [
        {
          name: 'Sizes',
          range: { sheet: 'Parts', row: 0, column: 0, rows: 3, columns: 2 },
          columns: ['length', 'net width'],
        },
      ],
    },
    { name: "Rib's 2", cells: [[{ value: 1 }]], tables: [] },
    { name: 'Größe', cells: [[{ value: 1 }]], tables: [] },
  ],
};

/** What formulas are made of, each as somebody writes it. */
const ATOMS = [
  ...['.02', '.020', '0.0200', '5.', '5.0', '1E3', '1e-3', '1.50E+02', '007', '12.5%', '10%%', '.5%', '-.5', '+.25'],
  ...['"6061-T6"', '"1/8"', '"3/32"""', '"a ""b"" c"', '""', '"it\'s"', '"A1+.50"', '"é東ß"', '"{1.0;2}"', '"[x]"'],
  ...['A2', '$A$2', 'a$2', '$B3', 'A2:B3', 'A:A', '$1:3', 'A2:B$3', "'Rib''s 2'!A1", "'Rib''s 2'!$A$1:A3", 'Größe!A1'],
  ...['Sizes[length]', 'Sizes[[#Headers],[net width]]', 'Sizes[[net width]]', 'Sizes[#Totals]', 'Sizes[@length]'],
  ...['Sizes[@[net width]]', 'A2#', '@A2:A3', '@Höhe', 'Höhe', 'höhe', 'TRUE', 'false', '#N/A', '#DIV/0!', 'rate_1.a'],
  ...['{1.0,2.50;3,"x"}', '{TRUE;#N/A}', '[1]Prices!A1', "'[Old book.xlsx]Sheet 1'!$A$1", '(A2,B3)', 'A2:B3 B2:B3'],
];
const CALLS: readonly (readonly [name: string, count: number])[] = [
  ['SUM', 3],
  ['sum', 2],
  ['If', 3],
  ['TARE.WEIGHT.SHEET', 3],
  ['tare.area.rect', 2],
  ['XLOOKUP', 3],
  ['FILTER', 2],
  ['LAMBDA(x,y,x*.50+y)', 2],
  ['Größe.von', 1],
  ['FOREIGN.THING', 2],
  ['PI', 0],
  ['STDEV.S', 1],
];

const atom = fc.constantFrom(...ATOMS);
const space = fc.constantFrom('', '', '', ' ', '  ', '\n', '\n    ');
const comma = fc.tuple(space, space).map(([before, after]) => `${before},${after}`);
const { formula } = fc.letrec<{ formula: string }>((tie) => ({
  formula: fc.oneof(
    { maxDepth: 3, depthSize: 'small', withCrossShrink: true },
    atom,
    fc
      .tuple(
        tie('formula'),
        space,
        fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<>', '>=', '<'),
        space,
        tie('formula'),
      )
      .map((parts) => parts.join('')),
    fc
      .tuple(fc.constantFrom(...CALLS), space, fc.array(tie('formula'), { minLength: 3, maxLength: 3 }), comma)
      .map(([[name, count], gap, args, between]) => `${name}(${gap}${args.slice(0, count).join(between)})`),
    fc
      .tuple(fc.constantFrom('-', '--', '+', '(', '( '), tie('formula'))
      .map(([sign, inner]) => sign + inner + (sign.startsWith('(') ? ')' : '')),
    tie('formula').map((inner) => `LET(w,${inner},w*.50)`),
    tie('formula').map((inner) => `${inner}%`),
  ),
}));

/** A file has our functions in capitals. */
const inFile = (one: string): string => one.replace(/tare\.[a-z.]+(?=\()/gi, (name) => name.toUpperCase());

let opened = 0;

describe('spellings', () => {
  it('300 formulas are stored as typed, saved, opened and taken back', async () => {
    const seed = Number(process.env['TAREBOOK_SEED'] ?? 1907);
    const typed = [...new Set([...ATOMS, ...fc.sample(formula, { numRuns: 300, seed })])].map((one) => `=${one}`);
    const file = await writeWorkbook(MODEL);
    const loaded = readWorkbook(file);
    const engine = startEngine({ calculator: calculatorHere });
    const id = `spellings ${(opened += 1)}`;
    loadWorkbook(engine, loaded, id, 'Book');
    await calculate(engine);
    const workbook = new UniverWorkbook(engine, id, 'headless', 'Book');
    const sheet = engine.api.getActiveWorkbook()!.getSheetByName('Parts')!;
    sheet.setRowCount(1000);
    const at = { sheet: 'Parts', row: 10, column: 5, rows: typed.length, columns: 1 };
    const stored = async (): Promise<(string | null)[]> => (await workbook.readFormulas(at)).flat();
    engine.injector.get(ICommandService).syncExecuteCommand(SetRangeValuesCommand.id, {
      unitId: workbook.id,
      subUnitId: sheet.getSheetId(),
      range: { startRow: 10, endRow: 10 + typed.length - 1, startColumn: 5, endColumn: 5 },
      value: typed.map((f) => [{ f, v: null }]),
    });
    await workbook.settled();
    expect(await stored()).toEqual(typed);
    const saved = patchWorkbook(file, difference(loaded, workbook.toModel(loaded)));
    const again = readWorkbook(saved);
    expect(typed.map((_one, index) => `=${again.sheets[0]!.cells[10 + index]?.[5]?.formula}`)).toEqual(
      typed.map(inFile),
    );
    // Saved a second time, nothing in the file changes any more.
    const next = startEngine({ calculator: calculatorHere });
    loadWorkbook(next, again, `${id} again`, 'Book');
    await calculate(next);
    const reopened = new UniverWorkbook(next, `${id} again`, 'headless', 'Book');
    const changes = difference(again, reopened.toModel(again)).sheets.flatMap(({ cells }) =>
      (cells ?? []).filter((cell) => cell.formula !== undefined),
    );
    expect(changes).toEqual([]);
    // A row that comes and goes above leaves every text as it was.
    sheet.insertRowsBefore(5, 1);
    await workbook.settled();
    await workbook.undo();
    await workbook.settled();
    expect(await stored()).toEqual(typed);
    await workbook.undo();
    expect((await stored()).every((one) => one === null)).toBe(true);
    await workbook.redo();
    await workbook.settled();
    expect(await stored()).toEqual(typed);
  }, 240_000);
});
