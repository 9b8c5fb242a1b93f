import { describe, expect, it } from 'vitest';
import { catalogue } from '../../src/functions';
import { fromFile, functionNames, isDynamic, toFile, withSheetNames } from '../../src/xlsx/formula-text';

describe('the spelling of files', () => {
  it.each([
    ['TARE.AREA.RECT(A1,B1)', '_xldudf_TARE_AREA_RECT(A1,B1)'],
    ['tare.area.rect(A1,B1)+1', '_xldudf_TARE_AREA_RECT(A1,B1)+1'],
    ['SUM(TARE.WEIGHT.SHEET(A1:A9,0.02,"6061"))', 'SUM(_xldudf_TARE_WEIGHT_SHEET(A1:A9,0.02,"6061"))'],
    ['XLOOKUP(1,A1:A3,B1:B3)', '_xlfn.XLOOKUP(1,A1:A3,B1:B3)'],
    ['SORT(FILTER(A1:A3,B1:B3>1))', '_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A1:A3,B1:B3>1))'],
    ['STDEV.S(A1:A3)', '_xlfn.STDEV.S(A1:A3)'],
    ['SUM(A1#)*2', 'SUM(_xlfn.ANCHORARRAY(A1))*2'],
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
    ['_xldudf_OTHER_FUNCTION(1)', '_xldudf_OTHER_FUNCTION(1)'],
    ['"_xlfn.XLOOKUP("', '"_xlfn.XLOOKUP("'],
  ])('%s is read', (filed, typed) => expect(fromFile(filed)).toBe(typed));

  it('goes there and back for every function of the catalogue', () => {
    for (const { name } of catalogue) {
      const filed = toFile(`TARE.${name}(A1)`);
      expect(filed).toMatch(/^_xldudf_TARE_[A-Z0-9_]+\(A1\)$/);
      expect(fromFile(filed)).toBe(`TARE.${name}(A1)`);
    }
  });
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
