/** Solid against blind rivets: the same joints in several options. */
import { MINUTES_EACH, PULL_TYPE, type OwnRivets } from '../core/fastener';
import { InputError, NotListedError, refuse } from '../core/input-error';
import {
  compareRivets,
  DEFAULT_TERMS,
  KIND_TAKES,
  readKind,
  readTools,
  type ChoiceJoint,
  type Compared,
  type OptionResult,
  type RivetKind,
  type RivetOption,
  type Tool,
} from '../core/rivet-choice';
import {
  asCellError,
  block,
  defineWhole,
  fromInch,
  number,
  numbers,
  optional,
  unitsParameter,
  type Definition,
  type UnitSystem,
} from './define';
import { CellError, isBlank, type Cell, type Matrix } from '../sheet/cell';
import { pricesParameter, withRivets } from './prices';
import { checkLength, GRIP, plain, rivets } from './parameters';

/** Of a joint as it is laid out. */
const SPACING = { dimension: 'length', limits: { above: 0, max: 12_000 } } as const;

const COLUMNS = [
  'rivets',
  'weight installed',
  'weight bought',
  'material cost',
  'labour',
  'total',
  'cost difference',
  'weight difference',
  'hours',
  'tools',
  'joints that no longer pass',
] as const;

/** Cells of kinds, a row an option. They are read when the own rivets that they may name are known. */
const options = block<Matrix>('options', {
  help: `one option a row: ${KIND_TAKES}; the joint's own diameter where none is named. Several columns: a mix, the first column for the first joint and so on`,
  takes: KIND_TAKES,
  read: (cells) => cells,
});

/** A row of kinds an option; null: a blank row. */
const kindsIn = (cells: Matrix, own: OwnRivets | undefined): (readonly RivetKind[] | null)[] =>
  cells.map((row, index) =>
    row.every(isBlank) ? null : row.map((cell) => kindIn(cell, `options, row ${index + 1}`, own)),
  );

function kindIn(cell: Cell, place: string, own: OwnRivets | undefined): RivetKind {
  if (cell instanceof CellError) throw new InputError(place, cell.code, KIND_TAKES);
  const kind = readKind(String(cell ?? ''), place, own);
  if (kind.style === 'designed')
    throw new InputError(
      place,
      cell,
      KIND_TAKES,
      'Here nothing is known of the joints as designed: turn the column of their styles with TRANSPOSE into a row of this option',
    );
  return kind;
}

const LIST: Matrix = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['MS20470AD4-4', 'rivet', 'lb', '', 30, 'USD', ''],
  ['BLIND-AA-42', 'rivet', '1000', '', 48, 'USD', ''],
];

export const rivetCompare: readonly Definition[] = [
  defineWhole({
    name: 'RIVET.COMPARE',
    family: 'Rivets',
    summary:
      'The rivets of the same joints in several options: number, weight, cost, labour, and the difference from the first option.',
    parameters: [
      numbers('grips', { help: 'grip of each joint', ...GRIP }),
      numbers('diameters', {
        help: "nominal diameter of each joint's rivet",
        dimension: 'length',
        limits: { above: 0, below: 1 },
      }),
      numbers('counts', { help: 'rivets of each joint', of: 'rivets', limits: { min: 0, max: 1e7 } }),
      options,
      pricesParameter,
      optional(
        number('labour_rate', { help: 'money for an hour; 0 when omitted', of: 'money', limits: { min: 0, max: 1e6 } }),
        0,
      ),
      optional(
        numbers('minutes_each', {
          help: `minutes for one rivet, of everybody who is at it: one number, or one an option; ${MINUTES_EACH.solid} solid and ${MINUTES_EACH.blind} blind when omitted`,
          of: 'minutes',
          limits: { min: 0, max: 120 },
        }),
      ),
      unitsParameter,
      optional(
        numbers('pitches', { ...SPACING, help: 'pitch of each joint; with it, it is checked again for each option' }),
      ),
      optional(numbers('edges', { ...SPACING, help: 'edge distance of each joint; the same' })),
      optional(numbers('thickest_sheets', { ...SPACING, help: 'thickest sheet of each joint; the same' })),
      optional(
        block<readonly Tool[]>('tools', {
          help: 'list of tools with its header row: Tool, For (solid, blind, all), Tool price, Size, Life, Owned',
          takes: 'a list of tools with its header row: Tool, For, Tool price, Size, Life, Owned',
          read: (cells, units) => readTools(plain(cells), units),
        }),
      ),
      rivets,
    ],
    result: {
      kind: 'table',
      columns: COLUMNS.map((name) => (name.startsWith('weight') ? { name, dimension: 'weight' } : { name })),
      help: 'one row an option; differences are from the first',
    },
    formula:
      "each joint's rivet as RIVET.PICK; weights as RIVET.WEIGHT; material as PRICE.BUY, once a length for all joints; labour = count × minutes_each / 60 × labour_rate; tools whole, by their life; total = material + labour + tools",
    source: 'definition; the minutes are common practice without a source',
    limits: [
      `An equal number of rivets: it does not ask whether the option is as strong. ${PULL_TYPE} Structural joints come from the designer’s drawings`,
      'A price that the list has not is an error of its row, never 0',
      'The metal of the holes (RIVET.HOLEMETAL) is not in the weights',
      'joints that no longer pass: joints in order as universal rivets of their own diameter, and not with the option (RIVET.CHECK); what is not given is not checked',
      'Lengths are rounded to the nearest 1/16 in; "solid nearest half" or "solid longer" rounds otherwise',
    ],
    examples: [
      {
        args: [[[0.072], [0.08]], [[0.125], [0.125]], [[600], [400]], [['solid'], ['blind AA']], LIST, 20],
        gives: [
          [1000, 0.44395, 0.44395, 30, 500, 530, 0, 0, 25, 0, 0],
          [1000, 0.3833, 0.9935, 48, 250, 298, -232, -0.0606, 12.5, 0, 0],
        ],
        within: 1e-3,
        note: 'an hour at 20; the stems are in the bag, not in the airplane',
      },
    ],
    compute(grips, diameters, counts, cells, book, labourRate, minutes, units, pitches, edges, thickest, tools, own) {
      const rows = kindsIn(cells, own);
      const joints = readJoints(grips, diameters, counts, { pitch: pitches, edge: edges, thickestSheet: thickest });
      const kept = grips.flatMap((_grip, index) => (joints[index] ? [index] : []));
      const given = kept.map((index) => joints[index]!);
      if (given.length === 0) throw new InputError('grips', null, 'the grip of one joint or more');
      if (minutes && minutes.length > 1 && minutes.length !== rows.length)
        throw new InputError(
          'minutes_each',
          minutes.map((one) => [one]),
          `one number, or one an option: ${rows.length}`,
        );
      const chosen = rows.flatMap((kinds, index): RivetOption[] => {
        if (!kinds) return [];
        if (kinds.length > 1 && kinds.length !== grips.length)
          throw new InputError('options', [kinds], `one column, or one a joint: ${grips.length}`);
        const minutesEach = minutes?.[minutes.length > 1 ? index : 0] ?? undefined;
        const kindsOf = kinds.length === 1 ? kinds[0]! : kept.map((at) => kinds[at]!);
        return [{ name: '', kinds: kindsOf, ...(minutesEach === undefined ? {} : { minutesEach }) }];
      });
      const results = compareRivets(given, chosen, withRivets(book, own), {
        ...DEFAULT_TERMS,
        labourRate,
        tools: tools ?? [],
        ...(own ? { own } : {}),
      });
      let next = 0;
      return rows.map((kinds) => (kinds ? resultRow(results[next++]!, results[0]!, units) : COLUMNS.map(() => '')));
    },
  }),
];

type Column = readonly (number | null)[] | undefined;
type Layout = Readonly<Record<'pitch' | 'edge' | 'thickestSheet', Column>>;

/** The joints by their rows; undefined at a row whose three cells are blank. */
function readJoints(
  grips: readonly (number | null)[],
  diameters: readonly (number | null)[],
  counts: readonly (number | null)[],
  layout: Layout,
): (ChoiceJoint | undefined)[] {
  for (const [name, column] of [
    ['diameters', diameters],
    ['counts', counts],
    ['pitches', layout.pitch ?? grips],
    ['edges', layout.edge ?? grips],
    ['thickest_sheets', layout.thickestSheet ?? grips],
  ] as const) {
    checkLength(name, column, 'grips', grips.length);
  }
  return grips.map((grip, index) => {
    const diameter = diameters[index] ?? null;
    const count = counts[index] ?? null;
    if (grip === null && diameter === null && count === null) return undefined;
    const row = `row ${index + 1}`;
    const known = Object.entries(layout).flatMap(([key, column]: [string, Column]) => {
      const value = column?.[index];
      return typeof value === 'number' ? [[key, value] as const] : [];
    });
    return {
      name: row,
      grip: grip ?? refuse(`grips, ${row}`, null, 'the grip of the joint'),
      diameter: diameter ?? refuse(`diameters, ${row}`, null, 'the diameter of the rivet'),
      count: count ?? refuse(`counts, ${row}`, null, 'the number of rivets'),
      ...Object.fromEntries(known),
    };
  });
}

/** What the price list lacks, by the parameter that it came in. */
const withoutPrice = ({ material }: Compared): string =>
  material.missing.map((message) => (message.startsWith('prices') ? message : `prices, ${message}`)).join('; ');

/** The columns that a joint's own lengths come in. */
const COLUMN_OF: Readonly<Record<string, string>> = { grip: 'grips', diameter: 'diameters' };

function resultRow(result: OptionResult, base: OptionResult, units: UnitSystem): Cell[] {
  if (!result.possible) {
    const { joint, error } = result.refusals[0]!;
    const column = COLUMN_OF[error.parameter];
    const got = column && typeof error.got === 'number' ? fromInch(error.got, 'length', units) : error.got;
    const cell = asCellError(error.at(`${column ?? error.parameter}, ${joint.name}`, got));
    return COLUMNS.map(() => cell);
  }
  const { material, labour } = result;
  const noPrice = material.missing.length > 0 ? new CellError('#N/A', withoutPrice(result)) : undefined;
  const noBase = asCellError(
    new NotListedError(
      'options',
      null,
      base.possible ? `prices for the first option. ${withoutPrice(base)}` : 'a first option that can be done',
    ),
  );
  return [
    result.rivets,
    result.installed,
    result.bought,
    material.cost ?? noPrice!,
    labour,
    result.total ?? noPrice!,
    result.costDifference ?? noPrice ?? noBase,
    result.weightDifference ?? noBase,
    result.hours,
    result.toolCost,
    result.failing.length,
  ];
}
