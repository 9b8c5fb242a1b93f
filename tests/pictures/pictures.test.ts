import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantities } from '../../src/core/quantity';
import { reactAttributes, toSvgText, type SvgNode } from '../../src/core/markup';
import {
  budgetPicture,
  costPicture,
  envelopePicture,
  logPicture,
  marginWords,
  paretoPicture,
  type EnvelopeCase,
} from '../../src/pictures';
import { collisions, faults, nodesOf, textsOf, wordsOf } from './read-tree';
import { envelope } from './envelope';

const widths = fc.integer({ min: 280, max: 720 });
const name = fc.stringMatching(/^[A-Z][a-z]{1,12}( [a-z]{1,12}){0,4}$/);
const pounds = fc.double({ min: 0.01, max: 2000, noNaN: true });
const bar = fc
  .record({
    name,
    current: pounds,
    forecast: pounds,
    budget: fc.option(pounds, { nil: undefined }),
    plusMinus: fc.double({ min: 0, max: 5, noNaN: true }),
  })
  .map((one) => ({ id: one.name, ...one }));

const hasWords = (picture: SvgNode): void => {
  const [title, description] = picture.children as SvgNode[];
  expect([title!.tag, description!.tag]).toEqual(['title', 'desc']);
  expect(wordsOf(title!).length).toBeGreaterThan(5);
  expect(wordsOf(description!).length).toBeGreaterThan(10);
};

describe('weight against budget', () => {
  it('cuts no label off and lays none on another, at any width', () => {
    fc.assert(
      fc.property(fc.array(bar, { minLength: 1, maxLength: 8 }), bar, widths, (bars, total, width) => {
        const picture = budgetPicture({ bars, total }, { width });
        expect(faults(picture)).toEqual([]);
        expect(collisions(textsOf(picture))).toEqual([]);
        hasWords(picture);
      }),
      { numRuns: 150 },
    );
  });

  it('says in words what is over and what is left', () => {
    const say = (current: number, forecast: number, budget: number | undefined): string =>
      marginWords({ current, forecast, budget }, quantities('in-lb'), 2);
    expect([
      say(10, 11, 12.5),
      say(10, 11.36, 11),
      say(11.2, 11.36, 11),
      say(10, 11, 11),
      say(10, 11, undefined),
    ]).toEqual(['1.50 lb left', 'over by 0.36 lb', 'over by 0.36 lb, 0.20 already', 'just on budget', 'no budget']);
  });

  it('draws bar, forecast and budget to one scale', () => {
    const picture = budgetPicture(
      { bars: [{ id: 'a', name: 'Ribs', current: 4, forecast: 6, budget: 8 }] },
      { width: 400 },
    );
    const rects = nodesOf(picture).filter(({ tag, attributes }) => tag === 'rect' && attributes['height'] === 14);
    const [now, grown] = rects.map(({ attributes }) => Number(attributes['width']));
    expect(now! / grown!).toBeCloseTo(2, 2);
    const mark = nodesOf(picture).find(
      ({ tag, attributes }) =>
        tag === 'line' && attributes['stroke-width'] === 2 && attributes['x1'] === attributes['x2'],
    )!;
    expect((Number(mark.attributes['x1']) - 6) / now!).toBeCloseTo(2, 2);
  });

  it('lets each bar be picked by its id, with a name', () => {
    const picture = budgetPicture(
      { bars: [{ id: 'Ribs', name: 'Ribs', current: 4, forecast: 6, budget: 5 }] },
      { width: 400, pickable: true },
    );
    const [picked] = nodesOf(picture).filter(({ pick }) => pick !== undefined);
    expect(picked!.pick).toBe('Ribs');
    expect(wordsOf(picked!.children[0] as SvgNode)).toBe(
      'Ribs: now 4.00, forecast 6.00, budget 5.00 lb; over by 1.00 lb',
    );
    expect(picture.attributes['role']).toBe('group');
  });
});

describe('heaviest parts', () => {
  it('cuts no label off and lays none on another, at any width', () => {
    const part = fc.record({ name, of: name, weight: pounds });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 12 }), widths, (parts, width) => {
        const sorted = [...parts].sort((a, b) => b.weight - a.weight);
        const all = sorted.reduce((sum, { weight }) => sum + weight, 0);
        let sum = 0;
        const data = sorted.map((one, index) => ({
          id: String(index),
          ...one,
          together: (100 * (sum += one.weight)) / all,
        }));
        const picture = paretoPicture({ parts: data, count: 40 }, { width });
        expect(faults(picture)).toEqual([]);
        expect(collisions(textsOf(picture))).toEqual([]);
        hasWords(picture);
      }),
      { numRuns: 150 },
    );
  });
});

describe('weight over time', () => {
  const point = fc.record({
    days: fc.integer({ min: 0, max: 900 }),
    weight: pounds,
    forecast: fc.option(pounds, { nil: undefined }),
    budget: fc.option(pounds, { nil: undefined }),
  });

  it('cuts no label off and lays none on another, at any width', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 14 }), widths, (points, width) => {
        const data = [...points]
          .sort((a, b) => a.days - b.days)
          .map(({ days, ...one }, index) => ({
            id: String(index),
            date: new Date(Date.UTC(2025, 0, 1) + days * 86_400_000).toISOString().slice(0, 10),
            ...one,
          }));
        const picture = logPicture({ name: 'Total', points: data }, { width });
        expect(faults(picture)).toEqual([]);
        expect(collisions(textsOf(picture))).toEqual([]);
        hasWords(picture);
      }),
      { numRuns: 150 },
    );
  });

  it('says so where the log is empty', () => {
    expect(wordsOf(logPicture({ name: 'Total', points: [] }, { width: 320 }))).toContain('no entry yet');
  });
});

const loading = (label: string, weight: number, arm: number, burnt: number, inside: boolean): EnvelopeCase => {
  const landing = { weight: weight - burnt, arm: arm + burnt * 0.002, inside };
  return {
    id: label,
    name: label,
    takeoff: { weight, arm, inside },
    landing,
    burn: [{ weight, arm }, landing],
    words: inside ? 'inside from take-off to landing' : 'outside: 0.50 in aft of the aft limit',
    inside,
    limits: { from: 66.9, to: 74.5, at: weight },
  };
};

describe('loading envelope', () => {
  const one = fc.record({
    weight: fc.double({ min: 780, max: 1400, noNaN: true }),
    arm: fc.double({ min: 65, max: 76, noNaN: true }),
    burnt: fc.double({ min: 0, max: 150, noNaN: true }),
    inside: fc.boolean(),
  });

  it('cuts no label off, at any width, with one case or several', () => {
    fc.assert(
      fc.property(fc.array(one, { minLength: 0, maxLength: 6 }), widths, (cases, width) => {
        const picture = envelopePicture(
          {
            envelope,
            cases: cases.map(({ weight, arm, burnt, inside }, index) =>
              loading(`Case ${index}`, weight, arm, burnt, inside),
            ),
            toPercent: (arm) => (100 * (arm - 60)) / 54,
          },
          { width },
        );
        expect(faults(picture)).toEqual([]);
        hasWords(picture);
      }),
      { numRuns: 150 },
    );
  });

  it('labels the only case, and marks and says what is outside without its colour', () => {
    const inside = envelopePicture({ envelope, cases: [loading('Solo', 1095, 70.2, 90, true)] }, { width: 600 });
    expect(textsOf(inside).map(({ words }) => words)).toEqual(
      expect.arrayContaining([
        'take-off',
        '1,095.0 lb',
        '70.20 in',
        'landing',
        'forward limit',
        '66.90 in',
        'aft limit',
        '74.50 in',
        'Solo: inside from take-off to landing',
      ]),
    );
    const outside = envelopePicture({ envelope, cases: [loading('Two', 1300, 75, 0, false)] }, { width: 600 });
    const shape = (picture: SvgNode, id: string): string[] =>
      nodesOf(nodesOf(picture).find(({ pick }) => pick === id)!).map(({ tag }) => tag);
    expect(shape(inside, 'Solo')).toContain('circle');
    expect(shape(outside, 'Two')).not.toContain('circle');
    expect(wordsOf(outside)).toContain('Two: outside: 0.50 in aft of the aft limit');
  });

  it('puts the corners where their arm and weight are', () => {
    const picture = envelopePicture({ envelope, cases: [] }, { width: 600 });
    const polygon = nodesOf(picture).find(({ tag }) => tag === 'polygon')!;
    const corners = String(polygon.attributes['points'])
      .split(' ')
      .map((corner) => corner.split(',').map(Number) as [number, number]);
    expect(corners).toHaveLength(5);
    const [[x1, y1], [x2, y2], [x3, y3], [x4]] = corners as [
      [number, number],
      [number, number],
      [number, number],
      [number, number],
    ];
    expect(x1).toBeCloseTo(x2, 1);
    expect((x3 - x2) / (x4 - x2)).toBeCloseTo(2.5 / 8, 2);
    expect((y1 - y2) / (y1 - y3)).toBeCloseTo(250 / 520, 2);
  });
});

describe('weight against cost', () => {
  const option = fc.record({ name, weight: pounds, cost: fc.double({ min: 0, max: 5000, noNaN: true }) });

  it('cuts no label off, at any width', () => {
    fc.assert(
      fc.property(fc.array(option, { minLength: 0, maxLength: 5 }), widths, (options, width) => {
        const picture = costPicture(
          {
            options: options.map((one, index) => ({ id: String(index), ...one, current: index === 0 })),
            currency: 'USD',
          },
          { width },
        );
        expect(faults(picture)).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  it('names the lightest, the cheapest and the option of now', () => {
    const picture = costPicture(
      {
        currency: 'USD',
        options: [
          { id: 'a', name: 'Solid', weight: 0.4, cost: 90, current: true },
          { id: 'b', name: 'Blind', weight: 0.7, cost: 40 },
        ],
      },
      { width: 600 },
    );
    const words = textsOf(picture).map((one) => one.words);
    expect(words).toEqual(expect.arrayContaining(['Solid (now)', 'lightest', 'Blind', 'cheapest']));
    expect(collisions(textsOf(picture))).toEqual([]);
  });
});

describe('the tree', () => {
  it('is written as SVG with its texts made safe', () => {
    const picture = budgetPicture(
      { bars: [{ id: 'x', name: 'A<b>&"c"', current: 1, forecast: 1, budget: 2 }] },
      { width: 320 },
    );
    const text = toSvgText(picture);
    expect(text).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" viewBox="0 0 320 \d+"/);
    expect(text).toContain('A&lt;b&gt;&amp;&quot;c&quot;');
    expect(text).not.toContain('<b>');
  });

  it('gives the attributes by the names that React wants', () => {
    expect(
      reactAttributes({ tag: 'path', attributes: { 'stroke-width': 2, 'aria-label': 'x', d: 'M0 0' }, children: [] }),
    ).toEqual({ strokeWidth: 2, 'aria-label': 'x', d: 'M0 0' });
  });
});
