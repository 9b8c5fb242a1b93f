/** The sheet Budget where a workbook has none: its components, each with its forecast to start from. */
import { fromInch, labelIn } from '../../../core/quantity';
import { type Edit } from '../../../sheet';
import { BUDGET, type WeightsModel } from '../../../project';

const HEADER = 4;
/** Tenths of the unit, upwards. */
const startingFrom = (forecast: number): number => Math.ceil(forecast * 10 - 1e-6) / 10;

export function newBudget({ components, units }: Pick<WeightsModel, 'components' | 'units'>): Edit[] {
  const sheet = BUDGET.sheet;
  const at = (row: number, column: number, rows: number, columns: number) => ({ sheet, row, column, rows, columns });
  const rows = components.map(({ name, forecast }) => [name, startingFrom(fromInch(forecast, 'weight', units))]);
  const notes = [
    'Against the design weight',
    `Started from the forecast of that day, to a tenth of a ${units === 'mm-kg' ? 'kilogram' : 'pound'} upwards: put your design weights in its place.`,
    'An estimate is not a weighing.',
  ];
  return [
    { kind: 'addSheet', name: sheet },
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
