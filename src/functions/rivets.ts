/** Rivets by the run: how many, how long, which one, what they weigh. */
import {
  aboutRivet,
  holeMetal,
  MINUTES_EACH,
  pickFor,
  RIVET_STATES,
  rivetCount,
  rivetDrill,
  rivetHole,
  rivetHours,
  rivetLength,
  rivetPitch,
  rivetsPerPound,
  rivetWeight,
  ROUNDINGS,
} from '../core/fastener';
import { InputError } from '../core/input-error';
import {
  choice,
  defineRowWise,
  defineWhole,
  flag,
  number,
  optional,
  text,
  unitsParameter,
  type Definition,
} from './define';
import {
  materialParameter,
  count,
  length,
  lengthOrZero,
  quantity,
  grip,
  pitch,
  rivet,
  rivetDiameter,
  rivetOf,
  rivets,
  sheets,
} from './parameters';

const family = 'Rivets';
const run = length('run', 'length of the row, from end to end of the part');
const edge = optional(lengthOrZero('edge', 'from each end of the run to the first rivet'), 0);

const WEIGHT_MODEL =
  'Weights come from simple solids: a universal head is a spherical cap, a flush head a 100° cone, a blind rivet a tube with a domed head (IFI-114 dimensions) whose stem breaks off at the mandrel head or, where it is retained, is trimmed flush. Weigh a hundred to be sure';

/** What is asked of the thicknesses of a joint's sheets. */
const OF_SHEETS = {
  sum: (sheets: readonly number[]) => sheets.reduce((sum, thickness) => sum + thickness, 0),
  thickest: (sheets: readonly number[]) => Math.max(...sheets),
  thinnest: (sheets: readonly number[]) => Math.min(...sheets),
  first: (sheets: readonly number[]) => sheets[0]!,
};

export const rivetFunctions: readonly Definition[] = [
  defineRowWise({
    name: 'RIVET.COUNT',
    family,
    summary: 'Number of rivets along a run at a given pitch.',
    parameters: [
      run,
      pitch,
      edge,
      optional(count('rows', 'parallel rows', 'rows'), 1),
      optional(
        flag('staggered', {
          help: 'TRUE: every second row is offset by half a pitch and has as many rivets as then fit',
        }),
        false,
      ),
    ],
    result: { kind: 'number', help: 'rivets in all rows' },
    formula:
      'a row: floor((run − 2 × edge) / pitch) + 1; a shifted row: floor((run − 2 × edge − pitch / 2) / pitch) + 1',
    source: 'definition',
    limits: ['The drawing gives the pattern of a structural joint; this counts it'],
    examples: [
      { args: [24, 1.25, 0.25], gives: 19 },
      {
        args: [10, 0.5, 0.25, 2],
        gives: 40,
        note: 'two rows at 4D of 1/8 in over 10 in',
        source: 'AC 43.13-1B ¶4-58g(2)',
      },
      { args: [10, 1, 0.5, 2, true], gives: 19, note: 'ten, and nine between them' },
    ],
    compute: (runLength, pitchLength, edgeLength, rows, staggered) =>
      rivetCount({ run: runLength, pitch: pitchLength, edge: edgeLength, rows, staggered }),
  }),
  defineRowWise({
    name: 'RIVET.PITCH',
    family,
    summary: 'Pitch at which a number of rivets is spread evenly over a run.',
    parameters: [run, count('count', 'rivets in the row', 'rivets'), edge],
    result: { kind: 'number', dimension: 'length', help: 'from centre to centre' },
    formula: '(run − 2 × edge) / (count − 1)',
    source: 'definition',
    examples: [{ args: [10, 19, 0.5], gives: 0.5 }],
    compute: rivetPitch,
  }),
  defineWhole({
    name: 'RIVET.GRIP',
    family,
    summary: 'Grip of a joint: the sum of its sheets; or its thickest, thinnest or first sheet.',
    parameters: [
      sheets,
      unitsParameter,
      optional(
        choice('of', {
          help: '"sum" (the grip: the default), "thickest", "thinnest" or "first", the sheet under the head',
          choices: ['sum', 'thickest', 'thinnest', 'first'],
        }),
        'sum',
      ),
    ],
    result: { kind: 'number', dimension: 'length', help: 'what the rivet goes through' },
    formula: 'sum of thicknesses; or the greatest, the least, the first of them',
    source: 'definition',
    examples: [
      { args: [[[0.032], [0.04], [null]]], gives: 0.072 },
      { args: ['0.016+0.020+0.016'], gives: 0.052 },
      { args: ['0.016+0.020+0.016', null, 'thickest'], gives: 0.02 },
    ],
    compute(given, _units, of) {
      if (given.length === 0) throw new InputError('thicknesses', null, 'the thickness of one sheet or more');
      return OF_SHEETS[of](given);
    },
  }),
  defineRowWise({
    name: 'RIVET.LENGTH',
    family,
    summary: 'Length that a solid rivet must have for a grip.',
    parameters: [
      grip(),
      rivetDiameter,
      optional(
        choice('head', {
          help: '"universal": measured under the head; "flush": over the head, its sheet being part of the grip',
          choices: ['universal', 'flush'],
        }),
        'universal',
      ),
    ],
    result: {
      kind: 'number',
      dimension: 'length',
      help: 'length before it is rounded to a size: RIVET.PICK does that',
    },
    formula: 'grip + 1.5 × diameter, for either head',
    source: 'AC 43.13-1B ¶4-57; NAVEDTRA 14018, chapter 13',
    limits: ['Rivets flush on both sides take less; a blind rivet is chosen by its grip range'],
    examples: [
      { args: [0.072, 0.125], gives: 0.2595 },
      { args: [0.1, '5/32'], gives: 0.334375, note: 'two sheets of .050', source: 'grip + 1.5D, .100 + .234' },
    ],
    compute: (gripLength, diameter) => rivetLength(gripLength, diameter),
  }),
  defineRowWise({
    name: 'RIVET.PICK',
    family,
    summary: 'The rivet for a grip: its designation.',
    parameters: [
      choice('style', {
        help: '"universal" (MS20470), "flush" (MS20426), "blind" (the stem breaks off) or "blind retained" (the stem stays)',
        choices: ['universal', 'flush', 'blind', 'blind retained'],
      }),
      rivetDiameter,
      grip(),
      optional(
        choice('rounding', {
          help: 'of a solid rivet\'s length: to the "nearest" 1/16 in, the next "longer", or with half sizes the "nearest half" or "longer half"',
          choices: ROUNDINGS,
        }),
        'nearest',
      ),
      optional(
        text('alloy', {
          help: 'solid: "AD" (2117, the default), "A", "B", "D", "DD"; blind: "AA" (the default), "AS", "SS"',
          of: 'A, B, AD, D or DD; for a blind rivet AA, AS or SS',
        }),
      ),
      unitsParameter,
      rivets,
    ],
    result: { kind: 'text', help: 'designation, or a label of rivets' },
    formula:
      'solid: grip + 1.5 × diameter, rounded; blind: the size whose grip range holds the grip; where no alloy is named, a row of rivets of that style and diameter whose grip range holds the grip comes first',
    source:
      'AC 43.13-1B ¶4-57; blind: TM 10-5410-221-14/1 table 4-3; rounding up: TM 10-5410-229-13&P ¶5-6, to the nearest: common practice',
    limits: [
      'Not every length is in stock everywhere',
      "It chooses a length, not a strength: diameter and alloy are the drawing's",
    ],
    examples: [
      { args: ['universal', 0.125, 0.072], gives: 'MS20470AD4-4' },
      { args: ['universal', 0.125, 0.072, 'longer'], gives: 'MS20470AD4-5' },
      { args: ['flush', '3/32', 0.064, 'nearest half'], gives: 'MS20426AD3-3.5' },
      { args: ['blind', 0.125, 0.08], gives: 'BLIND-AA-42', source: 'TM 10-5410-221-14/1 table 4-3' },
    ],
    compute: (style, diameter, gripLength, rounding, alloy, _units, own) =>
      pickFor(own, { style, diameter, grip: gripLength, rounding, alloy }).designation,
  }),
  defineRowWise({
    name: 'RIVET.WEIGHT',
    family,
    summary: 'Weight of rivets, installed or as bought.',
    parameters: [
      rivet,
      optional(quantity('quantity', 'number of rivets'), 1),
      optional(
        choice('state', { help: '"installed" (a blind rivet has lost its stem) or "bought"', choices: RIVET_STATES }),
        'installed',
      ),
      unitsParameter,
      rivets,
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight' },
    formula: 'quantity × (head + shank) × density',
    source:
      'MS20470, MS20426 and IFI-114 dimensions (partly from memory, see the limits); Aluminum Association densities',
    limits: [
      WEIGHT_MODEL,
      'The height of the MS20470 head (.43 D) and the MS20426 heads of 1/16, 3/32 and 1/4 are from memory, verify; those of 1/8, 5/32 and 3/16 are the countersinks of TM 9-2320-387-24-2. A tenth off the head height is a hundredth to a fortieth of the weight',
      'The bodies of blind rivets whose stem breaks off are by IFI-114 table 2, from memory, verify: RIVET.ABOUT says what other sources have. Which metals body and stem have is from memory, too',
      'A row of the table rivets with the same label and the weight of a sample replaces all of this',
      'The shank fills a hole whose metal a flat pattern still counts, about a fifth of a short rivet: RIVET.HOLEMETAL gives it',
    ],
    examples: [
      { args: ['MS20470AD4-6', 1000], gives: 0.595, within: 0.002 },
      { args: ['AN470AD4-6', 1000], gives: 0.595, within: 0.002, note: 'the older name' },
      { args: ['BLIND-AS-42', 1000, 'bought'], gives: 2.25, within: 0.02 },
      { args: ['BLIND-AS-42', 1000], gives: 0.555, within: 0.005, note: 'the stem is gone' },
    ],
    compute: (of, pieces, state, _units, own) => pieces * rivetWeight(rivetOf(of, own), state),
  }),
  defineRowWise({
    name: 'RIVET.ABOUT',
    family,
    summary:
      'What is known of a rivet and where it is from: kind, length, grip, weights, strength, and what is computed.',
    parameters: [rivet, unitsParameter, rivets],
    result: { kind: 'text', help: 'the facts with their sources' },
    source:
      'as RIVET.WEIGHT, RIVET.SHEAR and RIVET.HOLE; other sources of body lengths: ISO 15981, TM 10-5410-221-14/1',
    limits: [
      'What it says to be from memory was not seen in its source: a row of the table rivets with the same label replaces it',
    ],
    examples: [
      {
        args: ['BLIND-AA-43'],
        gives:
          'blind, the stem breaks off; grip 0.126 in to 0.187 in; body 0.337 in (IFI-114 table 2, from memory, verify; ISO 15981 8 mm; where the stem is retained 0.294 in, TM 10-5410-221-14/1); drill #30; 1000 weigh 1.07 lb bought, 0.43 lb installed (computed from dimensions); shear: the maker’s, type it in the table of rivets',
      },
    ],
    compute: (of, units, own) => aboutRivet(rivetOf(of, own), units),
  }),
  defineRowWise({
    name: 'RIVET.PERPOUND',
    family,
    summary: 'Rivets in a pound as bought (in mm-kg: in a kilogram).',
    parameters: [rivet, unitsParameter, rivets],
    result: { kind: 'number', dimension: 'perWeight', help: 'pieces' },
    formula: '1 / weight of one, as bought',
    source: 'as RIVET.WEIGHT',
    limits: [WEIGHT_MODEL],
    examples: [{ args: ['MS20470AD4-6'], gives: 1680, within: 10 }],
    compute: (of, _units, own) => rivetsPerPound(rivetOf(of, own)),
  }),
  defineRowWise({
    name: 'RIVET.HOLE',
    family,
    summary: 'Diameter of the hole for a rivet.',
    parameters: [rivet, unitsParameter, rivets],
    result: { kind: 'number', dimension: 'length', help: 'diameter of the drill' },
    source:
      'TM 10-5410-221-14/1 table 4-3 (blind; 1/8 and 1/4 solid); MIL-HDBK-5 (5/32 solid, second-hand); the solid 1/16 and 3/16 from memory, verify; ASME B94.11M drill sizes',
    limits: [
      "3/32 solid: the shop's #40 (.098); MIL-HDBK-5 and the Army have #41 (.096)",
      'A row of the table rivets with the same label and a Hole replaces these',
    ],
    examples: [
      { args: ['MS20470AD4-6'], gives: 0.1285 },
      { args: ['MS20426AD3-4'], gives: 0.098 },
    ],
    compute: (of, _units, own) => rivetHole(rivetOf(of, own)),
  }),
  defineRowWise({
    name: 'RIVET.DRILL',
    family,
    summary: 'The drill for a rivet.',
    parameters: [rivet, unitsParameter, rivets],
    result: { kind: 'text', help: 'number or letter of the drill' },
    source: 'as RIVET.HOLE',
    examples: [
      {
        args: [[['MS20470AD3-4'], ['MS20470AD4-4'], ['MS20470AD5-5'], ['MS20470AD6-6']]],
        gives: [['#40'], ['#30'], ['#21'], ['#11']],
      },
    ],
    compute: (of, _units, own) => rivetDrill(rivetOf(of, own)),
  }),
  defineRowWise({
    name: 'RIVET.HOLEMETAL',
    family,
    summary: 'Weight of the sheet that rivet holes take away, which flat patterns still count.',
    parameters: [
      rivet,
      grip(),
      materialParameter('material', 'material of the sheets: designation or density'),
      optional(quantity('quantity', 'number of holes'), 1),
      unitsParameter,
      rivets,
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight to take off a list of flat patterns' },
    formula: 'quantity × π / 4 × hole² × grip × density',
    source: 'definition; hole as RIVET.HOLE',
    limits: [
      'Countersinks and dimples are left out: a dimple moves metal, a countersink takes away what the flush head puts back',
    ],
    examples: [{ args: ['MS20470AD4-4', 0.072, '2024-T3', 1000], gives: 0.0938, within: 1e-4 }],
    compute: (of, gripLength, density, pieces, _units, own) =>
      pieces * holeMetal(rivetOf(of, own), gripLength, density),
  }),
  defineRowWise({
    name: 'RIVET.HOURS',
    family,
    summary: 'Hours to drill, deburr and set a number of rivets.',
    parameters: [
      quantity('count', 'number of rivets'),
      optional(
        number('minutes_each', {
          help: `minutes for one rivet; ${MINUTES_EACH.solid} when omitted`,
          of: 'minutes',
          limits: { min: 0, max: 120 },
        }),
        MINUTES_EACH.solid,
      ),
    ],
    result: { kind: 'number', help: 'hours' },
    formula: 'count × minutes_each / 60',
    source: 'definition; the default is common practice without a source',
    limits: ["Your own log of an evening's work is better than any default"],
    examples: [{ args: [240, 2], gives: 8 }],
    compute: rivetHours,
  }),
];
