import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NotListedError } from '../../../src/core/input-error';
import { checkRivet, fraction, pickRivet, rivetLength, ROUNDINGS, type Rounding } from '../../../src/core/fastener';
import { BLIND_GRIPS } from '../../../src/core/fastener/sizes';

const dash = fc.constantFrom(3, 4, 5, 6, 8);
const grip = fc.double({ min: 0.03, max: 1.2, noNaN: true });

describe('the rivet for a grip', () => {
  it.each<[number, Rounding, string]>([
    [0.072, 'nearest', 'MS20470AD4-4'],
    [0.072, 'longer', 'MS20470AD4-5'],
    [0.072, 'nearest half', 'MS20470AD4-4'],
    [0.072, 'longer half', 'MS20470AD4-4.5'],
    [0.0625, 'longer', 'MS20470AD4-4'],
    [0.09, 'nearest', 'MS20470AD4-4'],
    [0.1, 'nearest half', 'MS20470AD4-4.5'],
  ])('1/8 in through %s, %s: %s', (through, rounding, designation) =>
    expect(pickRivet('universal', 0.125, through, rounding).designation).toBe(designation),
  );

  it('takes the alloy, the style and the pair that are asked for', () => {
    expect(pickRivet('flush', 0.15625, 0.1, 'nearest', 'dd').designation).toBe('MS20426DD5-5');
    expect(pickRivet('blind', 0.125, 0.1, 'nearest', 'AS').designation).toBe('BLIND-AS-42');
  });

  it.each([
    [2.4, 3],
    [3.2, 4],
    [4, 5],
    [4.8, 6],
  ])('%s mm is %s/32 in', (mm, wanted) => expect(pickRivet('universal', mm / 25.4, 0.1).dash).toBe(wanted));

  it.each([
    ['universal', 0.1, 0.1, /diameter: got 0.1; takes the diameters 1\/16, 3\/32, 1\/8, 5\/32, 3\/16, 1\/4/],
    ['blind', 0.25, 0.1, /takes the diameters 3\/32, 1\/8, 5\/32, 3\/16/],
    ['universal', 4, 0.1, /write 4\/32/],
    ['universal', 0.125, 1.9, /grip: got 1.9; takes up to 1.8125 in/],
    ['blind', 0.125, 0.6, /grip: got 0.6; takes from 0.02 in .* to 0.5 in/],
    ['blind', 0.125, 0.01, /grip: got 0.01; takes from 0.02 in/],
  ] as const)('%s of %s through %s is refused with what there is', (style, diameter, through, message) => {
    expect(() => pickRivet(style, diameter, through)).toThrow(NotListedError);
    expect(() => pickRivet(style, diameter, through)).toThrow(message);
  });

  it('an alloy that is not made is refused', () =>
    expect(() => pickRivet('universal', 0.125, 0.1, 'nearest', 'XX')).toThrow(
      /alloy: got "XX"; takes A, B, AD, D, DD/,
    ));

  it('nearest is within half a step, longer is never shorter than what is needed', () => {
    fc.assert(
      fc.property(dash, grip, fc.constantFrom(...ROUNDINGS), (d, through, rounding) => {
        const picked = pickRivet('universal', d / 32, through, rounding);
        const over = picked.length - rivetLength(through, d / 32);
        const step = rounding.endsWith('half') ? 1 / 32 : 1 / 16;
        return rounding.startsWith('longer') ? over > -1e-9 && over < step : Math.abs(over) <= step / 2 + 1e-9;
      }),
    );
  });

  it('what is picked passes the check of its own grip', () => {
    fc.assert(
      fc.property(
        dash,
        grip,
        fc.constantFrom('universal', 'flush', 'blind' as const),
        fc.constantFrom(...ROUNDINGS),
        (d, through, style, rounding) => {
          if (style === 'blind' && (d > 6 || through > 0.25)) return true;
          if (style === 'flush' && through < 0.1) return true; // thinner than the head
          const rivet = pickRivet(style, d / 32, through, rounding);
          const findings = checkRivet({
            rivet,
            grip: through,
            thickestSheet: d / 96,
            pitch: (5 * d) / 32,
            edge: (3 * d) / 32,
          });
          return findings.length === 0;
        },
      ),
    );
  });

  it('every grip of a blind diameter has one size, the ranges leaving no gap', () => {
    for (const d of [3, 4, 5, 6]) {
      const sizes = BLIND_GRIPS.filter((row) => row.dash === d);
      for (let through = sizes[0]!.min; through <= sizes.at(-1)!.max; through += 0.0005) {
        const picked = pickRivet('blind', d / 32, through);
        expect(picked.kind === 'blind' && picked.gripMax >= through - 1e-9 && picked.gripMin <= through + 0.001).toBe(
          true,
        );
      }
    }
  });

  it('fractions are in lowest terms', () =>
    expect([2, 3, 4, 6, 8].map(fraction)).toEqual(['1/16', '3/32', '1/8', '3/16', '1/4']));
});
