/** The report's sections on rivets and on what the material costs. */
import { fraction, rivet, type Rivet } from '../core/fastener';
import { InputError } from '../core/input-error';
import { readPriceList } from '../core/price';
import { CellError } from '../sheet';
import { JOINTS, numberIn, readSheet, textIn, type PartsList, type SheetValues } from '../project';
import { writeEnglish, type Quantities } from '../core/quantity';
import { join, paragraph, section, subheading, table, type Html } from './html';
import { numberColumn, quantityColumns } from './numbers';

interface RivetLine {
  readonly designation: string;
  /** Undefined where the designation is not known. */
  readonly read: Rivet | undefined;
  count: number;
  weight: number;
  cost: number;
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
function readJoints(values: SheetValues): Joints | undefined {
  const form = readSheet(values, JOINTS);
  if (!form) return undefined;
  const lines = new Map<string, RivetLine>();
  const findings: Finding[] = [];
  let checked = 0;
  for (const { cells: row } of form.rows) {
    const designation = textIn(row.rivet);
    const check = row.check instanceof CellError ? row.check.toString() : textIn(row.check);
    if (check !== '') checked++;
    if (check !== '' && check.toLowerCase() !== 'ok')
      findings.push({ joint: textIn(row.joint), component: textIn(row.component), rivet: designation, check });
    if (designation === '') continue;
    const line = lines.get(designation) ?? { designation, read: readRivet(designation), count: 0, weight: 0, cost: 0 };
    lines.set(designation, line);
    line.count += numberIn(row.count) ?? 0;
    line.weight += numberIn(row.weight) ?? 0;
    line.cost += numberIn(row.cost) ?? 0;
  }
  return { lines: [...lines.values()].sort(byKind), findings, checked };
}

function readRivet(designation: string): Rivet | undefined {
  try {
    return rivet(designation);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

const STYLES = ['universal', 'flush', 'blind'];
/** Kind, then diameter, then length. */
function byKind(a: RivetLine, b: RivetLine): number {
  const key = ({ read }: RivetLine): number[] =>
    read ? [STYLES.indexOf(read.style), read.dash, read.length] : [STYLES.length, 0, 0];
  const [first, second] = [key(a), key(b)];
  const differs = first.findIndex((value, index) => value !== second[index]);
  return differs < 0 ? a.designation.localeCompare(b.designation) : first[differs]! - second[differs]!;
}

export function rivetsSection(values: SheetValues, currency: string, say: Quantities): Html | undefined {
  const joints = readJoints(values);
  if (!joints || joints.lines.length + joints.findings.length === 0) return undefined;
  const { lines, findings, checked } = joints;
  const quantity = quantityColumns(say);
  const sum = (key: 'count' | 'weight' | 'cost'): number => lines.reduce((all, line) => all + line[key], 0);
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
          cell: ({ read }) => (read ? say.bare(read.length, 'length', 3) : ''),
        },
        {
          head: 'Grip',
          unit: `up to, ${say.sign('length')}`,
          number: true,
          cell: ({ read }) => (read?.kind === 'blind' ? say.bare(read.gripMax, 'length', 3) : ''),
        },
        numberColumn('Number', undefined, 0, ({ count }) => count),
        quantity('Weight', 'weight', 3, ({ weight }) => weight),
        numberColumn('Cost', currency, 2, ({ cost }) => cost),
      ],
      rows: lines,
      total: { designation: 'Total', read: undefined, count: sum('count'), weight: sum('weight'), cost: sum('cost') },
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
  cost: number;
}

/** What the rows of the parts list cost, by the item that they are made from. */
export function costsSection({ rows, useUnits }: PartsList, rivets: number, currency: string): Html | undefined {
  const items = new Map<string, ItemLine>();
  for (const { item, use, cost } of rows) {
    if (item === '' || cost === undefined) continue;
    const line = items.get(item) ?? { item, rows: 0, use: 0, cost: 0 };
    items.set(item, line);
    line.rows += 1;
    line.use += use ?? 0;
    line.cost += cost;
  }
  const lines = [...items.values()].sort((a, b) => b.cost - a.cost);
  if (lines.length === 0 && rivets === 0) return undefined;
  const all: ItemLine[] = [
    ...lines,
    ...(rivets > 0 ? [{ item: 'Rivets, from the joints', rows: 0, use: 0, cost: rivets }] : []),
  ];
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
        numberColumn('Cost', currency, 2, ({ cost }) => cost),
      ],
      rows: all,
      total: { item: 'Total', rows: 0, use: 0, cost: all.reduce((sum, { cost }) => sum + cost, 0) },
    }),
    paragraph('Value of what is used, at the price list’s prices. Whole sheets, bars and packs cost more.', 'note'),
  );
}

/** The price list's currency, where its rows agree on one; ''. */
export function currencyOf(values: SheetValues): string {
  const cells = values('Prices');
  if (!cells) return '';
  const { rows } = readPriceList(cells.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell))));
  const currencies = new Set(rows.map(({ currency }) => currency).filter(Boolean));
  return currencies.size === 1 ? String([...currencies][0]) : '';
}
