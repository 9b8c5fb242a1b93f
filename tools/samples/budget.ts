/** budget.xlsx: the sample wing against its budget, with parts of every status, own allowances and a log of ten dates. */
import { serialFromIso } from '../../src/core/price';
import { type WorkbookModel } from '../../src/sheet';
import {
  ALLOWANCES,
  BUDGET,
  LOG,
  newAllowancesSheet,
  newLogSheet,
  PARTS,
  projectSheetsOf,
  readParts,
  STATUSES,
  weightsModel,
  type PartRow,
} from '../../src/project';
import { BookBuilder, f, type Content, type SheetBuilder, type StyleName } from './book';
import { CUT_BUDGETS, LOGGED, WEIGHED_PARTS, statusOf, toleranceOf } from './budget-story';
import { place } from './place';
import { BUDGETS, COMPONENTS } from './wing-parts';

const FIRST = 6;
const LAST = 120;
const CAUTION = 'An estimate is not a weighing.';

const labels = Object.fromEntries(PARTS.columns.map(({ key, label }) => [key, label])) as Record<string, string>;
/** The parts list without prices, with the computed weight in a column of its own. */
const COLUMNS: readonly (readonly [label: string, width: number])[] = [
  [labels['component']!, 13],
  [labels['part']!, 31],
  [labels['quantity']!, 6],
  [labels['material']!, 10],
  [labels['thickness']!, 11],
  [labels['area']!, 11],
  [labels['each']!, 9],
  ['Computed (lb)', 11],
  [labels['weighed']!, 10],
  [labels['status']!, 11],
  [labels['tolerance']!, 11],
  [labels['arm']!, 9],
  [labels['weight']!, 11],
  [labels['moment']!, 12],
];

const heading = (sheet: SheetBuilder, title: string, notes: readonly string[], header: readonly string[]): void => {
  sheet.put('A1', title, 'title');
  notes.forEach((note, index) => sheet.put(`A${index + 2}`, note, 'note'));
  sheet.row(
    `A${FIRST - 1}`,
    header,
    header.map((label): StyleName => (/\(|Qty/.test(label) ? 'headerRight' : 'header')),
  );
};

const column = (letter: string): string => `${letter}${FIRST}:${letter}${LAST}`;

function parts(book: BookBuilder, rows: readonly PartRow[]): void {
  const sheet = book.sheet(PARTS.sheet);
  heading(
    sheet,
    'Parts of one half wing, Corncrake',
    [
      'An invented airplane. A weighed value takes the place of the computed one; the status says how much the rest may still grow.',
      CAUTION,
    ],
    COLUMNS.map(([label]) => label),
  );
  rows.forEach((row, index) => {
    const weighed = WEIGHED_PARTS[row.part];
    const isSheet = row.area !== undefined;
    const cells: (Content | undefined)[] = [
      row.component,
      row.part,
      row.quantity,
      isSheet ? row.material : undefined,
      row.thickness,
      isSheet ? rounded(row.area, 2) : undefined,
      isSheet ? undefined : rounded((row.computed ?? row.weight ?? 0) / row.quantity, 4),
      undefined,
      weighed,
      weighed === undefined ? statusOf(row) : 'weighed',
      weighed === undefined ? toleranceOf(row) : 0.002,
      row.arm === undefined ? undefined : rounded(row.arm, 2),
    ];
    sheet.row(`A${FIRST + index}`, cells, [
      'input',
      'input',
      'input',
      'input',
      'lengthInput',
      'longInput',
      'lengthInput',
      'weight',
      'lengthInput',
      'input',
      'toleranceInput',
      'longInput',
    ]);
  });
  const [C, D, E, F, G, H, I, L, M] = ['C', 'D', 'E', 'F', 'G', 'H', 'I', 'L', 'M'].map(column);
  sheet.put(`H${FIRST}`, f(`IF(LEN(${G})>0,${G}*${C},TARE.WEIGHT.SHEET(${F},${E},${D},${C}))`), 'weight');
  sheet.put(`M${FIRST}`, f(`IF(LEN(${I})>0,${I},${H})`), 'weight');
  sheet.put(`N${FIRST}`, f(`IF(LEN(${M})=0,"",${M}*${L})`), 'moment');
  sheet
    .styleColumn('H', FIRST, LAST, 'weight')
    .styleColumn('M', FIRST, LAST, 'weight')
    .styleColumn('N', FIRST, LAST, 'moment');
  sheet.choices(`J${FIRST}:J${LAST}`, STATUSES);
  sheet.widths = COLUMNS.map(([, width]) => width);
  sheet.frozen = { rows: FIRST - 1, columns: 2 };
}

const rounded = (value: number, places: number): number => Number(value.toFixed(places));

function budget(book: BookBuilder): void {
  const sheet = book.sheet(BUDGET.sheet);
  const results = [
    '',
    'Component',
    'Now (lb)',
    'Forecast (lb)',
    'Budget (lb)',
    'Margin (lb)',
    'Margin (%)',
    'Weighed (%)',
  ];
  heading(
    sheet,
    'Against the design weight',
    ['Forecast: the weight now plus the growth allowance of each part’s status, from the sheet Allowances.', CAUTION],
    [...BUDGET.columns.map(({ label }) => label), ...results],
  );
  COMPONENTS.forEach((component, index) =>
    sheet.row(`A${FIRST + index}`, [component, CUT_BUDGETS[component] ?? BUDGETS[component]], ['input', 'longInput']),
  );
  const last = FIRST + COMPONENTS.length - 1;
  const of = (letter: string): string => `${PARTS.sheet}!${column(letter)}`;
  sheet.put(
    `D${FIRST}`,
    f(`TARE.BUDGET(${of('A')},${of('M')},${of('J')},A${FIRST}:A${last},B${FIRST}:B${last},${ALLOWANCES.sheet}!A6:B10)`),
  );
  for (const [letter, style] of [
    ['E', 'long'],
    ['F', 'long'],
    ['G', 'long'],
    ['H', 'long'],
    ['I', 'percent'],
    ['J', 'percent'],
  ] as const)
    sheet.styleColumn(letter, FIRST, last + 1, style);
  const at = last + 4;
  sheet.put(
    `D${at - 1}`,
    'Does the list run light or heavy? Parts on the scale against their computed weights',
    'bold',
  );
  sheet.row(`D${at}`, ['Parts', 'Computed (lb)', 'Weighed (lb)', 'Heavier by (%)', '± (%)'], 'headerRight');
  sheet
    .put(`D${at + 1}`, f(`TARE.BIAS(${of('H')},${of('I')})`), 'count')
    .row(`E${at + 1}`, [null, null], 'long')
    .row(`G${at + 1}`, [null, null], 'percent');
  sheet.put(`D${at + 2}`, 'Where ± is the larger of the two, the difference may be chance.', 'note');
  sheet.widths = [16, 12, 3, 16, 13, 13, 14, 12, 10, 11];
}

/** The log's rows: each date's share of what every component weighs now. */
function log(sheet: SheetBuilder, wing: WorkbookModel): void {
  const now = weightsModel(projectSheetsOf(wing).values)!;
  let row = FIRST;
  for (const { date, note, shares, growth } of LOGGED) {
    const lines = now.components.map(({ name, current, budget: goal = 0 }) => {
      const weight = rounded(current * (shares[name] ?? shares['all']!), 2);
      return { name, weight, forecast: rounded(weight * (1 + growth), 2), goal };
    });
    const sum = (key: 'weight' | 'forecast' | 'goal'): number =>
      rounded(
        lines.reduce((all, line) => all + line[key], 0),
        2,
      );
    for (const line of [
      ...lines,
      { name: 'Total', weight: sum('weight'), forecast: sum('forecast'), goal: sum('goal') },
    ]) {
      sheet.row(
        `A${row++}`,
        [
          serialFromIso(date)!,
          line.name,
          line.weight,
          line.forecast,
          line.goal,
          line.name === 'Total' ? note : undefined,
        ],
        ['date', 'input', 'longInput', 'longInput', 'longInput', 'input'],
      );
    }
  }
  sheet.frozen = { rows: FIRST - 1, columns: 0 };
}

/**
 * The workbook, its parts taken from the sample wing's.
 * @param wing  wing.xlsx with its values
 * @param first this workbook with its values but without a log, from which the log is made; left out: no log
 */
export function budgetBook(wing: WorkbookModel, first?: WorkbookModel): BookBuilder {
  const book = new BookBuilder();
  parts(book, readParts(projectSheetsOf(wing).values)!.rows);
  budget(book);
  const allowances = place(book, newAllowancesSheet()).get(ALLOWANCES.sheet)!;
  // The builder's own experience with skins and ribs stands in the place of one default.
  allowances.put('B7', 0.12, 'percentInput').put('C7', 'own experience: tail and first rib box', 'input');
  const sheet = place(book, newLogSheet()).get(LOG.sheet)!;
  if (first) log(sheet, first);
  return book;
}
