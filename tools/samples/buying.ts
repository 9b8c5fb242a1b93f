/** buying.xlsx: a tail that is half bought: what is left to buy, from whom, and how the sheets are cut. */
import { MINUTES_EACH } from '../../src/core/fastener';
import {
  BUYING_COLUMNS,
  BUYING_FIRST,
  JOINTS,
  newBuyingSheet,
  newPurchasesSheet,
  newStockSheet,
  PARTS,
  STATUSES,
} from '../../src/project';
import { serialFromIso } from '../../src/core/price';
import { BookBuilder, f, type Content, type SheetBuilder, type StyleName } from './book';
import { TAIL, TAIL_JOINTS, type TailPart } from './buying-parts';
import { place } from './place';
import { fillPrices } from './sample-prices';

const FIRST = 6;
const LAST = FIRST + TAIL.length - 1;
const LAST_JOINT = FIRST + TAIL_JOINTS.length - 1;
const METAL = 'Lowmoor Sheet & Tube';
const RIVETS = 'Two Sheds Fasteners';
const PARTS_SHOP = 'Gatepost Aero Parts';
const CAUTION =
  'The airplane, its parts, prices and shops are invented. Shaded cells are typed, everything else follows from them.';

function about(book: BookBuilder): void {
  const sheet = book.sheet('About');
  sheet.put('A1', 'Buying the metal for a tail', 'title').put('A2', CAUTION, 'note');
  sheet.row('A4', ['Sheet', 'What it holds'], 'header');
  const rows: readonly [string, string][] = [
    [
      'Parts',
      'The parts with their price items, and the rectangle or bar that each is cut from: Cut length lies along the grain.',
    ],
    ['Joints', 'The rivet joints, for the rivets to buy.'],
    ['Stock', 'What is on the shelf: leftovers that a cutting plan spends first.'],
    ['Purchases', 'What is bought already: it is off the list, and counts as spent.'],
    [
      'Buying',
      'Your currency, spares by kind of hardware, freight and cut charges. The view Buying of the task pane makes the list and the cutting plans.',
    ],
    [
      'Check',
      'The same without the pane: what each item takes, by TARE.PRICE.BUY, and how many sheets by TARE.STOCK.SHEETS.',
    ],
    ['Prices', 'The price list with its quantity breaks.'],
  ];
  rows.forEach((row, index) => sheet.row(`A${5 + index}`, row, ['bold', 'text']));
  sheet.widths = [14, 110];
}

const itemOf = ({ gauge, item }: TailPart, row: number): Content =>
  gauge === undefined ? (item ?? null) : f(`D${row}&" "&TEXT(E${row},".000")&" sheet"`);

function useOf({ gauge, cut }: TailPart, row: number): Content {
  if (gauge !== undefined) return f(`F${row}*C${row}`);
  return cut ? f(`Q${row}*C${row}`) : f(`C${row}`);
}

function parts(book: BookBuilder): void {
  const sheet = book.sheet(PARTS.sheet);
  sheet
    .put('A1', 'Parts of the tail', 'title')
    .put(
      'A2',
      'Cut length and cut width are the rectangle of one part; a bar has no width. Weight, moment and cost are one formula each.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row(
    'A5',
    PARTS.columns.map(({ label }) => label),
    'header',
  );
  TAIL.forEach((part, index) => {
    const row = FIRST + index;
    const { gauge, cut, fill = 1 } = part;
    const area = gauge === undefined ? null : f(`Q${row}*R${row}*${fill}`);
    sheet.row(
      `A${row}`,
      [
        part.component,
        part.part,
        part.quantity,
        gauge === undefined ? null : '6061-T6',
        gauge ?? null,
        area,
        part.each ?? null,
        null,
        part.arm,
        'laid out',
        itemOf(part, row),
        useOf(part, row),
      ],
      [
        'input',
        'input',
        'input',
        'input',
        'lengthInput',
        'area',
        'lengthInput',
        'input',
        'longInput',
        'input',
        'text',
        'area',
      ],
    );
    sheet.row(`P${row}`, [null, cut?.[0] ?? null, cut?.[1] ?? null], ['toleranceInput', 'longInput', 'longInput']);
  });
  const [C, D, E, F, G, H, I, K, L, M] = ['C', 'D', 'E', 'F', 'G', 'H', 'I', 'K', 'L', 'M'].map(
    (letter) => `${letter}${FIRST}:${letter}${LAST}`,
  );
  sheet.put(
    `M${FIRST}`,
    f(`IF(LEN(${H})>0,${H},IF(LEN(${G})>0,${G}*${C},TARE.WEIGHT.SHEET(${F},${E},${D},${C})))`),
    'weight',
  );
  sheet
    .put(`N${FIRST}`, f(`${M}*${I}`), 'moment')
    .put(`O${FIRST}`, f(`TARE.PRICE.COST(${K},${L},Prices[#All])`), 'money');
  sheet
    .styleColumn('M', FIRST, LAST, 'weight')
    .styleColumn('N', FIRST, LAST, 'moment')
    .styleColumn('O', FIRST, LAST, 'money');
  sheet.choices(`J${FIRST}:J${LAST}`, STATUSES);
  sheet.widths = [11, 16, 6, 10, 10, 11, 9, 10, 9, 10, 20, 11, 10, 11, 10, 10, 10, 10];
  sheet.frozen = { rows: FIRST - 1, columns: 2 };
}

function joints(book: BookBuilder): void {
  const sheet = book.sheet(JOINTS.sheet);
  sheet
    .put('A1', 'Rivet joints of the tail', 'title')
    .put(
      'A2',
      'Grip, rivet, number, weight, cost, check and hours are formulas. Structural joints come from the designer’s drawings.',
      'note',
    )
    .put('A3', CAUTION, 'note');
  sheet.row(
    'A5',
    JOINTS.columns.map(({ label }) => label),
    'header',
  );
  TAIL_JOINTS.forEach(
    ([joint, component, [one, two], style, diameter, run, pitch, edge, rows, repeats, arm], index) => {
      sheet.row(
        `A${FIRST + index}`,
        [joint, component, one, two, null, style, diameter, run, pitch, edge, rows, repeats, arm],
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
          'longInput',
        ],
      );
    },
  );
  const [C, D, F, G, H, I, J, K, L, M, N, O, P, Q] = [
    'C',
    'D',
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
  ].map((letter) => `${letter}${FIRST}:${letter}${LAST_JOINT}`);
  const spills: readonly [letter: string, formula: string, style: StyleName][] = [
    ['N', `${C}+${D}`, 'length'],
    ['O', `TARE.RIVET.PICK(${F},${G},${N})`, 'text'],
    ['P', `TARE.RIVET.COUNT(${H},${I},${J},${K})*${L}`, 'count'],
    ['Q', `TARE.RIVET.WEIGHT(${O},${P})`, 'weight'],
    ['R', `${Q}*${M}`, 'moment'],
    ['S', `TARE.PRICE.COST(${O},${P},Prices[#All])`, 'money'],
    ['T', `TARE.RIVET.CHECK(${O},${N},IF(${C}>${D},${C},${D}),${I},${J})`, 'text'],
    ['U', `TARE.RIVET.HOURS(${P},IF(${F}="blind",${MINUTES_EACH.blind},${MINUTES_EACH.solid}))`, 'long'],
  ];
  for (const [letter, formula, style] of spills) {
    sheet.put(`${letter}${FIRST}`, f(formula), style);
    sheet.styleColumn(letter, FIRST, LAST_JOINT, style);
  }
  sheet.choices(`F${FIRST}:F${LAST_JOINT}`, ['universal', 'flush', 'blind']);
  sheet.widths = [20, 11, 9, 9, 9, 10, 10, 9, 8, 8, 6, 8, 8, 8, 15, 8, 10, 10, 9, 30, 8];
  sheet.frozen = { rows: FIRST - 1, columns: 1 };
}

function shelf(book: BookBuilder): void {
  const stock = place(book, newStockSheet()).get('Stock')!;
  const pieces: readonly (readonly Content[])[] = [
    ['Leftover of the flaps', '6061-T6', 0.02, 58, 31, 'along', 1, 'yes', null, 'no'],
    ['Leftover of the ribs', '6061-T6', 0.016, 24, 40, 'across', 1, 'yes', null, 'no'],
    ['Strips of the rear spar', '6061-T6', 0.025, 106, 6.5, 'along', 2, 'yes', null, 'no'],
    ['Tube 3/4 x .049', null, 0.049, 44, null, null, 1, 'yes', null, 'yes', 'given by a neighbour'],
  ];
  pieces.forEach((piece, index) => stock.row(`A${FIRST + index}`, piece, 'input'));
  const purchases = place(book, newPurchasesSheet()).get('Purchases')!;
  const bought: readonly (readonly [
    date: string,
    supplier: string,
    item: string,
    units: number | null,
    paid: number,
    note?: string,
  ])[] = [
    ['2026-08-20', RIVETS, 'MS20470AD3-3', 1, 44.9, 'with postage'],
    ['2026-09-02', METAL, '6061-T6 .016 sheet', 1, 131.4, 'freight 60.00'],
    ['2026-09-02', PARTS_SHOP, 'Bolt AN4-7A', 10, 8.8],
    ['2026-09-05', 'Corner hardware shop', 'Drill bits', null, 23.65, 'no part takes it: it counts as spent alone'],
  ];
  bought.forEach(([date, supplier, item, units, paid, note = null], index) =>
    purchases.row(
      `A${FIRST + index}`,
      [serialFromIso(date)!, supplier, item, units, paid, 'USD', note],
      ['date', 'input', 'input', 'input', 'longInput', 'input', 'input'],
    ),
  );
}

function terms(book: BookBuilder): void {
  const sheet = place(book, newBuyingSheet('USD')).get('Buying')!;
  const charges: readonly (readonly Content[])[] = [
    [METAL, 60, 2.5, 4],
    [RIVETS, 9.5, null, null],
    [PARTS_SHOP, 12, null, null],
  ];
  charges.forEach((row, index) =>
    sheet.row(`${letterOf(BUYING_COLUMNS.charges)}${BUYING_FIRST + index}`, row, 'input'),
  );
}
const letterOf = (column: number): string => String.fromCharCode(65 + column);

function check(book: BookBuilder): void {
  const sheet = book.sheet('Check');
  sheet
    .put('A1', 'Without the pane', 'title')
    .put(
      'A2',
      'What the parts take of each item, with the spares of the sheet Buying, and what it costs to buy all of it. Rivets, purchases and freight are in the view Buying.',
      'note',
    );
  sheet.row(
    'A4',
    ['Item', 'Takes (in², in, pieces)', 'Spares', 'Sale units', 'Quantity bought', 'Cost (USD)', 'Left over'],
    'header',
  );
  const items = [
    ...new Set(
      TAIL.map(({ gauge, item }) =>
        gauge === undefined ? item! : `6061-T6 ${gauge.toFixed(3).replace(/^0/, '')} sheet`,
      ),
    ),
  ];
  const spares = (item: string): string =>
    `Buying!B${BUYING_FIRST + (item.endsWith('sheet') ? 0 : /Tube|Hinge/.test(item) ? 1 : 4)}`;
  items.forEach((item, index) => {
    const row = 5 + index;
    sheet.row(
      `A${row}`,
      [
        item,
        f(`SUMIF(Parts!K${FIRST}:K${LAST},A${row},Parts!L${FIRST}:L${LAST})`),
        f(spares(item)),
        f(`TARE.PRICE.BUY(A${row},B${row}*(1+C${row}),Prices[#All])`),
      ],
      ['text', 'area', 'percent', 'count'],
    );
    sheet.styleColumn('E', row, row, 'area').styleColumn('F', row, row, 'money').styleColumn('G', row, row, 'area');
  });
  const end = 5 + items.length;
  sheet.row(
    `A${end}`,
    ['Sum', null, null, null, null, f(`SUM(F5:F${end - 1})`)],
    ['bold', 'text', 'text', 'text', 'text', 'money'],
  );
  quickPlans(sheet, end + 2);
  sheet.widths = [24, 14, 10, 12, 14, 12, 12];
}

/** Sheets of 48 × 144 by gauge, from the parts' rectangles alone. */
function quickPlans(sheet: SheetBuilder, top: number): void {
  sheet.row(`A${top}`, ['Sheets of 48 × 144, quick plan', 'Sheets', 'At least', 'Use (%)'], 'header');
  const gauges = [...new Set(TAIL.flatMap(({ gauge }) => (gauge === undefined ? [] : [gauge])))];
  gauges.forEach((gauge, index) => {
    const rows = TAIL.flatMap((part, at) => (part.gauge === gauge ? [FIRST + at] : []));
    const of = (letter: string): string => `Parts!${letter}${rows[0]!}:${letter}${rows.at(-1)!}`;
    sheet.row(
      `A${top + 1 + index}`,
      [
        `6061-T6 ${gauge.toFixed(3)}`,
        f(`TARE.STOCK.SHEETS(${of('Q')},${of('R')},${of('C')},144,48,Buying!B6,"along")`),
      ],
      ['text', 'count'],
    );
    sheet
      .styleColumn('C', top + 1 + index, top + 1 + index, 'count')
      .styleColumn('D', top + 1 + index, top + 1 + index, 'percent');
  });
}

export function buying(): BookBuilder {
  const book = new BookBuilder();
  about(book);
  parts(book);
  joints(book);
  shelf(book);
  terms(book);
  check(book);
  fillPrices(book.sheet('Prices'), (item) =>
    /^6061-T6 \.0[1-5]\d sheet|Tube 3|Hinge|Bolt AN4|Rod end|AD[34]-\d|BLIND/.test(item),
  );
  return book;
}
