/** The hardware of the sample half wing: invented counts and weights, and three metric items that are computed. */
import { HARDWARE_FORM } from '../../src/project';
import { f, type SheetBuilder, type StyleName } from './book';
import { atChord, cell } from './expression';
import type { WingTwin } from './wing-twin';

const FIRST = 6;
/** Rows that the column formulas reach. */
export const LAST_HARDWARE = 40;

interface Hardware {
  readonly item: string;
  readonly component: string;
  readonly quantity: number;
  /** lb; undefined: computed from its standard. */
  readonly each?: number;
  /** Fraction of the chord. */
  readonly at: number;
}

export const HARDWARE_OF_WING: readonly Hardware[] = [
  { item: 'ISO 4017 M4x12', component: 'Tip', quantity: 6, at: 0.1 },
  { item: 'ISO 4032 M4', component: 'Tip', quantity: 6, at: 0.1 },
  { item: 'ISO 7089 M4', component: 'Tip', quantity: 12, at: 0.1 },
  { item: 'Bolt AN5-12A', component: 'Fittings', quantity: 10, each: 0.058, at: 0.35 },
  { item: 'Nut AN365-524A', component: 'Fittings', quantity: 10, each: 0.0105, at: 0.35 },
  { item: 'Washer AN960-516', component: 'Fittings', quantity: 20, each: 0.0029, at: 0.35 },
  { item: 'Bolt AN4-7A', component: 'Fittings', quantity: 8, each: 0.032, at: 0.62 },
  { item: 'Nut AN365-428A', component: 'Fittings', quantity: 8, each: 0.0062, at: 0.62 },
  { item: 'Washer AN960-416', component: 'Fittings', quantity: 16, each: 0.0021, at: 0.62 },
];

const COMPUTED = 'computed from the dimensions of its standard';

export function fillHardware(sheet: SheetBuilder, twin: WingTwin): void {
  sheet
    .put('A1', 'Hardware, one half wing', 'title')
    .put(
      'A2',
      'One row an item: pieces, the weight of one and where it is from. The weight of an ISO bolt, nut or washer is computed.',
      'note',
    )
    .put('A3', 'The weights of the AN hardware are invented. Weigh ten of yours.', 'note');
  const labels = HARDWARE_FORM.columns.map(({ label }) => label);
  sheet.row(
    `A${FIRST - 1}`,
    labels,
    labels.map((label): StyleName => (/\(|Qty|Cost/.test(label) ? 'headerRight' : 'header')),
  );
  HARDWARE_OF_WING.forEach(({ item, component, quantity, each, at }, index) =>
    sheet.row(
      `A${FIRST + index}`,
      [item, component, quantity, each, each === undefined ? undefined : 'invented, as if weighed', cell(atChord(at))],
      ['input', 'input', 'input', 'weight', 'input', 'long'],
    ),
  );
  const rows = LAST_HARDWARE - FIRST + 1;
  const [A, C, D, E, F, G] = ['A', 'C', 'D', 'E', 'F', 'G'].map(
    (letter) => `${letter}${FIRST}:${letter}${LAST_HARDWARE}`,
  );
  const ifRow = (r: number, formula: string): string => `=IF(A${r}="","",${formula})`;
  sheet
    .put(
      `G${FIRST}`,
      f(
        `IF(LEN(${D})>0,${D}*${C},TARE.HARDWARE.WEIGHT(${A},${C}))`,
        (r) => ifRow(r, `IF(D${r}<>"",D${r},${twin.hardwareWeight(`A${r}`)})*C${r}`),
        rows,
      ),
      'weight',
    )
    .put(
      `H${FIRST}`,
      f(`IF(LEN(${G})=0,"",${G}*${F})`, (r) => ifRow(r, `G${r}*F${r}`), rows),
      'moment',
    )
    .put(
      `I${FIRST}`,
      f(`TARE.PRICE.COST(${A},${C},Prices[#All])`, (r) => ifRow(r, `ROUND(C${r}*${twin.price(`A${r}`)},2)`), rows),
      'money',
    )
    .put(
      `J${FIRST}`,
      f(
        `IF(LEN(${G})=0,"",IF(LEN(${D})>0,${E},"${COMPUTED}"))`,
        (r) => ifRow(r, `IF(D${r}<>"",E${r},"${COMPUTED}")`),
        rows,
      ),
      'text',
    );
  for (const [letter, style] of [
    ['G', 'weight'],
    ['H', 'moment'],
    ['I', 'money'],
  ] as const)
    sheet.styleColumn(letter, FIRST, LAST_HARDWARE, style);
  sheet.widths = [22, 12, 6, 10, 24, 9, 11, 12, 10, 42, 20];
  sheet.frozen = { rows: FIRST - 1, columns: 2 };
}
