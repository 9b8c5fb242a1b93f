/** Areas of flat patterns: what is left of a sheet's weight is its area. */
import { circle, ellipse, rectangle, slot, trapezoid, triangle } from '../core/geometry';
import { defineRowWise, type Definition } from './define';
import { length } from './parameters';

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
    parameters: [length('overall_length', 'length over the round ends'), length('width', 'width, which is the diameter of the ends')],
    result,
    formula: '(overall_length − width) × width + π × width² / 4',
    source: 'definition',
    examples: [{ args: [3, 1], gives: 2 + Math.PI / 4 }],
    compute: slot,
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
];
