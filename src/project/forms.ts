/**
 * The shape of the project's own sheets: which sheet holds what, and by which header each column is
 * found. Columns may stand in any order and others may stand between them; a unit in brackets behind a
 * label ("Thickness (mm)") is no part of the name: it says what the numbers below are in.
 */
import { labelDimension, type Dimension } from '../core/quantity';
import { HEAD_FORMS } from '../core/fastener';
import { LIES } from '../core/stock/lie';
import { SALE_UNITS } from '../core/price';
import { HARDWARE } from '../core/shopping';

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

export type PartKey = FormKey<typeof PARTS>;

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

export type JointKey = FormKey<typeof JOINTS>;

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

export type HardwareKey = FormKey<typeof HARDWARE_FORM>;

export const BUDGET = form(
  'Budget',
  'weight budget',
  [
    { key: 'component', label: 'Component', required: true, help: 'as in the parts list' },
    { key: 'budget', label: 'Budget (lb)', required: true, help: 'design weight' },
  ],
  { names: ['component'], amount: 'budget' },
);

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

export const SURFACES = form('Control surfaces', 'control surfaces', [
  { key: 'surface', label: 'Surface', required: true, help: 'aileron, elevator, rudder, tab' },
  {
    key: 'component',
    label: 'Component',
    help: 'the component of the parts list whose rows are the surface, its counterweight among them if it has one',
  },
  {
    key: 'hinge',
    label: 'Hinge line (in)',
    required: true,
    help: 'arm of the hinge line, from the datum of the parts list',
  },
  {
    key: 'raising',
    label: 'Raising (lb)',
    help: 'scale under the trailing edge while it is raised slowly; negative where it has to be held down',
  },
  { key: 'lowering', label: 'Lowering (lb)', help: 'the same while it is lowered slowly' },
  { key: 'scaleArm', label: 'Scale arm (in)', help: 'from the hinge line aft to the scale, the surface level' },
  {
    key: 'ahead',
    label: 'Counterweight arm (in)',
    help: 'from the hinge line forward to where a counterweight can go',
  },
  { key: 'share', label: 'Share (%)', help: 'per cent of the moment to be taken up; blank: 100, full static balance' },
  {
    key: 'partsMoment',
    label: 'From parts (lb·in)',
    computed: true,
    help: 'moment of the parts about the hinge line; positive: trailing-edge heavy',
  },
  { key: 'measured', label: 'Measured (lb·in)', computed: true, help: 'mean of both readings × scale arm' },
  {
    key: 'counterweight',
    label: 'Counterweight (lb)',
    computed: true,
    help: 'that takes up the share of the moment: of the measured one where there is one',
  },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type SurfaceKey = FormKey<typeof SURFACES>;

export const STOCK = form('Stock', 'stock', [
  {
    key: 'name',
    label: 'Name',
    required: true,
    help: 'sheet, bar or leftover; as the price list calls it where it is to come off the shopping list',
  },
  { key: 'material', label: 'Material', help: 'alloy and temper, as in the parts list' },
  { key: 'thickness', label: 'Thickness (in)', help: 'of sheet, or of a wall' },
  { key: 'length', label: 'Length (in)', required: true, help: 'of a sheet: the way its grain runs' },
  { key: 'width', label: 'Width (in)', help: 'of a sheet; none for a bar' },
  {
    key: 'grain',
    label: 'Grain',
    choices: ['along', 'across', 'not known'],
    help: 'how the grain runs to the length; across: the sheet is read the other way round',
  },
  {
    key: 'available',
    label: 'Available',
    help: 'pieces on the shelf or to be had; blank: one of a leftover, else as many as are needed',
  },
  {
    key: 'offcut',
    label: 'Leftover',
    choices: ['yes', 'no'],
    help: 'yes: on the shelf already, spent first and at no cost',
  },
  { key: 'cost', label: 'Cost', help: 'of one' },
  {
    key: 'off',
    label: 'Takes off the list',
    choices: ['yes', 'no'],
    help: 'yes: you had it before this project, so it shortens the shopping list; leave it blank for what is on the sheet Purchases',
  },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type StockSheetKey = FormKey<typeof STOCK>;

export const PURCHASES = form('Purchases', 'purchases', [
  { key: 'date', label: 'Date', required: true, help: 'a spreadsheet date, or 2026-03-31' },
  { key: 'supplier', label: 'Supplier', help: 'as the price list calls it' },
  {
    key: 'item',
    label: 'Item',
    required: true,
    help: 'as the price list calls it; anything else counts as spent alone',
  },
  { key: 'units', label: 'Quantity', help: 'in sale units: sheets, pounds, hundreds' },
  { key: 'paid', label: 'Paid', required: true, help: 'for all of it, with freight and tax' },
  { key: 'currency', label: 'Currency', help: 'three letters; blank: your own' },
  { key: 'note', label: 'Note', help: 'anything else' },
  {
    key: 'soldBy',
    label: 'Sold by',
    choices: SALE_UNITS,
    help: 'what one of the quantity is, as in the price list; blank: as the supplier sells it',
  },
]);
export type PurchaseKey = FormKey<typeof PURCHASES>;

/** Three lists side by side on one sheet: each is found by its own labels. */
export const BUYING_SHEET = 'Buying';
export const OWN_CURRENCY = 'Own currency';
/** Labels of what cutting plans go by, each with its value in the cell to the right. */
export const CUTTING_FACTS = {
  kerf: 'Kerf (in)',
  keepFrom: 'Leftovers kept from (in)',
  scrapBelow: 'Cut from scrap up to (in)',
  turn: 'Sheet parts may be turned',
} as const;
export type CuttingFact = keyof typeof CUTTING_FACTS;

export const SPARES_LIST = form(BUYING_SHEET, 'spares', [
  {
    key: 'kind',
    label: 'Kind of hardware',
    required: true,
    choices: HARDWARE,
    help: 'sheet, bar, solid rivet, blind rivet or other',
  },
  { key: 'spares', label: 'Spares (%)', required: true, help: 'bought beyond the need: 15%' },
]);
export const CHARGE_LIST = form(BUYING_SHEET, 'charges of suppliers', [
  { key: 'supplier', label: 'Charges of', required: true, help: 'supplier, as in the price list' },
  { key: 'freight', label: 'Freight', help: 'for one order, own currency' },
  { key: 'cutCharge', label: 'Cut charge', help: 'for one cut, own currency' },
  { key: 'cuts', label: 'Cuts', help: 'that the supplier makes' },
]);
export const RATE_LIST = form(BUYING_SHEET, 'rates of currencies', [
  { key: 'currency', label: 'Other currency', required: true, help: 'three letters' },
  { key: 'rate', label: 'Rate', required: true, help: 'your own currency for one of it' },
  { key: 'date', label: 'Rate of', help: 'day of the rate' },
]);
