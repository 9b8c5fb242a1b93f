/**
 * The edits that fill the sheets Parts and Hardware: weight, moment and cost computed on every row, what the weight of
 * hardware rests on, and invented examples.
 */
import { fromInch, type UnitSystem } from '../../core/quantity';
import { HARDWARE_FORM, PARTS, type HardwareKey, type PartKey } from '../forms';
import {
  CAUTION,
  FIRST,
  formSheet,
  HEADER,
  lettersOf,
  newColumns,
  rowCells,
  type ChoiceList,
  type ExampleRow,
  type FilledSheet,
  type SummedColumns,
} from './plan';
import { blankTest, columnRange, ifAll, orOne, unitsArgument } from './formula-terms';
import { PRICE_TABLE } from '../prices';

/** Rows that wait with their formulas. */
const PART_ROWS = 200;

const PART_LETTERS = lettersOf(PARTS);

/** Where the sheet as it is made here has what others sum. */
export const NEW_PART_COLUMNS: SummedColumns = newColumns(PARTS, PART_LETTERS, PART_ROWS);

interface NewParts {
  readonly units: UnitSystem;
  readonly examples: boolean;
  /** Lists whose rivets and hardware are brought in: each of their components is given a row. */
  readonly brought: readonly Brought[];
  /** The items of the price list, where it is known in which cells they stand. */
  readonly items?: ChoiceList | undefined;
}

/** A list beside the parts, and the components that it has. */
export interface Brought {
  /** What its rows of the parts list are called. */
  readonly part: string;
  readonly from: SummedColumns;
  readonly components: readonly string[];
  readonly areExamples: boolean;
}

/** Fills an empty sheet Parts. */
export function newPartsSheet({ units, examples, brought: lists, items }: NewParts): FilledSheet {
  const invented = examples ? exampleParts(units) : [];
  const wanted = lists.flatMap(({ part, from, components, areExamples }) =>
    components.map((component) => ({ component, part, from, areExamples })),
  );
  const brought = wanted.map(({ component, part, from }, index) =>
    countedRow(component, part, FIRST + invented.length + index, from),
  );
  const exampleRows = invented.length + wanted.filter(({ areExamples }) => areExamples).length;
  const sheet = formSheet({
    form: PARTS,
    units,
    title: 'Parts list',
    notes: [
      'One row a part. Type in the shaded cells; weight, moment and cost follow. Use follows from the flat area, or of a bar from its cut length: for anything else type it.',
      examples
        ? `Rows ${FIRST} to ${HEADER + exampleRows} are invented examples: see how they are written, then delete them or write over them.`
        : 'Each component has one Rivets row and one Hardware row; their weights come from Joints and Hardware.',
      CAUTION,
    ],
    rows: PART_ROWS,
    formulas: partFormulas(units),
    formats: {
      thickness: units === 'mm-kg' ? '0.0##' : '0.000',
      quantity: '#,##0',
      use: '#,##0.##',
      cost: '#,##0.00',
      tolerance: '0.0%',
    },
    widths: { component: 14, part: 30, material: 11, status: 11, item: 22, use: 11, cost: 10 },
    examples: [...invented, ...brought],
    lists: items ? { item: items } : {},
  });
  return { ...sheet, exampleRows };
}

/** One formula a row and not one a column, so that a row can be deleted, sorted or written over without the others. */
function partFormulas(units: UnitSystem): Partial<Record<PartKey, (row: number) => string>> {
  const of = (write: (cells: Readonly<Record<PartKey, string>>) => string) => (row: number) =>
    write(rowCells(PART_LETTERS, row));
  return {
    use: of(({ item, cutLength, cutWidth, area, quantity }) =>
      ifAll(
        [item],
        `IF(AND(LEN(${cutLength})>0,${blankTest(cutWidth)}),${cutLength}*${orOne(quantity)},${ifAll([area], `${area}*${orOne(quantity)}`)})`,
      ),
    ),
    weight: of(
      ({ weighed, each, quantity, area, thickness, material }) =>
        `IF(LEN(${weighed})>0,${weighed},IF(LEN(${each})>0,${each}*${orOne(quantity)},${ifAll([area], `TARE.WEIGHT.SHEET(${area},${thickness},${material},${orOne(quantity)}${unitsArgument(units)})`)}))`,
    ),
    moment: of(({ weight, arm }) => ifAll([weight, arm], `${weight}*${arm}`)),
    cost: of(({ item, use }) =>
      ifAll([item], `TARE.PRICE.COST(${item},${use},${PRICE_TABLE}[#All]${unitsArgument(units)})`),
    ),
  };
}

/** A rib, a cap strip and a skin of no airplane. */
function exampleParts(units: UnitSystem): ExampleRow<PartKey>[] {
  const inches = (value: number): number => Number(fromInch(value, 'length', units).toPrecision(12));
  const rectangle = (length: number, width: number) => ({
    formula: `=TARE.AREA.RECT(${inches(length)},${inches(width)}${unitsArgument(units)})`,
  });
  return [
    {
      component: 'Ribs',
      part: 'Rib web',
      quantity: 8,
      material: '6061-T6',
      thickness: inches(0.032),
      area: { formula: `=TARE.AIRFOIL.AREA("2412",${inches(40)}${unitsArgument(units, 2)})` },
      arm: inches(66),
      status: 'laid out',
      item: 'Sheet 6061-T6 .032',
      cutLength: inches(40),
      cutWidth: inches(5),
    },
    {
      component: 'Spar',
      part: 'Cap strip',
      quantity: 2,
      material: '6061-T6',
      thickness: inches(0.032),
      area: rectangle(60, 1.25),
      arm: inches(62),
      status: 'released',
      item: 'Sheet 6061-T6 .032',
      cutLength: inches(60),
      cutWidth: inches(1.25),
      grain: 'along',
    },
    {
      component: 'Skins',
      part: 'Upper skin',
      quantity: 1,
      material: '2024-T3',
      thickness: inches(0.025),
      area: rectangle(62, 42),
      arm: inches(68),
      status: 'estimated',
      item: 'Sheet 2024-T3 .025',
      cutLength: inches(62),
      cutWidth: inches(42),
      grain: 'along',
    },
  ];
}

/** The row that brings a component's rivets or hardware into the parts list, so that they are weighed once. */
function countedRow(
  component: string,
  part: string,
  row: number,
  { sheet, first, last, ...letters }: SummedColumns,
): ExampleRow<PartKey> {
  const cells = rowCells(PART_LETTERS, row);
  const sumOf = (letter: string): string =>
    `SUMIFS(${columnRange(sheet, letter, first, last)},${columnRange(sheet, letters.component, first, last)},${cells.component})`;
  return {
    component,
    part,
    quantity: 1,
    each: { formula: `=${sumOf(letters.weight)}` },
    arm: { formula: `=IF(${cells.each}=0,"",${sumOf(letters.moment)}/${cells.each})` },
    status: 'laid out',
  };
}

/** Rows that wait with their formulas. */
const HARDWARE_ROWS = 60;

const HARDWARE_LETTERS = lettersOf(HARDWARE_FORM);

/** Where the sheet as it is made here has what others sum. */
export const NEW_HARDWARE_COLUMNS: SummedColumns = newColumns(HARDWARE_FORM, HARDWARE_LETTERS, HARDWARE_ROWS);

/** Components of the example rows. */
export const EXAMPLE_HARDWARE_COMPONENTS: readonly string[] = ['Skins'];

/** Fills an empty sheet Hardware. */
export function newHardwareSheet({ units, examples }: Pick<NewParts, 'units' | 'examples'>): FilledSheet {
  const rows = examples ? exampleHardware(units) : [];
  return formSheet({
    form: HARDWARE_FORM,
    units,
    title: 'Hardware',
    notes: [
      'One row an item and component: pieces, the weight of one and where it is from. An ISO bolt, nut or washer (ISO 4017 M6x20) is computed where Each is blank.',
      examples
        ? `Rows ${FIRST} and ${HEADER + rows.length} are invented examples: delete them or write over them.`
        : 'The parts list has one row Hardware a component; its weight comes from here.',
      'Weigh ten of a kind and type the weight of one.',
    ],
    rows: HARDWARE_ROWS,
    formulas: hardwareFormulas(units),
    formats: { each: '0.0000', cost: '#,##0.00', quantity: '#,##0' },
    widths: { item: 24, component: 14, source: 22, basis: 40, cost: 10, note: 20 },
    examples: rows,
  });
}

function hardwareFormulas(units: UnitSystem): Partial<Record<HardwareKey, (row: number) => string>> {
  const of = (write: (cells: Readonly<Record<HardwareKey, string>>) => string) => (row: number) =>
    write(rowCells(HARDWARE_LETTERS, row));
  return {
    weight: of(({ item, quantity, each }) =>
      ifAll(
        [item, quantity],
        `IF(LEN(${each})>0,${each}*${quantity},IFERROR(TARE.HARDWARE.WEIGHT(${item},${quantity}${unitsArgument(units, 1)}),""))`,
      ),
    ),
    moment: of(({ weight, arm }) => ifAll([weight, arm], `${weight}*${arm}`)),
    cost: of(({ item, quantity }) =>
      ifAll([item, quantity], `TARE.PRICE.COST(${item},${quantity},${PRICE_TABLE}[#All]${unitsArgument(units)})`),
    ),
    basis: of(({ item, weight, each, source }) =>
      ifAll(
        [item],
        `IF(${blankTest(weight)},"no weight yet",IF(LEN(${each})>0,IF(LEN(${source})>0,${source},"typed, not said from where"),"computed from the dimensions of its standard"))`,
      ),
    ),
  };
}

function exampleHardware(units: UnitSystem): ExampleRow<HardwareKey>[] {
  const inches = (value: number): number => Number(fromInch(value, 'length', units).toPrecision(12));
  return [
    {
      item: 'Hinge pin .090',
      component: 'Skins',
      quantity: 2,
      each: Number(fromInch(0.036, 'weight', units).toPrecision(12)),
      source: 'invented, as if weighed',
      arm: inches(70),
    },
    { item: 'ISO 4017 M5x16', component: 'Skins', quantity: 8, arm: inches(64) },
  ];
}
