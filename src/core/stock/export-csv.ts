/** A plan's cut list as CSV (RFC 4180), one row a cut, in cutting order. */
import { cutList, lengthText } from './cut-list';
import type { CuttingPlan } from './plan';

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
  return [HEADER, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

/** A field in quotes where it needs them; a text that a spreadsheet would take for a formula is marked as text. */
function field(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) && !/^-?\d+(\.\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
