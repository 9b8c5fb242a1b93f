/** An invented price list: no shop's prices and no shop's name. */
import { PRICE_COLUMNS } from '../../src/core/price';
import { PARTS as PARTS_LIST } from '../../src/project';
import type { Cell } from '../../src/sheet';
import type { SheetBuilder, StyleName } from './book';

type Row = readonly [
  item: string,
  kind: string,
  soldBy: string,
  contents: string | number,
  price: number,
  from: number | '',
  supplier: string,
  quotedOn: string,
  note?: string,
];

const METAL = 'Lowmoor Sheet & Tube';
const RIVETS = 'Two Sheds Fasteners';
const PARTS = 'Gatepost Aero Parts';

const alu = (thickness: string, price: number, bulk: number): Row[] => [
  [`6061-T6 ${thickness} sheet`, 'sheet', 'sheet', '48 x 144', price, 1, METAL, '2026-09-14'],
  [`6061-T6 ${thickness} sheet`, 'sheet', 'sheet', '48 x 144', bulk, 4, METAL, '2026-09-14', 'four sheets or more'],
];
const solid = (code: string, price: number): Row => [
  code,
  'rivet',
  'lb',
  '',
  price,
  1,
  RIVETS,
  '2026-08-02',
  'by the pound',
];

const ROWS: readonly Row[] = [
  ...alu('.016', 71.4, 64.25),
  ...alu('.020', 82.6, 74.3),
  ...alu('.025', 97.2, 87.5),
  ...alu('.032', 121.8, 109.6),
  ...alu('.040', 149, 134.1),
  ['6061-T6 .050 sheet', 'sheet', 'sheet', '48 x 144', 184, 1, METAL, '2026-09-14'],
  ['6061-T6 .063 sheet', 'sheet', 'sheet', '48 x 144', 232, 1, METAL, '2026-09-14'],
  ['6061-T6 .080 sheet', 'sheet', 'sheet', '24 x 48', 61.3, 1, METAL, '2025-06-30', 'ask again'],
  ['4130 .090 sheet', 'sheet', 'sheet', '18 x 36', 58.9, 1, PARTS, '2026-07-21'],
  ['4130 .125 sheet', 'sheet', 'sheet', '18 x 36', 79.5, 1, PARTS, '2026-07-21'],
  ['Tube 1/2 x .035', 'bar', 'each', '12 ft', 21.8, 1, METAL, '2026-09-14'],
  ['Tube 3/4 x .049', 'bar', 'each', '12 ft', 34.6, 1, METAL, '2026-09-14'],
  ['Rod 5/8 4130', 'bar', 'ft', '', 4.15, 1, PARTS, '2026-07-21'],
  ['Hinge 1-1/4 wide', 'bar', 'each', '6 ft', 27.9, 1, PARTS, '2026-07-21'],
  ...['3', '3.5', '4', '4.5', '5'].flatMap((length, index) => [
    solid(`MS20470AD3-${length}`, 38.4 - index),
    solid(`MS20426AD3-${length}`, 39.9 - index),
  ]),
  ...['3', '3.5', '4', '4.5', '5', '5.5', '6'].map((length, index) =>
    solid(`MS20470AD4-${length}`, 31.5 - index * 0.6),
  ),
  ...['4', '4.5', '5', '5.5', '6'].map((length, index) => solid(`MS20426AD4-${length}`, 33.2 - index * 0.6)),
  ...['5', '5.5', '6', '6.5', '7'].map((length, index) => solid(`MS20470AD5-${length}`, 27.4 - index * 0.5)),
  ['BLIND-AA-41', 'rivet', '1000', '', 46, 1, RIVETS, '2026-08-02'],
  ['BLIND-AA-42', 'rivet', '1000', '', 48, 1, RIVETS, '2026-08-02'],
  ['BLIND-AA-43', 'rivet', '1000', '', 51, 1, RIVETS, '2026-08-02'],
  ['BLIND-AS-41', 'rivet', '100', '', 6.9, 1, RIVETS, '2026-08-02', 'steel stem'],
  ['BLIND-AS-42', 'rivet', '100', '', 7.2, 1, RIVETS, '2026-08-02', 'steel stem'],
  ['BLIND-AS-43', 'rivet', '100', '', 7.6, 1, RIVETS, '2026-08-02', 'steel stem'],
  ['Bolt AN5-12A', 'other', 'each', '', 1.46, 1, PARTS, '2026-07-21'],
  ['Bolt AN4-7A', 'other', 'each', '', 0.88, 1, PARTS, '2026-07-21'],
  ['Bolt AN4-7A', 'other', 'each', '', 0.71, 25, PARTS, '2026-07-21'],
  ['Nut AN365-524A', 'other', 'each', '', 0.42, 1, PARTS, '2026-07-21'],
  ['Nut AN365-428A', 'other', 'each', '', 0.28, 1, PARTS, '2026-07-21'],
  ['Washer AN960-516', 'other', '100', '', 6.4, 1, PARTS, '2026-07-21'],
  ['Washer AN960-416', 'other', '100', '', 5.2, 1, PARTS, '2026-07-21'],
  ['ISO 4017 M4x12', 'other', '100', '', 4.6, 1, PARTS, '2026-07-21'],
  ['ISO 4032 M4', 'other', '100', '', 2.9, 1, PARTS, '2026-07-21'],
  ['ISO 7089 M4', 'other', '100', '', 1.7, 1, PARTS, '2026-07-21'],
  ['Rod end 1/4', 'other', 'each', '', 16.25, 1, PARTS, '2026-07-21'],
  ['Bearing, bellcrank', 'other', 'each', '', 23.4, 1, PARTS, '2024-11-05', 'old quote'],
];

/** Days since the spreadsheet's day zero. */
const serial = (iso: string): number =>
  Math.round((Date.parse(`${iso}T00:00:00Z`) - Date.UTC(1899, 11, 30)) / 86_400_000);

/** Fills the Prices sheet: the table from A1, so that it reads the same without the add-in. */
/** The usual materials, and the items of the price list, offered in the columns D and K of a parts list. */
export function offerMaterialsAndItems(sheet: SheetBuilder, first: number, last: number): void {
  const { choices = [] } = PARTS_LIST.columns.find(({ key }) => key === 'material')!;
  sheet.choices(`D${first}:D${last}`, choices, { open: true });
  const from = { sheet: 'Prices', row: 1, column: 0, rows: ITEMS, columns: 1 };
  sheet.choices(`K${first}:K${last}`, ['Sheet'], { from, open: true });
}

/** Rows of the price list whose items are offered. */
const ITEMS = 200;

export function fillPrices(sheet: SheetBuilder, keep: (item: string) => boolean = () => true): void {
  const rows = ROWS.filter(([item]) => keep(item));
  const headers = PRICE_COLUMNS.map((column) => column.label);
  sheet.row('A1', headers, 'header');
  const styles: readonly StyleName[] = [
    'input',
    'input',
    'input',
    'input',
    'longInput',
    'input',
    'input',
    'input',
    'date',
    'input',
  ];
  rows.forEach(([item, kind, soldBy, contents, price, from, supplier, quotedOn, note = ''], index) => {
    const cells: Cell[] = [
      item,
      kind,
      soldBy,
      contents === '' ? null : contents,
      price,
      'USD',
      from,
      supplier,
      serial(quotedOn),
      note === '' ? null : note,
    ];
    sheet.row(`A${index + 2}`, cells, styles);
  });
  sheet.table('Prices', `A1:J${rows.length + 1}`, headers);
  PRICE_COLUMNS.forEach((column, index) => {
    const letter = String.fromCharCode(65 + index);
    if (column.choices) sheet.choices(`${letter}2:${letter}${rows.length + 1}`, column.choices);
  });
  sheet.widths = [24, 9, 9, 12, 11, 10, 8, 24, 12, 22];
  sheet.frozen = { rows: 1, columns: 1 };
}
