/** The edits that fill the sheet Hardware: weight, moment, cost and what the weight rests on, on every row. */
import { fromInch, type UnitSystem } from '../../core/quantity';
import { HARDWARE_FORM, type FormKey } from '../forms';
import { PRICE_TABLE } from '../prices';
import {
  lettersOf,
  rowCells,
  formSheet,
  FIRST,
  HEADER,
  type ExampleRow,
  type FilledSheet,
  type SummedColumns,
} from './plan';
import { ifAll, blankTest, unitsArgument } from './formula-terms';

type Key = FormKey<typeof HARDWARE_FORM>;

/** Rows that wait with their formulas. */
const ROWS = 60;

const LETTERS = lettersOf(HARDWARE_FORM);

/** Where the sheet as it is made here has what others sum. */
export const NEW_HARDWARE_COLUMNS: SummedColumns = {
  sheet: HARDWARE_FORM.sheet,
  first: FIRST,
  last: HEADER + ROWS,
  ...LETTERS,
};

/** Components of the example rows. */
export const EXAMPLE_HARDWARE_COMPONENTS: readonly string[] = ['Skins'];

interface NewHardware {
  readonly units: UnitSystem;
  readonly examples: boolean;
}

/** Fills an empty sheet Hardware. */
export function newHardwareSheet({ units, examples }: NewHardware): FilledSheet {
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
    rows: ROWS,
    formulas: formulas(units),
    formats: { each: '0.0000', cost: '#,##0.00', quantity: '#,##0' },
    widths: { item: 24, component: 14, source: 22, basis: 40, cost: 10, note: 20 },
    examples: rows,
  });
}

function formulas(units: UnitSystem): Partial<Record<Key, (row: number) => string>> {
  const of = (write: (cells: Readonly<Record<Key, string>>) => string) => (row: number) =>
    write(rowCells(LETTERS, row));
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

function exampleHardware(units: UnitSystem): ExampleRow<Key>[] {
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
