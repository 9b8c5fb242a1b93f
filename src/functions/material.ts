/** What stock weighs: gauges, densities, and weight from size. */
import {
  barWeight,
  gaugeName,
  gaugeThickness,
  LB_IN3_PER_G_CM3,
  nearestGauge,
  parseGauge,
  sectionWeight,
  sheetWeight,
  tubeWeight,
  volumeWeight,
  weightPerArea,
  densityOf,
  material as listed,
} from '../core/material';
import { custom, defineRowWise, number, optional, text, unitsParameter, type Definition } from './define';
import { materialParameter, area, length, quantity, thickness } from './parameters';
import { standardPart } from '../core/fastener';

const weighs = { kind: 'number', dimension: 'weight', help: 'weight' } as const;
const pieces = optional(quantity(), 1);
const family = 'Material';

const NOMINAL = 'A nominal density and a nominal size: sheet is rolled to a tolerance, and the scale has the last word';
const CLAD = 'Clad sheet has its own row ("2024 clad"), a few thousandths lighter than bare';

const gauge = custom('gauge', {
  help: 'gauge number 1 to 40; the thicker ones as text: "1/0" to "4/0", or "0" to "0000" (a bare 0 counts as blank)',
  takes: 'a Brown & Sharpe gauge from "4/0" to 40',
  read: (cell) => parseGauge(typeof cell === 'number' ? cell : String(cell)),
});

export const material: readonly Definition[] = [
  defineRowWise({
    name: 'GAUGE.THICKNESS',
    family,
    summary: 'Thickness of a Brown & Sharpe gauge, the gauge of aluminium sheet.',
    parameters: [gauge],
    result: { kind: 'number', dimension: 'length', help: 'thickness, rounded as the standard prints it' },
    formula: '0.005 × 92^((36 − gauge) / 39), to .0001 in',
    source: 'ASTM B258',
    limits: ['Steel sheet is sold by another gauge, whose numbers mean other thicknesses'],
    examples: [
      { args: [20], gives: 0.032, source: 'ASTM B258' },
      { args: [[[16], [18], ['4/0']]], gives: [[0.0508], [0.0403], [0.46]], source: 'ASTM B258' },
    ],
    compute: gaugeThickness,
  }),
  defineRowWise({
    name: 'GAUGE.NEAREST',
    family,
    summary: 'The Brown & Sharpe gauge whose thickness is nearest.',
    parameters: [thickness('thickness', 'thickness of the sheet')],
    result: { kind: 'any', help: 'gauge number; "1/0" to "4/0" as text' },
    source: 'ASTM B258',
    limits: ['Aircraft sheet is ordered in decimals (.025, .032, .040); the gauge only names what is near'],
    examples: [
      { args: [0.04], gives: 18 },
      { args: [0.063], gives: 14 },
      { args: [0.325], gives: '1/0' },
    ],
    compute(inches) {
      const n = nearestGauge(inches);
      return n > 0 ? n : gaugeName(n);
    },
  }),
  defineRowWise({
    name: 'MATERIAL.DENSITY',
    family,
    summary: 'Density of a material of the table.',
    parameters: [materialParameter()],
    result: { kind: 'number', dimension: 'density', help: 'density' },
    source:
      'Aluminum Association nominal densities (the g/cm³ column); steels, titanium and the rest: data sheets of the alloy',
    limits: [
      'No source was seen for what cladding 2024 clad and 7075 clad have (5 and 4 % a side, from memory, verify): bare sheet weighs 0.3 % more. A density of your own can stand in the place of any designation',
      'Sources disagree on stainless steel 304: 8.00 g/cm³ (used), 7.93, 7.9; on 4130: 7.85 g/cm³ (used), .283 lb/in³ (7.83)',
      'The Aluminum Association rounds its lb/in³ column to .001, so that it says .098 for 6061 where its own 2.70 g/cm³ is .0975; the g/cm³ column is used',
      'Plywood and laminates vary: weigh a sample and give its density',
    ],
    examples: [
      { args: ['6061-T6', 'mm-kg'], gives: 2.7, source: 'Aluminum Association' },
      {
        args: ['6061-T6'],
        gives: 2.7 * LB_IN3_PER_G_CM3,
        within: 1e-12,
        note: 'the inch column of the same list is rounded to .098',
      },
      {
        args: [[['2024-T3'], ['7075-T6'], ['5052-H32']], 'mm-kg'],
        gives: [[2.78], [2.81], [2.68]],
        source: 'Aluminum Association',
      },
    ],
    compute: (density) => density,
  }),
  defineRowWise({
    name: 'WEIGHT.SHEET',
    family,
    summary: 'Weight of a sheet metal part from its flat area.',
    parameters: [area('area', 'area of the flat pattern'), thickness(), materialParameter(), pieces],
    result: weighs,
    formula: 'area × thickness × density × quantity',
    source: 'definition',
    limits: [NOMINAL, CLAD, 'Rivet holes are not taken off: RIVET.HOLEMETAL says what they weigh'],
    examples: [
      {
        args: [6912, 0.02, 0.101],
        gives: 13.96,
        within: 0.005,
        note: 'a whole 4 × 12 ft sheet',
        source: 'published sheet weights at .101 lb/in³',
      },
      { args: [[[48], [120]], 0.032, '2024-T3', [[2], [1]]], gives: [[0.30853], [0.38567]], within: 1e-5 },
    ],
    compute: sheetWeight,
  }),
  defineRowWise({
    name: 'WEIGHT.TUBE',
    family,
    summary: 'Weight of a round tube.',
    parameters: [
      length('outside_diameter', 'outside diameter'),
      thickness('wall', 'wall thickness, less than half the diameter'),
      length('length', 'length'),
      materialParameter(),
      pieces,
    ],
    result: weighs,
    formula: 'π × wall × (outside_diameter − wall) × length × density × quantity',
    source: 'definition',
    limits: [NOMINAL],
    examples: [
      {
        args: [0.5, 0.028, 12, 0.101],
        gives: 0.05,
        within: 0.0005,
        note: 'a foot of tube',
        source: 'published tube weights at .101 lb/in³',
      },
      { args: [0.75, 0.035, 60, '4130'], gives: 1.338, within: 1e-3 },
    ],
    compute: tubeWeight,
  }),
  defineRowWise({
    name: 'WEIGHT.BAR',
    family,
    summary: 'Weight of a round bar, rod or wire.',
    parameters: [length('diameter', 'diameter'), length('length', 'length'), materialParameter(), pieces],
    result: weighs,
    formula: 'π / 4 × diameter² × length × density × quantity',
    source: 'definition',
    limits: [NOMINAL],
    examples: [{ args: [1, 10, 0.1], gives: Math.PI / 4 }],
    compute: barWeight,
  }),
  defineRowWise({
    name: 'WEIGHT.SECTION',
    family,
    summary: 'Weight of an extrusion or other bar from the area of its section.',
    parameters: [
      area('section_area', 'area of the cross-section'),
      length('length', 'length'),
      materialParameter(),
      pieces,
    ],
    result: weighs,
    formula: 'section_area × length × density × quantity',
    source: 'definition',
    limits: [NOMINAL],
    examples: [{ args: [0.25, 96, 0.1], gives: 2.4 }],
    compute: sectionWeight,
  }),
  defineRowWise({
    name: 'WEIGHT.VOLUME',
    family,
    summary: 'Weight of a solid part from its volume.',
    parameters: [
      number('volume', { help: 'volume of the part', dimension: 'volume', limits: { above: 0, max: 1e8 } }),
      materialParameter(),
      pieces,
    ],
    result: weighs,
    formula: 'volume × density × quantity',
    source: 'definition',
    limits: [NOMINAL],
    examples: [{ args: [3, 0.283], gives: 0.849 }],
    compute: volumeWeight,
  }),
  defineRowWise({
    name: 'WEIGHT.PERAREA',
    family,
    summary: 'Weight of sheet for each square foot (in mm-kg: kilograms a square metre).',
    parameters: [thickness(), materialParameter()],
    result: { kind: 'number', dimension: 'perArea', help: 'weight of a square foot, or of a square metre' },
    formula: 'thickness × density × 144',
    source: 'definition',
    limits: [NOMINAL, CLAD],
    examples: [
      { args: [0.025, 0.1], gives: 0.36 },
      { args: [1, '2014', 'mm-kg'], gives: 2.8, note: 'a millimetre of 2.80 g/cm³ is 2.80 kg/m²' },
    ],
    compute: weightPerArea,
  }),
];

// Hardware: bolts, nuts and washers of open standards, weighed from their dimensions.

const STEEL = densityOf(listed('1010'));

export const hardware: readonly Definition[] = [
  defineRowWise({
    name: 'HARDWARE.WEIGHT',
    family: 'Hardware',
    summary: 'Weight of bolts, nuts and washers of open metric standards, computed from their dimensions.',
    parameters: [
      text('part', {
        help: '"ISO 4014 M6x40" (hexagon bolt), "ISO 4017 M6x20" (threaded to the head), "ISO 4032 M6" (nut) or "ISO 7089 M6" (washer), M3 to M12; a property class behind it changes nothing',
        of: '"ISO 4014 M6x40", "ISO 4017 M6x20", "ISO 4032 M6" or "ISO 7089 M6"',
      }),
      optional(quantity('quantity', 'number of pieces'), 1),
      optional(materialParameter('material', 'designation or density; steel when omitted')),
      unitsParameter,
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight, computed from the dimensions' },
    formula:
      'quantity × density × volume: hexagon √3/2 × s² × height, thread as a cylinder of its pitch diameter d − 0.6495 P, washer π/4 × (d2² − d1²) × h',
    source:
      'ISO 4014, ISO 4017, ISO 4032, ISO 7089 (dimensions, in copies); masses as GOST 22042-76 and GOST 5915-70 reckon them',
    limits: [
      'Chamfers are left out: a nut comes out up to 3 % too heavy. Weigh ten to be sure',
      'Other hardware (AN, MS and NAS bolts, anchor nuts, rod ends) is not computed: weigh it, or copy its weight from its document into the sheet Hardware',
    ],
    examples: [
      {
        args: ['ISO 7089 M6', 1000, null, 'mm-kg'],
        gives: 1.02,
        within: 0.005,
        source: 'weights of DIN 125 washers as a bolt maker prints them: M6 1.02 g',
      },
      {
        args: ['ISO 4032 M10', 1000, null, 'mm-kg'],
        gives: 10.22,
        within: 0.25,
        source: 'GOST 5915-70, appendix 1: 10.22 kg',
      },
    ],
    compute: (part, pieces, density = STEEL) => pieces * standardPart(part).volume * density,
  }),
];
