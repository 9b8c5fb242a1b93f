/**
 * Distributions with many degrees of freedom, trials or far tails, where logarithms of large numbers cancel. Expected: their
 * series, products and integrals (Abramowitz and Stegun 6.5, 26.5, 26.6, 26.7) summed with 40 digits by mpmath 1.3.
 */
import { expect, it } from 'vitest';
import { evaluate } from '../../src/calculation';

it.each<[formula: string, expected: number]>([
  ['T.DIST.RT(15,146095)', 4.0058834007392272e-51],
  ['T.DIST.RT(40,3)', 1.7190340394579264e-5],
  ['TDIST(2.5,99999,2)', 0.012420919208445002],
  ['T.DIST(1.5,50000,FALSE)', 0.12951731231367841],
  ['T.DIST(0,7,FALSE)', 0.38499145083226733],
  ['FDIST(1,71429,3)', 0.60836834832233984],
  ['F.DIST.RT(1.01,20000,30000)', 0.220099763646754],
  ['F.DIST(0.98,5,90000,TRUE)', 0.57178761532480265],
  ['F.DIST(1.01,20000,30000,FALSE)', 22.728843296817621],
  ['F.DIST(2,3,4,FALSE)', 0.13942740046346701],
  ['GAMMA.DIST(50100,50000,1,TRUE)', 0.67306998937619541],
  ['GAMMA.DIST(1002000,1000000,1,FALSE)', 5.4026860136788029e-5],
  ['CHISQ.DIST(199000,200000,FALSE)', 0.00018087233768879745],
  ['POISSON.DIST(1000500,1000000,FALSE)', 0.00035198464521259209],
  ['POISSON.DIST(40000,40100,TRUE)', 0.30985819202759014],
  ['BINOM.DIST(500300,1000000,0.5,FALSE)', 0.0006664491519344462],
  ['BINOM.DIST(30200,100000,0.3,TRUE)', 0.91669255187628422],
  ['NEGBINOM.DIST(9000,1000,0.1,FALSE)', 0.0013296955574587914],
  ['HYPGEOM.DIST(310,1000,30000,100000,FALSE)', 0.021581925031878697],
  // Exact fractions: 1 − 63/1E10 to its digits.
  ['HYPGEOM.DIST(0,7,9,10000000000,FALSE)', 0.99999999370000001],
  ['BETA.DIST(0.3,3000,7000,TRUE)', 0.50116076913624996],
  ['BETA.DIST(0.31,3000,7000,FALSE)', 8.1370637528266821],
  ['CHISQ.DIST.RT(10000100000,10000000000)', 0.23974932877221991],
  ['GAMMA.DIST(999000,1000000,1,TRUE)', 0.15865521357430365],
])('=%s', (formula, expected) => {
  const given = evaluate(formula) as number;
  expect({ formula, apart: Math.abs(given / expected - 1) }).toEqual({ formula, apart: expect.closeTo(0, 11) });
});

it('finds where a part lies, the ends included', () => {
  // The quantile by its own distribution, and by the expansion of Cornish and Fisher: A&S 26.4.16.
  expect(evaluate('CHISQ.DIST.RT(CHIINV(0.975,1E10),1E10)')).toBeCloseTo(0.975, 10);
  expect(evaluate('CHIINV(0.975,1E10)')).toBeCloseTo(9_999_722_821.13, 1);
  for (const formula of ['F.INV(0,10,10)', 'FINV(1,10,10)', 'CHISQ.INV(0,3)', 'CHIINV(1,3)', 'GAMMA.INV(0,2,3)'])
    expect([formula, evaluate(formula)]).toEqual([formula, 0]);
});
