import { describe, expect, it } from 'vitest';
import { budget, RollUpSum, weightBands } from '../../src/core/mass';
import { ByName, distinctNames, nameKey, sameName } from '../../src/core/names';
import { openPriceBook, readPriceList } from '../../src/core/price';

/** Pairs that a person reads as one name. */
const SAME: readonly (readonly [string, string])[] = [
  ['Wing', 'wing '],
  ['Wing', '  WING'],
  ['Left  wing', 'left wing'],
  ['Left\u00a0wing', 'Left wing'],
  ['Left\twing', 'Left wing'],
  ['Flügel', 'FLÜGEL'],
  // u and the accent as two characters, as some keyboards and file systems have it
  ['Flügel', 'Flu\u0308gel'],
  ['FLU\u0308GEL', 'flügel'],
  ['Straße', 'STRASSE'],
  ['STRAẞE', 'straße'],
  ['ΣΑΣ', 'σας'],
  ['Å', '\u212b'],
];
const OTHER: readonly (readonly [string, string])[] = [
  ['Wing', 'Wings'],
  ['Wing 1', 'Wing1'],
  ['Flugel', 'Flügel'],
  ['', 'a'],
];

describe('names', () => {
  it.each(SAME)('"%s" is "%s"', (one, other) => {
    expect(sameName(one, other)).toBe(true);
    expect(nameKey(one)).toBe(nameKey(other));
  });

  it.each(OTHER)('"%s" is not "%s"', (one, other) => expect(sameName(one, other)).toBe(false));

  it('keep the first spelling, once', () => {
    expect(distinctNames(['Wing', 'wing ', 'Tail', ' TAIL', 'Flu\u0308gel', 'FLÜGEL'])).toEqual([
      'Wing',
      'Tail',
      'Flu\u0308gel',
    ]);
    const sums = new ByName(() => ({ n: 0 }), '(none)');
    for (const name of ['Wing', ' wing', 'WING', '', '  ']) sums.get(name).n += 1;
    expect(sums.entries().map(({ name, value }) => [name, value.n])).toEqual([
      ['Wing', 3],
      ['(none)', 2],
    ]);
    expect(sums.known('wInG')?.n).toBe(3);
    expect(sums.known('Tail')).toBeUndefined();
  });
});

describe('one comparison', () => {
  const spellings = SAME.filter(([one]) => one !== 'Left\twing');

  it.each(spellings)('rolls "%s" and "%s" up as one, in every sum', (one, other) => {
    const sum = new RollUpSum();
    sum.add(one, 10, 1);
    sum.add(other, 5, 1);
    expect(sum.result().groups.map(({ group, weight }) => [group, weight])).toEqual([[one.trim(), 15]]);
    const lines = budget(
      [
        { group: one, weight: 10, status: 'weighed' },
        { group: other, weight: 5, status: 'Weighed ' },
      ],
      [{ group: other, weight: 20 }],
    );
    expect(lines.map(({ current, margin }) => [current, margin])).toEqual([
      [15, 5],
      [15, 5],
    ]);
    const bands = weightBands([
      { group: one, weight: 10, tolerance: { fraction: 0.1 }, lot: one },
      { group: other, weight: 10, tolerance: { fraction: 0.1 }, lot: other },
    ]);
    // One lot errs as one: the errors are added, not squared.
    expect(bands.map(({ rootSum }) => rootSum)).toEqual([2, 2]);
  });

  it.each(spellings)('prices "%s" under "%s", whatever the supplier is typed like', (one, other) => {
    const list = readPriceList([
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'From', 'Supplier'],
      [one, 'other', 'each', '', 10, '', one],
      [other, 'other', 'each', '', 8, 10, other],
    ]);
    expect(list.problems).toEqual([]);
    const item = openPriceBook(list).find(other);
    expect(item.offers).toHaveLength(1);
    expect(item.offers[0]!.breaks).toHaveLength(2);
  });
});
