/** The airplane on its wheels: weighing, arms and limits; and control surfaces on their hinges. */
import {
  makeEnvelope,
  wordingOf,
  armFromMac,
  armsAt,
  ballastWeight,
  contains,
  counterweight,
  hingeMoment,
  judge,
  judgementWords,
  LIMITS_CAUTION,
  measuredMoment,
  percentMac,
  shiftedArm,
  weigh,
  type Envelope,
  type Load,
  type Wording,
} from '../core/balance';
import { InputError, unlessRefused, refuse } from '../core/input-error';
import { quantities } from '../core/quantity';
import {
  block,
  number,
  unitSign,
  asCellError,
  defineRowWise,
  defineWhole,
  fromInch,
  numbers,
  optional,
  unitsParameter,
  type Parameter,
  type UnitSystem,
  type Definition,
} from './define';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';
import { at, rowCount, rowWeights } from './mass-columns';
import { length, station, weight } from './parameters';

// The envelope as a range of cells, and how a loading against it is said in the user's units.

const cornerArm = number('arm', { help: '', dimension: 'length', limits: { min: -12_000, max: 12_000 } });
const cornerWeight = number('weight', { help: '', dimension: 'weight', limits: { above: 0, max: 1e6 } });

const takesEnvelope = (units: UnitSystem): string =>
  `two columns, arm (${unitSign('length', units)}) and weight (${unitSign('weight', units)}), of three or more corners in order around it`;

/** Corners of the envelope: arm, then weight; a header row is passed over, and blank rows (0 and 0 where a host gives 0 for a blank cell). */
const envelope: Parameter<Envelope> = block('envelope', {
  help: 'corners in order around it, either way, two columns: arm, then weight; edges and corners count as inside',
  dimension: 'weight',
  takes: takesEnvelope,
  read(cells: Matrix, units: UnitSystem) {
    if ((cells[0]?.length ?? 0) !== 2) throw new InputError('envelope', cells, takesEnvelope(units));
    const corners: Load[] = [];
    for (const [index, row] of cells.entries()) {
      const [first = null, second = null] = row;
      if (isNothing(first) && isNothing(second)) continue;
      if (index === 0 && isWord(first) && isWord(second)) continue;
      const place = `envelope, row ${index + 1}`;
      corners.push({ arm: readAt(place, first, cornerArm, units), weight: readAt(place, second, cornerWeight, units) });
    }
    return makeEnvelope(corners);
  },
});

const isNothing = (cell: Cell): boolean => isBlank(cell) || cell === 0;
const isWord = (cell: Cell): boolean => typeof cell === 'string' && !/^[\s+\-.\d]/.test(cell);

function readAt(place: string, cell: Cell, one: Parameter<number>, units: UnitSystem): number {
  const takesOne = `${one.name} in ${one.takes(units)}`;
  if (isBlank(cell) || cell instanceof CellError)
    throw new InputError(place, cell instanceof CellError ? cell.code : null, takesOne);
  return unlessRefused(
    () => one.read(cell, units),
    ({ got, guess }): never => {
      throw new InputError(place, got, takesOne, guess);
    },
  );
}

/** Weights and arms in the user's units, with their sign. */
const wordingIn = (units: UnitSystem): Wording => WORDINGS[units];

const WORDINGS: Readonly<Record<UnitSystem, Wording>> = {
  'in-lb': wordingOf(quantities('in-lb')),
  'mm-kg': wordingOf(quantities('mm-kg')),
};

const HANDBOOK = 'FAA-H-8083-1B, Aircraft Weight and Balance Handbook';
const SURFACES = 'Balance limits of a control surface come from its designer; paint and repairs change them.';

const allUp = (name: string, help: string) =>
  number(name, { help, dimension: 'weight', limits: { above: 0, max: 1e6 } });
const readings = (name: string, help: string) =>
  numbers(name, { help, dimension: 'weight', limits: { min: 0, max: 1e6 } });
const stations = (name: string, help: string) =>
  numbers(name, { help, dimension: 'length', limits: { min: -12_000, max: 12_000 } });

const corners = [
  [35, 1000],
  [47, 1000],
  [47, 2100],
  [41, 2100],
  [35, 1600],
];

export const balance: readonly Definition[] = [
  defineWhole({
    name: 'BALANCE.WEIGHING',
    family: 'Balance',
    summary: 'Weight, arm and moment of an airplane from its scale readings.',
    parameters: [
      readings('readings', 'reading of each scale'),
      readings('tares', 'chocks and blocks on each scale; a blank counts as none, and a single 0 is for all'),
      stations('arms', 'arm of each weighing point from the datum, the airplane level'),
      unitsParameter,
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'weight', dimension: 'weight' },
        { name: 'arm', dimension: 'length' },
        { name: 'moment', dimension: 'moment' },
      ],
      help: 'one row: weight, arm, moment',
    },
    formula: 'arm = Σ (reading − tare) × arm / Σ (reading − tare)',
    source: HANDBOOK,
    limits: [
      'Takes the airplane as it was on the scales: subtract fuel, oil and tools aboard by hand.',
      'The airplane must be level.',
    ],
    examples: [
      {
        args: [
          [[838], [846], [348]],
          [[8], [10], [8]],
          [[46], [46], [-32]],
        ],
        gives: [[2006, 65756 / 2006, 65756]],
        source: `${HANDBOOK}: net 830, 836 and 340 lb`,
      },
    ],
    compute(readings, tares, arms, units) {
      // One cell can say that no scale has a tare. It cannot say one tare for all scales, or one arm for all wheels.
      const count = rowCount(
        { readings, tares, arms },
        tares[0] ? ['readings', 'tares', 'arms'] : ['readings', 'arms'],
      );
      const points = [];
      for (let row = 0; row < count; row++) {
        const reading = at(readings, row);
        if (reading === null || (reading === 0 && at(arms, row) === null)) continue;
        const [tare, arm] = [at(tares, row) ?? 0, at(arms, row)];
        if (arm === null) throw new InputError(`arms, row ${row + 1}`, null, 'an arm for each reading');
        if (tare > reading)
          throw new InputError(
            `readings, row ${row + 1}`,
            reading,
            `a reading no less than its tare, ${shown(tare, 'weight', units)}`,
          );
        points.push({ name: '', reading, tare, arm });
      }
      const result =
        weigh({ gear: 'nosewheel', points }) ??
        refuse('readings', readings, 'readings that leave a weight when the tares are taken off');
      return [[result.weight, result.arm, result.moment]];
    },
  }),
  defineRowWise({
    name: 'BALANCE.MAC',
    family: 'Balance',
    summary: 'An arm in per cent of the mean aerodynamic chord.',
    parameters: [
      station('arm', 'arm from the datum'),
      station('lemac', 'arm of the leading edge of the mean aerodynamic chord'),
      length('mac', 'length of the mean aerodynamic chord'),
    ],
    result: { kind: 'number', help: 'per cent of the chord: 27.4 is 27.4 %' },
    formula: '100 × (arm − lemac) / mac',
    source: HANDBOOK,
    examples: [{ args: [161, 144, 62], gives: 27.4, within: 0.05, source: 'by hand: 100 × 17 / 62' }],
    compute: percentMac,
  }),
  defineRowWise({
    name: 'BALANCE.FROMMAC',
    family: 'Balance',
    summary: 'The arm at a per cent of the mean aerodynamic chord.',
    parameters: [
      number('percent', {
        help: 'per cent of the chord: 25 is 25 %',
        of: 'per cent',
        limits: { min: -1000, max: 1000 },
      }),
      station('lemac', 'arm of the leading edge of the mean aerodynamic chord'),
      length('mac', 'length of the mean aerodynamic chord'),
    ],
    result: { kind: 'number', dimension: 'length', help: 'arm from the datum' },
    formula: 'lemac + percent / 100 × mac',
    source: HANDBOOK,
    examples: [{ args: [25, 144, 62], gives: 159.5 }],
    compute: armFromMac,
  }),
  defineRowWise({
    name: 'BALANCE.SHIFT',
    family: 'Balance',
    summary: 'Arm of the airplane after a part of its weight has been moved.',
    parameters: [
      allUp('weight', 'weight in all'),
      station('arm', 'arm before'),
      weight('moved', 'weight that is moved'),
      station('from', 'the arm where it was'),
      station('to', 'arm it is moved to'),
    ],
    result: { kind: 'number', dimension: 'length', help: 'arm after' },
    formula: 'arm + moved × (to − from) / weight',
    source: HANDBOOK,
    limits: [LIMITS_CAUTION],
    examples: [
      { args: [8000, 77, 100, 30, 150], gives: 78.5, source: 'FAA-H-8083-25, weight and balance, weight shifting' },
    ],
    compute: (weight, arm, moved, from, to) => shiftedArm({ weight, arm }, moved, from, to),
  }),
  defineRowWise({
    name: 'BALANCE.BALLAST',
    family: 'Balance',
    summary: 'Ballast that brings the airplane’s arm to a target.',
    parameters: [
      allUp('weight', 'weight without the ballast'),
      station('arm', 'arm without it'),
      station('target', 'arm to be reached'),
      station('ballast_arm', 'arm of the ballast'),
      unitsParameter,
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight of the ballast' },
    formula: 'weight × (target − arm) / (ballast_arm − target)',
    source: HANDBOOK,
    limits: [
      LIMITS_CAUTION,
      'The place must be able to carry the ballast, in flight loads too: its attachment is a structural matter.',
    ],
    examples: [{ args: [1876, 32.2, 33, 228], gives: 7.7, within: 0.05, source: `${HANDBOOK}, permanent ballast` }],
    compute(weight, arm, target, ballastArm, units) {
      const needed = ballastWeight({ weight, arm }, target, ballastArm);
      if (needed === undefined) {
        const side = target > arm ? 'aft' : 'forward';
        throw new InputError(
          'ballast_arm',
          ballastArm,
          `an arm ${side} of the target, ${shown(target, 'length', units)}, since the balance must move ${side}`,
        );
      }
      return needed;
    },
  }),
  defineWhole({
    name: 'BALANCE.LIMITS',
    family: 'Balance',
    summary: 'Forward and aft limit of the envelope at a weight.',
    parameters: [
      numbers('weight', {
        help: 'weight in all, or a column of them',
        dimension: 'weight',
        limits: { above: 0, max: 1e6 },
      }),
      envelope,
      unitsParameter,
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'forward', dimension: 'length' },
        { name: 'aft', dimension: 'length' },
      ],
      help: 'a row a weight: forward limit, aft limit',
    },
    source: 'definition (straight lines between the corners)',
    limits: [LIMITS_CAUTION],
    examples: [
      { args: [1850, corners], gives: [[38, 47]], note: 'half way up the sloping edge' },
      {
        args: [[[1000], [2100]], corners],
        gives: [
          [35, 47],
          [41, 47],
        ],
      },
    ],
    compute(weights, envelope, units) {
      return weights.map((weight) => {
        if (weight === null) return ['', ''];
        const limits = limitsAt(envelope, weight, units);
        if (typeof limits !== 'string') return limits;
        if (weights.length === 1) throw new InputError('weight', weight, limits);
        const error = asCellError(new InputError('weight', fromInch(weight, 'weight', units), limits));
        return [error, error];
      });
    },
  }),
  defineRowWise({
    name: 'BALANCE.INSIDE',
    family: 'Balance',
    summary: 'Whether a weight and arm are inside the envelope; its edges and corners count as inside.',
    parameters: [allUp('weight', 'weight in all'), station('arm', 'arm of the centre of gravity'), envelope],
    result: { kind: 'flag', help: 'TRUE or FALSE' },
    source: 'definition (point in polygon)',
    limits: [
      LIMITS_CAUTION,
      'A point off the edge by less than a billionth of the envelope’s width and height counts as on it.',
    ],
    examples: [
      { args: [1850, 38, corners], gives: true, note: 'on the edge' },
      { args: [[[1850], [1850], [2100]], [[37.9], [40], [41]], corners], gives: [[false], [true], [true]] },
    ],
    compute: (weight, arm, envelope) => contains(envelope, weight, arm),
  }),
  defineRowWise({
    name: 'BALANCE.JUDGE',
    family: 'Balance',
    summary: 'A loading against the envelope in words: inside or outside, and by how much.',
    parameters: [
      allUp('weight', 'weight in all'),
      station('arm', 'arm of the centre of gravity'),
      envelope,
      unitsParameter,
    ],
    result: { kind: 'text', help: 'a sentence' },
    source: 'definition (point in polygon)',
    limits: [LIMITS_CAUTION],
    examples: [
      {
        args: [1850, 40, corners],
        gives: 'inside, 2.00 in aft of the forward limit and 7.00 in forward of the aft limit',
      },
      { args: [1850, 36.5, corners], gives: 'outside: 1.50 in forward of the forward limit, 38.00 in at 1,850.0 lb' },
    ],
    compute: (weight, arm, envelope, units) => judgementWords(judge(envelope, { weight, arm }), wordingIn(units)),
  }),
  defineWhole({
    name: 'HINGE.MOMENT',
    family: 'Balance',
    summary: 'Static moment of a control surface’s parts about its hinge line.',
    parameters: [
      rowWeights('weights', 'weight of each part'),
      stations('arms', 'distance of each part’s centre of gravity from the hinge line: positive aft, negative ahead'),
    ],
    result: {
      kind: 'number',
      dimension: 'moment',
      help: 'positive: trailing-edge heavy; negative: leading-edge heavy',
    },
    formula: 'Σ weight × arm',
    source: 'definition',
    limits: [SURFACES, 'The surface level, chord line horizontal.'],
    examples: [
      {
        args: [
          [[3], [0.5], [2]],
          [[4], [9], [-5]],
        ],
        gives: 6.5,
      },
    ],
    compute(weights, arms) {
      const count = rowCount({ weights, arms }, ['arms']);
      const parts = [];
      for (let row = 0; row < count; row++) {
        const [weight, arm] = [at(weights, row), at(arms, row)];
        if (weight === null || (weight === 0 && arm === null)) continue;
        parts.push({
          weight,
          arm: arm ?? refuse(`arms, row ${row + 1}`, null, 'a distance from the hinge line for each weight'),
        });
      }
      return hingeMoment(parts);
    },
  }),
  defineRowWise({
    name: 'HINGE.MEASURED',
    family: 'Balance',
    summary: 'Static moment of a control surface from a scale at its trailing edge.',
    parameters: [
      number('raising', {
        help: 'scale reading while the edge is raised slowly; negative where it lifts',
        dimension: 'weight',
        limits: { min: -1e4, max: 1e4 },
      }),
      number('lowering', {
        help: 'scale reading while it is lowered slowly',
        dimension: 'weight',
        limits: { min: -1e4, max: 1e4 },
      }),
      length('arm', 'distance from the hinge line to the scale'),
    ],
    result: { kind: 'number', dimension: 'moment', help: 'positive: trailing-edge heavy' },
    formula: '(raising + lowering) / 2 × arm',
    source: 'definition; the mean of both directions takes the hinges’ friction out',
    limits: [SURFACES, 'The surface level, chord line horizontal, the scale square under it.'],
    examples: [{ args: [0.62, 0.5, 10], gives: 5.6 }],
    compute: measuredMoment,
  }),
  defineRowWise({
    name: 'HINGE.COUNTERWEIGHT',
    family: 'Balance',
    summary: 'Counterweight ahead of the hinge line that balances a control surface.',
    parameters: [
      weight('weight', 'weight of the surface'),
      number('arm_aft', {
        help: 'distance of its centre of gravity aft of the hinge line',
        dimension: 'length',
        limits: { min: 0, max: 12_000 },
      }),
      length('arm_ahead', 'distance of the counterweight ahead of the hinge line'),
      optional(
        number('percent', {
          help: 'per cent of the moment to be balanced',
          of: 'per cent',
          limits: { min: 0, max: 200 },
        }),
        100,
      ),
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight of the counterweight' },
    formula: 'weight × arm_aft / arm_ahead × percent / 100',
    source: 'definition',
    limits: [SURFACES, 'The arm that carries the counterweight has a weight, too: add it.'],
    examples: [
      { args: [6, 3, 4], gives: 4.5 },
      { args: [6, 3, 4, 80], gives: 3.6 },
    ],
    compute: (weight, aft, ahead, percent) => counterweight(weight * aft, ahead, percent / 100),
  }),
];

const shown = (value: number, dimension: 'weight' | 'length', units: UnitSystem): string =>
  wordingIn(units)[dimension === 'weight' ? 'weight' : 'arm'](value);

/** Forward and aft limit, or in words what weight the envelope takes. */
function limitsAt(envelope: Envelope, weight: number, units: UnitSystem): [number, number] | string {
  const ranges = armsAt(envelope, weight);
  const [only] = ranges;
  const { from, to } = envelope.weights;
  if (!only)
    return `a weight in the envelope’s range, ${shown(from, 'weight', units)} to ${shown(to, 'weight', units)}`;
  return ranges.length > 1
    ? `a weight at which the envelope has one range of arms; here it has ${ranges.length}`
    : [only.from, only.to];
}
