/**
 * A long parts list in the project's own columns: several shapes, materials and gauges, pieces, arms, prices,
 * rivets along an edge and a roll-up. In three forms that give the same numbers: one spilling formula a column,
 * one formula a cell, and plain spreadsheet arithmetic (the form for programs that know no TARE functions).
 */
import { densityOf, material } from '../../src/core/material';
import { PRICE_COLUMNS } from '../../src/core/price';
import { type CellModel, type SheetModel, type StyleModel, type WorkbookModel } from '../../src/sheet';
import { PARTS, STATUSES } from '../../src/project';

export type ListForm = 'columns' | 'cells' | 'plain';

/** Rows above the list, the header among them: the first part stands in row 6. */
export const HEAD_ROWS = 5;

/** Columns of the list that are looked at from outside, counted from 0. */
export const COLUMN = { quantity: 2, weight: 12 } as const;

const COMPONENTS = [
  'Front spar',
  'Rear spar',
  'Nose ribs',
  'Main ribs',
  'Skins',
  'Stringers',
  'Flap',
  'Aileron',
  'Tip',
  'Tank bay',
  'Strut fittings',
  'Fairings',
];
const MATERIALS = ['6061-T6', '2024-T3', '5052-H32'];
const GAUGES = [0.016, 0.02, 0.025, 0.032, 0.04, 0.05, 0.063];
const STYLES: readonly StyleModel[] = [
  {},
  { bold: true, fill: '#e8e6df' },
  { numberFormat: '0.000' },
  { numberFormat: '0.0000' },
  { numberFormat: '#,##0.00' },
];
const [TEXT, HEADER, LENGTH, WEIGHT, MONEY] = [0, 1, 2, 3, 4] as const;
const EDGE = 0.375;
const PITCH = 1.25;

/** Name, its TARE function, and plain arithmetic, of the cells in Q (length), R (width) and T (other side). */
const SHAPES = [
  {
    name: 'rectangle',
    tare: (q: string, r: string) => `TARE.AREA.RECT(${q},${r})`,
    plain: (q: string, r: string) => `${q}*${r}`,
  },
  {
    name: 'triangle',
    tare: (q: string, r: string) => `TARE.AREA.TRIANGLE(${q},${r})`,
    plain: (q: string, r: string) => `${q}*${r}/2`,
  },
  {
    name: 'disc',
    tare: (_q: string, r: string) => `TARE.AREA.CIRCLE(${r})`,
    plain: (_q: string, r: string) => `PI()*${r}^2/4`,
  },
  {
    name: 'trapezoid',
    tare: (q: string, r: string, t: string) => `TARE.AREA.TRAPEZOID(${r},${t},${q})`,
    plain: (q: string, r: string, t: string) => `(${r}+${t})/2*${q}`,
  },
];

/** One column of formulas: what it is over references, in one form or the other. */
interface FormulaColumn {
  readonly letter: string;
  readonly style: number;
  tare(ref: (letter: string) => string): string;
  plain(ref: (letter: string) => string, row: number): string;
}

const priceOf = (item: string): string => `VLOOKUP(${item},Twin!$D$1:$E$${MATERIALS.length * GAUGES.length},2,FALSE)`;

const FORMULAS: readonly FormulaColumn[] = [
  {
    letter: 'F',
    style: MONEY,
    // A whole column has every shape in it: each row takes its own.
    tare: (ref) =>
      SHAPES.slice(1).reduceRight(
        (rest, { name, tare }) => `IF(${ref('S')}="${name}",${tare(ref('Q'), ref('R'), ref('T'))},${rest})`,
        SHAPES[0]!.tare(ref('Q'), ref('R'), ref('T')),
      ),
    plain: (ref, row) => shapeOf(row).plain(ref('Q'), ref('R'), ref('T')),
  },
  { letter: 'K', style: TEXT, tare: (ref) => itemName(ref), plain: (ref) => itemName(ref) },
  { letter: 'L', style: MONEY, tare: (ref) => `${ref('F')}*${ref('C')}`, plain: (ref) => `${ref('F')}*${ref('C')}` },
  {
    letter: 'M',
    style: WEIGHT,
    tare: (ref) => `TARE.WEIGHT.SHEET(${ref('F')},${ref('E')},${ref('D')},${ref('C')})`,
    plain: (ref) => `${ref('F')}*${ref('E')}*VLOOKUP(${ref('D')},Twin!$A$1:$B$${MATERIALS.length},2,FALSE)*${ref('C')}`,
  },
  { letter: 'N', style: MONEY, tare: (ref) => `${ref('M')}*${ref('I')}`, plain: (ref) => `${ref('M')}*${ref('I')}` },
  {
    letter: 'O',
    style: MONEY,
    tare: (ref) => `TARE.PRICE.COST(${ref('K')},${ref('L')},Prices[#All])`,
    plain: (ref) => `ROUND(${ref('L')}*${priceOf(ref('K'))},2)`,
  },
  {
    letter: 'U',
    style: TEXT,
    tare: (ref) => `TARE.RIVET.COUNT(${ref('Q')},${PITCH},${EDGE})`,
    plain: (ref) => `INT((${ref('Q')}-${2 * EDGE})/${PITCH}+0.000000001)+1`,
  },
];

const itemName = (ref: (letter: string) => string): string => `${ref('D')}&" "&TEXT(${ref('E')},".000")&" sheet"`;
const shapeOf = (row: number): (typeof SHAPES)[number] => SHAPES[row % SHAPES.length]!;
const indexOf = (letter: string): number => letter.charCodeAt(0) - 65;
const pick = <T>(all: readonly T[], at: number): T => all[at % all.length]!;
/** Sizes that differ from row to row, to a thousandth of an inch. */
const size = (row: number, stride: number, least: number, most: number): number =>
  Math.round((least + (((row * stride) % 997) / 997) * (most - least)) * 1000) / 1000;

/** Formulas that the list has in a form, the roll-up left out. */
export const formulaCount = (rows: number, form: ListForm): number => FORMULAS.length * (form === 'columns' ? 1 : rows);

/** The workbook, not calculated: every formula's cell is empty. */
export function bigList(rows: number, form: ListForm): WorkbookModel {
  const sheets = [
    partsSheet(rows, form),
    weightsSheet(rows, form),
    pricesSheet(),
    ...(form === 'plain' ? [twinSheet()] : []),
  ];
  return { styles: STYLES, names: [], sheets };
}

function partsSheet(rows: number, form: ListForm): SheetModel {
  const labels = [...PARTS.columns.map(({ label }) => label).slice(0, 18), 'Shape', 'Other side (in)', 'Rivets'];
  const last = HEAD_ROWS + rows;
  const cells: (CellModel | undefined)[][] = [
    [{ value: 'Parts list', style: HEADER }],
    [],
    [],
    [],
    labels.map((value) => ({ value, style: HEADER })),
  ];
  for (let row = HEAD_ROWS + 1; row <= last; row++) {
    const line = typedCells(row);
    if (form !== 'columns')
      for (const { letter, style, tare, plain } of FORMULAS)
        line[indexOf(letter)] = { value: null, style, formula: formulaOf(form, letter, row, tare, plain) };
    cells.push(line);
  }
  if (form === 'columns')
    for (const { letter, style, tare } of FORMULAS)
      cells[HEAD_ROWS]![indexOf(letter)] = {
        value: null,
        style,
        formula: tare((one) => `${one}${HEAD_ROWS + 1}:${one}${last}`),
        spill: { rows, columns: 1 },
      };
  return { name: 'Parts', cells, tables: [], frozen: { rows: HEAD_ROWS, columns: 2 }, columnWidths: [14, 22] };
}

function formulaOf(
  form: 'cells' | 'plain',
  letter: string,
  row: number,
  tare: FormulaColumn['tare'],
  plain: FormulaColumn['plain'],
): string {
  const ref = (one: string): string => `${one}${row}`;
  if (form === 'plain') return plain(ref, row);
  return letter === 'F' ? shapeOf(row).tare(ref('Q'), ref('R'), ref('T')) : tare(ref);
}

/** What a person has typed in a row. */
function typedCells(row: number): (CellModel | undefined)[] {
  const line: (CellModel | undefined)[] = [];
  const put = (letter: string, value: string | number, style: number = TEXT): void =>
    void (line[indexOf(letter)] = { value, style });
  put('A', pick(COMPONENTS, Math.floor(row / 7)));
  put('B', `${shapeOf(row).name} ${row}`);
  put('C', 1 + ((row * 5) % 12));
  put('D', pick(MATERIALS, Math.floor(row / 3)));
  put('E', pick(GAUGES, row), LENGTH);
  put('I', size(row, 31, 58, 118), LENGTH);
  put('J', pick(STATUSES, Math.floor(row / 11)));
  put('Q', size(row, 113, 6, 96), LENGTH);
  put('R', size(row, 271, 0.75, 24), LENGTH);
  put('S', shapeOf(row).name);
  put('T', size(row, 59, 0.5, 20), LENGTH);
  return line;
}

function weightsSheet(rows: number, form: ListForm): SheetModel {
  const all = (letter: string): string => `Parts!${letter}$${HEAD_ROWS + 1}:${letter}$${HEAD_ROWS + rows}`;
  const cells: (CellModel | undefined)[][] = [
    ['Component', 'Weight (lb)', 'Arm (in)', 'Moment (lb·in)'].map((value) => ({ value, style: HEADER })),
  ];
  if (form === 'plain') {
    COMPONENTS.forEach((component, index) => {
      const r = index + 2;
      const sum = (letter: string): string => `SUMIFS(${all(letter)},${all('A')},A${r})`;
      cells.push([
        { value: component },
        { value: null, formula: sum('M') },
        { value: null, formula: `D${r}/B${r}` },
        { value: null, formula: sum('N') },
      ]);
    });
    const r = COMPONENTS.length + 2;
    cells.push([
      { value: 'Total' },
      { value: null, formula: `SUM(${all('M')})` },
      { value: null, formula: `D${r}/B${r}` },
      { value: null, formula: `SUM(${all('N')})` },
    ]);
  } else {
    cells.push([
      {
        value: null,
        formula: `TARE.ROLLUP(${all('A')},${all('M')},${all('I')})`,
        spill: { rows: COMPONENTS.length + 1, columns: 4 },
      },
    ]);
  }
  // Beside the roll-up, since its extent is its own.
  cells[1]![5] = { value: null, style: MONEY, formula: `SUM(${all('O')})` };
  cells[1]![6] = { value: null, formula: `SUM(${all('U')})` };
  return { name: 'Weights', cells, tables: [] };
}

/** Row of the total on the sheet Weights, counted from 0. */
export const TOTAL_ROW = COMPONENTS.length + 1;

const ITEMS = MATERIALS.flatMap((material, m) =>
  GAUGES.map((gauge, g) => ({
    item: `${material} ${gauge.toFixed(3).replace(/^0/, '')} sheet`,
    price: 60 + 20 * m + 25.5 * g,
  })),
);

function pricesSheet(): SheetModel {
  const header = PRICE_COLUMNS.map((column) => column.label);
  const lines = ITEMS.map(({ item, price }) =>
    [item, 'sheet', 'sheet', '48 x 144', price, 'USD', 1].map((value): CellModel => ({ value })),
  );
  return {
    name: 'Prices',
    cells: [header.map((value) => ({ value, style: HEADER })), ...lines],
    tables: [
      {
        name: 'Prices',
        range: { sheet: 'Prices', row: 0, column: 0, rows: lines.length + 1, columns: header.length },
        columns: header,
      },
    ],
  };
}

/** Look-ups of the plain form. */
function twinSheet(): SheetModel {
  const cells = ITEMS.map(({ item, price }, row): (CellModel | undefined)[] => {
    const name = MATERIALS[row];
    const density =
      name === undefined ? [undefined, undefined] : [{ value: name }, { value: densityOf(material(name)) }];
    return [...density, undefined, { value: item }, { value: null, formula: `${price}/(48*144)` }];
  });
  return { name: 'Twin', cells, tables: [] };
}
