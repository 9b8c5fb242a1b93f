/** What parts weigh together, where they balance, and how far the sum may be off. */
import { InputError, refuse } from '../core/input-error';
import {
  evenStations,
  RollUpSum,
  Tally,
  THICKNESS_TOLERANCE_SOURCE,
  thicknessTolerance,
  weightBands,
  type GroupTotal,
} from '../core/mass';
import {
  choice,
  defineRowWise,
  defineWhole,
  numbers,
  optional,
  texts,
  toInch,
  unitsParameter,
  type Definition,
} from './define';
import type { Cell } from '../sheet/cell';
import { budgets } from './mass-budget';
import {
  arms,
  at,
  eachPart,
  groupAt,
  groups,
  nameAt,
  quantities,
  quantityAt,
  rowCount,
  weights,
  type Column,
  type PartColumns,
} from './mass-columns';
import { inertias } from './mass-inertia';
import { count, sixDigits, station, thickness } from './parameters';

const ESTIMATE = 'An estimate is not a weighing: the finished part goes on a scale.';
const BLANKS =
  'A blank weight skips its row. A blank quantity beside a weight is an error; 0 pieces count as none, also where a host passes 0 for a blank cell.';

/** The parts of a list added up, and the axes that their arms have. */
function tallied(columns: PartColumns): { readonly tally: Tally; readonly axes: 1 | 3 } {
  const tally = new Tally();
  return { tally, axes: eachPart(columns, (_row, weight, x, y, z) => tally.add(weight, x, y, z)) };
}

const groupRow = ({ group, weight, center, moment }: GroupTotal, axes: 1 | 3): Cell[] => [
  group,
  weight,
  ...moment.slice(0, axes).flatMap((one, axis) => [center?.[axis] ?? '', one]),
];

/** Sheet of one alloy and gauge comes from one mill run more often than not; what is no sheet has a lot of its own. */
function sheetLot(materials: Column<string> | undefined, gauges: Column<string> | undefined, row: number): string {
  const material = materials ? nameAt(materials, row) : '';
  const gauge = gauges ? nameAt(gauges, row) : '';
  return material && gauge ? `${material} ${gauge.replace(/^0(?=\.)/, '')}` : '';
}

export const mass: readonly Definition[] = [
  defineWhole({
    name: 'MOMENT',
    family: 'Mass',
    summary: 'Moment of a list of weights about the datum.',
    parameters: [weights, arms, quantities],
    result: {
      kind: 'number',
      dimension: 'moment',
      help: 'sum of weight × quantity × arm; with three columns of arms, three moments in a row',
    },
    formula: 'Σ weight × quantity × arm',
    source: 'definition',
    limits: [BLANKS],
    examples: [
      {
        args: [
          [[1169], [17], [170], [83]],
          [[10.6], [-49], [16], [22]],
        ],
        gives: 16104,
        within: 1,
        source: 'AC 43.13-1B figure 10-10, which rounds each moment to a pound-inch',
      },
      { args: [2, [[10, 4, 1]]], gives: [[20, 8, 2]], note: 'three axes' },
    ],
    compute(weights, arms, quantities) {
      const { tally, axes } = tallied({ weights, arms, quantities });
      return axes === 1 ? tally.momentX : [[tally.momentX, tally.momentY, tally.momentZ]];
    },
  }),
  defineWhole({
    name: 'CG',
    family: 'Mass',
    summary: 'Centre of gravity of a list of weights, as an arm from the datum.',
    parameters: [weights, arms, quantities],
    result: {
      kind: 'number',
      dimension: 'length',
      help: 'arm of the centre of gravity; with three columns of arms, x, y and z in a row',
    },
    formula: 'Σ weight × quantity × arm / Σ weight × quantity',
    source: 'definition',
    limits: [BLANKS, ESTIMATE],
    examples: [
      {
        args: [
          [[2100], [340], [350], [450], [80]],
          [[78.3], [85], [121], [75], [150]],
        ],
        gives: 84.8,
        within: 0.05,
        source: 'FAA-H-8083-25, weight and balance, computational method',
      },
      {
        args: [
          [[2], [2]],
          [
            [10, 4, 0],
            [20, -4, 2],
          ],
        ],
        gives: [[15, 0, 1]],
        note: 'three axes',
      },
    ],
    compute(weights, arms, quantities) {
      const { tally, axes } = tallied({ weights, arms, quantities });
      const center = tally.center ?? refuse('weights', weights, 'weights whose sum is not 0');
      return axes === 1 ? center[0] : [[...center]];
    },
  }),
  defineWhole({
    name: 'ROLLUP',
    family: 'Mass',
    summary: 'Weight, arm and moment of each component of a parts list, and of all.',
    parameters: [groups, weights, arms, quantities],
    result: {
      kind: 'table',
      columns: [
        { name: 'group' },
        { name: 'weight', dimension: 'weight' },
        { name: 'arm', dimension: 'length' },
        { name: 'moment', dimension: 'moment' },
        { name: 'arm y', dimension: 'length' },
        { name: 'moment y', dimension: 'moment' },
        { name: 'arm z', dimension: 'length' },
        { name: 'moment z', dimension: 'moment' },
      ],
      help: 'a row a group in order of first appearance, then "Total": group, weight, arm, moment; with three columns of arms, arm and moment of y and of z follow',
    },
    formula: 'arm = moment / weight',
    source: 'definition',
    limits: [
      BLANKS,
      'A group whose weights cancel has a blank arm. Names that differ only in case or spaces are one group; a row called Total or Subtotal is refused.',
      ESTIMATE,
    ],
    examples: [
      {
        args: [
          [['Spar'], ['Ribs'], ['Spar']],
          [[4.5], [0.5], [1.5]],
          [[20], [30], [24]],
          [[1], [8], [1]],
        ],
        gives: [
          ['Spar', 6, 21, 126],
          ['Ribs', 4, 30, 120],
          ['Total', 10, 24.6, 246],
        ],
      },
      {
        args: [
          [['Tail'], ['Tail']],
          [[3], [1]],
          [
            [200, 10, 5],
            [204, -10, 9],
          ],
        ],
        gives: [
          ['Tail', 4, 201, 804, 5, 20, 6, 24],
          ['Total', 4, 201, 804, 5, 20, 6, 24],
        ],
        note: 'three axes',
      },
    ],
    compute(groups, weights, arms, quantities) {
      const sum = new RollUpSum();
      const axes = eachPart({ groups, weights, arms, quantities }, (row, weight, x, y, z) => {
        const group = groupAt(groups, row);
        if (weight !== 0 || group) sum.add(group, weight, x, y, z);
      });
      const { groups: totals, total } = sum.result();
      return totals.length === 0 ? '' : [...totals, total].map((one) => groupRow(one, axes));
    },
  }),
  defineWhole({
    name: 'STATIONS',
    family: 'Mass',
    summary: 'Stations spaced evenly from first to last, as a column: for equal ribs or formers.',
    parameters: [
      station('first', 'first station'),
      station('last', 'last station, included'),
      count('count', 'how many stations, both ends included', 'stations'),
    ],
    result: { kind: 'number', dimension: 'length', help: 'a column of stations' },
    formula: 'first + (last − first) × i / (count − 1)',
    source: 'definition',
    limits: ['With a count of 1, the first alone.'],
    examples: [{ args: [0, 90, 4], gives: [[0], [30], [60], [90]] }],
    compute: (first, last, count) => evenStations(first, last, count).map((one) => [one]),
  }),
  ...inertias,
  defineWhole({
    name: 'ROLLUP.BAND',
    family: 'Mass',
    summary:
      'Weight of each component with what its rows’ tolerances come to: as the root of the sum of squares, and all the same way.',
    parameters: [
      groups,
      weights,
      numbers('tolerances', {
        help: '± of each row, as a fraction of its weight (4% or 0.04); blank: none',
        of: 'fractions',
        limits: { min: 0, max: 1e6 },
      }),
      quantities,
      optional(
        texts('lots', {
          help: 'what rows share their error with others: one sheet, one batch; blank: independent; left out: one lot for each material and gauge, where they are given',
          of: 'lot names',
        }),
      ),
      optional(
        choice('kind', {
          help: '"fraction" (the default), or "weight" for tolerances in pounds a piece',
          choices: ['fraction', 'weight'],
        }),
        'fraction',
      ),
      unitsParameter,
      optional(
        texts('materials', { help: 'alloy of each row: with gauges, what makes rows one lot', of: 'material names' }),
      ),
      optional(
        texts('gauges', { help: 'gauge or thickness of each row, beside materials', of: 'gauges or thicknesses' }),
      ),
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'group' },
        { name: 'weight', dimension: 'weight' },
        { name: '± root sum', dimension: 'weight' },
        { name: '± worst', dimension: 'weight' },
      ],
      help: 'a row a group, then "Total": group, weight, ± by root-sum-square, ± with every error the same way',
    },
    formula: 'root sum = √Σ (quantity × tolerance)², worst = Σ quantity × tolerance',
    source: 'definition (combination of independent tolerances by root-sum-square)',
    limits: [
      'Equal pieces of one row are taken to come from one sheet and to share its error. Without lots, all rows of one material and gauge share an error; a row with neither is independent.',
      'Of mill limits the root of the sum of squares is a limit of the same kind: no likelihood and no guarantee; and it knows nothing of parts left out of the list.',
      ESTIMATE,
    ],
    examples: [
      {
        args: [
          [['Skin'], ['Skin'], ['Ribs']],
          [[10], [10], [0.5]],
          [[0.03], [0.04], [0.1]],
          [[1], [1], [8]],
        ],
        gives: [
          ['Skin', 20, 0.5, 0.7],
          ['Ribs', 4, 0.4, 0.4],
          ['Total', 24, Math.sqrt(0.41), 1.1],
        ],
      },
      {
        args: [
          [['Skin'], ['Skin'], ['Ribs']],
          [[10], [10], [4]],
          [[0.03], [0.03], [0.1]],
          1,
          null,
          null,
          null,
          [['2024-T3'], ['2024-T3'], ['6061-T6']],
          [[0.025], [0.025], [0.032]],
        ],
        gives: [
          ['Skin', 20, 0.6, 0.6],
          ['Ribs', 4, 0.4, 0.4],
          ['Total', 24, Math.sqrt(0.52), 1],
        ],
        note: 'two skins of one gauge, from one lot',
      },
    ],
    compute(groups, weights, tolerances, quantities, lots, kind, units, materials, gauges) {
      const total = rowCount({ groups, weights, tolerances, quantities, lots, materials, gauges });
      const listed = [];
      for (let row = 0; row < total; row++) {
        const weight = at(weights, row);
        const group = groupAt(groups, row);
        if (weight === null || (weight === 0 && !group)) continue;
        const given = at(tolerances, row) ?? 0;
        if (kind === 'fraction' && given > 1) {
          throw new InputError(
            `tolerances, row ${row + 1}`,
            given,
            'fractions from 0 to 1',
            `${sixDigits(given)} looks like per cent: write ${sixDigits(given)}% or ${sixDigits(given / 100)}`,
          );
        }
        const tolerance = kind === 'fraction' ? { fraction: given } : { pounds: toInch(given, 'weight', units) };
        listed.push({
          group,
          weight,
          quantity: quantityAt(quantities, row),
          tolerance,
          lot: lots ? nameAt(lots, row) : sheetLot(materials, gauges, row),
        });
      }
      return listed.length === 0
        ? ''
        : weightBands(listed).map(({ group, weight, rootSum, worst }) => [group, weight, rootSum, worst]);
    },
  }),
  defineRowWise({
    name: 'TOLERANCE.SHEET',
    family: 'Mass',
    summary: 'Mill tolerance of an aluminium sheet’s thickness, as a fraction of its thickness and so of its weight.',
    parameters: [thickness()],
    result: { kind: 'number', help: '± as a fraction: 0.1 is 10 %' },
    formula: '± thickness tolerance / thickness',
    source: THICKNESS_TOLERANCE_SOURCE,
    limits: [
      'Aluminium sheet from .011 to .125 in thick and over 36 to 54 in wide. From memory: verify against the standard that your sheet is sold to.',
      'Published lists disagree: for .032 in ±.003 and ±.0015 (.0025 is used), for .063 in ±.004 (used) and ±.002. Where you know yours, type it in the column Tolerance instead.',
      'Under .018 in it takes the ± of .018 in, which is on the safe side.',
    ],
    examples: [
      { args: [0.032], gives: 0.0025 / 0.032 },
      { args: [0.016], gives: 0.0025 / 0.016 },
    ],
    compute: (thickness) => thicknessTolerance(thickness) / thickness,
  }),
  ...budgets,
];
