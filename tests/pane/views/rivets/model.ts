import { type CellInput, type Edit, type SheetModel, type WorkbookModel } from '../../../../src/sheet';
import { newRivetOptionsSheet, RIVET_JOINTS } from '../../../../src/project';
import type { Cell } from '../../../../src/sheet';

type Key = (typeof RIVET_JOINTS)['columns'][number]['key'];
export type JointCells = Partial<Record<Key, Cell>>;

const JOINTS: readonly JointCells[] = [
  {
    joint: 'Skin to ribs',
    component: 'Wing',
    style: 'universal',
    diameter: 0.125,
    grip: 0.072,
    pitch: 1,
    count: 1000,
    rivet: 'MS20470AD4-4',
  },
  {
    joint: 'Skin to spar',
    component: 'Wing',
    style: 'flush',
    diameter: 0.125,
    grip: 0.09,
    pitch: 1,
    count: 400,
    rivet: 'MS20426AD4-4',
  },
  {
    joint: 'Tip cap',
    component: 'Tip',
    style: 'blind',
    diameter: 0.125,
    grip: 0.07,
    count: 80,
    access: 'one side only',
  },
];

const PRICES: Cell[][] = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['MS20470AD4-4', 'rivet', 'lb', null, 30, 'USD', null],
  ['MS20426AD4-4', 'rivet', 'lb', null, 33, 'USD', null],
  ['BLIND-AA-42', 'rivet', '1000', null, 48, 'USD', null],
  ['BLIND-AS-42', 'rivet', '100', null, 7.2, 'USD', null],
];

const sheet = (name: string, rows: readonly (readonly (Cell | undefined)[])[]): SheetModel => ({
  name,
  cells: rows.map((row) => row.map((value) => ({ value: value ?? null }))),
  tables: [],
});

/** A sheet that edits make, without its looks. */
function made(name: string, edits: readonly Edit[]): SheetModel {
  const write = edits.find((edit) => edit.kind === 'write');
  const plain = (cell: CellInput): Cell =>
    typeof cell === 'object' && cell !== null && 'formula' in cell ? null : cell;
  return sheet(name, write?.kind === 'write' ? write.cells.map((row) => row.map(plain)) : []);
}

export interface BookOptions {
  readonly joints?: readonly JointCells[];
  /** With the sheet Rivet options. */
  readonly options?: boolean;
  readonly prices?: boolean;
  /** With the column Access. */
  readonly access?: boolean;
}

export function rivetBook({
  joints = JOINTS,
  options = false,
  prices = true,
  access = true,
}: BookOptions = {}): WorkbookModel {
  const columns = RIVET_JOINTS.columns.filter(({ key }) => access || key !== 'access');
  const sheets = [
    sheet('Joints', [
      ['Joints of the wing'],
      columns.map(({ label }) => label),
      ...joints.map((joint) => columns.map(({ key }) => joint[key] ?? null)),
    ]),
  ];
  if (options) sheets.push(made('Rivet options', newRivetOptionsSheet()));
  if (prices)
    sheets.push({
      ...sheet('Prices', PRICES),
      tables: [
        {
          name: 'Prices',
          range: { sheet: 'Prices', row: 0, column: 0, rows: PRICES.length, columns: PRICES[0]!.length },
          columns: PRICES[0]!.map(String),
        },
      ],
    });
  return { sheets, names: [], styles: [] };
}
