import { describe, expect, it } from 'vitest';
import { joint, MINUTES_EACH, rivetWeight } from '../../../src/core/fastener';
import { InputError } from '../../../src/core/input-error';

const skinToRib = { sheets: [0.025, 0.032], rivet: 'MS20470AD3-3.5', run: 24, pitch: 1, edge: 0.25, edgeDistance: 0.25 } as const;

describe('a joint', () => {
  it('counts, weighs, checks and times', () => {
    const line = joint({ ...skinToRib, repeats: 2 });
    expect(line).toMatchObject({ count: 48, check: 'ok', findings: [], hours: (48 * MINUTES_EACH.solid) / 60 });
    expect(line.grip).toBeCloseTo(0.057, 12);
    expect(line.weight).toBeCloseTo(48 * rivetWeight(line.rivet), 12);
    expect(line.bought).toBe(line.weight);
    expect(line.holeMetal).toBe(0);
  });

  it('picks the rivet for its sheets from a style and a diameter', () => {
    const line = joint({ ...skinToRib, rivet: { style: 'blind', diameter: 0.125, alloy: 'AS' } });
    expect(line.rivet.designation).toBe('BLIND-AS-41');
    expect(line.weight).toBeLessThan(line.bought);
    expect(line.hours).toBeCloseTo((24 * MINUTES_EACH.blind) / 60, 12);
  });

  it('goes through several sheets and says which rule is broken', () => {
    const line = joint({ sheets: [0.032, 0.063, 0.125], rivet: 'MS20470AD4-6', run: 10, pitch: 0.4, edge: 0.25, rows: 2, minutesEach: 1, density: 0.1 });
    expect(line.grip).toBeCloseTo(0.22, 12);
    expect(line.check).toMatch(/under 4D = 0.5 in for two rows/);
    expect(line.check).toMatch(/3 × the thickest sheet = 0.375 in/);
    expect(line.holeMetal).toBeGreaterThan(0);
    expect(line.holeMetal).toBeLessThan(line.weight);
  });

  it('refuses a joint without sheets', () => expect(() => joint({ ...skinToRib, sheets: [] })).toThrow(InputError));
});
