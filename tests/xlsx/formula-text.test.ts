import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { catalogue, excelName } from '../../src/functions';
import { functionNames, isDynamic, withSheetNames } from '../../src/sheet/formula';
import { fromFile, toFile } from '../../src/xlsx/formula-text';
import { anyFormula } from '../sheet/formula/generated';

describe('the spelling of files', () => {
  it.each([
    ['TARE.AREA.RECT(A1,B1)', '_xldudf_TARE_AREA_RECT(A1,B1)'],
    ['tare.area.rect(A1,B1)+1', '_xldudf_TARE_AREA_RECT(A1,B1)+1'],
    ['SUM(TARE.WEIGHT.SHEET(A1:A9,0.02,"6061"))', 'SUM(_xldudf_TARE_WEIGHT_SHEET(A1:A9,0.02,"6061"))'],
    ['XLOOKUP(1,A1:A3,B1:B3)', '_xlfn.XLOOKUP(1,A1:A3,B1:B3)'],
    ['SORT(FILTER(A1:A3,B1:B3>1))', '_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A1:A3,B1:B3>1))'],
    ['STDEV.S(A1:A3)', '_xlfn.STDEV.S(A1:A3)'],
    ['SUM(A1#)*2', 'SUM(_xlfn.ANCHORARRAY(A1))*2'],
    ["Parts!$A$1#&'It''s A1#'!B2#", "_xlfn.ANCHORARRAY(Parts!$A$1)&_xlfn.ANCHORARRAY('It''s A1#'!B2)"],
    ['A1:B2#', 'A1:_xlfn.ANCHORARRAY(B2)'],
    ['INDEX(A1:A3,1)#', '_xlfn.ANCHORARRAY(INDEX(A1:A3,1))'],
    ['@A1#+@B1:B9', '_xlfn.SINGLE(_xlfn.ANCHORARRAY(A1))+_xlfn.SINGLE(B1:B9)'],
    ['"Part A1# "&B1', '"Part A1# "&B1'],
    ["'Part A1# '!B1&Parts[A1'#]", "'Part A1# '!B1&Parts[A1'#]"],
    ['"a ""TARE.AREA.RECT(A1#)"" b"', '"a ""TARE.AREA.RECT(A1#)"" b"'],
    ['LET(x,A1,y,x+1,x*y)+x', '_xlfn.LET(_xlpm.x,A1,_xlpm.y,_xlpm.x+1,_xlpm.x*_xlpm.y)+x'],
    ['LET(f,LAMBDA(a,a*2),f(3))', '_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.a,_xlpm.a*2),_xlpm.f(3))'],
    // As Excel for the Mac saved it: a parameter that may be left out is marked where it is declared, and not where it is used.
    [
      'LAMBDA(value,[periods],IF(ISOMITTED(periods),value,value*periods))',
      '_xlfn.LAMBDA(_xlpm.value,_xlop.periods,IF(_xlfn.ISOMITTED(_xlpm.periods),_xlpm.value,_xlpm.value*_xlpm.periods))',
    ],
    ['MAP(A1:A3,LAMBDA(x,x+1))', '_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.x,_xlpm.x+1))'],
    // A function by its bare name: seen in a file that Excel saved (a report to IronCalc, issue 132).
    ['BYROW(A1:C3,SUM)', '_xlfn.BYROW(A1:C3,_xleta.SUM)'],
    ['MAP(A1:A3, ABS )', '_xlfn.MAP(A1:A3, _xleta.ABS )'],
    [
      'REDUCE(0,MAP(A1:A3,LAMBDA(sum,sum+1)),SUM)+Sum',
      '_xlfn.REDUCE(0,_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.sum,_xlpm.sum+1)),_xleta.SUM)+Sum',
    ],
    ['BYROW(A1:C3,Total)', '_xlfn.BYROW(A1:C3,Total)'],
    // Wherever a function may stand as a value, and nowhere else: in other places the word is a name that is not defined yet.
    ['LET(f,MAX,f(3,7,5))', '_xlfn.LET(_xlpm.f,_xleta.MAX,_xlpm.f(3,7,5))'],
    ['LAMBDA(f,x,f(x))(ABS,-3)', '_xlfn.LAMBDA(_xlpm.f,_xlpm.x,_xlpm.f(_xlpm.x))(_xleta.ABS,-3)'],
    ['LET(f,LAMBDA(g,g(2)),f(SQRT))', '_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.g,_xlpm.g(2)),_xlpm.f(_xleta.SQRT))'],
    ['GROUPBY(A1:A9,B1:B9,HSTACK(SUM,MAX),3)', '_xlfn.GROUPBY(A1:A9,B1:B9,_xlfn.HSTACK(_xleta.SUM,_xleta.MAX),3)'],
    ['PIVOTBY(A1:A9,B1:B9,C1:C9,SUM)', '_xlfn.PIVOTBY(A1:A9,B1:B9,C1:C9,_xleta.SUM)'],
    ['MAP(A1:A3,Rate,LAMBDA(a,b,a+b))', '_xlfn.MAP(A1:A3,Rate,_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+_xlpm.b))'],
    ['LET(x,TRUE,x)+HSTACK(Rate,1)', '_xlfn.LET(_xlpm.x,TRUE,_xlpm.x)+_xlfn.HSTACK(Rate,1)'],
    ['TARE.CG.ARM(A1:A9,B1:B9)', '_xldudf_TARE_CG_ARM(A1:A9,B1:B9)'],
    ['"TARE.AREA.RECT(1)"&"XLOOKUP("', '"TARE.AREA.RECT(1)"&"XLOOKUP("'],
    ["'XLOOKUP(it'!A1+SORT", "'XLOOKUP(it'!A1+SORT"],
    ['Sizes[XLOOKUP(]', 'Sizes[XLOOKUP(]'],
    ['SUM(A1:A3)', 'SUM(A1:A3)'],
  ])('%s', (typed, filed) => {
    expect(toFile(typed)).toBe(filed);
    expect(fromFile(filed).toUpperCase()).toBe(typed.toUpperCase());
  });

  it.each([
    ['_xldudf_tare_area_rect(1,2)', 'TARE.AREA.RECT(1,2)'],
    ['_xlfn.LET(_xlpm.x,1,_xlpm.x+1)', 'LET(x,1,x+1)'],
    ['_xlfn.LAMBDA(_xlop.x,_xlop.x+1)(2)', 'LAMBDA([x],x+1)(2)'],
    ['_xlfn.LAMBDA(_xlpm.a,_xlop.b,IF(_xlop.b,_xlop.b,_xlpm.a))', 'LAMBDA(a,[b],IF(b,b,a))'],
    ['_xldudf_OTHER_FUNCTION(1)', '_xldudf_OTHER_FUNCTION(1)'],
    ['"_xlfn.XLOOKUP("', '"_xlfn.XLOOKUP("'],
  ])('%s is read', (filed, typed) => expect(fromFile(filed)).toBe(typed));

  it('leaves a name that is spelled like a function a name', () => {
    const isName = (name: string): boolean => ['sum', 'twice'].includes(name.toLowerCase());
    for (const [typed, filed] of [
      ['BYROW(A1:C3,Sum)', '_xlfn.BYROW(A1:C3,Sum)'],
      ['BYROW(A1:C3,MAX)', '_xlfn.BYROW(A1:C3,_xleta.MAX)'],
      ['LET(f,SUM,f(A1:A3))', '_xlfn.LET(_xlpm.f,SUM,_xlpm.f(A1:A3))'],
      // The function of that name, handed on: the mark is what tells it from the name.
      ['BYROW(A1:C3,_xleta.SUM)', '_xlfn.BYROW(A1:C3,_xleta.SUM)'],
      ['Twice(ABS,2)', 'Twice(_xleta.ABS,2)'],
    ] as const) {
      expect(toFile(typed, isName)).toBe(filed);
      expect(fromFile(filed, isName)).toBe(typed);
    }
    expect(fromFile('_xlfn.BYROW(A1:C3,_xleta.SUM)')).toBe('BYROW(A1:C3,SUM)');
  });

  it('goes there and back for every function of the catalogue', () => {
    for (const { name } of catalogue) {
      const filed = toFile(`TARE.${name}(A1)`);
      expect(filed).toMatch(/^_xldudf_TARE_[A-Z0-9_]+\(A1\)$/);
      expect(fromFile(filed)).toBe(`TARE.${excelName(name)}(A1)`);
    }
  });

  it('has the name that Excel knows, which is registered under three characters or more', () => {
    expect(toFile('TARE.CG(A1:A9,B1:B9)')).toBe('_xldudf_TARE_CG_ARM(A1:A9,B1:B9)');
    expect(fromFile('_xldudf_TARE_CG(A1:A9,B1:B9)')).toBe('TARE.CG(A1:A9,B1:B9)');
    for (const { name } of catalogue) expect(excelName(name).length).toBeGreaterThanOrEqual(3);
  });

  it('says "this row" as files do: the sign @ is no part of their grammar', () => {
    // Source: XlsxWriter documentation, "Structured References in Tables".
    expect(toFile('Parts[@width]*Parts[@[my length]]')).toBe(
      'Parts[[#This Row],[width]]*Parts[[#This Row],[my length]]',
    );
    expect(toFile('Parts[@[a]:[b]]&Parts[@]&"[@a]"&Parts[[a\'@]]')).toBe(
      'Parts[[#This Row],[a]:[b]]&Parts[#This Row]&"[@a]"&Parts[[a\'@]]',
    );
  });

  it('comes back as it was typed', () => {
    fc.assert(
      fc.property(anyFormula, (formula) => {
        expect(fromFile(toFile(formula))).toBe(formula);
      }),
      { numRuns: 3000 },
    );
  });

  it.each(['ANCHORARRAY(A1:B2)', 'ANCHORARRAY(A1+1)', 'SINGLE(A1):B2', 'SINGLE(A1+1)'])('keeps %s', (typed) =>
    expect(fromFile(`_xlfn.${typed}`)).toBe(typed),
  );
});

describe('what a formula calls', () => {
  it('is found outside of texts', () => {
    expect(functionNames('IF(sum(A1)>1,"MAX(1)",Tare.Area.Rect(1,2))')).toEqual(['IF', 'SUM', 'TARE.AREA.RECT']);
    expect(isDynamic('1+TARE.AREA.RECT(1,2)')).toBe(true);
    expect(isDynamic('SUM(A1:A3)')).toBe(false);
    expect(isDynamic('"TARE.AREA.RECT(1,2)"')).toBe(false);
  });

  it('has its sheets renamed', () => {
    const names = new Map([['parts', "Rib's"]]);
    expect(withSheetNames(`Parts!A1+'PARTS'!B1+"Parts!A1"+Prices!A1`, names)).toBe(
      `'Rib''s'!A1+'Rib''s'!B1+"Parts!A1"+Prices!A1`,
    );
  });
});
