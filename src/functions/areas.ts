/** Areas of flat patterns. A sheet's weight is its area times thickness and density. */
import { circle, ellipse, holes, polygonArea, rectangle, slot, trapezoid, triangle } from '../core/geometry';
import { defineRowWise, defineWhole, number, optional, rows, unitsParameter, type Definition } from './define';
import { inOwnUnit, length, lengthOrZero } from './parameters';

const result = { kind: 'number', dimension: 'area', help: 'area of the flat pattern' } as const;

export const areas: readonly Definition[] = [
  defineRowWise({
    name: 'AREA.RECT',
    family: 'Areas',
    summary: 'Area of a rectangle.',
    parameters: [length('length', 'length'), length('width', 'width')],
    result,
    formula: 'length × width',
    source: 'definition',
    examples: [
      { args: [144, 48], gives: 6912, note: 'a whole 4 × 12 ft sheet' },
      { args: [[[12], [10]], 4], gives: [[48], [40]], note: 'a column of lengths, one width' },
    ],
    compute: rectangle,
  }),
  defineRowWise({
    name: 'AREA.TRIANGLE',
    family: 'Areas',
    summary: 'Area of a triangle from its base and height.',
    parameters: [length('base', 'any side'), length('height', 'height over that side, at a right angle to it')],
    result,
    formula: 'base × height / 2',
    source: 'definition',
    examples: [{ args: [4, 3], gives: 6 }],
    compute: triangle,
  }),
  defineRowWise({
    name: 'AREA.TRAPEZOID',
    family: 'Areas',
    summary: 'Area of a trapezoid: a tapered strip, web or skin.',
    parameters: [
      length('side_a', 'one of the two parallel sides'),
      length('side_b', 'the other parallel side'),
      length('height', 'distance between the parallel sides'),
    ],
    result,
    formula: '(side_a + side_b) / 2 × height',
    source: 'definition',
    examples: [{ args: [6, 4, 90], gives: 450, note: 'a spar web tapering from 6 to 4 over 90' }],
    compute: trapezoid,
  }),
  defineRowWise({
    name: 'AREA.CIRCLE',
    family: 'Areas',
    summary: 'Area of a disc, or of a round hole to be taken away.',
    parameters: [length('diameter', 'diameter')],
    result,
    formula: 'π × diameter² / 4',
    source: 'definition',
    examples: [{ args: [2], gives: Math.PI }],
    compute: circle,
  }),
  defineRowWise({
    name: 'AREA.SLOT',
    family: 'Areas',
    summary: 'Area of a slot with round ends.',
    parameters: [
      length('overall_length', 'length over the round ends'),
      length('width', 'width, which is the diameter of the ends'),
      unitsParameter,
    ],
    result,
    formula: '(overall_length − width) × width + π × width² / 4',
    source: 'definition',
    examples: [{ args: [3, 1], gives: 2 + Math.PI / 4 }],
    compute: (overall, width, units) => inOwnUnit(units, 2, (unit) => slot(overall * unit, width * unit)),
  }),
  defineRowWise({
    name: 'AREA.ELLIPSE',
    family: 'Areas',
    summary: 'Area of an ellipse from its full axes.',
    parameters: [length('major', 'longer axis, whole'), length('minor', 'shorter axis, whole')],
    result,
    formula: 'π × major × minor / 4',
    source: 'definition',
    examples: [{ args: [4, 2], gives: 2 * Math.PI }],
    compute: ellipse,
  }),
  defineRowWise({
    name: 'AREA.HOLES',
    family: 'Areas',
    summary: 'Area that equal round lightening holes take out of a part: subtract it from the area of the part.',
    parameters: [
      length('diameter', 'diameter of a plain hole; of a flanged one, where the flange leaves the flat sheet'),
      optional(number('quantity', { help: 'number of equal holes', of: 'holes', limits: { min: 0, max: 1e6 } }), 1),
      optional(
        lengthOrZero('flange', 'width of the flange formed around each hole, along the metal; 0 for a plain hole'),
        0,
      ),
      unitsParameter,
    ],
    result: { kind: 'number', dimension: 'area', help: 'area of metal that is gone' },
    formula: 'quantity × π × (diameter − 2 × flange)² / 4',
    source: 'definition',
    limits: [
      'A flanged hole is the same metal as before the flange was formed: only the hole that was cut is gone. Where the drawing gives the hole as cut, give that as the diameter and no flange.',
      'Forming stretches and thins the rim; that moves metal and changes no weight.',
    ],
    examples: [
      { args: [2, 5], gives: 5 * Math.PI, note: 'five plain 2 in holes' },
      { args: [3, 2, 0.25], gives: (2 * Math.PI * 2.5 ** 2) / 4, note: 'two flanged holes, cut at 2.5' },
    ],
    compute: (diameter, quantity, flange, units) =>
      inOwnUnit(units, 2, (unit) => holes(diameter * unit, quantity, flange * unit)),
  }),
  defineWhole({
    name: 'AREA.POLYGON',
    family: 'Areas',
    summary: 'Area of any flat shape with straight edges, from the x and y of its corners in order.',
    parameters: [
      rows('points', {
        help: 'corners in order around the outline, either way round: a column of x and a column of y. Blank rows are skipped; the first corner may be repeated at the end.',
        dimension: 'length',
        limits: { min: -12_000, max: 12_000 },
        widths: [2],
      }),
    ],
    result,
    formula: '|Σ (xᵢ × yᵢ₊₁ − xᵢ₊₁ × yᵢ)| / 2',
    source: 'definition',
    limits: [
      'Edges that cross or touch are refused. A hole is not part of the outline: subtract it with AREA.HOLES or a polygon of its own.',
    ],
    examples: [
      {
        args: [
          [
            [0, 0],
            [4, 0],
            [4, 3],
          ],
        ],
        gives: 6,
      },
      {
        args: [
          [
            [0, 0],
            [0, 5],
            [2, 5],
            [2, 2],
            [6, 2],
            [6, 0],
          ],
        ],
        gives: 18,
        note: 'an L-shaped gusset, clockwise',
      },
    ],
    compute: (points) => polygonArea(points),
  }),
];
