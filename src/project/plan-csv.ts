/** A plan's cut list as CSV, one row a cut, in cutting order; a text that a spreadsheet would take for a formula is marked as text. */
import { cutList, lengthText, type CuttingPlan } from '../core/stock';
import { csvText, guard } from './csv';

const HEADER = ['Pattern', 'Times', 'Stock', 'Strip', 'Cut', 'Part', 'Size', 'By', 'At', 'Turned'];

export function planCsv(plan: CuttingPlan): string {
  const rows = cutList(plan).map(({ pattern, times, stock, strip, action, part, size, by, at, turned }) => [
    String(pattern),
    String(times),
    stock,
    strip > 0 ? String(strip) : '',
    action,
    part,
    lengthText(size),
    by === undefined ? '' : lengthText(by),
    lengthText(at),
    turned ? 'yes' : '',
  ]);
  return csvText([HEADER, ...rows.map((row) => row.map(guard))]);
}
