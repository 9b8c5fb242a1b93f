/** rib.xlsx: one built-up truss rib worked in full, as a first lesson. All shapes, sizes and counts are invented. */
import { JOINTS, PARTS, STATUSES } from '../../src/project';
import { BookBuilder, f, type Content, type SheetBuilder, type StyleName } from './book';
import { fillPrices, offerMaterialsAndItems } from './sample-prices';

const FIRST = 6;
const CAUTION =
  'An estimate is not a weighing. Limits come from the aircraft’s own documents, joints from the designer’s drawings.';

function heading(sheet: SheetBuilder, title: string, note: string, labels: readonly string[]): void {
  sheet.put('A1', title, 'title').put('A2', note, 'note').put('A3', CAUTION, 'note');
  sheet.row(
    `A${FIRST - 1}`,
    labels,
    labels.map((label): StyleName =>
      /\(|Qty|Rows|Repeats|Rivets|Hours|Cost|Use/.test(label) ? 'headerRight' : 'header',
    ),
  );
}

const SIZES: readonly [label: string, name: string, value: number, unit: string, note: string][] = [
  ['Depth at the front spar', 'FrontDepth', 6.2, 'in', 'outside of cap to outside of cap'],
  ['Depth at the rear spar', 'RearDepth', 3.8, 'in', ''],
  ['Spar to spar', 'Between', 24, 'in', 'four equal bays'],
  ['Gauge of end pieces', 'EndGauge', 0.032, 'in', ''],
  ['Gauge of caps', 'CapGauge', 0.025, 'in', 'sheared to strip, then bent'],
  ['Gauge of uprights and diagonals', 'BraceGauge', 0.02, 'in', 'lighter than the caps'],
  ['Bend radius', 'Radius', 0.09, 'in', 'inside, on every bend'],
  ['Front spar', 'FrontArm', 72, 'in', 'aft of the datum'],
];

function lesson(book: BookBuilder): void {
  const sheet = book.sheet('Lesson');
  heading(sheet, 'A truss rib, worked in full', 'Yellow cells are typed. Change one and follow it through the steps.', [
    'Size',
    'Value',
    'Unit',
    'Note',
  ]);
  SIZES.forEach(([label, name, value, unit, note], index) => {
    sheet.row(`A${FIRST + index}`, [label, value, unit, note], ['text', 'lengthInput', 'note', 'note']);
    book.name(name, `Lesson!$B$${FIRST + index}`);
  });
  const steps: readonly [step: string, content: Content, unit: string, why: string, style: StyleName][] = [
    [
      '1  Strip for a cap',
      f('TARE.FLAT.ANGLE(0.75,0.625,CapGauge,Radius)'),
      'in wide',
      'A 3/4 × 5/8 angle is sheared narrower than 3/4 + 5/8: the bend takes its deduction.',
      'length',
    ],
    [
      '2  Is the radius allowed?',
      f('TARE.BEND.MINRADIUS("6061-T6",CapGauge)'),
      'in or more',
      'The tightest bend that this sheet takes; the radius above is inside it when it is no smaller.',
      'length',
    ],
    ['3  Flat area of the upper cap', f('TARE.AREA.RECT(Between+1,B16)'), 'in²', 'Strip width × length.', 'area'],
    [
      '4  Its weight',
      f('TARE.WEIGHT.SHEET(B18,CapGauge,"6061-T6")'),
      'lb',
      'Area × thickness × density; the density comes from the alloy’s name.',
      'weight',
    ],
    [
      '5  Strip for a channel',
      f('TARE.FLAT.CHANNEL(0.5,0.375,0.375,BraceGauge,Radius)'),
      'in wide',
      'Uprights and diagonals: two bends, so two deductions.',
      'length',
    ],
    [
      '6  A diagonal is so long',
      f('SQRT((Between/4)^2+(FrontDepth-1)^2)'),
      'in',
      'Plain geometry needs no special function.',
      'length',
    ],
    ['7  Grip of brace and cap', f('TARE.RIVET.GRIP(B10:B11)'), 'in', 'What the rivet has to reach through.', 'length'],
    [
      '8  The rivet for it',
      f('TARE.RIVET.PICK("universal",3/32,B22)'),
      '',
      'Grip + 1½ diameters, to the nearest length that is sold.',
      'text',
    ],
    ['9  The hole to drill', f('TARE.RIVET.DRILL(B23)'), '', 'Drill for that rivet.', 'text'],
    ['10 A hundred of them weigh', f('TARE.RIVET.WEIGHT(B23,100)'), 'lb', 'Head and shank; 2117 alloy.', 'weight'],
    [
      '11 The whole rib weighs',
      f('SUM(Parts!M6:M40)'),
      'lb',
      'The sheets Parts and Joints do the same for every piece.',
      'weightBold',
    ],
    ['12 and balances at', f('TARE.CG.ARM(Parts!M6:M40,Parts!I6:I40)'), 'in aft', 'Moments divided by weight.', 'long'],
    [
      '13 Thirteen such ribs',
      f('13*B26'),
      'lb',
      'Ribs repeat: what one of them saves is saved thirteen times.',
      'weight',
    ],
    ['14 Rivets in one rib', f('SUM(Joints!P6:P40)'), '', 'Counted joint by joint.', 'count'],
    [
      '15 Material in one rib',
      f('SUM(Parts!O6:O40)+SUM(Joints!S6:S40)'),
      'USD',
      'Value used, at the price list’s prices; whole sheets cost more.',
      'money',
    ],
  ];
  sheet.row(
    `A${FIRST + SIZES.length + 1}`,
    ['Step', 'Value', 'Unit', 'Why'],
    ['header', 'headerRight', 'header', 'header'],
  );
  steps.forEach(([step, content, unit, why, style], index) =>
    sheet.row(`A${FIRST + SIZES.length + 2 + index}`, [step, content, unit, why], ['text', style, 'note', 'note']),
  );
  sheet.widths = [32, 14, 12, 78];
}

/** Depth between the caps at a quarter of the way from the front spar. */
const depthAt = (quarter: number): string => `(FrontDepth+(RearDepth-FrontDepth)*${quarter}/4-1)`;
const diagonal = (quarter: number): string => `SQRT((Between/4)^2+${depthAt(quarter + 0.5)}^2)`;
const cap = 'TARE.FLAT.ANGLE(0.75,0.625,CapGauge,Radius)';
const channel = 'TARE.FLAT.CHANNEL(0.5,0.375,0.375,BraceGauge,Radius)';
/** Web, flange and a quarter-inch return that stiffens the flange. */
const endPiece = (web: number): string => `TARE.FLAT.PROFILE({${web};0.625;0.25},{90;90},EndGauge,Radius)`;

type PartLine = readonly [part: string, quantity: number, gauge: string, area: string, arm: string];
const PART_LINES: readonly PartLine[] = [
  ['Upper cap', 1, 'CapGauge', `TARE.AREA.RECT(Between+1,${cap})`, 'FrontArm+Between/2'],
  ['Lower cap', 1, 'CapGauge', `TARE.AREA.RECT(Between+0.5,${cap})`, 'FrontArm+Between/2'],
  ['Front end piece', 1, 'EndGauge', `TARE.AREA.RECT(FrontDepth-0.1,${endPiece(2.25)})`, 'FrontArm+1.1'],
  ['Rear end piece', 1, 'EndGauge', `TARE.AREA.RECT(RearDepth-0.1,${endPiece(1.75)})`, 'FrontArm+Between-0.9'],
  ...[1, 2, 3].map((quarter): PartLine => [
    `Upright ${quarter}`,
    1,
    'BraceGauge',
    `TARE.AREA.RECT(${depthAt(quarter)},${channel})`,
    `FrontArm+Between*${quarter}/4`,
  ]),
  ...[0, 1, 2, 3].map((quarter): PartLine => [
    `Diagonal ${quarter + 1}`,
    1,
    'BraceGauge',
    `TARE.AREA.RECT(${diagonal(quarter)},${channel})`,
    `FrontArm+Between*${quarter + 0.5}/4`,
  ]),
  ['Gussets, upper cap', 3, 'CapGauge', 'TARE.AREA.TRIANGLE(2.2,1.4)', 'FrontArm+Between/2'],
  ['Gussets, lower cap', 2, 'CapGauge', 'TARE.AREA.TRIANGLE(2.2,1.4)', 'FrontArm+Between/2'],
];

function parts(book: BookBuilder): void {
  const sheet = book.sheet('Parts');
  heading(
    sheet,
    'Parts of one rib',
    'One row a part; the last three columns are filled by one formula each.',
    PARTS.columns.map(({ label }) => label),
  );
  PART_LINES.forEach(([part, quantity, gauge, area, arm], index) => {
    const row = FIRST + index;
    sheet.row(
      `A${row}`,
      [
        'Rib',
        part,
        quantity,
        '6061-T6',
        f(gauge),
        f(area),
        undefined,
        undefined,
        f(arm),
        'laid out',
        f(`D${row}&" "&TEXT(E${row},".000")&" sheet"`),
        f(`F${row}*C${row}`),
      ],
      ['input', 'input', 'input', 'input', 'length', 'area', 'weight', 'input', 'long', 'input', 'text', 'area'],
    );
  });
  const rivets = FIRST + PART_LINES.length;
  sheet.row(
    `A${rivets}`,
    [
      'Rib',
      'Rivets, from the joints',
      1,
      undefined,
      undefined,
      undefined,
      f('SUM(Joints!Q6:Q40)'),
      undefined,
      f('SUM(Joints!R6:R40)/SUM(Joints!Q6:Q40)'),
      'laid out',
    ],
    ['input', 'input', 'input', 'text', 'text', 'text', 'weight', 'input', 'long', 'input'],
  );
  sheet.put(
    'M6',
    f('IF(LEN(H6:H40)>0,H6:H40,IF(LEN(G6:G40)>0,G6:G40*C6:C40,TARE.WEIGHT.SHEET(F6:F40,E6:E40,D6:D40,C6:C40)))'),
    'weight',
  );
  sheet.put('N6', f('IF(LEN(M6:M40)=0,"",M6:M40*I6:I40)'), 'moment');
  sheet.put('O6', f('TARE.PRICE.COST(K6:K40,L6:L40,Prices[#All])'), 'money');
  sheet.styleColumn('M', 6, 40, 'weight').styleColumn('N', 6, 40, 'moment').styleColumn('O', 6, 40, 'money');
  sheet.choices('J6:J40', STATUSES);
  offerMaterialsAndItems(sheet, 6, 40);
  sheet.widths = [11, 26, 6, 10, 11.5, 11, 9, 9, 9, 11, 20, 10, 11, 11, 10];
  sheet.frozen = { rows: FIRST - 1, columns: 2 };
}

type JointLine = readonly [
  joint: string,
  sheet1: string,
  sheet2: string,
  run: number,
  pitch: number,
  edge: number,
  repeats: number,
  arm: string,
];
const JOINT_LINES: readonly JointLine[] = [
  ['Upper cap to front end piece', 'CapGauge', 'EndGauge', 2.2, 0.6, 0.25, 1, 'FrontArm+1.1'],
  ['Lower cap to front end piece', 'CapGauge', 'EndGauge', 2.2, 0.6, 0.25, 1, 'FrontArm+1.1'],
  ['Upper cap to rear end piece', 'CapGauge', 'EndGauge', 1.7, 0.6, 0.25, 1, 'FrontArm+Between-0.9'],
  ['Lower cap to rear end piece', 'CapGauge', 'EndGauge', 1.7, 0.6, 0.25, 1, 'FrontArm+Between-0.9'],
  ['Upright ends to caps', 'CapGauge', 'BraceGauge', 0.9, 0.4, 0.25, 6, 'FrontArm+Between/2'],
  ['Diagonal ends to caps', 'CapGauge', 'BraceGauge', 1.4, 0.45, 0.25, 8, 'FrontArm+Between/2'],
  ['Gussets to caps', 'CapGauge', 'CapGauge', 2, 0.5, 0.25, 5, 'FrontArm+Between/2'],
];

function joints(book: BookBuilder): void {
  const sheet = book.sheet('Joints');
  heading(
    sheet,
    'Rivets of one rib',
    'Every joint once; repeats say how often it occurs.',
    JOINTS.columns.map(({ label }) => label),
  );
  JOINT_LINES.forEach(([joint, one, two, run, pitch, edge, repeats, arm], index) =>
    sheet.row(
      `A${FIRST + index}`,
      [joint, 'Rib', f(one), f(two), undefined, 'universal', 3 / 32, run, pitch, edge, 1, repeats, f(arm)],
      [
        'input',
        'input',
        'length',
        'length',
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
    ),
  );
  sheet.put('N6', f('IF(A6:A40="","",C6:C40+D6:D40+E6:E40)'), 'length');
  sheet.put('O6', f('TARE.RIVET.PICK(F6:F40,G6:G40,N6:N40)'));
  sheet.put('P6', f('IF(A6:A40="","",TARE.RIVET.COUNT(H6:H40,I6:I40,J6:J40,K6:K40)*L6:L40)'), 'count');
  sheet.put('Q6', f('TARE.RIVET.WEIGHT(O6:O40,P6:P40)'), 'weight');
  sheet.put('R6', f('IF(LEN(Q6:Q40)=0,"",Q6:Q40*M6:M40)'), 'moment');
  sheet.put('S6', f('TARE.PRICE.COST(O6:O40,P6:P40,Prices[#All])'), 'money');
  sheet.put('T6', f('IF(A6:A40="","",TARE.RIVET.CHECK(O6:O40,N6:N40,IF(C6:C40>D6:D40,C6:C40,D6:D40),I6:I40,J6:J40))'));
  sheet.put('U6', f('TARE.RIVET.HOURS(P6:P40)'), 'long');
  for (const [letter, style] of [
    ['N', 'length'],
    ['P', 'count'],
    ['Q', 'weight'],
    ['R', 'moment'],
    ['S', 'money'],
    ['U', 'long'],
  ] as const)
    sheet.styleColumn(letter, 6, 40, style);
  sheet.choices('F6:F40', ['universal', 'flush', 'blind']);
  sheet.widths = [28, 11, 9, 9, 9, 10, 10, 9, 8, 8, 6, 8, 8, 8, 15, 8, 10, 10, 9, 30, 8];
  sheet.frozen = { rows: FIRST - 1, columns: 1 };
}

export function rib(): BookBuilder {
  const book = new BookBuilder();
  lesson(book);
  parts(book);
  joints(book);
  fillPrices(book.sheet('Prices'), (item) => /^6061-T6 \.0(16|20|25|32|40) |AD3-|BLIND/.test(item));
  return book;
}
