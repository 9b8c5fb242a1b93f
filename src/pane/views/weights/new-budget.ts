/** The sheet Budget where a workbook has none: its components, each with its forecast to start from. */
import { fromInch, inUnit, labelIn } from '../../../core/quantity';
import { isBlank, type Cell, type Edit, type RangeAddress } from '../../../sheet';
import { BUDGET, type FormSheet, type WeightsModel } from '../../../project';
import { sameName } from '../../../core/names';

const HEADER = 4;
/** Tenths of the unit, upwards. */
const startingFrom = (forecast: number): number => Math.ceil(forecast * 10 - 1e-6) / 10;

/** Rows of a sheet that may be written to, below its header. */
const REACH = 400;

/** The cells below a sheet's header that a budget is written into. */
export const budgetRange = ({ sheet, header }: FormSheet<string>): RangeAddress => ({
  sheet,
  row: header + 1,
  column: 0,
  rows: REACH,
  columns: 26,
});

/**
 * The forecasts put into a sheet Budget that is there and has no design weights: beside a component that is typed
 * already, else in rows whose two cells are blank.
 * @param values of `budgetRange`
 */
export function filledBudget(
  { components }: Pick<WeightsModel, 'components'>,
  { sheet, header, columns, units }: FormSheet<string>,
  values: readonly (readonly Cell[])[],
): Edit[] {
  const [name, weight] = [columns['component']!, columns['budget']!];
  const free = values.flatMap((line, row) => (isBlank(line[name]) && isBlank(line[weight]) ? [row] : []));
  return components.flatMap((component): Edit[] => {
    const typed = values.findIndex((line) => typeof line[name] === 'string' && sameName(line[name], component.name));
    const row = typed >= 0 ? typed : free.shift();
    if (row === undefined || !isBlank(values[row]![weight])) return [];
    const write = (column: number, cell: string | number): Edit => ({
      kind: 'write',
      range: { sheet, row: header + 1 + row, column, rows: 1, columns: 1 },
      cells: [[cell]],
    });
    return [
      ...(typed >= 0 ? [] : [write(name, component.name)]),
      write(weight, startingFrom(inUnit(component.forecast, units['budget']))),
    ];
  });
}

/** @param there the workbook has an empty sheet Budget already */
export function newBudget({ components, units }: Pick<WeightsModel, 'components' | 'units'>, there = false): Edit[] {
  const sheet = BUDGET.sheet;
  const at = (row: number, column: number, rows: number, columns: number) => ({ sheet, row, column, rows, columns });
  const rows = components.map(({ name, forecast }) => [name, startingFrom(fromInch(forecast, 'weight', units))]);
  const notes = [
    'Against the design weight',
    `Started from the forecast of that day, to a tenth of a ${units === 'mm-kg' ? 'kilogram' : 'pound'} upwards: put your design weights in its place.`,
    'An estimate is not a weighing.',
  ];
  return [
    ...(there ? [] : [{ kind: 'addSheet', name: sheet } as const]),
    { kind: 'write', range: at(0, 0, notes.length, 1), cells: notes.map((note) => [note]) },
    {
      kind: 'write',
      range: at(HEADER, 0, rows.length + 1, 2),
      cells: [BUDGET.columns.map(({ label }) => labelIn(label, units)), ...rows],
    },
    { kind: 'format', range: at(0, 0, 1, 1), bold: true },
    { kind: 'format', range: at(HEADER, 0, 1, 2), bold: true, fill: '#e8e6df' },
    { kind: 'format', range: at(HEADER + 1, 0, Math.max(1, rows.length), 2), fill: '#fffbea' },
    { kind: 'format', range: at(HEADER + 1, 1, Math.max(1, rows.length), 1), numberFormat: '0.00' },
    { kind: 'format', range: at(0, 0, 1, 1), columnWidth: 24 },
    { kind: 'format', range: at(0, 1, 1, 1), columnWidth: 14 },
  ];
}
