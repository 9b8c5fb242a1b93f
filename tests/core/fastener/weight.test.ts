import { describe, expect, it } from 'vitest';
import {
  BLIND_PAIRS,
  holeMetal,
  rivet,
  rivetHole,
  rivetsPerPound,
  rivetWeight,
  SOLID_SIZES,
  type BlindPair,
} from '../../../src/core/fastener';
import { BLIND_GRIPS } from '../../../src/core/fastener/sizes';
import { blindRivet, solidRivet } from '../../../src/core/fastener/designation';
import { boredCap, sphericalCap } from '../../../src/core/fastener/weight';
import { densityOf, material } from '../../../src/core/material';

describe('weights of rivets', () => {
  it('a solid rivet weighs the same bought and installed', () => {
    const of = rivet('MS20470AD4-6');
    expect(rivetWeight(of, 'bought')).toBe(rivetWeight(of, 'installed'));
    expect(rivetsPerPound(of) * rivetWeight(of)).toBeCloseTo(1, 12);
  });

  it('installed is what is meant where nothing is said', () => {
    const of = rivet('BLIND-AS-42');
    expect(rivetWeight(of)).toBe(rivetWeight(of, 'installed'));
  });

  it('every blind rivet loses its stem: less installed than bought, and more than its body', () => {
    for (const pair of Object.keys(BLIND_PAIRS) as BlindPair[]) {
      for (const { dash, gripDash } of BLIND_GRIPS) {
        const of = blindRivet(pair, dash, gripDash);
        expect(rivetWeight(of, 'installed')).toBeLessThan(0.6 * rivetWeight(of, 'bought'));
        expect(rivetWeight(of, 'installed')).toBeGreaterThan(0);
      }
    }
  });

  it('a steel mandrel weighs more than an aluminium one, a steel body more again', () => {
    const [aa, as, ss] = (['AA', 'AS', 'SS'] as const).map((pair) => rivetWeight(blindRivet(pair, 4, 2), 'bought'));
    expect(aa!).toBeLessThan(as!);
    expect(as!).toBeLessThan(ss!);
  });

  it('each further 1/16 in of a solid rivet adds that much shank', () => {
    for (const { dash, shank } of SOLID_SIZES) {
      const step =
        rivetWeight(solidRivet('universal', 'AD', dash, 9)) - rivetWeight(solidRivet('universal', 'AD', dash, 8));
      expect(step).toBeCloseTo((((Math.PI / 4) * shank ** 2) / 16) * densityOf(material('2117')), 10);
    }
  });

  it('a flush rivet of the same designation is the lighter, its head being within its length', () => {
    for (const { dash } of SOLID_SIZES) {
      expect(rivetWeight(solidRivet('flush', 'AD', dash, 8))).toBeLessThan(
        rivetWeight(solidRivet('universal', 'AD', dash, 8)),
      );
    }
  });

  it('a cap with no bore to speak of is a whole cap', () =>
    expect(boredCap(0.25, 0.04, 1e-6)).toBeCloseTo(sphericalCap(0.25, 0.04), 10));

  it('the hole is wider than the shank, and its metal is a share of the rivet', () => {
    for (const { dash, shank } of SOLID_SIZES)
      expect(rivetHole(solidRivet('universal', 'AD', dash, 6))).toBeGreaterThan(shank);
    const of = rivet('MS20470AD4-4');
    const share = holeMetal(of, 0.072, densityOf(material('2024'))) / rivetWeight(of);
    expect(share).toBeGreaterThan(0.18);
    expect(share).toBeLessThan(0.24);
  });
});
