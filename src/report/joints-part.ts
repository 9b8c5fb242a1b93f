/** The report's sections on rivets, on hardware, and on what the material costs. */
import { fraction, type Rivet } from '../core/fastener';
import { ByName } from '../core/names';
import { CostSum, oneAmount, type Cost } from '../core/price';
import { CellError, textIn } from '../sheet';
import {
  addCost,
  currencyOfItems,
  JOINTS,
  namedRivet,
  numberIn,
  readHardware,
  readOwnRivetSheet,
  readSheet,
  type HardwareSheet,
  type PartsList,
  type ProjectSheets,
  type ProjectSummary,
  type SheetValues,
} from '../project';
import { writeEnglish, type Quantities } from '../core/quantity';
import {
  costColumn,
  join,
  numberColumn,
  paragraph,
  quantityColumns,
  section,
  subheading,
  table,
  type Html,
} from './html';

interface RivetLine {
  readonly designation: string;
  /** Undefined where the designation is not known. */
  readonly read: Rivet | undefined;
  count: number;
  weight: number;
  readonly costs: Cost;
}

interface Finding {
  readonly joint: string;
  readonly component: string;
  readonly rivet: string;
  readonly check: string;
}

interface Joints {
  readonly lines: readonly RivetLine[];
  readonly findings: readonly Finding[];
  readonly checked: number;
}

/** The rivets of all joints by designation, and what the checks found; undefined without a sheet of joints. */
function readJoints(values: SheetValues, currencyOf: (item: string) => string): Joints | undefined {
  const form = readSheet(values, JOINTS);
  if (!form) return undefined;
  const own = readOwnRivetSheet(values)?.rivets;
  const lines = new ByName((designation): RivetLine & { readonly costs: CostSum } => ({
    designation,
    read: namedRivet(designation, own),
    count: 0,
    weight: 0,
    costs: new CostSum(),
  }));
  const findings: Finding[] = [];
  let checked = 0;
  for (const { cells: row } of form.rows) {
    const designation = textIn(row.rivet);
    const check = row.check instanceof CellError ? row.check.toString() : textIn(row.check);
    if (check !== '') checked++;
    if (check !== '' && check.toLowerCase() !== 'ok')
      findings.push({ joint: textIn(row.joint), component: textIn(row.component), rivet: designation, check });
    if (designation === '') continue;
    const line = lines.get(designation);
    line.count += numberIn(row.count) ?? 0;
    line.weight += numberIn(row.weight) ?? 0;
    addCost([line.costs], numberIn(row.cost), currencyOf(designation), form.columns.cost !== undefined);
  }
  const found = lines.entries().map(({ value }) => value);
  return { lines: found.sort(byKind), findings, checked };
}

const STYLES = ['universal', 'flush', 'blind'];
/** Kind, then diameter, then length. */
function byKind(a: RivetLine, b: RivetLine): number {
  const key = ({ read }: RivetLine): number[] =>
    read ? [STYLES.indexOf(read.style), read.dash, read.length ?? 0] : [STYLES.length, 0, 0];
  const [first, second] = [key(a), key(b)];
  const differs = first.findIndex((value, index) => value !== second[index]);
  return differs < 0 ? a.designation.localeCompare(b.designation) : first[differs]! - second[differs]!;
}

export function rivetsSection({ values, prices }: ProjectSheets, costs: Cost, say: Quantities): Html | undefined {
  const joints = readJoints(values, currencyOfItems(prices?.book));
  const currency = prices?.currency ?? '';
  if (!joints || joints.lines.length + joints.findings.length === 0) return undefined;
  const { lines, findings, checked } = joints;
  const quantity = quantityColumns(say);
  const sum = (key: 'count' | 'weight'): number => lines.reduce((all, line) => all + line[key], 0);
  return section(
    'Rivets',
    table<RivetLine>({
      columns: [
        { head: 'Rivet', cell: ({ designation }) => designation },
        { head: 'Kind', cell: ({ read }) => read?.style ?? '' },
        // Rivets are made, sold and drilled for by fractions of an inch; a metric workbook has the millimetres as well.
        { head: 'Diameter', unit: 'in', number: true, cell: ({ read }) => (read ? fraction(read.dash) : '') },
        ...(say.system === 'mm-kg'
          ? [
              {
                head: 'Diameter',
                unit: 'mm',
                number: true,
                cell: ({ read }: RivetLine) => (read ? say.bare(read.nominal, 'length', 3) : ''),
              },
            ]
          : []),
        {
          head: 'Length',
          unit: say.sign('length'),
          number: true,
          cell: ({ read }) => (read?.length === undefined ? '' : say.bare(read.length, 'length', 3)),
        },
        {
          head: 'Grip',
          unit: `up to, ${say.sign('length')}`,
          number: true,
          cell: ({ read }) =>
            read && read.kind !== 'solid' && read.gripMax !== undefined ? say.bare(read.gripMax, 'length', 3) : '',
        },
        numberColumn('Number', undefined, 0, ({ count }) => count),
        quantity('Weight', 'weight', 3, ({ weight }) => weight),
        costColumn(currency, ({ costs }) => costs),
      ],
      rows: lines,
      total: { designation: 'Total', read: undefined, count: sum('count'), weight: sum('weight'), costs },
    }),
    checked > 0 &&
      findings.length === 0 &&
      paragraph(`The checks of ${checked} joints against the rules of practice found nothing.`),
    findings.length > 0 &&
      join(
        subheading('What the checks found'),
        table<Finding>({
          columns: [
            { head: 'Joint', cell: ({ joint }) => joint },
            { head: 'Component', cell: ({ component }) => component },
            { head: 'Rivet', cell: ({ rivet: designation }) => designation },
            { head: 'Finding', cell: ({ check }) => check },
          ],
          rows: findings,
        }),
      ),
  );
}

interface ItemLine {
  readonly item: string;
  rows: number;
  use: number;
  readonly costs: Cost;
}

/** What the rows of the parts list cost, by the item that they are made from. */
export function costsSection(
  { rows, useUnits }: PartsList,
  { total, rivetCosts, hardwareCosts }: ProjectSummary,
  currency: string,
  currencyOf: (item: string) => string,
): Html | undefined {
  const items = new ByName((item): ItemLine & { readonly costs: CostSum } => ({
    item,
    rows: 0,
    use: 0,
    costs: new CostSum(),
  }));
  for (const { item, use, cost, unpriced } of rows) {
    if (item === '' || (cost === undefined && !unpriced)) continue;
    const line = items.get(item);
    line.rows += 1;
    line.use += use ?? 0;
    addCost([line.costs], cost, currencyOf(item), true);
  }
  const lines = items
    .entries()
    .map(({ value }) => value)
    .sort((a, b) => (oneAmount(b.costs) ?? 0) - (oneAmount(a.costs) ?? 0));
  const isPriced = ({ unpriced, amounts }: Cost): boolean => unpriced > 0 || amounts.some(({ amount }) => amount > 0);
  const others = [
    { item: 'Rivets, from the joints', rows: 0, use: 0, costs: rivetCosts },
    { item: 'Hardware, from its sheet', rows: 0, use: 0, costs: hardwareCosts },
  ].filter(({ costs }) => isPriced(costs));
  if (lines.length === 0 && others.length === 0) return undefined;
  return section(
    'Material by cost',
    table<ItemLine>({
      columns: [
        { head: 'Item', cell: ({ item }) => item },
        { head: 'Rows', number: true, cell: (line) => (line.rows > 0 ? writeEnglish(line.rows, 0) : '') },
        ...(useUnits
          ? [
              {
                head: 'Use',
                unit: `${useUnits.area.sign}, ${useUnits.length.sign} or pieces`,
                number: true,
                cell: ({ use }: ItemLine) => (use > 0 ? writeEnglish(use, 1) : ''),
              },
            ]
          : []),
        costColumn(currency, ({ costs }) => costs),
      ],
      rows: [...lines, ...others],
      total: { item: 'Total', rows: 0, use: 0, costs: total.costs },
    }),
    paragraph('Value of what is used, at the price list’s prices. Whole sheets, bars and packs cost more.', 'note'),
  );
}

interface HardwareLine {
  readonly item: string;
  count: number;
  weight: number;
  readonly bases: Set<string>;
  readonly costs: Cost;
}

/** One line an item, in the order of the sheet. */
function linesOf({ rows, form }: HardwareSheet, currencyOf: (item: string) => string): HardwareLine[] {
  const lines = new ByName((item): HardwareLine & { readonly costs: CostSum } => ({
    item,
    count: 0,
    weight: 0,
    bases: new Set(),
    costs: new CostSum(),
  }));
  for (const { item, quantity, weight = 0, cost, basis } of rows) {
    if (item === '') continue;
    const line = lines.get(item);
    line.count += quantity;
    line.weight += weight;
    if (basis !== '') line.bases.add(basis);
    addCost([line.costs], cost, currencyOf(item), form.columns.cost !== undefined);
  }
  return lines.entries().map(({ value }) => value);
}

/** Undefined without a sheet Hardware that has a row. */
export function hardwareSection({ values, prices }: ProjectSheets, costs: Cost, say: Quantities): Html | undefined {
  const sheet = readHardware(values);
  const lines = sheet ? linesOf(sheet, currencyOfItems(prices?.book)) : [];
  if (lines.length === 0) return undefined;
  const quantity = quantityColumns(say);
  const sum = (key: 'count' | 'weight'): number => lines.reduce((all, line) => all + line[key], 0);
  return section(
    'Hardware',
    table<HardwareLine>({
      columns: [
        { head: 'Item', cell: ({ item }) => item },
        numberColumn('Number', undefined, 0, ({ count }) => count),
        quantity('Weight', 'weight', 3, ({ weight }) => weight),
        { head: 'Weight from', cell: ({ bases }) => [...bases].join('; ') },
        costColumn(prices?.currency ?? '', (line) => line.costs),
      ],
      rows: lines,
      total: { item: 'Total', count: sum('count'), weight: sum('weight'), bases: new Set(), costs },
    }),
  );
}
