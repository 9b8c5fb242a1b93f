/** Formulas in which sheets, tables and columns have other names; and what formulas refer to. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  partItems,
  references,
  tokens,
  withColumnNames,
  withSheetNames,
  withTableNames,
} from '../../../src/sheet/formula';
import { anyFormula, sheetName } from './generated';

describe('a sheet that is renamed', () => {
  const names = new Map([
    ['parts', "Rib's"],
    ['a1', 'Left wing'],
    ['jan', 'January'],
  ]);

  it.each([
    ['Parts!A1+\'PARTS\'!B1+"Parts!A1"+Prices!A1', "'Rib''s'!A1+'Rib''s'!B1+\"Parts!A1\"+Prices!A1"],
    ["'A1'!A1+A1+Parts[Parts!A1]", "'Left wing'!A1+A1+Parts[Parts!A1]"],
    ['SUM(Jan:Mar!B2)', 'SUM(January:Mar!B2)'],
    ["SUM('Parts:A1'!B2)", "SUM('Rib''s:Left wing'!B2)"],
    ["[2]Parts!A1+'C:\\[a.xlsx]Parts'!A1", "[2]Parts!A1+'C:\\[a.xlsx]Parts'!A1"],
    ['Parts!width+Parts!#REF!', "'Rib''s'!width+'Rib''s'!#REF!"],
  ])('%s', (formula, renamed) => expect(withSheetNames(formula, names)).toBe(renamed));

  it('and renamed back', () => {
    fc.assert(
      fc.property(anyFormula, sheetName, (formula, name) => {
        fc.pre(!formula.toLowerCase().includes(name.toLowerCase().replaceAll("'", "''")));
        const there = withSheetNames(formula, new Map([['parts', name]]));
        const back = withSheetNames(there, new Map([[name.toLowerCase(), 'Parts']]));
        expect(back).toBe(formula);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a table and its columns that are renamed', () => {
  it.each([
    ['SUM(Parts[width])&"Parts[width]"&\'Parts\'!A1', 'SUM(Pieces[width])&"Parts[width]"&\'Parts\'!A1'],
    ['ROWS(parts)+[1]!Parts[width]', 'ROWS(Pieces)+[1]!Parts[width]'],
    ['PARTS(1)+Parts[[#All],[Parts]]', 'PARTS(1)+Pieces[[#All],[Parts]]'],
  ])('%s', (formula, renamed) => expect(withTableNames(formula, new Map([['parts', 'Pieces']]))).toBe(renamed));

  it.each([
    ['SUM(Parts[width])*[@width]', 'w', 'SUM(Parts[w])*[@w]'],
    ['Parts[@width]+Parts[width]', 'net width', 'Parts[@[net width]]+Parts[[net width]]'],
    [
      'Parts[[#This Row],[Width]]+Parts[[width]:[length]]',
      "a [b] #1's",
      "Parts[[#This Row],[a '[b'] '#1''s]]+Parts[[a '[b'] '#1''s]:[length]]",
    ],
    ['Sizes[width]&"Parts[width]"&width', 'w', 'Sizes[width]&"Parts[width]"&width'],
    ['Parts[#Data]+Parts[]', 'w', 'Parts[#Data]+Parts[]'],
  ])('%s to %s', (formula, name, renamed) =>
    expect(withColumnNames(formula, 'Parts', new Map([['width', name]]), true)).toBe(renamed),
  );

  it('outside of the table leaves references without its name', () => {
    expect(withColumnNames('[@width]+Parts[width]', 'Parts', new Map([['width', 'w']]), false)).toBe(
      '[@width]+Parts[w]',
    );
  });

  it('finds its items whatever their names hold', () => {
    expect(partItems("[#Headers],[a '] b]:[ c ]").items.map(({ name, isArea }) => [name, isArea])).toEqual([
      ['#headers', true],
      ['a ] b', false],
      ['c', false],
    ]);
  });
});

describe('the references of a formula', () => {
  const found = (formula: string): string[] =>
    references(formula).map(
      ({ kind, start, end, isElsewhere }) => `${kind}${isElsewhere ? '!' : ''} ${formula.slice(start, end)}`,
    );

  it.each([
    ["SUM('a b'!A1:B2,Parts[width],width,A1#)", ["range 'a b'!A1:B2", 'table Parts[width]', 'name width', 'spill A1#']],
    ['A1:INDEX(B:B,$2:3)', ['range A1', 'range B:B', 'range $2:3']],
    ['[2]Prices!A1+Jan:Mar!B2+#REF!A1', ['range! [2]Prices!A1', 'range! Jan:Mar!B2']],
    ['LET(x,A1,x+y)+x', ['range A1', 'name y', 'name x']],
    ['FOREIGN(A3,"B3",TRUE', ['range A3']],
    ['[@width]*Parts!rate', ['table [@width]', 'name Parts!rate']],
    ['LOG10(1E3)+A1.x', ['name A1.x']],
  ])('%s', (formula, list) => expect(found(formula)).toEqual(list));

  it('stand at their places', () => {
    fc.assert(
      fc.property(anyFormula, (formula) => {
        let last = 0;
        for (const { start, end } of references(formula)) {
          expect(start).toBeGreaterThanOrEqual(last);
          expect(tokens(formula).some((token) => token.start === start)).toBe(true);
          last = end;
        }
      }),
      { numRuns: 1000 },
    );
  });
});
