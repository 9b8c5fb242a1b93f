/**
 * The shape of the project's own sheets: which sheet holds what, and by which header each column is
 * found. Columns may stand in any order and others may stand between them; a unit in brackets behind a
 * label ("Thickness (mm)") is no part of the name: it says what the numbers below are in.
 */
import { labelDimension, type Dimension, type Unit } from '../core/quantity';
import { HEAD_FORMS } from '../core/fastener';
import { LIES } from '../core/stock/lie';
import type { Cell } from '../sheet';
import type { Problem } from './problems';
import type { OwnSystem } from './units';

export interface FormColumn<K extends string = string> {
  readonly key: K;
  /** Labels that it had in older sheets; they are found, too. */
  readonly also?: readonly string[];
  /** The label as a new sheet in inches and pounds is given it, with its unit. */
  readonly label: string;
  /** What the column's numbers measure; the label's unit says it, where the definition does not. */
  readonly dimension?: Dimension;
  readonly required?: true;
  /** Filled by a formula of the sheet, not typed. */
  readonly computed?: true;
  readonly choices?: readonly string[];
  /** True: the choices are the usual ones, and others may be typed. */
  readonly open?: true;
  readonly help: string;
}

export interface SheetForm<K extends string = string> {
  readonly sheet: string;
  readonly title: string;
  readonly columns: readonly FormColumn<K>[];
  /** Where rows may be sums of others: the columns whose names would say so, and the one that is summed. */
  readonly sums?: { readonly names: readonly K[]; readonly amount: K };
}

/** The keys of a form's columns. */
export type FormKey<F> = F extends SheetForm<infer K> ? K : never;

/** A form, its keys kept as literals. */
export const form = <const K extends string>(
  sheet: string,
  title: string,
  columns: readonly FormColumn<K>[],
  sums?: SheetForm<NoInfer<K>>['sums'],
): SheetForm<K> => ({ sheet, title, columns: columns.map(measured), ...(sums ? { sums } : {}) });

function measured<K extends string>(column: FormColumn<K>): FormColumn<K> {
  const dimension = column.dimension ?? labelDimension(column.label);
  return dimension === undefined ? column : { ...column, dimension };
}

/** How sure a row's weight is, from first estimate to the scale; growth allowances go by it. */
export const STATUSES = ['estimated', 'laid out', 'released', 'existing', 'weighed'] as const;

/** Materials that sheet is usually made of. */
const SHEET_MATERIALS = ['6061-T6', '6061-O', '2024-T3', '2024-O', '7075-T6', '5052-H32', '3003-H14', '4130', '304'];

export const PARTS = form(
  'Parts',
  'parts list',
  [
    { key: 'component', label: 'Component', required: true, help: 'the component that the row is summed under' },
    { key: 'part', label: 'Part', required: true, help: 'what the part is' },
    { key: 'quantity', label: 'Qty', help: 'number of equal parts' },
    { key: 'material', label: 'Material', choices: SHEET_MATERIALS, open: true, help: 'alloy and temper' },
    { key: 'thickness', label: 'Thickness (in)', help: 'sheet thickness' },
    { key: 'area', label: 'Flat area (in²)', help: 'flat pattern of one part' },
    { key: 'each', label: 'Each (lb)', help: 'weight of one part that is not sheet: a tube, a bar, hardware' },
    { key: 'weighed', label: 'Weighed (lb)', help: 'the row on the scale; replaces what is computed' },
    { key: 'arm', label: 'Arm (in)', help: 'distance of the centre of gravity aft of the datum' },
    { key: 'status', label: 'Status', choices: STATUSES, help: 'how sure the weight is' },
    { key: 'item', label: 'Price item', help: 'what it is made from, as the price list calls it' },
    {
      key: 'use',
      label: 'Use',
      help: 'how much of the item all pieces take, in the units of the sheet: in², in, lb or pieces; mm², mm, kg or pieces',
    },
    { key: 'weight', label: 'Weight (lb)', required: true, computed: true, help: 'all pieces of the row' },
    { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'weight × arm' },
    { key: 'cost', label: 'Cost', computed: true, help: 'value of the material used' },
    { key: 'tolerance', label: 'Tolerance (±%)', help: 'how far one piece may be off its weight: 5% or 5' },
    {
      key: 'cutLength',
      label: 'Cut length (in)',
      help: 'of the rectangle or bar that one part is cut from; of sheet, the way the grain runs',
    },
    { key: 'cutWidth', label: 'Cut width (in)', help: 'of that rectangle; none for a bar' },
    {
      key: 'grain',
      label: 'Grain',
      choices: LIES,
      help: 'how the cut length lies to the grain of the sheet; blank: as the sheet Buying says for all',
    },
  ],
  { names: ['component', 'part'], amount: 'weight' },
);

export const JOINTS = form(
  'Joints',
  'rivet joints',
  [
    { key: 'joint', label: 'Joint', required: true, help: 'what is joined' },
    { key: 'component', label: 'Component', required: true, help: 'the component that the rivets are summed under' },
    { key: 'sheet1', label: 'Sheet 1 (in)', help: 'thickness of the first sheet' },
    { key: 'sheet2', label: 'Sheet 2 (in)', help: 'thickness of the second sheet' },
    { key: 'sheet3', label: 'Sheet 3 (in)', help: 'thickness of a third sheet' },
    {
      key: 'style',
      label: 'Style',
      choices: ['universal', 'flush', 'blind', 'blind retained'],
      help: 'kind of rivet; blind: the stem breaks off',
    },
    { key: 'diameter', label: 'Diameter (in)', help: 'nominal shank diameter' },
    { key: 'run', label: 'Run (in)', help: 'length of the joint' },
    { key: 'pitch', label: 'Pitch (in)', help: 'rivet to rivet along a row' },
    {
      key: 'edge',
      label: 'End margin (in)',
      also: ['Edge'],
      help: 'last rivet to the end of the run; not the edge distance, which is the flange edge',
    },
    { key: 'rows', label: 'Rows', help: 'rows of rivets' },
    { key: 'repeats', label: 'Repeats', help: 'how often the joint occurs' },
    { key: 'arm', label: 'Arm (in)', help: 'where the joint balances' },
    { key: 'grip', label: 'Grip (in)', computed: true, help: 'sheets together' },
    { key: 'rivet', label: 'Rivet', computed: true, help: 'the rivet that suits the grip' },
    { key: 'count', label: 'Rivets', required: true, computed: true, help: 'all rivets of the joint and its repeats' },
    { key: 'weight', label: 'Weight (lb)', computed: true, help: 'all rivets, installed' },
    { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'weight × arm' },
    { key: 'cost', label: 'Cost', computed: true, help: 'value of the rivets used' },
    { key: 'check', label: 'Check', computed: true, help: 'findings against the rules of practice' },
    { key: 'hours', label: 'Hours', computed: true, help: 'to drill, deburr and set them' },
    {
      key: 'flangeEdge',
      label: 'Flange edge (in)',
      help: 'edge distance: from the rivets to the edge of the sheet, across the run',
    },
    {
      key: 'staggered',
      label: 'Staggered',
      choices: ['yes', 'no'],
      help: 'every second row is offset by half a pitch',
    },
    {
      key: 'head',
      label: 'Head is',
      choices: HEAD_FORMS,
      help: 'of a flush rivet; blank: thin sheet is taken to be dimpled',
    },
    {
      key: 'sheets',
      label: 'Sheets',
      help: 'all sheets, the one under the head first, instead of Sheet 1 to 3: 0.016+0.020+0.016',
    },
    {
      key: 'sheetMaterial',
      label: 'Sheet material',
      help: 'alloy and temper of the sheets, 2024-T3: the strength depends on it',
    },
    {
      key: 'strength',
      label: 'One rivet carries',
      computed: true,
      help: 'by published values alone, for a first look; the designer’s drawing decides',
    },
  ],
  { names: ['joint', 'component'], amount: 'count' },
);

/** Bolts, nuts, hinges: what is counted by the piece and is no rivet. */
export const HARDWARE_FORM = form(
  'Hardware',
  'hardware',
  [
    { key: 'item', label: 'Item', required: true, help: 'what it is, as the price list calls it' },
    { key: 'component', label: 'Component', required: true, help: 'the component that it is summed under' },
    { key: 'quantity', label: 'Qty', required: true, help: 'pieces' },
    {
      key: 'each',
      label: 'Each (lb)',
      help: 'weight of one, from the scale or from its document; blank for an ISO bolt, nut or washer: it is computed',
    },
    { key: 'source', label: 'Weight from', help: '"weighed", or the document that the weight is from' },
    { key: 'arm', label: 'Arm (in)', help: 'where the pieces balance' },
    { key: 'weight', label: 'Weight (lb)', computed: true, help: 'all pieces of the row' },
    { key: 'moment', label: 'Moment (lb·in)', computed: true, help: 'weight × arm' },
    { key: 'cost', label: 'Cost', computed: true, help: 'value of the pieces used' },
    { key: 'basis', label: 'Basis', computed: true, help: 'what the weight rests on' },
    { key: 'note', label: 'Note', help: 'anything else' },
  ],
  { names: ['item', 'component'], amount: 'quantity' },
);

export const BUDGET = form(
  'Budget',
  'weight budget',
  [
    { key: 'component', label: 'Component', required: true, help: 'as in the parts list' },
    { key: 'budget', label: 'Budget (lb)', required: true, help: 'design weight' },
  ],
  { names: ['component'], amount: 'budget' },
);

export interface FormRow<K extends string> {
  /** Row on the sheet, from 0. */
  readonly row: number;
  /** Numbers of columns with a dimension in inch-pound units. */
  readonly cells: Readonly<Partial<Record<K, Cell>>>;
}

export interface FormHead<K extends string> {
  readonly sheet: string;
  /** Row of the header, from 0. */
  readonly header: number;
  /** Column of each key that is there, from 0. */
  readonly columns: Readonly<Partial<Record<K, number>>>;
  /** What the cells of each column with a dimension are in; missing where that cannot be told. */
  readonly units: Readonly<Partial<Record<K, Unit>>>;
  /** The system of the units that the labels name; undefined where none names one. */
  readonly named: OwnSystem | undefined;
  /** The system of labels on the sheet that name no unit: that of the others, or of the parts list where no label names one. */
  readonly system: OwnSystem;
  /** Columns whose unit cannot be told: their numbers are left out. */
  readonly refused: readonly K[];
  /** The header cells of those columns, each with what is wrong. */
  readonly problems: readonly Problem[];
}
