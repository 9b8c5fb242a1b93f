import { describe, expect, it } from 'vitest';
import { integrate } from '../../../src/core/geometry/outline';
import { splineThrough } from '../../../src/core/geometry/surface';
import type { Point } from '../../../src/core/geometry';

describe('integrate', () => {
  it('is exact on polynomials and to the last digits on smooth functions', () => {
    expect(integrate((x) => 5 * x ** 4, 0, 2)).toBeCloseTo(32, 12);
    expect(integrate(Math.exp, 0, 3)).toBeCloseTo(Math.exp(3) - 1, 11);
    expect(integrate((x) => 1 / (1 + 400 * x * x), -1, 1)).toBeCloseTo(Math.atan(20) / 10, 11);
  });
  it('does not run a panel across a jump', () => {
    expect(integrate((x) => (x < 0.3 ? 1 : 2), 0, 1, [0.3])).toBeCloseTo(1.7, 12);
    expect(integrate((x) => Math.abs(x), -1, 2, [-5, 0, 7])).toBeCloseTo(2.5, 12);
  });
  it('gives nothing over nothing, and ends where it cannot converge', () => {
    expect(integrate(Math.exp, 1, 1)).toBe(0);
    expect(Number.isFinite(integrate((x) => (x < 1 / 3 ? 0 : 1), 0, 1))).toBe(true);
  });
});

describe('splineThrough', () => {
  it('runs through its points and along a circle', () => {
    const circle = Array.from({ length: 41 }, (_, i): Point => [
      Math.cos((Math.PI * i) / 40),
      Math.sin((Math.PI * i) / 40),
    ]);
    const curve = splineThrough(circle);
    for (const [i, s] of curve.knots.entries()) {
      expect(curve.at(s).x).toBeCloseTo(circle[i]![0], 12);
      expect(curve.at(s).y).toBeCloseTo(circle[i]![1], 12);
    }
    const length = integrate((s) => Math.hypot(curve.at(s).dx, curve.at(s).dy), 0, curve.knots.at(-1)!, curve.knots);
    expect(Math.abs(length - Math.PI)).toBeLessThan(2e-4);
  });
  it('stays straight on both sides of a corner', () => {
    const curve = splineThrough([
      [0, 0],
      [0.5, 0],
      [1, 0],
      [0.5, 0.1],
      [0, 0.2],
    ]);
    expect(curve.at(0.75).y).toBeCloseTo(0, 12);
    expect(curve.at(0.25).y).toBeCloseTo(0, 12);
  });
});
