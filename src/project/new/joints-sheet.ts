/**
 * The edits that fill the sheet Joints (the rivet, its number, weight, cost, check and hours on every row) and the sheet
 * Rivets, the builder's own as a table, which the joints' formulas look into; with invented examples.
 */
import { MINUTES_EACH, OWN_COLUMNS, OWN_KINDS, type OwnColumn, type OwnKey } from '../../core/fastener';
import { fromInch, labelIn, type UnitSystem } from '../../core/quantity';
import { JOINTS, type JointKey } from '../forms';
import {
  choicesWidth,
  FIRST,
  formSheet,
  HEADER,
  labelWidth,
  lettersOf,
  newColumns,
  LOOKS,
  rowCells,
  type ExampleRow,
  type FilledSheet,
  type Letters,
  type SummedColumns,
} from './plan';
import { blankTest, ifAll, orOne, unitsArgument } from './formula-terms';
import { PRICE_TABLE } from '../prices';
import { columnName, type CellInput, type Edit, type RangeAddress } from '../../sheet';
import { OWN_RIVETS_SHEET } from '../own-rivets';

/** Rows that wait with their formulas. */
const JOINT_ROWS = 100;

const LETTERS = lettersOf(JOINTS);

/** Where the sheet as it is made here has what others sum. */
export const NEW_JOINT_COLUMNS: SummedColumns = newColumns(JOINTS, LETTERS, JOINT_ROWS);

interface NewJoints {
  readonly units: UnitSystem;
  readonly examples: boolean;
  /** How formulas name the table of own rivets; undefined where there is no such table. */
  readonly own: string | undefined;
}

/** Fills an empty sheet Joints. */
export function newJointsSheet({ units, examples, own }: NewJoints): FilledSheet {
  const rows = examples ? exampleJoints(units) : [];
  return formSheet({
    form: JOINTS,
    units,
    title: 'Rivet joints',
    notes: [
      'One row a joint. Type its sheets, style, diameter, run and pitch; the rivet, how many, their weight and cost follow.',
      examples
        ? `Rows ${FIRST} and ${HEADER + rows.length} are invented examples: see how they are written, then delete them or write over them.`
        : 'A price follows where the price list names the rivet as this sheet does.',
      'A first layout. Joints of a structure are made as the designer’s drawings say.',
    ],
    rows: JOINT_ROWS,
    formulas: jointFormulas({ units, own }),
    formats: {
      ...(units === 'mm-kg'
        ? { sheet1: '0.0##', sheet2: '0.0##', sheet3: '0.0##', grip: '0.0##', diameter: '0.0##' }
        : {
            sheet1: '0.000',
            sheet2: '0.000',
            sheet3: '0.000',
            grip: '0.000',
            diameter: '# ?/??',
            pitch: '0.000',
            edge: '0.000',
          }),
      count: '#,##0',
      cost: '#,##0.00',
      hours: '0.00',
    },
    widths: { joint: 26, component: 14, style: 11, rivet: 16, check: 34, cost: 10, hours: 9 },
    examples: rows,
  });
}

/** What a formula of the joints is written with. */
interface JointsOf {
  readonly units: UnitSystem;
  /** How its formulas name the table of own rivets; undefined where there is no such table. */
  readonly own: string | undefined;
  /** Where the columns stand; the formulas of missing columns are never asked for. */
  readonly letters?: Letters<JointKey>;
}

/** The formulas of a row by its number, without "=". */
export function jointFormulas({
  units,
  own,
  letters = LETTERS,
}: JointsOf): Partial<Record<JointKey, (row: number) => string>> {
  const of = (write: (cells: Readonly<Record<JointKey, string>>) => string) => (row: number) =>
    write(rowCells(letters, row));
  /** Optional arguments that are left out, the units and the own rivets. */
  const ending = (leftOut: number): string => rivetsArguments({ units, own }, leftOut);
  return {
    grip: of(({ sheets, sheet1, sheet2, sheet3 }) =>
      withSheets(sheets, gripOf(sheets, units), ifAll([sheet1], sumOf([sheet1, sheet2, sheet3]))),
    ),
    rivet: of(({ style, diameter, grip }) =>
      ifAll([style, diameter, grip], `TARE.RIVET.PICK(${style},${diameter},${grip}${ending(2)})`),
    ),
    count: of(({ run, pitch, edge, rows, repeats, staggered }) =>
      ifAll(
        [run, pitch],
        `TARE.RIVET.COUNT(${run},${pitch},${edge},${orOne(rows)},${staggered}="yes"${unitsArgument(units)})*${orOne(repeats)}`,
      ),
    ),
    weight: of(({ rivet, count }) => ifAll([rivet, count], `TARE.RIVET.WEIGHT(${rivet},${count}${ending(1)})`)),
    moment: of(({ weight, arm }) => ifAll([weight, arm], `${weight}*${arm}`)),
    cost: of(({ rivet, count }) =>
      ifAll([rivet, count], `TARE.PRICE.COST(${rivet},${count},${PRICE_TABLE}[#All]${ending(0)})`),
    ),
    check: of(({ rivet, grip, sheets, sheet1, sheet2, sheet3, pitch, edge, flangeEdge, rows, head }) =>
      ifAll(
        [rivet, pitch],
        `IF(LEN(${edge})+LEN(${flangeEdge})=0,"",TARE.RIVET.CHECK(${rivet},${grip},${withSheets(sheets, gripOf(sheets, units, 'thickest'), `MAX(${sheet1},${sheet2},${sheet3})`)},${pitch},MIN(${edge},${flangeEdge}),"${units}",${orOne(rows)},${head}&"",${withSheets(sheets, gripOf(sheets, units, 'first'), sheet1)}${own ? `,${own}` : ''}))`,
      ),
    ),
    hours: of(({ count, style }) =>
      ifAll(
        [count],
        `TARE.RIVET.HOURS(${count},IF(LEFT(${style},5)="blind",${MINUTES_EACH.blind},${MINUTES_EACH.solid}))`,
      ),
    ),
    strength: of(({ rivet, sheets, sheet1, sheet2, sheet3, sheetMaterial, head }) =>
      ifAll(
        [rivet, sheetMaterial],
        `IFERROR(TARE.RIVET.STRENGTH(${rivet},${withSheets(sheets, gripOf(sheets, units, 'thinnest'), `MIN(${sheet1},${sheet2},${sheet3})`)},${sheetMaterial},${head}&"","${units}"${own ? `,${own}` : ''}),"no published value in hand")`,
      ),
    ),
  };
}

/** The arguments behind a function's own: units where they are metric, and the table of own rivets. */
const rivetsArguments = ({ units, own }: Pick<JointsOf, 'units' | 'own'>, leftOut: number): string =>
  own ? `${','.repeat(leftOut + 1)}${units === 'mm-kg' ? '"mm-kg"' : ''},${own}` : unitsArgument(units, leftOut);

/** Blank cells count nothing, whatever a host hands for them. */
const sumOf = (cells: readonly string[]): string => cells.join('+');

/** One or the other, by whether the cell Sheets holds something. */
const withSheets = (sheets: string, given: string, otherwise: string): string =>
  `IF(${blankTest(sheets)},${otherwise},${given})`;

const gripOf = (sheets: string, units: UnitSystem, of?: 'thickest' | 'thinnest' | 'first'): string =>
  `TARE.RIVET.GRIP(${sheets}${of ? `,"${units}","${of}"` : unitsArgument(units)})`;

/** The components of the example joints. */
export const EXAMPLE_JOINT_COMPONENTS: readonly string[] = ['Skins'];

function exampleJoints(units: UnitSystem): ExampleRow<JointKey>[] {
  const inches = (value: number): number => Number(fromInch(value, 'length', units).toPrecision(12));
  return [
    {
      joint: 'Upper skin to spar cap',
      component: 'Skins',
      sheet1: inches(0.025),
      sheet2: inches(0.032),
      style: 'universal',
      diameter: inches(3 / 32),
      run: inches(60),
      pitch: inches(1),
      edge: inches(0.25),
      rows: 1,
      repeats: 1,
      arm: inches(62),
    },
    {
      joint: 'Upper skin to ribs',
      component: 'Skins',
      sheet1: inches(0.025),
      sheet2: inches(0.032),
      style: 'blind',
      diameter: inches(1 / 8),
      run: inches(40),
      pitch: inches(1.25),
      edge: inches(0.375),
      rows: 1,
      repeats: 8,
      arm: inches(68),
    },
  ];
}

/** Name of the table: the joints' formulas pass `Rivets[#All]`. */
export const OWN_RIVET_TABLE = 'Rivets';

/** Rows of the table that wait. */
const RIVET_ROWS = 30;

const RIVET_COLUMNS = Object.entries(OWN_COLUMNS) as [OwnKey, OwnColumn][];

/** The table's header row in a system of units. */
const ownRivetLabels = (units: UnitSystem): string[] =>
  RIVET_COLUMNS.map(([, { label, dimension }]) => labelIn(label, units, dimension));

/** A blind rivet of a size that no example joint has, weighed by a sample. */
const EXAMPLE_RIVET: Readonly<Partial<Record<OwnKey, string | number>>> = {
  label: 'EXAMPLE_RIVET-5-2',
  kind: 'blind',
  diameter: 5 / 32,
  gripMin: 0.063,
  gripMax: 0.125,
  pieces: 50,
  grams: 62,
  shear: 310,
  source: 'invented example, put your own',
};

/** Fills an empty sheet Rivets, or adds it. */
export function newRivetsSheet(units: UnitSystem, examples: boolean, add: boolean): FilledSheet {
  const labels = ownRivetLabels(units);
  const range: RangeAddress = {
    sheet: OWN_RIVETS_SHEET,
    row: 0,
    column: 0,
    rows: RIVET_ROWS + 1,
    columns: labels.length,
  };
  const example = RIVET_COLUMNS.map(([key, { dimension }]): CellInput => {
    const value = EXAMPLE_RIVET[key] ?? null;
    return typeof value === 'number' && dimension ? Number(fromInch(value, dimension, units).toPrecision(12)) : value;
  });
  const blank = RIVET_COLUMNS.map((): CellInput => null);
  const rows = Array.from({ length: RIVET_ROWS }, (_row, index) => (examples && index === 0 ? example : blank));
  const below = { ...range, row: 1, rows: RIVET_ROWS };
  const kind = RIVET_COLUMNS.findIndex(([key]) => key === 'kind');
  const edits: Edit[] = [
    ...(add ? [{ kind: 'addSheet', name: OWN_RIVETS_SHEET } as const] : []),
    { kind: 'write', range, cells: [labels, ...rows] },
    { kind: 'addTable', name: OWN_RIVET_TABLE, range },
    { kind: 'format', range: { ...range, rows: 1 }, ...LOOKS.header },
    { kind: 'format', range: below, ...LOOKS.text },
    { kind: 'choices', range: { ...below, column: kind, columns: 1 }, choices: OWN_KINDS },
    ...labels.map((label, column): Edit => ({
      kind: 'format',
      range: { ...range, column, columns: 1 },
      columnWidth: Math.max(
        column === 0 ? 18 : column === labels.length - 1 ? 30 : 9,
        labelWidth(label),
        column === kind ? choicesWidth(OWN_KINDS) : 0,
      ),
    })),
    { kind: 'freeze', sheet: OWN_RIVETS_SHEET, rows: 1, columns: 1 },
  ];
  return {
    edits,
    exampleRows: examples ? 1 : 0,
    typed: `A2:${columnName(labels.length - 1)}${RIVET_ROWS + 1}`,
    first: { ...below, rows: 1, columns: 1 },
  };
}
