/** The forms behind the comparison of rivets: the joints with their access, and the sheet that says what is compared. */
import { form, JOINTS, type JointKey, type SheetForm } from './forms';

/** Of a joint that can be reached from one side alone. */
export const ONE_SIDE = 'one side only';
export const ACCESS_LABEL = 'Access';

/** The joints' form with one column more, which a sheet need not have. */
export const RIVET_JOINTS: SheetForm<JointKey | 'access'> = {
  ...JOINTS,
  columns: [
    ...JOINTS.columns,
    {
      key: 'access',
      label: ACCESS_LABEL,
      choices: ['both sides', ONE_SIDE],
      help: 'whether a bucking bar can be held behind the rivets',
    },
  ],
};

/** Four lists side by side on one sheet: each is found by its own labels. */
export const RIVET_OPTIONS_SHEET = 'Rivet options';

export const OPTION_LIST = form(RIVET_OPTIONS_SHEET, 'options compared', [
  {
    key: 'option',
    label: 'Option',
    required: true,
    help: 'what the option is called; the first is what the others are set against',
  },
  {
    key: 'kind',
    label: 'Rivets',
    required: true,
    help: '"as designed", or "solid", "universal", "flush", "blind" with a diameter and an alloy behind it: "solid 3/32", "blind AS 1/8"',
  },
]);
export const EXCEPTION_LIST = form(RIVET_OPTIONS_SHEET, 'exceptions', [
  { key: 'option', label: 'Exception to', required: true, help: 'the option that has other rivets at one joint' },
  {
    key: 'joint',
    label: 'At joint',
    required: true,
    help: 'the joint, with its component before it: "Rear spar: Uprights"',
  },
  { key: 'kind', label: 'Rivets there', required: true, help: 'as in the list of options' },
]);
export const TOOL_LIST = form(RIVET_OPTIONS_SHEET, 'tools', [
  { key: 'tool', label: 'Tool', required: true, help: 'what is bought to set the rivets' },
  { key: 'use', label: 'For', required: true, choices: ['solid', 'blind', 'all'], help: 'the rivets that need it' },
  { key: 'diameter', label: 'Size (in)', help: 'for rivets of this diameter only; blank: for all' },
  { key: 'price', label: 'Tool price', required: true, help: 'price of one' },
  { key: 'life', label: 'Life (rivets)', help: 'rivets that one lasts; blank: all of them' },
  { key: 'owned', label: 'Owned', choices: ['yes', 'no'], help: 'yes: the first one is in the shop already' },
]);
export const SHEAR_LIST = form(RIVET_OPTIONS_SHEET, 'shear of blind rivets', [
  { key: 'rivet', label: 'Blind rivet', required: true, help: 'body and mandrel with the diameter: "AA 1/8"' },
  {
    key: 'shear',
    label: 'Shear (lb)',
    dimension: 'force',
    required: true,
    help: 'single shear by the maker’s data sheet',
  },
  { key: 'source', label: 'Data sheet', help: 'maker and lot, so that the figure can be found again' },
]);

/** Labels of the single settings, each with its value in the cell to the right. */
export const RIVET_FACTS = {
  labourRate: 'Labour rate (an hour)',
  drillSolid: 'Drilling, solid (min)',
  setSolid: 'Setting, solid (min)',
  drillBlind: 'Drilling, blind (min)',
  setBlind: 'Setting, blind (min)',
  secondPerson: 'Second person for bucking',
  countRule: 'Number of rivets',
} as const;
export type RivetFact = keyof typeof RIVET_FACTS;
export const COUNT_RULES = ['equal count', 'match shear'] as const;
