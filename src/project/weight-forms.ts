/** The forms of the sheets that weights are followed with: the dated log and the growth allowances. */
import { form, STATUSES, type FormKey } from './forms';

export const LOG = form('Log', 'weight log', [
  { key: 'date', label: 'Date', required: true, help: 'day of the roll-up: a spreadsheet date, or 2026-03-31' },
  { key: 'component', label: 'Component', help: 'as in the parts list; blank or Total: everything' },
  { key: 'weight', label: 'Weight (lb)', required: true, help: 'weight as listed on that day' },
  { key: 'forecast', label: 'Forecast (lb)', help: 'weight expected of the finished component, as seen on that day' },
  { key: 'budget', label: 'Budget (lb)', help: 'design weight on that day' },
  { key: 'note', label: 'Note', help: 'what changed' },
]);
export type LogKey = FormKey<typeof LOG>;

export const ALLOWANCES = form('Allowances', 'growth allowances', [
  { key: 'status', label: 'Status', required: true, choices: STATUSES, help: 'as in the parts list' },
  {
    key: 'growth',
    label: 'Growth (%)',
    required: true,
    help: 'what a weight of that status is likely to grow by: 15%',
  },
  { key: 'note', label: 'Note', help: 'where the figure comes from' },
]);
