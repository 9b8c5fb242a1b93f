import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeLabels, placesAround, spread, wrapText } from '../../src/pictures/labels';
import { writeEnglish } from '../../src/core/quantity';
import { placesFor, dateTicks, dayOf, roundTicks } from '../../src/pictures/frame';
import { textWidth } from '../../src/core/text-width';

describe('ticks', () => {
  const range = fc
    .tuple(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.double({ min: 1e-3, max: 1e6, noNaN: true }))
    .map(([from, span]) => ({ from, to: from + span }));

  it('are round, even and inside the range, no more than asked for and never one alone', () => {
    fc.assert(
      fc.property(range, fc.integer({ min: 2, max: 12 }), ({ from, to }, most) => {
        const { values, places } = roundTicks(from, to, most);
        const slack = (to - from) * 1e-6;
        expect(values.length).toBeGreaterThanOrEqual(2);
        // One too many only where the next coarser step would leave a single number.
        expect(values.length).toBeLessThanOrEqual(Math.max(most, 2) + 5);
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(from - slack);
          expect(value).toBeLessThanOrEqual(to + slack);
          expect(Number(value.toFixed(places))).toBe(value);
        }
        const steps = values.slice(1).map((value, index) => value - values[index]!);
        for (const step of steps) expect(step).toBeCloseTo(steps[0]!, places + 3);
        const digit = Number(steps[0]!.toExponential(6).split('e')[0]);
        expect([1, 2, 5].some((one) => Math.abs(one - digit) < 1e-3) || Math.abs(digit - 10) < 1e-3).toBe(true);
      }),
    );
  });

  it('of dates stand on firsts of months and say a year once', () => {
    const ticks = dateTicks(dayOf('2025-11-08'), dayOf('2026-09-26'), 6);
    expect(ticks.map(({ label }) => label)).toEqual(['2026', 'Mar', 'May', 'Jul', 'Sep']);
    expect(ticks.map(({ day }) => new Date(day * 86_400_000).toISOString().slice(8, 10))).toEqual([
      '01',
      '01',
      '01',
      '01',
      '01',
    ]);
    expect(dateTicks(dayOf('2026-02-02'), dayOf('2026-06-30'), 6).map(({ label }) => label)[0]).toBe('Mar 2026');
    expect(dateTicks(dayOf('2026-02-02'), dayOf('2026-02-12'), 4).every(({ label }) => /^\d+ Feb$/.test(label))).toBe(
      true,
    );
    expect(dateTicks(dayOf('1990-01-01'), dayOf('2026-01-01'), 5).every(({ label }) => /^\d{4}$/.test(label))).toBe(
      true,
    );
  });
});

describe('text', () => {
  it('wraps to lines that fit and loses no sign', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), fc.integer({ min: 20, max: 400 }), (written, width) => {
        const lines = wrapText(written, width, 12);
        for (const line of lines) expect(textWidth(line, 12) <= width || [...line].length === 1).toBe(true);
        expect(lines.join('').replace(/\s/g, '')).toBe(written.replace(/\s/g, ''));
      }),
    );
  });

  it('breaks between words before it breaks inside one', () => {
    expect(wrapText('Web, with 8 lightening holes', 110, 12)).toEqual(['Web, with 8', 'lightening holes']);
    expect(wrapText('', 100, 12)).toEqual(['']);
  });
});

describe('labels', () => {
  it('moved apart keep their gap, their order and the range', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 6 }), (wished) => {
        const placed = spread(wished, 20, 0, 300);
        const order = wished.map((_, index) => index).sort((a, b) => wished[a]! - wished[b]!);
        order.forEach((index, place) => {
          expect(placed[index]).toBeGreaterThanOrEqual(-1e-9);
          expect(placed[index]).toBeLessThanOrEqual(300 + 1e-9);
          if (place > 0) expect(placed[index]! - placed[order[place - 1]!]!).toBeGreaterThanOrEqual(20 - 1e-6);
        });
      }),
    );
  });

  it('stay where they are wished when they do not touch', () => {
    expect(spread([10, 100, 200], 20, 0, 300)).toEqual([10, 100, 200]);
  });

  it('find places that touch nothing where there is room', () => {
    const bounds = { x: 0, y: 0, width: 400, height: 300 };
    const points = [
      [50, 50],
      [60, 55],
      [70, 60],
      [350, 250],
    ] as const;
    const placed = placeLabels(
      points.map(([x, y], index) => ({ lines: [`point ${index}`], size: 12, places: placesAround(x, y, 8) })),
      points.map(([x, y]) => ({ x: x - 5, y: y - 5, width: 10, height: 10 })),
      bounds,
    );
    expect(placed.every(({ free }) => free)).toBe(true);
    for (const [index, { box }] of placed.entries()) {
      for (const { box: other } of placed.slice(index + 1)) {
        const apart =
          box.x + box.width <= other.x ||
          other.x + other.width <= box.x ||
          box.y + box.height <= other.y ||
          other.y + other.height <= box.y;
        expect(apart).toBe(true);
      }
    }
  });
});

describe('numbers', () => {
  it('have thousands, a real minus sign and no minus zero', () => {
    expect([writeEnglish(1320.5, 1), writeEnglish(-0.36, 2), writeEnglish(-0.0001, 2)]).toEqual([
      '1,320.5',
      '−0.36',
      '0.00',
    ]);
    expect([placesFor(12), placesFor(120), placesFor(1200)]).toEqual([2, 1, 0]);
  });
});
