/** rivet-choice.xlsx: the joints of an invented fuselage floor in solid and in blind rivets, side by side. */
import { MINUTES_EACH } from '../../src/core/fastener';
import { columnName } from '../../src/sheet';
import { newRivetOptionsSheet, ONE_SIDE, RIVET_JOINTS } from '../../src/project';
import { BookBuilder, f, type SheetBuilder, type StyleName } from './book';
import { place } from './place';
import { fillPrices } from './sample-prices';

const CAUTION =
  'Pull-type rivets are not approved for the structure of certificated aircraft (AC 43.13-1B ¶4-57f(9)). Structural joints come from the designer’s drawings.';
const FIRST = 6;

type Line = readonly [
  joint: string,
  component: string,
  sheets: readonly number[],
  style: 'universal' | 'flush' | 'blind',
  diameter: number,
  run: number,
  pitch: number,
  edge: number,
  rows: number,
  repeats: number,
  access?: string,
];
const E = 1 / 8;
const S = 3 / 32;

const JOINTS: readonly Line[] = [
  ['Floor to keel channels', 'Floor', [0.032, 0.04], 'universal', E, 48, 1, 0.375, 1, 4],
  ['Floor to cross channels', 'Floor', [0.032, 0.032], 'universal', E, 22, 1, 0.375, 1, 9],
  ['Floor laps', 'Floor', [0.032, 0.032], 'universal', E, 44, 1, 0.375, 2, 3],
  ['Seat rails to floor', 'Floor', [0.032, 0.063], 'universal', E, 30, 0.75, 0.375, 2, 4],
  ['Side skin to longerons', 'Sides', [0.025, 0.063], 'flush', E, 72, 1.25, 0.5, 1, 4],
  ['Side skin to uprights', 'Sides', [0.025, 0.04], 'flush', S, 16, 1, 0.35, 1, 14],
  ['Heater duct cover', 'Sides', [0.025, 0.04], 'blind', E, 36, 1.5, 0.5, 1, 2, ONE_SIDE],
  ['Wheel well closing skin', 'Floor', [0.032, 0.04], 'blind', E, 20, 1.25, 0.5, 1, 4, ONE_SIDE],
];
const LAST = FIRST + JOINTS.length - 1;

/** Everything solid where it can be reached; the skins blind and the floor solid; everything blind. */
const OPTIONS: readonly (readonly [name: string, kindOf: (line: Line) => string])[] = [
  ['As designed', ([, , , style]) => style],
  ['Solid 3/32 where it goes', ([, , , style, , , , , , , access]) => (access ? 'blind AA 1/8' : `${style} 3/32`)],
  ['Floor solid, sides blind', ([, component, , style]) => (component === 'Floor' ? style : 'blind AA 1/8')],
  ['Blind aluminium', () => 'blind AA 1/8'],
  ['Blind, steel stem', () => 'blind AS 1/8'],
];

function about(book: BookBuilder): void {
  const sheet = book.sheet('About');
  sheet
    .put('A1', 'Solid or blind rivets for a floor', 'title')
    .put(
      'A2',
      'The airplane, its joints, prices and tools are invented. Shaded cells are typed, everything else follows from them.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row('A5', ['Sheet', 'What it holds'], 'header');
  const rows: readonly [string, string][] = [
    [
      'Joints',
      'Eight joints with their sheets, and how each is designed. Two can be reached from one side only: there no solid rivet goes.',
    ],
    ['Rivet options', 'Minutes, labour rate, tools and the options that the view Rivets of the task pane compares.'],
    [
      'Compare',
      'The same options as a mix by joint, with weight, material, labour and the difference by TARE.RIVET.COMPARE.',
    ],
    ['Strength', 'What one rivet of each solid size carries, and how many small ones match a large one.'],
    ['Prices', 'The price list: rivets by the pound, the hundred and the thousand.'],
  ];
  rows.forEach((row, index) => sheet.row(`A${6 + index}`, row, ['bold', 'text']));
  sheet.widths = [18, 110];
}

function joints(book: BookBuilder): void {
  const sheet = book.sheet('Joints');
  sheet
    .put('A1', 'Rivet joints of the floor and the sides', 'title')
    .put(
      'A2',
      'Grip, rivet, number, weight, cost, check and hours are formulas. Access says where a bucking bar cannot be held.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row(
    'A5',
    RIVET_JOINTS.columns.map(({ label }) => label),
    'header',
  );
  JOINTS.forEach(([joint, component, sheets, style, diameter, run, pitch, edge, rows, repeats, access], index) => {
    sheet.row(
      `A${FIRST + index}`,
      [joint, component, ...[0, 1, 2].map((at) => sheets[at]), style, diameter, run, pitch, edge, rows, repeats],
      [
        'input',
        'input',
        'lengthInput',
        'lengthInput',
        'lengthInput',
        'input',
        'lengthInput',
        'longInput',
        'lengthInput',
        'lengthInput',
        'input',
        'input',
      ],
    );
    sheet.put(`V${FIRST + index}`, access ?? null, 'input');
  });
  const [C, D, E3, F, G, H, I, J, K, L, N, O, P] = [
    'C',
    'D',
    'E',
    'F',
    'G',
    'H',
    'I',
    'J',
    'K',
    'L',
    'N',
    'O',
    'P',
  ].map((letter) => `${letter}${FIRST}:${letter}${LAST}`);
  const spills: readonly [letter: string, formula: string, style: StyleName][] = [
    ['N', `${C}+${D}+${E3}`, 'length'],
    ['O', `TARE.RIVET.PICK(${F},${G},${N})`, 'text'],
    ['P', `TARE.RIVET.COUNT(${H},${I},${J},${K})*${L}`, 'count'],
    ['Q', `TARE.RIVET.WEIGHT(${O},${P})`, 'weight'],
    ['S', `TARE.PRICE.COST(${O},${P},Prices[#All])`, 'money'],
    ['T', `TARE.RIVET.CHECK(${O},${N},IF(${C}>${D},${C},${D}),${I},${J})`, 'text'],
    ['U', `TARE.RIVET.HOURS(${P},IF(${F}="blind",${MINUTES_EACH.blind},${MINUTES_EACH.solid}))`, 'long'],
  ];
  for (const [letter, formula, style] of spills) {
    sheet.put(`${letter}${FIRST}`, f(formula), style);
    sheet.styleColumn(letter, FIRST, LAST, style);
  }
  sheet
    .choices(`F${FIRST}:F${LAST}`, ['universal', 'flush', 'blind'])
    .choices(`V${FIRST}:V${LAST}`, ['both sides', ONE_SIDE]);
  sheet.widths = [26, 11, 9, 9, 9, 10, 10, 9, 8, 8, 6, 8, 8, 8, 15, 8, 10, 10, 9, 34, 8, 14];
  sheet.frozen = { rows: FIRST - 1, columns: 1 };
}

function options(book: BookBuilder): void {
  const sheet = place(book, newRivetOptionsSheet()).get('Rivet options')!;
  sheet.put('B5', 18, 'input');
  const exceptions: (readonly [string, string, string])[] = [];
  OPTIONS.forEach(([name, kindOf], index) => {
    const common =
      index === 0 ? 'as designed' : index === 1 ? 'solid 3/32' : index === 2 ? 'as designed' : kindOf(JOINTS[0]!);
    sheet.row(`A${15 + index}`, [name, common], 'input');
    for (const line of JOINTS)
      if ((index === 1 && line[10]) || (index === 2 && line[1] === 'Sides'))
        exceptions.push([name, `${line[1]}: ${line[0]}`, kindOf(line)]);
  });
  exceptions.forEach((row, index) => sheet.row(`D${15 + index}`, row, 'input'));
  const tools: readonly (readonly [string, string, number | null, number, number | null, string])[] = [
    ['Rivet gun and bucking bars', 'solid', null, 164, null, 'no'],
    ['Rivet set 1/8', 'solid', E, 14.5, null, 'yes'],
    ['Rivet set 3/32', 'solid', S, 14.5, null, 'no'],
    ['Hand riveter', 'blind', null, 38, 4000, 'yes'],
    ['Drill #30', 'all', E, 2.4, 800, 'yes'],
    ['Drill #40', 'all', S, 2.2, 800, 'no'],
  ];
  tools.forEach((row, index) =>
    sheet.row(`H${15 + index}`, row, ['input', 'input', 'lengthInput', 'longInput', 'input', 'input']),
  );
  sheet.row('O15', ['AS 1/8', 230, 'invented: put the figure of your maker’s data sheet'], 'input');
  sheet.frozen = { rows: 3, columns: 0 };
}

const OPTION_ROWS = OPTIONS.length;
const COUNTS = 6;
const MIX = COUNTS + 1;
const RESULT = MIX + OPTION_ROWS + 3;

function compare(book: BookBuilder): void {
  const sheet = book.sheet('Compare');
  const letter = (index: number): string => columnName(1 + index);
  const last = letter(JOINTS.length - 1);
  const minutes = columnName(1 + JOINTS.length);
  sheet
    .put('A1', 'The options by TARE.RIVET.COMPARE', 'title')
    .put(
      'A2',
      'One row an option, one column a joint: a mix of any kind. The first row is what the others are set against. Totals are those of the tab Rivets: material, labour and the tools of the sheet Rivet options.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row('A5', ['Joint', ...JOINTS.map((_line, index) => f(`Joints!A${FIRST + index}`)), 'Minutes each'], 'header');
  sheet.row(
    `A${COUNTS}`,
    ['Rivets', ...JOINTS.map((_line, index) => f(`Joints!P${FIRST + index}`))],
    ['bold', 'count'],
  );
  OPTIONS.forEach(([name, kindOf], index) => {
    const row = MIX + index;
    sheet.row(
      `A${row}`,
      [name, ...JOINTS.map((line, at) => (index === 0 ? f(`Joints!F${FIRST + at}`) : kindOf(line)))],
      index === 0 ? ['bold', 'text'] : ['bold', 'input'],
    );
    sheet.put(`${minutes}${row}`, f(minutesFormula(row, last)), 'long');
  });
  const headers = [
    'Option',
    'Rivets',
    'Installed (lb)',
    'As bought (lb)',
    'Material (USD)',
    'Labour (USD)',
    'Total (USD)',
    'Cost difference',
    'Weight difference (lb)',
    'Hours',
    'Tools (USD)',
    'Joints that no longer pass',
    'USD a pound saved',
  ];
  sheet.row(`A${RESULT - 1}`, headers, 'header');
  const column = (name: string): string => `Joints!${name}${FIRST}:${name}${LAST}`;
  const thickest = `IF(${column('C')}>${column('D')},${column('C')},${column('D')})`;
  sheet.put(
    `B${RESULT}`,
    f(
      `TARE.RIVET.COMPARE(${column('N')},${column('G')},${column('P')},B${MIX}:${last}${MIX + OPTION_ROWS - 1},Prices[#All],'Rivet options'!B5,${minutes}${MIX}:${minutes}${MIX + OPTION_ROWS - 1},,${column('I')},${column('J')},${thickest},'Rivet options'!H14:M44)`,
    ),
    'count',
  );
  for (let row = RESULT; row < RESULT + OPTION_ROWS; row++) {
    sheet.put(`A${row}`, f(`A${row - RESULT + MIX}`), 'bold');
    sheet.put(`M${row}`, f(`IF(ABS(I${row})<0.0000001,"",IF(I${row}<0,H${row}/-I${row},"heavier"))`), 'money');
  }
  styleResult(sheet);
  sheet.widths = [26, 14, 14, 14, 14, 14, 14, 14, 16, 10, 12, 16, 14];
  sheet.frozen = { rows: 5, columns: 1 };
}

/** Person-minutes for one rivet of the mix: a second person's time counts while solid rivets are set. */
function minutesFormula(row: number, last: string): string {
  const blind = `SUMIF(B${row}:${last}${row},"blind*",B$${COUNTS}:${last}$${COUNTS})`;
  const all = `SUM(B$${COUNTS}:${last}$${COUNTS})`;
  const solidMinutes = `('Rivet options'!B$6+'Rivet options'!B$7*IF('Rivet options'!B$10="yes",2,1))`;
  const blindMinutes = `('Rivet options'!B$8+'Rivet options'!B$9)`;
  return `(${blind}*${blindMinutes}+(${all}-${blind})*${solidMinutes})/${all}`;
}

function styleResult(sheet: SheetBuilder): void {
  const styles: readonly [string, StyleName][] = [
    ['B', 'count'],
    ['C', 'weight'],
    ['D', 'weight'],
    ['E', 'money'],
    ['F', 'money'],
    ['G', 'money'],
    ['H', 'money'],
    ['I', 'weight'],
    ['J', 'weight'],
    ['K', 'money'],
    ['L', 'count'],
  ];
  for (const [letter, style] of styles) sheet.styleColumn(letter, RESULT, RESULT + OPTION_ROWS - 1, style);
}

function strength(book: BookBuilder): void {
  const sheet = book.sheet('Strength');
  sheet
    .put('A1', 'Shear of one solid rivet', 'title')
    .put(
      'A2',
      'Ultimate single shear of the rivet alone: thin sheet tears first. A blind rivet’s shear is its maker’s, on the data sheet of the lot.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row('A5', ['Rivet', 'Shear (lb)', 'In the place of 100 of 1/8'], ['header', 'headerRight', 'headerRight']);
  ['MS20470AD3-4', 'MS20470AD4-4', 'MS20470AD5-5'].forEach((name, index) => {
    const row = 6 + index;
    sheet
      .put(`A${row}`, name, 'input')
      .put(`B${row}`, f(`TARE.RIVET.SHEAR(A${row})`), 'moment')
      .put(`C${row}`, f(`ROUNDUP(100*B$7/B${row},0)`), 'count');
  });
  sheet.widths = [20, 12, 26];
}

export function rivetChoice(): BookBuilder {
  const book = new BookBuilder();
  about(book);
  joints(book);
  options(book);
  compare(book);
  strength(book);
  fillPrices(book.sheet('Prices'), (item) => /AD[34]-\d$|BLIND/.test(item));
  return book;
}
