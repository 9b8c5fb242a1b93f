/** Weight against the budget: growth by status, forecast and margin, and what the scale has shown so far. */
import { InputError, refuse } from '../core/input-error';
import {
  budget,
  forecastWeight,
  GROWTH_ALLOWANCES,
  GROWTH_SOURCE,
  STATUSES,
  weighingBias,
  type Allowance,
} from '../core/mass';
import {
  block,
  defineRowWise,
  defineWhole,
  number,
  optional,
  plainNumber,
  text,
  texts,
  type Definition,
} from './define';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';
import { at, groupAt, groups, nameAt, rowCount, rowWeights } from './mass-columns';

const STATUS_WORDS = STATUSES.map((status) => `"${status}"`).join(', ');
const TAKES = 'rows of a status and its growth allowance as a fraction (25% or 0.25)';

/** A table of statuses and fractions; a header row is passed over. */
const allowances = optional(
  block('allowances', {
    help: 'two columns, status and growth as a fraction; left out: estimated 25 %, laid out 15 %, released 5 %, existing 3 %, weighed 0 %',
    takes: TAKES,
    read: readAllowances,
  }),
);

function readAllowances(cells: Matrix): Allowance[] {
  const listed: Allowance[] = [];
  for (const [index, [status, growth]] of cells.entries()) {
    if (isBlank(status)) continue;
    const where = `allowances, row ${index + 1}`;
    const error = [status, growth].find((cell) => cell instanceof CellError);
    if (error) throw new InputError(where, error, TAKES);
    const fraction = fractionOf(growth);
    if (fraction === undefined && index === 0 && typeof growth === 'string') continue;
    if (fraction === undefined || fraction < -1)
      throw new InputError(where, growth, 'a fraction of the weight, -1 or more');
    if (fraction > 2)
      throw new InputError(
        where,
        fraction,
        'a fraction of the weight up to 2',
        `${fraction} looks like per cent: write ${fraction}% or ${fraction / 100}`,
      );
    listed.push({ status: String(status), fraction });
  }
  if (listed.length === 0) throw new InputError('allowances', cells, TAKES);
  return listed;
}

function fractionOf(cell: Cell | undefined): number | undefined {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : undefined;
  if (typeof cell !== 'string') return undefined;
  const typed = cell.trim();
  const value = plainNumber(typed.endsWith('%') ? typed.slice(0, -1).trim() : typed);
  return value !== undefined && typed.endsWith('%') ? value / 100 : value;
}

const orBlank = (value: number | undefined): Cell => value ?? '';

export const budgets: readonly Definition[] = [
  defineRowWise({
    name: 'GROWTH',
    family: 'Mass',
    summary: 'Weight that a part is likely to have when it is done, from its weight now and its status.',
    parameters: [
      number('weight', {
        help: 'weight as it is known now; negative for what is taken off',
        dimension: 'weight',
        limits: { min: -1e6, max: 1e6 },
      }),
      text('status', { help: STATUS_WORDS, of: STATUS_WORDS }),
      allowances,
    ],
    result: { kind: 'number', dimension: 'weight', help: 'weight with its growth allowance' },
    formula: 'weight × (1 + allowance of the status)',
    source: GROWTH_SOURCE,
    limits: ['The default allowances come from makers of spacecraft: put your own experience in their place.'],
    examples: [
      { args: [10, 'estimated'], gives: 12.5 },
      { args: [-4, 'estimated'], gives: -5, note: 'a cut-out grows with what it is cut from' },
      {
        args: [
          [[10], [10], [10]],
          [['laid out'], ['released'], ['weighed']],
        ],
        gives: [[11.5], [10.5], [10]],
      },
      {
        args: [
          10,
          'drawn',
          [
            ['status', 'growth'],
            ['drawn', 0.08],
          ],
        ],
        gives: 10.8,
        note: 'a table of your own',
      },
    ],
    compute: (weight, status, allowances) => forecastWeight(weight, status, allowances),
  }),
  defineWhole({
    name: 'BUDGET',
    family: 'Mass',
    summary: 'Components against the weight budget: weight now, forecast, margin and weighed share.',
    parameters: [
      groups,
      rowWeights('weights', 'weight of each row, all its pieces'),
      texts('statuses', { help: `${STATUS_WORDS}; a blank one counts as "estimated"`, of: STATUS_WORDS }),
      texts('budget_groups', { help: 'components of the budget, in the order of the result', of: 'component names' }),
      rowWeights('budget_weights', 'weight budgeted for each'),
      allowances,
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'group' },
        { name: 'now', dimension: 'weight' },
        { name: 'forecast', dimension: 'weight' },
        { name: 'budget', dimension: 'weight' },
        { name: 'margin', dimension: 'weight' },
        { name: 'margin %' },
        { name: 'weighed %' },
      ],
      help: 'a row a component of the budget, then components without one, then "Total"; margin is budget less forecast, now is what the list weighs today, per cent are whole numbers (12 is 12 %)',
    },
    formula: 'forecast = Σ weight × (1 + allowance), margin = budget − forecast',
    source: GROWTH_SOURCE,
    limits: [
      'Weight in a component without a budget counts against the total margin.',
      'The default allowances come from makers of spacecraft: put your own experience in their place.',
      'A forecast is not a weighing.',
    ],
    examples: [
      {
        args: [
          [['Wing'], ['Wing'], ['Tail']],
          [[60], [40], [20]],
          [['weighed'], ['estimated'], ['released']],
          [['Wing'], ['Tail']],
          [[125], [20]],
        ],
        gives: [
          ['Wing', 100, 110, 125, 15, 12, 60],
          ['Tail', 20, 21, 20, -1, -5, 0],
          ['Total', 120, 131, 145, 14, 1400 / 145, 50],
        ],
      },
    ],
    compute(groups, weights, statuses, budgetGroups, budgetWeights, allowances) {
      const parts = Array.from({ length: rowCount({ groups, weights, statuses }, ['weights']) }, (_, row) => ({
        group: groupAt(groups, row),
        weight: at(weights, row),
        status: nameAt(statuses, row),
        place: `statuses, row ${row + 1}`,
      })).filter(
        (part): part is typeof part & { weight: number } =>
          part.weight !== null && (part.weight !== 0 || part.group !== ''),
      );
      const goals = Array.from(
        {
          length: rowCount({ budget_groups: budgetGroups, budget_weights: budgetWeights }, [
            'budget_groups',
            'budget_weights',
          ]),
        },
        (_, row) => ({
          group: groupAt(budgetGroups, row, 'budget_groups'),
          weight: at(budgetWeights, row) ?? 0,
        }),
      ).filter((goal) => goal.group !== '');
      return budget(parts, goals, allowances ?? GROWTH_ALLOWANCES).map((line) => [
        line.group,
        line.current,
        line.forecast,
        orBlank(line.budget),
        orBlank(line.margin),
        orBlank(line.marginPercent),
        orBlank(line.weighedPercent),
      ]);
    },
  }),
  defineWhole({
    name: 'BIAS',
    family: 'Mass',
    summary: 'Whether the list runs light or heavy: parts that have been weighed against their computed weights.',
    parameters: [
      rowWeights('computed', 'weight of each part as computed'),
      rowWeights('weighed', 'the same part on the scale; blank where it has not been'),
    ],
    result: {
      kind: 'table',
      columns: [
        { name: 'parts' },
        { name: 'computed', dimension: 'weight' },
        { name: 'weighed', dimension: 'weight' },
        { name: 'bias %' },
        { name: '± %' },
      ],
      help: 'one row: parts with both weights, their sums, bias in per cent (3 means 3 % heavier than listed) and its ± with 95 % confidence',
    },
    formula: 'bias = Σ weighed / Σ computed − 1',
    source: 'definition (weighted least squares through the origin; Student’s t)',
    limits: [
      'Takes the scatter of a part’s weight to grow as the root of its weight, and the weighed parts to be like the rest.',
      'A bias smaller than its ± may be chance: do not apply it.',
    ],
    examples: [
      {
        args: [
          [[10], [10]],
          [[10.2], [10.4]],
        ],
        gives: [[2, 20, 20.6, 3, 12.706]],
        within: 1e-6,
      },
    ],
    compute(computed, weighed) {
      const pairs = Array.from({ length: rowCount({ computed, weighed }, ['weighed']) }, (_, row) => ({
        computed: at(computed, row) ?? 0,
        weighed: at(weighed, row) ?? 0,
      }));
      // A scale reading of 0 is a host's blank cell: the part has not been weighed.
      const bias =
        weighingBias(pairs.filter((pair) => pair.weighed > 0)) ??
        refuse('weighed', weighed, 'at least one part with a computed and a weighed weight above 0');
      return [
        [
          bias.parts,
          bias.computed,
          bias.weighed,
          100 * bias.fraction,
          bias.plusMinus === undefined ? '' : 100 * bias.plusMinus,
        ],
      ];
    },
  }),
];
