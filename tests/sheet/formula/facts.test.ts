/** The table of ordinary functions. */
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../../src/calculation/functions';
import { allFunctionFacts, functionFacts, isDynamic, needsArray } from '../../../src/sheet/formula';

describe('what is known of ordinary functions', () => {
  it('holds every function that is calculated, with the arguments that it takes', () => {
    const differ = [...FUNCTIONS].flatMap(([name, { min, max }]) => {
      const count = functionFacts(name)?.count;
      const most = max >= 250 ? Infinity : max;
      return count?.min === min && count.max === most ? [] : [`${name} ${min}-${max}`];
    });
    expect(differ).toEqual([]);
  });

  it('agrees with the calculator on what is computed over arrays', () => {
    const differ = [...FUNCTIONS].flatMap(([name, spec]) =>
      spec.kind === 'eager' && Boolean(spec.arrays) !== functionFacts(name)?.overArrays ? [name] : [],
    );
    expect(differ).toEqual([]);
  });

  it.each([
    ['xlookup', '_xlfn.'],
    ['FILTER', '_xlfn._xlws.'],
    ['SUM', ''],
    // Source: XlsxWriter documentation: these two are of the first edition although they have a dot.
    ['NETWORKDAYS.INTL', ''],
    ['WORKDAY.INTL', ''],
  ])('%s has the prefix "%s" in files', (name, prefix) => expect(functionFacts(name)?.filePrefix).toBe(prefix));

  it('names no function twice and none without a count but one', () => {
    expect([...allFunctionFacts.values()].filter(({ count }) => !count).map(({ name }) => name)).toEqual([
      'QUERYSTRING',
    ]);
    for (const { count } of allFunctionFacts.values()) if (count) expect(count.min).toBeLessThanOrEqual(count.max);
  });

  it('says what spills and what has to be stored as an array', () => {
    expect(isDynamic('SUM(unique(A1:A3))')).toBe(true);
    expect(isDynamic('"UNIQUE("&A1')).toBe(false);
    expect(needsArray('ROUND(A1:A3,1)')).toBe(true);
    expect(needsArray('SUMIFS(A1:A3,B1:B3,C1:C3)')).toBe(true);
    expect(needsArray('SUMIFS(A1:A3,B1:B3,C1,D1:D3,C2)')).toBe(false);
    expect(needsArray('SUMPRODUCT(A1:A3*2)')).toBe(false);
    expect(needsArray('SUM(A1:A3*2)')).toBe(true);
  });
});
