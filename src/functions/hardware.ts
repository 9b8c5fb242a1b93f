/** Hardware: bolts, nuts and washers of open standards, weighed from their dimensions. */
import { standardPart } from '../core/fastener';
import { densityOf, material } from '../core/material';
import { defineRowWise, optional, text, unitsParameter, type Definition } from './define';
import { materialParameter } from './material-parameter';
import { quantity } from './parameters';

const STEEL = densityOf(material('1010'));

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
