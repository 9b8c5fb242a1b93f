/** wing.xlsx: a complete half wing of an invented two-seat airplane, with its rivets, prices, roll-up and budget. */
import { MINUTES_EACH } from '../../src/core/fastener';
import { JOINTS, PARTS, STATUSES } from '../../src/project';
import { BookBuilder, f, type Content, type SheetBuilder, type StyleName } from './book';
import { atChord, cell, type Term } from './expression';
import { fillPrices, offerMaterialsAndItems } from './sample-prices';
import { fillHardware, HARDWARE_OF_WING, LAST_HARDWARE } from './wing-hardware';
import { JOINTS_OF_WING } from './wing-joints';
import { BUDGETS, COMPONENTS, PARTS_OF_WING } from './wing-parts';
import type { WingTwin } from './wing-twin';

const FIRST = 6;
/** Rows that the column formulas reach: room for the builder's own parts. */
export const LAST_PART = 140;
export const LAST_JOINT = 60;
const CAUTION =
  'An estimate is not a weighing. Limits come from the aircraft’s own documents, joints from the designer’s drawings.';

const header = (
  sheet: SheetBuilder,
  title: string,
  lines: readonly string[],
  labels: readonly string[],
  at = FIRST - 1,
): void => {
  sheet.put('A1', title, 'title');
  lines.forEach((line, index) => sheet.put(`A${index + 2}`, line, 'note'));
  sheet.row(
    `A${at}`,
    labels,
    labels.map((label): StyleName =>
      /\(|Qty|Rows|Repeats|Rivets|Hours|Cost|Use|%/.test(label) ? 'headerRight' : 'header',
    ),
  );
};

function design(book: BookBuilder, twin: WingTwin): void {
  const sheet = book.sheet('Design');
  header(
    sheet,
    'Corncrake, half wing: what it is drawn to',
    ['An invented two-seat airplane. Change a yellow cell and every sheet follows.', CAUTION],
    ['Quantity', 'Value', 'Unit', 'Where it is used'],
  );
  const inputs: readonly [
    label: string,
    name: string,
    value: string | number,
    unit: string,
    note: string,
    style: StyleName,
  ][] = [
    ['Airfoil', 'Airfoil', '2415', 'NACA', 'outline of every rib and skin', 'input'],
    ['Chord', 'Chord', 54, 'in', 'constant from root to tip', 'longInput'],
    ['Half span', 'HalfSpan', 156, 'in', 'root rib to tip rib', 'longInput'],
    ['Leading edge', 'LeadingEdge', 60, 'in', 'aft of the datum', 'longInput'],
    ['Front spar at', 'FrontSpar', 0.27, 'of chord', '', 'longInput'],
    ['Rear spar at', 'RearSpar', 0.68, 'of chord', '', 'longInput'],
    ['Ribs', 'RibCount', 13, '', 'spaced evenly', 'input'],
    ['Nose skin gauge', 'NoseGauge', 0.02, 'in', '', 'lengthInput'],
    ['Main skin gauge', 'MainGauge', 0.016, 'in', '', 'lengthInput'],
    ['Rib gauge', 'RibGauge', 0.02, 'in', '', 'lengthInput'],
    ['Spar web gauge', 'WebGauge', 0.032, 'in', '', 'lengthInput'],
    ['Bend radius, thin sheet', 'BendRadius', 0.09, 'in', 'angles and channels up to .025', 'lengthInput'],
  ];
  inputs.forEach(([label, name, value, unit, note, style], index) => {
    const row = FIRST + index;
    sheet.row(`A${row}`, [label, value, unit, note], ['text', style, 'note', 'note']);
    book.name(name, `Design!$B$${row}`);
  });
  const derived: readonly [label: string, name: string, formula: string, unit: string, style: StyleName][] = [
    ['Depth at front spar', 'FrontDepth', 'TARE.AIRFOIL.HEIGHT(Airfoil,Chord,FrontSpar)', 'in', 'length'],
    ['Depth at rear spar', 'RearDepth', 'TARE.AIRFOIL.HEIGHT(Airfoil,Chord,RearSpar)', 'in', 'length'],
    ['Nose section', 'NoseArea', 'TARE.AIRFOIL.AREA(Airfoil,Chord,0,FrontSpar)', 'in²', 'area'],
    ['Section between spars', 'MidArea', 'TARE.AIRFOIL.AREA(Airfoil,Chord,FrontSpar,RearSpar)', 'in²', 'area'],
    ['Section aft', 'AftArea', 'TARE.AIRFOIL.AREA(Airfoil,Chord,RearSpar,1)', 'in²', 'area'],
    ['Nose girth', 'NoseGirth', 'TARE.AIRFOIL.GIRTH(Airfoil,Chord,0,FrontSpar)', 'in', 'length'],
    [
      'Upper girth between spars',
      'UpperGirth',
      'TARE.AIRFOIL.GIRTH(Airfoil,Chord,FrontSpar,RearSpar,"upper")',
      'in',
      'length',
    ],
    [
      'Lower girth between spars',
      'LowerGirth',
      'TARE.AIRFOIL.GIRTH(Airfoil,Chord,FrontSpar,RearSpar,"lower")',
      'in',
      'length',
    ],
    ['Girth aft', 'AftGirth', 'TARE.AIRFOIL.GIRTH(Airfoil,Chord,RearSpar,1)', 'in', 'length'],
  ];
  derived.forEach(([label, name, formula, unit, style], index) => {
    const row = FIRST + inputs.length + 1 + index;
    sheet.row(`A${row}`, [label, f(formula, twin.airfoil[name]), unit, 'computed'], ['text', style, 'note', 'note']);
    book.name(name, `Design!$B$${row}`);
  });
  const now: [label: string, content: Content, unit: string, style: StyleName][] = [
    ['Weight', same(`SUM(Parts!M${FIRST}:M${LAST_PART})`), 'lb', 'longBold'],
    ['Arm', same(`SUM(Parts!N${FIRST}:N${LAST_PART})/SUM(Parts!M${FIRST}:M${LAST_PART})`), 'in', 'long'],
    ['Moment', same(`SUM(Parts!N${FIRST}:N${LAST_PART})`), 'lb·in', 'moment'],
    [
      'Cost',
      same(
        `SUM(Parts!O${FIRST}:O${LAST_PART})+SUM(Joints!S${FIRST}:S${LAST_JOINT})+SUM(Hardware!I${FIRST}:I${LAST_HARDWARE})`,
      ),
      'USD',
      'money',
    ],
  ];
  const budgeted = `SUM(Budget!B${FIRST}:B${FIRST + COMPONENTS.length - 1})`;
  const grown = STATUS_GROWTH.map(
    ([status, growth]) =>
      `SUMIFS(Parts!M${FIRST}:M${LAST_PART},Parts!J${FIRST}:J${LAST_PART},"${status}")*${1 + growth}`,
  ).join('+');
  const totals = FIRST + COMPONENTS.length;
  now.push(
    ['Forecast', f(`Budget!F${totals}`, `=${grown}`), 'lb', 'longBold'],
    ['Budget', same(budgeted), 'lb', 'long'],
    ['Margin', f(`Budget!H${totals}`, `=${budgeted}-(${grown})`), 'lb', 'long'],
  );
  sheet.row('F5', ['Half wing now', '', ''], ['header', 'headerRight', 'header']);
  now.forEach(([label, content, unit, style], index) =>
    sheet.row(`F${FIRST + index}`, [label, content, unit], ['text', style, 'note']),
  );
  sheet.put('J5', 'Ribs at (in)', 'headerRight');
  sheet.put(
    `J${FIRST}`,
    f('TARE.STATIONS(0,HalfSpan,RibCount)', (row) => `=(ROW(J${row})-${FIRST})*HalfSpan/(RibCount-1)`, 13),
    'long',
  );
  sheet.styleColumn('J', FIRST, FIRST + 12, 'long');
  sheet.widths = [27, 10, 9, 28, 2, 14, 11, 6, 2, 11];
}

const column = (letter: string, last: number): string => `${letter}${FIRST}:${letter}${last}`;

function parts(book: BookBuilder, twin: WingTwin): void {
  const sheet = book.sheet('Parts');
  header(
    sheet,
    'Parts list, one half wing',
    ['Type in the yellow columns; weight, moment and cost are columns of formulas down to row 140.', CAUTION],
    PARTS.columns.map(({ label }) => label),
  );
  let row = FIRST;
  const write = (cells: readonly (Content | undefined)[]): void => {
    sheet.row(`A${row}`, cells, [
      'input',
      'input',
      'input',
      'input',
      'lengthInput',
      'area',
      'weight',
      'input',
      'long',
      'input',
      'text',
      'area',
    ]);
    row++;
  };
  for (const component of COMPONENTS) {
    for (const part of PARTS_OF_WING.filter((one) => one.component === component)) {
      const isSheet = part.area !== undefined;
      const item = isSheet
        ? f(`D${row}&" "&TEXT(E${row},".000")&" sheet"`, `=D${row}&" "&TEXT(E${row},".000")&" sheet"`)
        : part.item;
      const use = isSheet
        ? f(`F${row}*C${row}`, `=F${row}*C${row}`)
        : part.use === undefined
          ? undefined
          : quantityUsed(part.use, row);
      write([
        component,
        part.part,
        part.quantity,
        part.material,
        part.thickness,
        part.area,
        part.each,
        part.weighed,
        part.arm,
        part.status,
        item,
        use,
      ]);
    }
    const sumOf = (letter: string): string =>
      `SUMIFS(Joints!$${letter}$${FIRST}:$${letter}$${LAST_JOINT},Joints!$B$${FIRST}:$B$${LAST_JOINT},A${row})`;
    const hasJoints = JOINTS_OF_WING.some((joint) => joint.component === component);
    if (hasJoints)
      write([
        component,
        'Rivets, from the joints',
        1,
        undefined,
        undefined,
        undefined,
        same(sumOf('Q')),
        undefined,
        same(`${sumOf('R')}/${sumOf('Q')}`),
        'laid out',
        undefined,
        undefined,
      ]);
    const hardwareOf = (letter: string): string =>
      `SUMIFS(Hardware!$${letter}$${FIRST}:$${letter}$${LAST_HARDWARE},Hardware!$B$${FIRST}:$B$${LAST_HARDWARE},A${row})`;
    if (HARDWARE_OF_WING.some((one) => one.component === component))
      write([
        component,
        'Hardware, from the sheet Hardware',
        1,
        undefined,
        undefined,
        undefined,
        same(hardwareOf('G')),
        undefined,
        same(`${hardwareOf('H')}/${hardwareOf('G')}`),
        'laid out',
        undefined,
        undefined,
      ]);
  }
  const [C, D, E, F, G, H, I, K, L, M] = ['C', 'D', 'E', 'F', 'G', 'H', 'I', 'K', 'L', 'M'].map((letter) =>
    column(letter, LAST_PART),
  );
  const rows = LAST_PART - FIRST + 1;
  sheet.put(
    `M${FIRST}`,
    f(
      `IF(LEN(${H})>0,${H},IF(LEN(${G})>0,${G}*${C},TARE.WEIGHT.SHEET(${F},${E},${D},${C})))`,
      (r) =>
        `=IF(A${r}="","",IF(H${r}<>"",H${r},IF(G${r}<>"",G${r}*C${r},F${r}*E${r}*${twin.density(`D${r}`)}*C${r})))`,
      rows,
    ),
    'weight',
  );
  sheet.put(
    `N${FIRST}`,
    f(`IF(LEN(${M})=0,"",${M}*${I})`, (r) => `=IF(A${r}="","",M${r}*I${r})`, rows),
    'moment',
  );
  sheet.put(
    `O${FIRST}`,
    f(`TARE.PRICE.COST(${K},${L},Prices[#All])`, (r) => `=IF(K${r}="","",ROUND(L${r}*${twin.price(`K${r}`)},2))`, rows),
    'money',
  );
  sheet
    .styleColumn('M', FIRST, LAST_PART, 'weight')
    .styleColumn('N', FIRST, LAST_PART, 'moment')
    .styleColumn('O', FIRST, LAST_PART, 'money');
  sheet.choices(`J${FIRST}:J${LAST_PART}`, STATUSES);
  offerMaterialsAndItems(sheet, FIRST, LAST_PART);
  sheet.widths = [13, 31, 6, 10, 11.5, 11, 9, 10, 9, 11, 22, 11, 11, 11, 10];
  sheet.frozen = { rows: FIRST - 1, columns: 2 };
}

/** Growth by status as TARE.BUDGET has it by default. */
const STATUS_GROWTH: readonly (readonly [status: string, growth: number])[] = [
  ['estimated', 0.25],
  ['laid out', 0.15],
  ['released', 0.05],
  ['existing', 0.03],
  ['weighed', 0],
];

const same = (formula: string): Content => f(formula, `=${formula}`);
const quantityUsed = (use: Term, row: number): Content => same(`${String(use)}*C${row}`);

function joints(book: BookBuilder, twin: WingTwin): void {
  const sheet = book.sheet('Joints');
  header(
    sheet,
    'Rivet joints, one half wing',
    ['Grip, rivet, number, weight, cost, check and hours are columns of formulas down to row 60.', CAUTION],
    JOINTS.columns.map(({ label }) => label),
  );
  JOINTS_OF_WING.forEach((joint, index) => {
    const row = FIRST + index;
    const [s1, s2, s3] = joint.sheets.map((sheetOf) => (typeof sheetOf === 'string' ? same(sheetOf) : sheetOf));
    sheet.row(
      `A${row}`,
      [
        joint.joint,
        joint.component,
        s1,
        s2,
        s3,
        joint.style,
        joint.diameter,
        typeof joint.run === 'string' ? same(joint.run) : joint.run,
        joint.pitch,
        joint.edge,
        joint.rows,
        joint.repeats,
        cell(atChord(joint.at)),
      ],
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
        'long',
      ],
    );
  });
  const [A, C, D, E, F, G, H, I, J, K, L, M, N, O, P, Q] = [
    'A',
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
    'M',
    'N',
    'O',
    'P',
    'Q',
  ].map((letter) => column(letter, LAST_JOINT));
  const rows = LAST_JOINT - FIRST + 1;
  const ifJoint = (formula: string): string => `IF(${A}="","",${formula})`;
  const ifRow = (r: number, formula: string): string => `=IF(A${r}="","",${formula})`;
  const thickest = `IF(${C}>${D},IF(${C}>${E},${C},${E}),IF(${D}>${E},${D},${E}))`;
  sheet.put(
    `N${FIRST}`,
    f(ifJoint(`${C}+${D}+${E}`), (r) => ifRow(r, `C${r}+D${r}+E${r}`), rows),
    'length',
  );
  sheet.put(
    `O${FIRST}`,
    f(`TARE.RIVET.PICK(${F},${G},${N})`, (r) => ifRow(r, twin.pick(r)), rows),
    'text',
  );
  sheet.put(
    `P${FIRST}`,
    f(
      ifJoint(`TARE.RIVET.COUNT(${H},${I},${J},${K})*${L}`),
      (r) => ifRow(r, `(INT((H${r}-2*J${r})/I${r}+0.000000001)+1)*K${r}*L${r}`),
      rows,
    ),
    'count',
  );
  sheet.put(
    `Q${FIRST}`,
    f(`TARE.RIVET.WEIGHT(${O},${P})`, (r) => ifRow(r, `P${r}*${twin.rivetWeight(`O${r}`)}`), rows),
    'weight',
  );
  sheet.put(
    `R${FIRST}`,
    f(`IF(LEN(${Q})=0,"",${Q}*${M})`, (r) => ifRow(r, `Q${r}*M${r}`), rows),
    'moment',
  );
  sheet.put(
    `S${FIRST}`,
    f(`TARE.PRICE.COST(${O},${P},Prices[#All])`, (r) => ifRow(r, `ROUND(P${r}*${twin.price(`O${r}`)},2)`), rows),
    'money',
  );
  sheet.put(
    `T${FIRST}`,
    f(ifJoint(`TARE.RIVET.CHECK(${O},${N},${thickest},${I},${J})`), (r) => ifRow(r, '"ok"'), rows),
    'text',
  );
  sheet.put(
    `U${FIRST}`,
    f(
      `TARE.RIVET.HOURS(${P},IF(${F}="blind",${MINUTES_EACH.blind},${MINUTES_EACH.solid}))`,
      (r) => ifRow(r, `P${r}*IF(F${r}="blind",${MINUTES_EACH.blind},${MINUTES_EACH.solid})/60`),
      rows,
    ),
    'long',
  );
  for (const [letter, style] of [
    ['N', 'length'],
    ['P', 'count'],
    ['Q', 'weight'],
    ['R', 'moment'],
    ['S', 'money'],
    ['U', 'long'],
  ] as const)
    sheet.styleColumn(letter, FIRST, LAST_JOINT, style);
  sheet.choices(`F${FIRST}:F${LAST_JOINT}`, ['universal', 'flush', 'blind']);
  sheet.widths = [25, 12, 9, 9, 9, 10, 10, 9, 8, 8, 6, 8, 8, 8, 15, 8, 10, 10, 9, 30, 8];
  sheet.frozen = { rows: FIRST - 1, columns: 1 };
}

function weights(book: BookBuilder): void {
  const sheet = book.sheet('Weights');
  header(
    sheet,
    'Weight, balance and cost by component',
    ['Summed from the parts list; the arm is measured aft of the datum.', CAUTION],
    ['Component', 'Weight (lb)', 'Arm (in)', 'Moment (lb·in)', 'Cost (USD)'],
  );
  const all = (letter: string): string => `Parts!${letter}${FIRST}:${letter}${LAST_PART}`;
  const last = FIRST + COMPONENTS.length;
  const total = (r: number): boolean => r === last;
  const sumOf = (letter: string, r: number): string =>
    total(r)
      ? `SUM(Parts!${letter}$${FIRST}:${letter}$${LAST_PART})`
      : `SUMIFS(Parts!${letter}$${FIRST}:${letter}$${LAST_PART},Parts!A$${FIRST}:A$${LAST_PART},A${r})`;
  sheet.put(
    `A${FIRST}`,
    f(
      `TARE.ROLLUP(${all('A')},${all('M')},${all('I')})`,
      (r, c) =>
        [total(r) ? 'Total' : (COMPONENTS[r - FIRST] ?? ''), `=${sumOf('M', r)}`, `=D${r}/B${r}`, `=${sumOf('N', r)}`][
          c
        ]!,
      COMPONENTS.length + 1,
      4,
    ),
    'text',
  );
  for (let row = FIRST; row <= last; row++) {
    const both = `SUMIFS(Parts!$O$${FIRST}:$O$${LAST_PART},Parts!$A$${FIRST}:$A$${LAST_PART},A${row})+SUMIFS(Joints!$S$${FIRST}:$S$${LAST_JOINT},Joints!$B$${FIRST}:$B$${LAST_JOINT},A${row})+SUMIFS(Hardware!$I$${FIRST}:$I$${LAST_HARDWARE},Hardware!$B$${FIRST}:$B$${LAST_HARDWARE},A${row})`;
    const sum = `SUM(Parts!$O$${FIRST}:$O$${LAST_PART})+SUM(Joints!$S$${FIRST}:$S$${LAST_JOINT})+SUM(Hardware!$I$${FIRST}:$I$${LAST_HARDWARE})`;
    sheet.put(`E${row}`, same(row === last ? sum : both), 'money');
  }
  sheet
    .styleColumn('B', FIRST, last, 'long')
    .styleColumn('C', FIRST, last, 'long')
    .styleColumn('D', FIRST, last, 'moment');
  sheet.widths = [18, 13, 11, 14, 13];
}

function budget(book: BookBuilder): void {
  const sheet = book.sheet('Budget');
  header(
    sheet,
    'Against the design weight',
    ['Forecast: the weight now plus a growth allowance by status, a practice borrowed from spacecraft.', CAUTION],
    [
      'Component',
      'Budget (lb)',
      '',
      'Component',
      'Now (lb)',
      'Forecast (lb)',
      'Budget (lb)',
      'Margin (lb)',
      'Margin (%)',
      'Weighed (%)',
    ],
  );
  COMPONENTS.forEach((component, index) =>
    sheet.row(`A${FIRST + index}`, [component, BUDGETS[component]], ['input', 'longInput']),
  );
  const last = FIRST + COMPONENTS.length - 1;
  const all = (letter: string): string => `Parts!${letter}${FIRST}:${letter}${LAST_PART}`;
  sheet.put(
    `D${FIRST}`,
    f(`TARE.BUDGET(${all('A')},${all('M')},${all('J')},A${FIRST}:A${last},B${FIRST}:B${last})`),
    'text',
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
  sheet.widths = [16, 12, 3, 16, 13, 13, 12, 12, 10, 10];
}

/** The workbook; `twin` says what its formulas are in plain spreadsheet arithmetic. */
export function wing(twin: WingTwin): BookBuilder {
  const book = new BookBuilder();
  design(book, twin);
  parts(book, twin);
  joints(book, twin);
  fillHardware(book.sheet('Hardware'), twin);
  weights(book);
  budget(book);
  fillPrices(book.sheet('Prices'));
  return book;
}
