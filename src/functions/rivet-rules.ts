/** Rivets by the rule: strength of one, and what the rules of layout say. */
import { checkRivet, findingsText, rivetShear } from '../core/fastener';
import { defineRowWise, unitsParameter, type Definition } from './define';
import { lengthOrZero, thickness } from './parameters';
import { grip, lengthText, pitch, rivet } from './rivet-parameters';

const family = 'Rivets';
const CAUTION =
  "A structural joint is made as the designer's drawing says; these are rules for a first layout and for a second look";
const PULLED =
  'Common pull-type rivets are not approved for the structure of certificated aircraft (AC 43.13-1B ¶4-57f(9))';

export const rivetRules: readonly Definition[] = [
  defineRowWise({
    name: 'RIVET.SHEAR',
    family,
    summary: 'Ultimate shear of one driven solid rivet, in one plane.',
    parameters: [rivet],
    result: { kind: 'number', dimension: 'force', help: 'ultimate single shear' },
    formula: 'shear stress × π / 4 × hole²; 2117-T3: 30 ksi',
    source: 'MIL-HDBK-5 tables 8.1.2(a) and 8.1.2(b); from memory, verify',
    limits: [
      CAUTION,
      'The rivet alone: in thin sheet the sheet tears first, and the handbook then takes less than this (its table 8.1.2.1(b))',
      'D is taken as 2017-T31 at 34 ksi; the older 2017-T3 has 38',
      "Blind rivets have their maker's value and none here. " + PULLED,
    ],
    examples: [
      { args: ['MS20470AD4-6'], gives: 389, within: 0.5, source: 'MIL-HDBK-5 prints 388; from memory' },
      { args: ['MS20470AD3-4'], gives: 217, within: 0.5, source: 'MIL-HDBK-5 prints 217; from memory' },
    ],
    compute: (of) => rivetShear(of),
  }),
  defineRowWise({
    name: 'RIVET.CHECK',
    family,
    summary:
      'What the rules of edge distance, pitch, diameter and grip say of a joint: "ok", or each finding with its rule.',
    parameters: [
      rivet,
      grip(),
      thickness('thickest_sheet', 'the thickest sheet of the joint'),
      pitch,
      lengthOrZero('edge', 'from the centre of a rivet to the nearest edge of the sheet'),
      unitsParameter,
    ],
    result: { kind: 'text', help: '"ok", or the findings' },
    formula:
      'edge 2D (flush 2.5D) to 4D; pitch 3D to 12D; D about 3 × thickest_sheet; length grip + 1.5D; blind: grip in range',
    source: 'AC 43.13-1B ¶4-57 and ¶4-58; FAA-H-8083-31 ch. 4; NAVEDTRA 14018 ch. 13; TM 10-5410-221-14/1 table 4-3',
    limits: [
      CAUTION,
      PULLED + ": a blind rivet that passes here is still the designer's to allow",
      'A single row, or three and more: two rows are to have a pitch of 4D (AC 43.13-1B ¶4-57c)',
      'Sources disagree on the greatest pitch (8D, 10D, 12D; 12D is used) and on the diameter (AC 43.13-1B: about 3 × the sheet; NAVEDTRA 14018: from 1 to 3 times)',
      'It does not know how a flush rivet is let in: thin sheet is dimpled, not countersunk',
    ],
    examples: [
      { args: ['MS20470AD4-4', 0.072, 0.04, 1, 0.3], gives: 'ok' },
      {
        args: ['MS20426AD4-4', 0.072, 0.04, 1, 0.25],
        gives: 'edge distance 0.25 in is under 2.5D = 0.3125 in (FAA-H-8083-31 ch. 4)',
      },
      {
        args: ['BLIND-AA-42', 0.15, 0.04, 1, 0.3],
        gives: 'grip 0.15 in is outside 0.063 in to 0.125 in (TM 10-5410-221-14/1 table 4-3)',
      },
    ],
    compute: (of, gripLength, thickestSheet, pitchLength, edge, units) =>
      findingsText(
        checkRivet({ rivet: of, grip: gripLength, thickestSheet, pitch: pitchLength, edge }, lengthText(units)),
      ),
  }),
];
