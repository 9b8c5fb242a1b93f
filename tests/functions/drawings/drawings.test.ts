import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/core/geometry';
import { findDefinition } from '../../../src/functions';
import { drawingFor, drawnFunctions, figureFor, figureToSvg, figureToThumbnail } from '../../../src/functions/drawings';
import { labelBox, layOut, type Box } from '../../../src/functions/drawings/svg';

/** Numbers of the first example, as the reference gives them. */
const numbersOf = (name: string): number[] =>
  (findDefinition(name)!.examples[0]!.args ?? []).filter((value): value is number => typeof value === 'number');

const MORE: readonly [name: string, values: readonly number[]][] = [
  ['AREA.RECT', [0.5, 20]],
  ['AREA.TRIANGLE', [1, 30]],
  ['AREA.TRAPEZOID', [1, 8, 2]],
  ['AREA.SLOT', [1, 1]],
  ['AREA.HOLES', [3, 12, 0.25]],
  ['AREA.POLYGON', [0, 0, 0, 5, 2, 5, 2, 2, 6, 2, 6, 0]],
  ['AREA.POLYGON', [-3, -3, 3, -3, 0, 4]],
  ['AIRFOIL.AREA', [48, 0.05, 0.3]],
  ['AIRFOIL.AREA', [48, 0.6, 1]],
  ['AIRFOIL.GIRTH', [48, 0, 0.1]],
  ['AIRFOIL.HEIGHT', [48, 0.02]],
  ['AIRFOIL.HEIGHT', [48, 0.95]],
  ...[20, 30, 45, 60, 75, 90, 105, 120, 135].flatMap((angle): [string, number[]][] => [
    ['BEND.ALLOWANCE', [0.16, 0.04, angle]],
    ['BEND.SETBACK', [0.16, 0.04, angle]],
    ['BEND.DEDUCTION', [0.125, 0.032, angle]],
    ['BEND.CHECK', [1, 0.04, 0.16, angle]],
    ['FLAT.ANGLE', [2, 2, 0.04, 0.16, angle]],
  ]),
  ['FLAT.CHANNEL', [1, 3, 2, 0.04, 0.12]],
  ['FLAT.CHANNEL', [6, 0.75, 0.5, 0.025, 0.09]],
  ['FLAT.CHANNEL', [50.8, 25.4, 25.4, 1.016, 4.064]],
  ['FLAT.ZEE', [0.9, 0.5, 0.75, 0.04, 0.12]],
  ['FLAT.ZEE', [3, 1.5, 1.5, 0.063, 0.2]],
  ['FLAT.HAT', [3, 0.6, 1, 0.04, 0.12]],
  ['FLAT.HAT', [0.6, 1.6, 0.5, 0.04, 0.12]],
];

const CASES = [
  ...drawnFunctions.flatMap((name): [string, readonly number[] | undefined][] => [
    [name, undefined],
    [name, numbersOf(name)],
  ]),
  ...MORE,
];

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Whether a line between two points passes through a box (cut to it edge by edge). */
function passes([x0, y0]: Point, [x1, y1]: Point, box: Box): boolean {
  let [enter, leave] = [0, 1];
  for (const [start, run, low, high] of [
    [x0, x1 - x0, box.left, box.right],
    [y0, y1 - y0, box.top, box.bottom],
  ] as const) {
    if (run === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [near, far] = [(low - start) / run, (high - start) / run].sort((a, b) => a - b);
    [enter, leave] = [Math.max(enter, near!), Math.min(leave, far!)];
  }
  return enter < leave;
}

describe('every shape, bend and airfoil has a drawing', () => {
  it.each(['AREA.', 'AIRFOIL.', 'BEND.', 'FLAT.'])('%s', async (family) => {
    const { catalogue } = await import('../../../src/functions');
    for (const { name } of catalogue.filter((definition) => definition.name.startsWith(family)))
      expect(drawnFunctions).toContain(name);
  });
  it('and another function has none', () => {
    expect(drawingFor('MOMENT')).toBeUndefined();
    expect(drawingFor('')).toBeUndefined();
  });
});

describe.each(CASES)('%s with %j', (name, values) => {
  const { lines, labels, box } = layOut(figureFor(name, values)!);

  it('no label covers another', () => {
    const boxes = labels.map((label) => ({ text: label.text, box: labelBox(label) }));
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) expect(overlap(a.box, b.box), `${a.text} / ${b.text}`).toBe(false);
  });

  it('no label lies on a line of the part', () => {
    for (const label of labels) {
      for (const { points, closed, look } of lines) {
        if (look === 'dimension' || look === 'dots' || look === 'hidden') continue;
        const all = closed ? [...points, points[0]!] : points;
        for (let i = 1; i < all.length; i++)
          expect(passes(all[i - 1]!, all[i]!, labelBox(label)), `${label.text} on a ${look}`).toBe(false);
      }
    }
  });

  it('is well-formed, self-contained, named for a reader who does not see it, and takes the colour of the text', () => {
    const svg = drawingFor(name, values)!;
    const seen: string[] = [];
    const parser = new SaxesParser({ xmlns: true });
    parser.on('error', (error) => {
      throw error;
    });
    parser.on('opentag', (tag) => seen.push(tag.local));
    parser.write(svg).close();
    expect(seen.slice(0, 3)).toEqual(['svg', 'title', 'desc']);
    expect(svg).toMatch(/role="img" aria-labelledby="(drawing-[a-z-]+)-title \1-desc"/);
    expect(svg).not.toMatch(/NaN|Infinity|undefined|href|url\(|#[0-9a-f]{3}/);
    expect(svg).toContain('currentColor');
    expect(box.right - box.left).toBeLessThan(800);
    expect(box.bottom - box.top).toBeLessThan(500);
  });
});

describe('labels', () => {
  it.each(drawnFunctions.filter((name) => name !== 'FLAT.PROFILE' && name !== 'AREA.POLYGON'))(
    '%s names every length that it takes',
    (name) => {
      const svg = drawingFor(name)!;
      for (const parameter of findDefinition(name)!.parameters)
        if (parameter.dimension === 'length') expect(svg).toContain(parameter.name);
    },
  );

  it('show the values of the call and its result', () => {
    const svg = drawingFor('TARE.FLAT.CHANNEL', [2, 1, 1, 0.04, 0.16])!;
    for (const label of [
      'web = 2',
      'leg_a = 1',
      'leg_b = 1',
      'thickness = 0.04',
      'radius = 0.16',
      'flat width = 3.758',
    ])
      expect(svg).toContain(`>${label}<`);
  });

  it('the part is drawn to scale', () => {
    const [shape] = figureFor('AREA.RECT', [144, 48])!.strokes;
    expect(shape!.points).toEqual([
      [0, 0],
      [144, 0],
      [144, 48],
      [0, 48],
    ]);
  });

  it('a call that makes no part is drawn in clear proportions without its values', () => {
    for (const values of [
      [2, 0.1, 1, 0.04, 0.16],
      [Number.NaN, 1, 1, 1, 1],
      [2, 1],
    ]) {
      const svg = drawingFor('FLAT.CHANNEL', values);
      expect(svg).toBeDefined();
      expect(svg).not.toContain('NaN');
    }
    expect(drawingFor('FLAT.CHANNEL', [2, 0.1, 1, 0.04, 0.16])).toBe(drawingFor('FLAT.CHANNEL'));
  });
});

describe('labels that are written by the caller', () => {
  const label = (name: string, value: number | undefined): string | undefined =>
    name === 'web' ? '2,5 mm' : value === undefined ? undefined : `${name} is ${value}`;
  const labels = (values: readonly (number | undefined)[]): string[] =>
    figureFor('FLAT.CHANNEL', values, label)!.notes.map((note) => note.label);

  it('stand at a part that is drawn to scale, at its result too', () => {
    expect(labels([2, 1, 1, 0.04, 0.16])).toEqual([
      '2,5 mm',
      'leg_a is 1',
      'leg_b is 1',
      'radius is 0.16',
      'thickness is 0.04',
      'flat width is 3.758',
    ]);
  });
  it('stand at one in clear proportions as well', () =>
    expect(labels([])).toEqual(['2,5 mm', 'leg_a', 'leg_b', 'radius', 'thickness', 'flat width']));
  it('name stations by the parameter alone', () => {
    const seen: string[] = [];
    figureFor('AIRFOIL.AREA', [48, undefined, 0.5], (name) => void seen.push(name));
    expect(seen).toEqual(['from', 'to', 'chord']);
  });
});

describe.each(CASES)('%s with %j in a small space', (name, values) => {
  it('keeps within it, its letters not made smaller by a third', () => {
    const svg = figureToSvg(figureFor(name, values)!, 'small', { width: 396, height: 180 });
    const [, width, height] = /viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number);
    expect(width).toBeLessThanOrEqual(396 * 1.5);
    expect(height).toBeLessThanOrEqual(180 * 1.5);
  });
});

describe('the thumbnail', () => {
  it.each(drawnFunctions)('of %s is the shape alone in its space', (name) => {
    const svg = figureToThumbnail(figureFor(name)!, { width: 56, height: 36 });
    expect(svg).toMatch(/^<svg[^>]* aria-hidden="true"[^>]* width="56" height="36">/);
    expect(svg).not.toMatch(/<text|<title|NaN/);
    const [, left, top] = /viewBox="([-\d.]+) ([-\d.]+)/.exec(svg)!.map(Number);
    for (const [, x, y] of svg.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)) {
      expect(Number(x)).toBeGreaterThanOrEqual(left!);
      expect(Number(x)).toBeLessThanOrEqual(left! + 56);
      expect(Number(y)).toBeGreaterThanOrEqual(top!);
      expect(Number(y)).toBeLessThanOrEqual(top! + 36);
    }
  });
});
