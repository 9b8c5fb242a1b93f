/** Formulas cut into tokens. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rewrite, tokens, tryFormula } from '../../../src/sheet/formula';
import { readWorkbook } from '../../../src/xlsx';
import { anyFormula } from './generated';

const said = (formula: string): string =>
  tokens(formula)
    .map(({ kind, text }) => `${kind} ${text}`)
    .join(' | ');

describe('a formula in tokens', () => {
  it.each([
    ['"a ""b"" c"&1', 'text "a ""b"" c" | operator & | number 1'],
    ["'It''s [1]'!A1", "sheet 'It''s [1]'! | cell A1"],
    ["Table[[#This Row],[a '] b]]", "table Table | bracket [[#This Row],[a '] b]]"],
    ['A1#', 'cell A1 | operator #'],
    ['@A1', 'operator @ | cell A1'],
    [
      '{1,2;3,"x"}',
      'openArray { | number 1 | comma , | number 2 | semicolon ; | number 3 | comma , | text "x" | closeArray }',
    ],
    ['1E3', 'number 1E3'],
    ['1.5e-3', 'number 1.5e-3'],
    ['1E', 'number 1 | name E'],
    ['.5', 'number .5'],
    ['5.', 'number 5.'],
    ['LOG10(2)', 'call LOG10 | open ( | number 2 | close )'],
    ['R1C1', 'name R1C1'],
    ['RC', 'name RC'],
    ['R1', 'cell R1'],
    ['A1B', 'name A1B'],
    ['A1.x', 'name A1.x'],
    ['_A1', 'name _A1'],
    ['XFD1048576', 'cell XFD1048576'],
    ['XFE1', 'name XFE1'],
    ['A1048577', 'name A1048577'],
    ['A0', 'name A0'],
    ['Jan:Mar!B2', 'sheet Jan:Mar! | cell B2'],
    ["'Jan:Mar 2'!B2", "sheet 'Jan:Mar 2'! | cell B2"],
    ['[2]Sheet!A1', 'sheet [2]Sheet! | cell A1'],
    ['[1]!Name', 'sheet [1]! | name Name'],
    ["'C:\\it''s\\[a b.xlsx]Sheet 1'!A1", "sheet 'C:\\it''s\\[a b.xlsx]Sheet 1'! | cell A1"],
    ['_xlfn.XLOOKUP(A1', 'call _xlfn.XLOOKUP | open ( | cell A1'],
    ['_xldudf_TARE_AREA_RECT(1)', 'call _xldudf_TARE_AREA_RECT | open ( | number 1 | close )'],
    ['A:$C', 'columns A:$C'],
    ['$1:3', 'rows $1:3'],
    ['1:1048577', 'number 1 | operator : | number 1048577'],
    ['Parts!A:A', 'sheet Parts! | columns A:A'],
    ['Parts!A1:Parts!B2', 'sheet Parts! | cell A1 | operator : | sheet Parts! | cell B2'],
    ['A1:A', 'cell A1 | operator : | name A'],
    ['A1:INDEX(B:B,3)', 'cell A1 | operator : | call INDEX | open ( | columns B:B | comma , | number 3 | close )'],
    ['A1:B2 B1:C3', 'cell A1 | operator : | cell B2 | space   | cell B1 | operator : | cell C3'],
    ['50%<>1', 'number 50 | operator % | operator <> | number 1'],
    ['-2^2', 'operator - | number 2 | operator ^ | number 2'],
    ['#REF!A1', 'sheet #REF! | cell A1'],
    ['#REF!+#n/a', 'error #REF! | operator + | error #n/a'],
    ['Parts!#REF!', 'sheet Parts! | error #REF!'],
    ['SUM(\n A1 )', 'call SUM | open ( | space \n  | cell A1 | space   | close )'],
    ['[@width]*[[#This Row],[my a]]', 'bracket [@width] | operator * | bracket [[#This Row],[my a]]'],
    ['2024!A1', 'sheet 2024! | cell A1'],
    ['ÄÖ!A1*Größe', 'sheet ÄÖ! | cell A1 | operator * | name Größe'],
    ['\\x?y', 'name \\x?y'],
    ['Q1!A1', 'sheet Q1! | cell A1'],
    ['"abc', 'unclosed "abc'],
    ["'abc!A1", "unclosed 'abc!A1"],
    ['Parts[a', 'table Parts | unclosed [a'],
    ['A1]', 'cell A1 | other ]'],
    ['😀&A1', 'other 😀 | operator & | cell A1'],
  ])('%s', (formula, list) => expect(said(formula)).toBe(list));
});

describe('no character of a formula is lost', () => {
  const isWhole = (formula: string): void => {
    const all = tokens(formula);
    expect(all.map(({ text }) => text).join('')).toBe(formula);
    let at = 0;
    for (const { text, start } of all) {
      expect(start).toBe(at);
      expect(text).not.toBe('');
      at += text.length;
    }
  };

  it('in formulas that are invented', () => {
    fc.assert(fc.property(anyFormula, isWhole), { numRuns: 3000 });
  });

  it('in what is no formula', () => {
    const noise = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc
        .array(fc.constantFrom(...`"'[]{}()#!:;,.@$%&*+-/\\^=<>?_ \n1aÄ`, 'A1', 'SUM(', '#REF!', '1E', '"a"', "'b'!"), {
          maxLength: 14,
        })
        .map((list) => list.join('')),
    );
    fc.assert(fc.property(noise, isWhole), { numRuns: 5000 });
  });

  const files = ['sample-workbooks', 'tests/xlsx/fixtures'].flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.xlsx'))
      .map((name) => `${folder}/${name}`),
  );

  it.each(files)('in %s, each formula of which can be read', (file) => {
    const model = readWorkbook(readFileSync(file));
    for (const { cells } of model.sheets)
      for (const { formula } of cells.flatMap((line) => (line ?? []).flatMap((cell) => cell ?? [])))
        if (formula !== undefined) {
          isWhole(formula);
          expect(tryFormula(formula), formula).toBeDefined();
        }
  });
});

describe('a formula with tokens changed', () => {
  it('keeps the rest as it was typed', () => {
    const changed = rewrite('sum( a1 ,"a1")\n+ B2', ({ kind, text }) => (kind === 'cell' ? `<${text}>` : undefined));
    expect(changed).toBe('sum( <a1> ,"a1")\n+ <B2>');
  });

  it('is itself where nothing changes', () => expect(rewrite('A1+1', () => undefined)).toBe('A1+1'));
});
