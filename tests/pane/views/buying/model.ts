import { labelIn, type UnitSystem } from '../../../../src/core/quantity';
import type { Cell } from '../../../../src/sheet';
import { JOINTS, PARTS, PURCHASES, STOCK, type SheetForm } from '../../../../src/project';
import { type SheetModel, type WorkbookModel } from '../../../../src/sheet';

type Rows = readonly Readonly<Record<string, Cell>>[];
const cellsOf = (rows: readonly (readonly Cell[])[], name: string): SheetModel => ({
  name,
  cells: rows.map((row) => row.map((value) => ({ value }))),
  tables: [],
});
/** @param units of the labels and of `rows` alike */
export const formSheet = (form: SheetForm, rows: Rows, units: UnitSystem = 'in-lb'): SheetModel =>
  cellsOf(
    [
      [form.title],
      form.columns.map(({ label, dimension }) => labelIn(label, units, dimension)),
      ...rows.map((row) => form.columns.map(({ key }) => row[key] ?? null)),
    ],
    form.sheet,
  );

const SKIN = { material: '6061-T6', thickness: 0.025, item: 'Skin .025', weight: 1 };
const PART_ROWS: Rows = [
  { component: 'Wing', part: 'Skin', quantity: 2, ...SKIN, use: 5760, area: 2880, cutLength: 96, cutWidth: 30 },
  { component: 'Wing', part: 'Rib', quantity: 8, ...SKIN, use: 2000, area: 250, cutLength: 30, cutWidth: 9 },
  { component: 'Wing', part: 'Gusset', quantity: 4, ...SKIN, use: 40, area: 10 },
  { component: 'Tail', part: 'Push rod', quantity: 3, item: 'Tube 1/2', use: 90, weight: 1, cutLength: 30 },
  { component: 'Tail', part: 'Bolt', quantity: 9, item: 'Bolt', use: 9, weight: 1 },
  { component: 'Tail', part: 'Fairing', quantity: 1, item: 'Fairing, moulded', use: 1, weight: 1 },
  { component: 'Tail', part: 'Paint', weight: 1 },
];
const JOINT_ROWS: Rows = [
  { joint: 'Skin to ribs', component: 'Wing', rivet: 'MS20470AD3-4', count: 1000 },
  { joint: 'Tail', component: 'Tail', rivet: 'MS20470AD3-4', count: 500 },
];
const PRICES: Cell[][] = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From', 'Supplier'],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 97.2, 'USD', null, 'Lowmoor Sheet & Tube'],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 87.5, 'USD', 4, 'Lowmoor Sheet & Tube'],
  ['Tube 1/2', 'bar', 'each', '12 ft', 21.8, 'USD', null, 'Lowmoor Sheet & Tube'],
  ['MS20470AD3-4', 'rivet', 'lb', null, 38.4, 'USD', null, 'Two Sheds Fasteners'],
  ['Bolt', 'other', 'each', null, 0.88, 'USD', null, 'Gatepost Parts'],
  ['Bolt', 'other', 'each', null, 0.71, 'USD', 10, 'Gatepost Parts'],
];

export interface BuyingBookOptions {
  readonly bought?: boolean;
  readonly stock?: boolean;
}

export function buyingBook({ bought = false, stock = false }: BuyingBookOptions = {}): WorkbookModel {
  const prices: SheetModel = {
    ...cellsOf(PRICES, 'Prices'),
    tables: [
      {
        name: 'Prices',
        range: { sheet: 'Prices', row: 0, column: 0, rows: PRICES.length, columns: 8 },
        columns: PRICES[0]!.map(String),
      },
    ],
  };
  const sheets = [formSheet(PARTS, PART_ROWS), formSheet(JOINTS, JOINT_ROWS), prices];
  if (bought)
    sheets.push(
      formSheet(PURCHASES, [
        {
          date: '2026-02-01',
          supplier: 'Lowmoor Sheet & Tube',
          item: 'Skin .025',
          units: 1,
          paid: 140,
          currency: 'USD',
        },
      ]),
    );
  if (stock)
    sheets.push(
      formSheet(STOCK, [
        { name: 'Rest of the tail', material: '6061-T6', thickness: 0.025, length: 60, width: 30, offcut: 'yes' },
      ]),
    );
  return { sheets, names: [], styles: [] };
}

const METRIC_SKIN = { material: '6061-T6', thickness: 0.8, item: 'Skin 0.8', weight: 1 };
const METRIC_PRICES: Cell[][] = [
  PRICES[0]!,
  ['Skin 0.8', 'sheet', 'sheet', '1250 x 2500 mm', 1140.5, 'EUR', null, 'Lowmoor Sheet & Tube'],
  ['Tube 12', 'bar', 'each', '6 m', 31.2, 'EUR', null, 'Lowmoor Sheet & Tube'],
];

/** In millimetres and kilograms throughout. */
export function metricBook(): WorkbookModel {
  const rows: Rows = [
    {
      component: 'Wing',
      part: 'Skin',
      quantity: 2,
      ...METRIC_SKIN,
      use: 3_600_000,
      area: 1_800_000,
      cutLength: 2400,
      cutWidth: 750,
    },
    { component: 'Wing', part: 'Gusset', quantity: 4, ...METRIC_SKIN, use: 40_000, area: 10_000 },
    { component: 'Tail', part: 'Push rod', quantity: 3, item: 'Tube 12', use: 2400, weight: 1, cutLength: 800 },
  ];
  const prices: SheetModel = {
    ...cellsOf(METRIC_PRICES, 'Prices'),
    tables: [
      {
        name: 'Prices',
        range: { sheet: 'Prices', row: 0, column: 0, rows: METRIC_PRICES.length, columns: 8 },
        columns: METRIC_PRICES[0]!.map(String),
      },
    ],
  };
  const stock = formSheet(
    STOCK,
    [{ name: 'Rest', material: '6061-T6', thickness: 0.8, length: 800, width: 780, offcut: 'yes' }],
    'mm-kg',
  );
  return { sheets: [formSheet(PARTS, rows, 'mm-kg'), stock, prices], names: [], styles: [] };
}
