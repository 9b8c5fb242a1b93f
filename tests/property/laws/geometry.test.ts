/** Laws of plane areas, airfoil outlines, bends and flat patterns. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CellError, type Matrix } from '../../../src/sheet';
import {
  between,
  column,
  factors,
  holds,
  law,
  lengths,
  near,
  shares,
  shuffled,
  orders,
  table,
  tare,
  thicknesses,
  value,
  whole,
} from '../tare';

describe('areas', () => {
  it('of rectangle, triangle and trapezoid: linear in each side, and one another', () => {
    law([lengths, lengths, lengths, factors], (a, b, h, k) => {
      near(value('AREA.RECT', k * a, b), k * value('AREA.RECT', a, b));
      near(value('AREA.RECT', a, b), value('AREA.RECT', b, a));
      near(value('AREA.TRIANGLE', a, h), value('AREA.RECT', a, h) / 2);
      near(value('AREA.TRAPEZOID', a, b, h), value('AREA.TRAPEZOID', b, a, h));
      near(value('AREA.TRAPEZOID', a, a, h), value('AREA.RECT', a, h));
      near(value('AREA.TRAPEZOID', a, b, h), value('AREA.TRIANGLE', a, h) + value('AREA.TRIANGLE', b, h));
    });
  });

  it('of a trapezoid: cut across it is two', () => {
    law([lengths, lengths, lengths, whole(1, 99)], (a, b, h, percent) => {
      const [part, middle] = [(h * percent) / 100, a + ((b - a) * percent) / 100];
      near(
        value('AREA.TRAPEZOID', a, middle, part) + value('AREA.TRAPEZOID', middle, b, h - part),
        value('AREA.TRAPEZOID', a, b, h),
      );
    });
  });

  it('of round shapes: with the square of the size, and one another', () => {
    law([lengths, lengths, factors, whole(0, 40)], (d, e, k, pieces) => {
      near(value('AREA.CIRCLE', k * d), k * k * value('AREA.CIRCLE', d));
      near(value('AREA.ELLIPSE', d, d), value('AREA.CIRCLE', d));
      near(value('AREA.ELLIPSE', d, e), value('AREA.ELLIPSE', e, d));
      near(value('AREA.SLOT', d, d), value('AREA.CIRCLE', d));
      near(value('AREA.SLOT', d + e, d), value('AREA.RECT', e, d) + value('AREA.CIRCLE', d));
      near(value('AREA.HOLES', d, pieces), pieces * value('AREA.CIRCLE', d));
      near(value('AREA.HOLES', d, pieces, d / 8), pieces * value('AREA.CIRCLE', 0.75 * d));
      holds(value('AREA.ELLIPSE', d, e) < value('AREA.RECT', d, e), 'an ellipse is within its rectangle');
    });
  });

  it('of a polygon: wherever it lies, whichever way round, and cut in two', () => {
    // Corners on a circle, at angles in order, make a convex outline.
    const corners = fc
      .uniqueArray(whole(0, 359), { minLength: 4, maxLength: 12 })
      .map((degrees) =>
        degrees
          .sort((a, b) => a - b)
          .map((one) => [40 * Math.cos((one * Math.PI) / 180), 40 * Math.sin((one * Math.PI) / 180)]),
      );
    law([corners, lengths, lengths, whole(0, 359), whole(1, 3)], (points, dx, dy, turn, start) => {
      const area = value('AREA.POLYGON', points);
      const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      near(
        value(
          'AREA.POLYGON',
          points.map(([x, y]) => [x! * c - y! * s + dx, x! * s + y! * c - dy]),
        ),
        area,
        5000,
      );
      near(value('AREA.POLYGON', [...points].reverse()), area);
      near(value('AREA.POLYGON', [...points.slice(start), ...points.slice(0, start)]), area, 5000);
      near(value('AREA.POLYGON', [...points, points[0]!]), area);
      near(
        value('AREA.POLYGON', points.slice(0, 3)) + value('AREA.POLYGON', [points[0]!, ...points.slice(2)]),
        area,
        5000,
      );
      holds(area < value('AREA.CIRCLE', 80), 'a polygon is within the circle of its corners');
    });
    law([lengths, lengths], (a, b) =>
      near(
        value('AREA.POLYGON', [
          [0, 0],
          [a, 0],
          [a, b],
          [0, b],
        ]),
        value('AREA.RECT', a, b),
      ),
    );
  });
});

describe('airfoils', () => {
  const sections = fc.constantFrom('0012', '2412', '4415', '23012', '23112', '0009 closed', '6409');

  it('area, girth and height: the parts between stations make the whole', () => {
    law(
      [sections, lengths, shares, shares, shares, fc.constantFrom('both', 'upper', 'lower')],
      (section, chord, a, b, c, surface) => {
        const [from, mid, to] = [a, b, c].sort((one, other) => one - other) as [number, number, number];
        if (mid - from < 0.002 || to - mid < 0.002) return;
        near(
          value('AIRFOIL.AREA', section, chord, from, mid) + value('AIRFOIL.AREA', section, chord, mid, to),
          value('AIRFOIL.AREA', section, chord, from, to),
          chord * chord,
          1e-7,
        );
        near(
          value('AIRFOIL.GIRTH', section, chord, from, mid, surface) +
            value('AIRFOIL.GIRTH', section, chord, mid, to, surface),
          value('AIRFOIL.GIRTH', section, chord, from, to, surface),
          chord,
          1e-6,
        );
        near(
          value('AIRFOIL.GIRTH', section, chord, from, to, 'upper') +
            value('AIRFOIL.GIRTH', section, chord, from, to, 'lower'),
          value('AIRFOIL.GIRTH', section, chord, from, to),
          chord,
          1e-7,
        );
      },
    );
  });

  it('skin is longer than the chord that it covers; area is less than depth times length', () => {
    law([sections, lengths, whole(0, 400), whole(450, 1000)], (section, chord, first, last) => {
      const [from, to] = [first / 1000, last / 1000];
      for (const surface of ['upper', 'lower'])
        holds(
          value('AIRFOIL.GIRTH', section, chord, from, to, surface) >= (to - from) * chord * (1 - 1e-6),
          `${surface} is shorter than its chord`,
        );
      const deepest = Math.max(
        ...Array.from({ length: 41 }, (_, i) => value('AIRFOIL.HEIGHT', section, chord, i / 40)),
      );
      holds(
        value('AIRFOIL.AREA', section, chord, from, to) <= deepest * 1.02 * (to - from) * chord,
        'more area than its box',
      );
      holds(value('AIRFOIL.HEIGHT', section, chord, from) >= 0, 'a depth below 0');
    });
  });

  it('a symmetrical section has two equal sides; the points stand as far apart as it is high', () => {
    law([fc.constantFrom('0009', '0012', '0015 closed'), lengths, shares], (section, chord, to) => {
      if (to < 0.01) return;
      near(
        value('AIRFOIL.GIRTH', section, chord, 0, to, 'upper'),
        value('AIRFOIL.GIRTH', section, chord, 0, to, 'lower'),
        chord,
        1e-9,
      );
    });
    law([sections, lengths, whole(3, 60)], (section, chord, count) => {
      const [lists, loop] = [
        table('AIRFOIL.POINTS', section, chord, count, 'lists'),
        table('AIRFOIL.POINTS', section, chord, count),
      ];
      holds(lists.length === 2 * count && loop.length === 2 * count - 1, `${lists.length} and ${loop.length} points`);
      loop.forEach((point, index) =>
        holds(
          index < count
            ? String(point) === String(lists[count - 1 - index])
            : String(point) === String(lists[index + 1]),
          'loop and lists differ',
        ),
      );
      near(
        Number(lists[count - 1]![1]) - Number(lists[2 * count - 1]![1]),
        value('AIRFOIL.HEIGHT', section, chord, 1),
        chord,
        1e-9,
      );
    });
  });

  it('an outline of its own points is the section again', () => {
    law([fc.constantFrom('0012', '2412', '4415'), whole(30, 60)], (section, count) => {
      const points = table('AIRFOIL.POINTS', section, 1, count);
      near(value('AIRFOIL.AREA', points, 50), value('AIRFOIL.AREA', section, 50), undefined, 2e-3);
      near(value('AIRFOIL.AREA', [...points].reverse(), 50), value('AIRFOIL.AREA', points, 50), undefined, 1e-6);
    });
  });
});

describe('bends', () => {
  const radii = between(0.02, 0.5);
  const angles = whole(1, 150);

  it('allowance is linear in the angle; setback at a right angle is radius and thickness; deduction is what is between them', () => {
    law([radii, thicknesses, angles, whole(1, 25)], (r, t, angle, more) => {
      near(
        value('BEND.ALLOWANCE', r, t, angle) + value('BEND.ALLOWANCE', r, t, more),
        value('BEND.ALLOWANCE', r, t, angle + more),
      );
      near(value('BEND.SETBACK', r, t), r + t);
      near(
        2 * value('BEND.SETBACK', r, t, angle) - value('BEND.ALLOWANCE', r, t, angle),
        value('BEND.DEDUCTION', r, t, angle),
        r + t,
      );
      holds(
        value('BEND.SETBACK', r, t, angle + more) > value('BEND.SETBACK', r, t, angle),
        'a sharper bend with less setback',
      );
      holds(
        value('BEND.ALLOWANCE', r, t, angle) < 2 * value('BEND.SETBACK', r, t, angle) * 1.01,
        'a bend longer than the corner that it rounds',
      );
    });
  });

  it('a flat pattern is its mold lines less a deduction for each bend', () => {
    law([radii, thicknesses, angles, between(0.1, 20), between(0.1, 20), between(0.1, 20)], (r, t, angle, a, b, w) => {
      const open = value('BEND.SETBACK', r, t, angle);
      near(
        value('FLAT.ANGLE', a + open, b + open, t, r, angle),
        a + b + 2 * open - value('BEND.DEDUCTION', r, t, angle),
      );
      const [right, off] = [value('BEND.SETBACK', r, t), value('BEND.DEDUCTION', r, t)];
      const channel = value('FLAT.CHANNEL', w + 2 * right, a + right, b + right, t, r);
      near(channel, w + a + b + 4 * right - 2 * off);
      near(value('FLAT.ZEE', w + 2 * right, a + right, b + right, t, r), channel);
      near(value('FLAT.PROFILE', [[a + right], [w + 2 * right], [b + right]], [[90], [-90]], t, r), channel);
      near(value('FLAT.HAT', w + 2 * right, a + 2 * right, b + right, t, r), w + 2 * a + 2 * b + 8 * right - 4 * off);
    });
  });

  it('a profile is as wide from either end, and from either side of the sheet', () => {
    law(
      [
        radii,
        thicknesses,
        fc.array(fc.tuple(between(0.2, 5), whole(-150, 150)), { minLength: 1, maxLength: 6 }),
        between(0.2, 5),
      ],
      (r, t, bends, last) => {
        const turns = bends.map(([, angle]) => angle);
        const setbacks = turns.map((angle) => (angle === 0 ? 0 : value('BEND.SETBACK', r, t, Math.abs(angle))));
        const sides = [...bends.map(([flat]) => flat), last].map(
          (flat, i) => flat + (setbacks[i - 1] ?? 0) + (setbacks[i] ?? 0),
        );
        const width = value('FLAT.PROFILE', column(sides), column(turns), t, r);
        near(value('FLAT.PROFILE', column([...sides].reverse()), column([...turns].reverse()), t, r), width);
        near(value('FLAT.PROFILE', column(sides), column(turns.map((angle) => 0 - angle)), t, r), width);
        holds(width > bends.reduce((sum, [flat]) => sum + flat, last) * (1 - 1e-9), 'narrower than its flats');
        // A side that cannot hold its bends is refused.
        const short = setbacks[0]! * 0.9;
        if (short > 0)
          holds(
            tare('FLAT.PROFILE', column([short, ...sides.slice(1)]), column(turns), t, r) instanceof CellError,
            'a side shorter than its setback',
          );
      },
    );
  });

  it('a bend at the chart’s radius with a leg of its setback is in order, and one below either is not', () => {
    law(
      [
        fc.constantFrom('2024-T3', '6061-T6', '5052-H32', '3003-H14'),
        fc.constantFrom(0.016, 0.025, 0.032, 0.04, 0.05, 0.063),
        whole(20, 140),
      ],
      (metal, t, angle) => {
        const least = tare('BEND.MINRADIUS', metal, t);
        if (typeof least !== 'number') return;
        const leg = value('BEND.SETBACK', least, t, angle);
        const checked = (side: number, radius: number): string =>
          String(tare('BEND.CHECK', side, t, radius, metal, angle));
        const others = ['handbook', 'advisory', 'association', 'extract'].map((chart) =>
          tare('BEND.MINRADIUS', metal, t, chart),
        );
        const greatest = Math.max(...others.map((radius) => (typeof radius === 'number' ? radius : 0)));
        // Where another chart asks for more, that stands behind "ok".
        const isWithin = least < greatest * (1 - 1e-12);
        expect(checked(leg * 1.001, least)).toBe(isWithin ? `ok; ${String(tare('BEND.SPREAD', metal, t))}` : 'ok');
        expect(checked(100, greatest)).toBe('ok');
        expect(checked(leg * 0.99, least)).toMatch(/^leg \S+ in is shorter than /);
        if (least > 0) expect(checked(leg, least * 0.9)).toMatch(/^radius \S+ in is (in the range|under the minimum) /);
      },
    );
  });

  it('a thicker sheet is never bent to a smaller radius', () => {
    for (const chart of [null, 'handbook', 'advisory', 'association', 'practice']) {
      law(
        [
          fc.constantFrom('2024-T3', '2024-O', '6061-T6', '6061-O', '5052-H32', '7075-T6', '3003-H14', '4130'),
          thicknesses,
          factors,
        ],
        (metal, t, k) => {
          const [thin, thick] = [
            tare('BEND.MINRADIUS', metal, Math.min(t, t * k), chart),
            tare('BEND.MINRADIUS', metal, Math.max(t, t * k), chart),
          ];
          if (typeof thin === 'number' && typeof thick === 'number')
            holds(
              thick >= thin - 1e-12,
              `${metal}: ${thin} at ${Math.min(t, t * k)}, ${thick} at ${Math.max(t, t * k)}`,
            );
        },
      );
    }
  });
});

describe('a grip of sheets', () => {
  it('is the same in any order, in a column or a row, with blanks between', () => {
    law([fc.array(thicknesses, { minLength: 1, maxLength: 6 }), orders], (sheets, keys) => {
      const grip = value('RIVET.GRIP', column(sheets));
      near(
        grip,
        sheets.reduce((sum, one) => sum + one, 0),
      );
      near(value('RIVET.GRIP', column(shuffled(sheets, keys))), grip);
      near(value('RIVET.GRIP', [sheets]), grip);
      near(
        value(
          'RIVET.GRIP',
          sheets.flatMap((one): Matrix => [[one], [null]]),
        ),
        grip,
      );
    });
  });
});
