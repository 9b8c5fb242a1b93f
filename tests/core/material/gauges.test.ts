import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaugeName, gaugeThickness, nearestGauge, parseGauge } from '../../../src/core/material';
import { THICKEST_GAUGE, THINNEST_GAUGE } from '../../../src/core/material/gauges';

const gauges = fc.integer({ min: THICKEST_GAUGE, max: THINNEST_GAUGE });

describe('gauges', () => {
  it.each([
    ['20', 20],
    [20, 20],
    ['#20', 20],
    ['20 ga', 20],
    ['20 AWG', 20],
    ['0', 0],
    ['00', -1],
    ['0000', -3],
    ['4/0', -3],
    ['1/0', 0],
  ])('reads %s', (written, n) => expect(parseGauge(written)).toBe(n));

  it.each([['twenty'], [20.5], [''], ['5/0'], [true as unknown as string]])('refuses %s as no gauge', (written) =>
    expect(() => parseGauge(written)).toThrow(/gauge: got .*; takes a Brown & Sharpe gauge/),
  );

  it.each([[41], [-1], [100]])('has no gauge %s', (n) =>
    expect(() => parseGauge(n)).toThrowError(
      expect.objectContaining({ constructor: expect.objectContaining({ name: 'NotListedError' }) }),
    ),
  );

  it('says that a decimal looks like a thickness', () =>
    expect(() => parseGauge(0.032)).toThrow(/looks like a thickness in inches/));

  it('a printed thickness gives its gauge back', () => {
    fc.assert(fc.property(gauges, (n) => nearestGauge(gaugeThickness(n)) === n));
  });

  it('a name gives its number back', () => {
    fc.assert(fc.property(gauges, (n) => parseGauge(gaugeName(n)) === n));
  });

  it('every gauge is thinner than the one before', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: THICKEST_GAUGE, max: THINNEST_GAUGE - 1 }),
        (n) => gaugeThickness(n + 1) < gaugeThickness(n),
      ),
    );
  });

  it('nearest is nearest: no other gauge is closer', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.0031, max: 0.46, noNaN: true }), (thickness) => {
        const off = Math.abs(gaugeThickness(nearestGauge(thickness)) - thickness);
        for (let n = THICKEST_GAUGE; n <= THINNEST_GAUGE; n++)
          if (Math.abs(gaugeThickness(n) - thickness) < off - 1e-12) return false;
        return true;
      }),
    );
  });

  it('refuses a thickness beyond the table', () => {
    expect(() => nearestGauge(0.6)).toThrow(/thickness: got 0.6; takes a thickness from 0.0031 in/);
    expect(() => nearestGauge(0.001)).toThrow();
  });
});
