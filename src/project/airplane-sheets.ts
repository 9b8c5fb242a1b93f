/** Which sheets belong to which airplane: "Weighing", "Loading" for the only one; "Weighing tailwheel", "Loading tailwheel" for one of several. */
import { nameKey } from '../core/names';
import { CASES, ENVELOPE, LOADING, WEIGHING } from './balance-forms';

export interface AirplaneSheets {
  /** The words behind the forms' names; '' for the airplane whose sheets have none. */
  readonly name: string;
  readonly weighing?: string;
  readonly loading?: string;
  readonly envelope?: string;
  readonly cases?: string;
}

const FORMS = {
  weighing: WEIGHING.sheet,
  loading: LOADING.sheet,
  envelope: ENVELOPE.sheet,
  cases: CASES.sheet,
} as const;
type FormName = keyof typeof FORMS;

/**
 * The sets of sheets, one for each airplane, in the order of the workbook. A set uses the plain sheets for what it
 * lacks itself: "Weighing 2027" is a second weighing over the same Loading, Envelope and Cases.
 */
export function airplaneSheets(names: readonly string[]): AirplaneSheets[] {
  const sets = new Map<string, { name: string } & { [K in FormName]?: string }>();
  for (const sheet of names) {
    for (const [form, start] of Object.entries(FORMS) as [FormName, string][]) {
      const match = new RegExp(`^${start}(?:[\\s,:(–-]+(.*?)\\)?)?$`, 'i').exec(sheet.trim());
      if (!match) continue;
      const name = match[1] ?? '';
      const set = sets.get(nameKey(name)) ?? { name };
      sets.set(nameKey(name), set);
      set[form] ??= sheet;
    }
  }
  const plain = sets.get('');
  return [...sets.values()].filter(({ weighing, loading }) => weighing ?? loading).map((set) => ({ ...plain, ...set }));
}
