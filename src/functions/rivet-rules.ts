/** Rivets by the rule: strength as a first look, and what the rules of layout say. */
import {
  checkRivet,
  findingsText,
  forceText,
  FIRST_LOOK,
  jointStrength,
  MEMBERS,
  PULL_TYPE,
  rivetShear,
  rivetsPerInch,
  type Member,
} from '../core/fastener';
import { choice, defineRowWise, optional, text, unitsParameter, type Definition } from './define';
import {
  count,
  lengthOrZero,
  thickness,
  grip,
  headForm,
  lengthText,
  pitch,
  rivet,
  rivetOf,
  rivets,
} from './parameters';

const family = 'Rivets';
const CAUTION =
  "A structural joint is made as the designer's drawing says; these are rules for a first layout and for a second look";

const sheetMaterial = text('material', {
  help: 'alloy and temper of the sheet: "2024-T3"; with "bare" for the bare sheet\'s row of AC 43.13-1B',
  of: 'an alloy with its temper, such as "2024-T3"',
});

export const rivetRules: readonly Definition[] = [
  defineRowWise({
    name: 'RIVET.SHEAR',
    family,
    summary: 'Ultimate shear of one driven solid rivet, in one plane: for a first look.',
    parameters: [rivet, unitsParameter, rivets],
    result: { kind: 'number', dimension: 'force', help: `ultimate single shear, ${FIRST_LOOK}` },
    formula: 'shear stress × π / 4 × hole²; 2117-T3: 30 ksi; a row of rivets: its Shear',
    source:
      'MIL-HDBK-5 tables 8.1.2(a) and 8.1.2(b): AD of 3/32, 1/8 and 5/32 by MIL-HDBK-5F and MMPDS-09 (second-hand); B, D, DD and the other sizes from memory, verify',
    limits: [
      CAUTION,
      'No source was seen for B 28, D 34 and DD 41 ksi. A row of the table rivets with the same label and a Shear replaces what is computed',
      'The rivet alone: in thin sheet the sheet tears first, a countersunk head carries less (RIVET.STRENGTH), and the handbook then takes less than this (its table 8.1.2.1(b))',
      'D is taken as 2017-T31 at 34 ksi; the older 2017-T3 has 38',
      "Blind rivets have their maker's value, in the table rivets, and none here. " + PULL_TYPE,
    ],
    examples: [
      { args: ['MS20470AD4-6'], gives: 389, within: 1.5, source: 'MIL-HDBK-5F prints 388, second-hand' },
      { args: ['MS20470AD3-4'], gives: 217, within: 0.5, source: 'MIL-HDBK-5F prints 217, second-hand' },
      { args: ['MS20470AD5-6'], gives: 596, within: 0.5, source: 'MMPDS-09 prints 596, second-hand' },
    ],
    compute: (of, _units, own) => rivetShear(rivetOf(of, own)),
  }),
  defineRowWise({
    name: 'RIVET.STRENGTH',
    family,
    summary:
      'What one rivet carries in a sheet, as a first look: the lesser of rivet and sheet, by published values alone.',
    parameters: [
      rivet,
      thickness('sheet', 'the thinnest sheet of the joint; of a countersunk joint the countersunk one'),
      sheetMaterial,
      headForm,
      unitsParameter,
      rivets,
    ],
    result: { kind: 'text', help: `force, what governs, and where it is from; it ends "${FIRST_LOOK}"` },
    source:
      'MIL-HDBK-5F (second-hand): MS20426AD in 2024-T3; MIL-HDBK-5 table 8.1.2(b); AC 43.13-1B tables 4-9 and 4-10',
    limits: [CAUTION, 'Where no published value is in hand it answers #N/A: nothing is estimated', PULL_TYPE],
    examples: [
      {
        args: ['MS20426AD3-4', 0.032, '2024-T3', 'countersunk'],
        gives: `178 lbf: the sheet governs, countersunk in 0.032 in (0.81 mm) of 2024-T3; the countersink cuts through to a knife edge, which the handbook advises against (MIL-HDBK-5F, second-hand); ${FIRST_LOOK}`,
        source: 'MIL-HDBK-5F, second-hand',
      },
    ],
    compute: (of, sheet, material, head, units, own) => {
      const { pounds, governs, how, source } = jointStrength(rivetOf(of, own), sheet, material, head);
      return `${forceText(pounds, units)}: the ${governs} governs, ${how} (${source}); ${FIRST_LOOK}`;
    },
  }),
  defineRowWise({
    name: 'RIVET.PERINCH',
    family,
    summary: 'AD rivets for each inch of width of a 2024-T3 splice, as AC 43.13-1B prints them, times its factor.',
    parameters: [
      rivet,
      thickness('sheet', 'the sheet; a thickness that the table prints'),
      sheetMaterial,
      optional(
        choice('member', {
          help: '"width" (as printed: the default), "single lap" 75 %, "stringer" 80 %, "intermediate frame" 60 %',
          choices: Object.keys(MEMBERS) as [Member, ...Member[]],
        }),
        'width',
      ),
      unitsParameter,
      rivets,
    ],
    result: { kind: 'number', help: `rivets for an inch of width, not rounded, ${FIRST_LOOK}` },
    formula: "the table's number × 1, .75, .80 or .60",
    source: 'AC 43.13-1B tables 4-9 (bare, the part that was seen) and 4-10 (clad), with their notes',
    limits: [
      CAUTION,
      'Protruding heads alone; what the tables do not print is #N/A',
      'Per inch in mm-kg too, as printed',
    ],
    examples: [
      { args: ['MS20470AD4-5', 0.032, '2024-T3', 'single lap'], gives: 3.675, source: 'AC 43.13-1B p. 4-27: 3.7' },
      { args: ['MS20470AD4-5', 0.04, '2024-T3'], gives: 6.2, source: 'AC 43.13-1B p. 4-41' },
    ],
    compute: (of, sheet, material, member, _units, own) => rivetsPerInch(rivetOf(of, own), sheet, material, member),
  }),
  defineRowWise({
    name: 'RIVET.CHECK',
    family,
    summary:
      'What the rules of edge distance, pitch, diameter, head and grip say of a joint: "ok", or each finding with its rule.',
    parameters: [
      rivet,
      grip(),
      thickness('thickest_sheet', 'the thickest sheet of the joint'),
      pitch,
      lengthOrZero('edge', 'edge distance: from the centre of a rivet to the nearest edge of the sheet'),
      unitsParameter,
      optional(count('rows', 'parallel rows', 'rows'), 1),
      headForm,
      optional(thickness('outer_sheet', 'the sheet under the head, which is countersunk; thickest_sheet when omitted')),
      rivets,
    ],
    result: { kind: 'text', help: '"ok", or the findings' },
    formula:
      'edge 2D (flush 2.5D) to 4D; pitch 3D (two rows 4D) to 12D; D about 3 × thickest_sheet; countersunk: outer_sheet .040 .050 .064 .072 .072 or more for 3/32 to 1/4; length grip + 1.5D; blind: grip in range',
    source:
      'AC 43.13-1B ¶4-57 and ¶4-58; FAA-H-8083-31 ch. 4; NAVEDTRA 14018 ch. 13; TM 10-5410-221-14/1 table 4-3; TM 9-2320-363-34-2 table 4',
    limits: [
      CAUTION,
      PULL_TYPE + " A blind rivet that passes here is still the designer's to allow",
      'A single row, or three and more: 3D; two rows: 4D (AC 43.13-1B ¶4-57c). Rows 2.5D apart and more (TM 10-5410-229-13&P) are not looked at',
      'Sources disagree on the greatest pitch (8D, 10D, 12D; 12D is used) and on the diameter (AC 43.13-1B: about 3 × the sheet, its example goes up to the next size; NAVEDTRA 14018: from 1 to 3 times): the finding says both, and what is within half a size of 3 times is in order',
      'A flush rivet in sheet that is too thin to countersink is in order where head is "dimpled" or is omitted',
    ],
    examples: [
      { args: ['MS20470AD4-4', 0.072, 0.04, 1, 0.3], gives: 'ok' },
      { args: ['MS20426AD3-3', 0.032, 0.016, 1, 0.3, null, 1, 'dimpled', 0.016], gives: 'ok' },
      {
        args: ['MS20426AD4-4', 0.072, 0.04, 1, 0.25],
        gives: 'edge distance 0.25 in is under 2.5D = 0.3125 in (FAA-H-8083-31 ch. 4)',
      },
      {
        args: ['BLIND-AA-42', 0.15, 0.04, 1, 0.3],
        gives: 'grip 0.15 in is outside 0.063 in to 0.125 in (TM 10-5410-221-14/1 table 4-3)',
      },
    ],
    compute: (of, gripLength, thickestSheet, pitchLength, edge, units, rows, head, outerSheet, own) =>
      findingsText(
        checkRivet(
          {
            rivet: rivetOf(of, own),
            grip: gripLength,
            thickestSheet,
            pitch: pitchLength,
            edge,
            rows,
            head,
            outerSheet,
          },
          lengthText(units),
        ),
      ),
  }),
];
