/**
 * No function counts through what it is given: with numbers up to 1E300 in each of its arguments, and in two of them, it
 * comes to an end. A loop without one would keep this file from ending.
 */
import { describe, expect, it } from 'vitest';
import { byTarebook } from '../../tools/compare/calculators';
import { SIGNATURES } from '../../tools/compare/signatures';

/** Something small by the letters of the signatures. */
const SMALL: Readonly<Record<string, string>> = {
  ...{ n: '2.5', p: '3', u: '0.5', k: '2', i: '3', d: '46095', x: '1', b: 'TRUE', h: '"11"', z: '"3+4i"' },
  ...{ r: 'B1:B10', q: 'B1:B10', s: 'B1:B10', v: 'H1:H10', y: 'H1:J3', m: '{1,2;3,4}' },
  ...{ t: '"ab"', w: '"a"', c: '">2"', f: '"0.00"', g: '"in"' },
};
const LARGE = ['1E9', '1E15', '-1E12', '1E300'];
const TAKES_NUMBER = /[npukidx]/;

function callsOf(name: string, letters: readonly string[]): string[] {
  const call = (large: ReadonlyMap<number, string>): string =>
    `${name}(${letters.map((letter, index) => large.get(index) ?? SMALL[letter]!).join(',')})`;
  const places = letters.flatMap((letter, index) => (TAKES_NUMBER.test(letter) ? [index] : []));
  return [
    ...places.flatMap((place) => LARGE.map((number) => call(new Map([[place, number]])))),
    ...places.flatMap((one) =>
      places
        .filter((other) => other > one)
        .map((other) =>
          call(
            new Map([
              [one, '1E9'],
              [other, '1E9'],
            ]),
          ),
        ),
    ),
    ...places.map((left) => call(new Map(places.filter((place) => place !== left).map((place) => [place, '1E9'])))),
  ];
}

describe('huge arguments', () => {
  it('come to an end in every function', () => {
    const asked = Object.entries(SIGNATURES).flatMap(([name, signature]) =>
      callsOf(name, [...signature.replace('|', '')]).map((formula) => ({ formula })),
    );
    expect(asked.length).toBeGreaterThan(2500);
    expect(byTarebook(asked)).toHaveLength(asked.length);
  });

  it.each([
    // The median is the mean where that is a whole number. Source: R. Kaas and J. M. Buhrman, "Mean, median and mode in
    // binomial distributions", 1980 (from memory, verify).
    ['BINOM.INV(1000000,0.5,0.5)', 500_000],
    ['CRITBINOM(2000000,0.25,0.5)', 500_000],
    // From both sides of the mean, the two parts are 1. Source: by hand.
    ['HYPGEOM.DIST(300,600,5000,10000,TRUE)+HYPGEOM.DIST(299,600,5000,10000,TRUE)', 1],
    ['PERMUT(1E9,1E9)', undefined],
    ['VDB(1E6,1,1E9,0,1E9)', undefined],
  ])('%s', (formula, expected) => {
    const [result] = byTarebook([{ formula }]);
    if (expected === undefined) expect(String(result)).toBe('#NUM!');
    else expect(result).toBeCloseTo(expected, 6);
  });
});
