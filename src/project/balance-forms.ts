/**
 * The forms of the sheets that an airplane is weighed and loaded with. A workbook may hold several
 * airplanes: the sheets of one share the words behind the form's name ("Weighing tailwheel").
 */
import { form, type FormKey } from './forms';
import { nameKey } from '../core/names';

/** Facts of a weighing, each a label with its value in the cell to the right, above the table. */
export const WEIGHING_FACTS = {
  airplane: 'Airplane',
  date: 'Weighed on',
  gear: 'Gear',
  level: 'Level found by',
  scales: 'Scales',
  lemac: 'Leading edge of MAC (in)',
  mac: 'MAC (in)',
} as const;
export type WeighingFact = keyof typeof WEIGHING_FACTS;

export const GEARS = ['tailwheel', 'nosewheel'] as const;

export const WEIGHING = form('Weighing', 'weighing record', [
  { key: 'point', label: 'Point', required: true, help: 'wheel or jack: left main, right main, tail' },
  { key: 'reading', label: 'Scale reading (lb)', required: true, help: 'as the scale shows it' },
  { key: 'tare', label: 'Tare (lb)', help: 'chocks, blocks and stands on the scale' },
  { key: 'net', label: 'Net (lb)', computed: true, help: 'reading less tare' },
  {
    key: 'arm',
    label: 'Arm (in)',
    required: true,
    help: 'axle or jack point aft of the datum, the airplane level; ahead of it negative',
  },
  { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'net × arm' },
]);
export type WeighingKey = FormKey<typeof WEIGHING>;

/** Second table of the weighing sheet. */
export const CORRECTIONS = form('Weighing', 'corrections', [
  {
    key: 'correction',
    label: 'Correction',
    required: true,
    help: 'what was aboard and does not belong to the empty weight, or was absent and does',
  },
  { key: 'weight', label: 'Weight (lb)', required: true, help: 'negative: taken off; positive: added' },
  { key: 'arm', label: 'Arm (in)', required: true, help: 'aft of the datum' },
  { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'weight × arm' },
]);
export type CorrectionKey = FormKey<typeof CORRECTIONS>;

/** Empty weight and arm on the loading sheet: one row under their labels, for an airplane without a weighing sheet. */
export const LOADING_EMPTY = 'Empty';
/** The labels above it. */
export const EMPTY_FORM = form('Loading', 'empty weight', [
  { key: 'weight', label: 'Weight (lb)', required: true, help: 'empty weight' },
  { key: 'arm', label: 'Arm (in)', required: true, help: 'where it balances, aft of the datum' },
]);

export const LOADING = form('Loading', 'loading', [
  { key: 'station', label: 'Station', required: true, help: 'seat, locker or tank' },
  { key: 'arm', label: 'Arm (in)', required: true, help: 'aft of the datum; ahead of it negative' },
  { key: 'load', label: 'Load (lb)', help: 'what is loaded there now' },
  { key: 'min', label: 'Min (lb)', help: 'least that may be loaded: 0 for an empty seat, the reserve for a tank' },
  { key: 'max', label: 'Max (lb)', required: true, help: 'most that may be loaded' },
  {
    key: 'fuel',
    label: 'Fuel',
    choices: ['yes'],
    help: 'yes for a tank: it burns down to its least, tanks in the order of the list',
  },
  { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'load × arm' },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type LoadingKey = FormKey<typeof LOADING>;

/** Where the limits stand in the aircraft's own documents: a label with its value to the right. */
export const ENVELOPE_SOURCE = 'Limits from';

export const ENVELOPE = form('Envelope', 'loading envelope', [
  { key: 'arm', label: 'Arm (in)', required: true, help: 'of a corner, aft of the datum' },
  { key: 'weight', label: 'Weight (lb)', required: true, help: 'of the corner; corners in order around the envelope' },
  { key: 'note', label: 'Note', help: 'what the corner is' },
]);

/** Between the case's name and its results stands a column for each station, headed with the station's name. */
export const CASES = form('Cases', 'loading cases', [
  { key: 'case', label: 'Case', required: true, help: 'name of the loading' },
  { key: 'takeoffWeight', label: 'Take-off weight (lb)', computed: true, help: 'empty weight and loads' },
  { key: 'takeoffArm', label: 'Take-off arm (in)', computed: true, help: 'aft of the datum' },
  { key: 'takeoffVerdict', label: 'At take-off', computed: true, help: 'against the envelope' },
  { key: 'landingWeight', label: 'Landing weight (lb)', computed: true, help: 'every tank down to its least' },
  { key: 'landingArm', label: 'Landing arm (in)', computed: true, help: 'aft of the datum' },
  { key: 'landingVerdict', label: 'At landing', computed: true, help: 'against the envelope' },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type CaseKey = FormKey<typeof CASES>;

/** Which sheets belong to an airplane: "Weighing", "Loading" for the only one; "Weighing tailwheel", "Loading tailwheel" for one of several. */
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
