/** The parts list as typed rows: what is typed, what the sheet has computed, and what a weighed row would have been computed at. */
import { ByName } from '../core/names';
import { labelUnit, readUnit, unitIn, unitsOf, type Unit, type UnitSystem } from '../core/quantity';
import { LIES, type Lie } from '../core/stock/lie';
import { cellName, textIn, type Cell } from '../sheet';
import { PARTS, type PartKey } from './forms';
import { fractionIn, type Problem, type SheetValues } from './reading';
import { readPartsLists } from './match/parts-lists';
import { keptInUnits } from './project-units';
import { computedWeight, partsWithoutWeight, weightBySize } from './part-weight';
import { placeOfRow, RowReader, type FormRow, type FormSheet, type NumberRule } from './rows';
import { systemOf, THICK } from './units';

export const NO_COMPONENT = '(no component)';

export interface PartRow {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly component: string;
  readonly part: string;
  readonly quantity: number;
  readonly material: string;
  /** in */
  readonly thickness: number | undefined;
  /** Flat pattern of one part, in². */
  readonly area: number | undefined;
  /** The row on the scale, lb. */
  readonly weighed: number | undefined;
  /** in */
  readonly arm: number | undefined;
  readonly status: string;
  /** All pieces, as the sheet's own formula gives it, lb. */
  readonly weight: number | undefined;
  /** All pieces without regard to the scale, lb; undefined where the row does not say what it is made of. */
  readonly computed: number | undefined;
  /** True where no cell states the weight, and it was reckoned from material and size. */
  readonly isBySize: boolean;
  /** ± of one piece as a fraction. */
  readonly tolerance: number | undefined;
  readonly item: string;
  /** How much of the item all pieces take, as it stands in the sheet: in `useUnits`, or pieces. */
  readonly use: number | undefined;
  readonly useUnits: UseUnits | undefined;
  readonly cost: number | undefined;
  /** True where the row names a price item, or its cost is in error, and so has no cost that is known. */
  readonly unpriced: boolean;
  /** What one part is cut from, in; the width is undefined for a bar. */
  readonly cutLength: number | undefined;
  readonly cutWidth: number | undefined;
  /** How the length must lie to the grain; undefined where the row does not say. */
  readonly grain: Lie | undefined;
}

export interface PartsList {
  readonly form: FormSheet<PartKey>;
  /** The system that the parts are shown in: the workbook's. */
  readonly units: UnitSystem;
  /** What the column Use is in; undefined where that cannot be told. */
  readonly useUnits: UseUnits | undefined;
  readonly rows: readonly PartRow[];
  readonly problems: readonly Problem[];
}

const WIDEST_TOLERANCE = 0.3;
const NUMBER = { takes: 'a number' };
const WEIGHT: NumberRule = { takes: ({ unit }) => `a number of ${unit}; left out of the weights` };
const PIECES: NumberRule = { min: 0, max: 1e7, takes: 'pieces, 0 or more; counted as 1' };
/** The cost of a row; 0 for a part that costs nothing. */
export const COST: NumberRule = { takes: 'money as a bare number; the total is incomplete until then' };
const CUT: NumberRule = { above: 0, max: 12_000, takes: ({ unit }) => `${unit} above 0` };

/** The parts list, with the lists whose columns are matched; undefined where there is neither. */
export const readParts = keptInUnits((values: SheetValues, units: UnitSystem): PartsList | undefined => {
  const form = readPartsLists(values);
  if (!form) return undefined;
  const reader = new RowReader(form);
  const useUnits = readUseUnits(form, values(PARTS.sheet)?.[form.header] ?? [], reader.problems);
  const named: Named = { components: new ByName((name) => name, NO_COMPONENT), items: new ByName((name) => name) };
  const rows = form.rows.map((row) => readPart(row, reader, named, useUnits));
  return { form, units, useUnits, rows, problems: [...reader.problems, ...partsWithoutWeight(form, rows)] };
});

/** How many rows have a weight that no cell states. */
export const weighedBySize = ({ rows }: PartsList): number => rows.filter(({ isBySize }) => isBySize).length;

/** Said of so many rows wherever a report sums them; '' for none. */
export function bySizeSentence(count: number): string {
  if (count === 0) return '';
  const [weights, are] = count === 1 ? [`weight of ${count} part`, 'is'] : [`weights of ${count} parts`, 'are'];
  return `The ${weights} ${are} reckoned from material and size; holes and trimmings are not taken off.`;
}

/** The first spelling of every name, so that whoever reads the rows can compare names by their spelling. */
interface Named {
  readonly components: ByName<string>;
  readonly items: ByName<string>;
}

function readPart(
  row: FormRow<PartKey>,
  reader: RowReader<PartKey>,
  { components, items }: Named,
  useUnits: UseUnits | undefined,
): PartRow {
  const { cells } = row;
  const number = (key: PartKey): number | undefined => (typeof cells[key] === 'number' ? cells[key] : undefined);
  const { head } = placeOfRow(reader.sheet, row.row);
  const quantity = reader.number(row, 'quantity', PIECES) ?? 1;
  const cost = reader.number(row, 'cost', COST);
  askUnits(row, reader);
  const item = items.get(textIn(cells.item));
  const computed = computedWeight(cells, quantity, head.system);
  // No formula of a matched list computes what its columns say.
  const bySize = reader.sheet.matched === true ? weightBySize(cells, quantity, head.system) : undefined;
  return {
    row: row.row,
    component: components.get(textIn(cells.component)),
    part: textIn(cells.part) || '(no name)',
    quantity,
    material: textIn(cells.material),
    thickness: number('thickness'),
    area: number('area'),
    weighed: reader.number(row, 'weighed', { above: 0, takes: ({ unit }) => `${unit} above 0` }),
    arm: reader.number(row, 'arm', NUMBER),
    status: textIn(cells.status),
    weight: reader.number(row, 'weight', WEIGHT) ?? bySize,
    computed: computed ?? bySize,
    isBySize: bySize !== undefined,
    tolerance: readTolerance(row, reader),
    item,
    use: useUnits && number('use'),
    useUnits,
    cost,
    unpriced: cost === undefined && head.columns.cost !== undefined && (cells.cost !== undefined || item !== ''),
    cutLength: reader.number(row, 'cutLength', CUT),
    cutWidth: reader.number(row, 'cutWidth', CUT),
    grain: readGrain(row, reader),
  };
}

/** An area in in² that no part exceeds: two sheets of 4 × 12 ft. */
const WIDE = 2 * 48 * 144;

/** Numbers that are computed as typed although another unit was probably meant. */
function askUnits(row: FormRow<PartKey>, reader: RowReader<PartKey>): void {
  const { thickness, area } = row.cells;
  const { units } = placeOfRow(reader.sheet, row.row).head;
  if (typeof thickness === 'number' && thickness >= THICK && units.thickness?.system === 'in-lb')
    reader.problem(
      row,
      'thickness',
      `is ${reader.typed(row, 'thickness')} ${units.thickness.words}: were millimetres meant? It is counted as typed`,
    );
  if (typeof area === 'number' && area > WIDE && units.area?.system === 'in-lb')
    reader.problem(
      row,
      'area',
      `is ${reader.typed(row, 'area')} ${units.area.words}, more than two sheets of 4 × 12 ft: were square millimetres meant? A TARE function gives them with the units "mm-kg". It is counted as typed`,
    );
}

function readGrain(row: FormRow<PartKey>, reader: RowReader<PartKey>): PartRow['grain'] {
  const typed = textIn(row.cells.grain).toLowerCase();
  const grain = LIES.find((word) => word === typed);
  if (typed !== '' && !grain) reader.problem(row, 'grain', `got "${typed}"; takes ${LIES.join(', ')} or a blank`);
  return grain;
}

/** Per cent, as a fraction: 5% (which a cell holds as 0.05) and 5 mean the same, since no weight is uncertain by 100 % and more. */
function readTolerance(row: FormRow<PartKey>, reader: RowReader<PartKey>): number | undefined {
  const cell = row.cells.tolerance;
  if (cell === undefined) return undefined;
  const typed = fractionIn(cell);
  const fraction = typed !== undefined && typed >= 1 ? typed / 100 : typed;
  if (fraction !== undefined && fraction >= 0 && fraction <= WIDEST_TOLERANCE) return fraction;
  const guess =
    typed !== undefined && typed > 0 && typed < 1
      ? `. ${typed} reads as ${Math.round(typed * 100)} %: write ${typed}% if that is meant`
      : '';
  reader.problem(row, 'tolerance', `got ${String(cell)}; takes per cent from 0% to 30%${guess}`);
  return undefined;
}

const MEASURES = ['area', 'length', 'weight'] as const;
export type UseUnits = Readonly<Record<(typeof MEASURES)[number], Unit>>;

const PIECES_SIGN = /^(?:pieces?|pcs?|each)?$/i;

/**
 * What the column Use is in: of each item the unit that it is used in, area, length or weight; pieces are pieces.
 * By the units that the label names ("Use (mm², mm, kg)"); where it names none by the sheet's own system, which is
 * what its cost formulas take them in. Undefined, with a problem, where the units cannot be told.
 */
function readUseUnits<K extends string>(
  { sheet, header, columns, rows, system }: FormSheet<K | 'use'>,
  labels: readonly Cell[],
  problems: Problem[],
): UseUnits | undefined {
  const at = columns.use;
  const signs = (labelUnit(labels[at ?? -1]) ?? '')
    .split(/\s*(?:[,;/]|\bor\b)\s*/i)
    .filter((sign) => !PIECES_SIGN.test(sign));
  const read = signs.map((sign) => MEASURES.flatMap((measure) => readUnit(sign, measure) ?? [])[0]);
  const own = systemOf(read) ?? system;
  if (own !== 'both' && read.every(Boolean)) {
    return Object.fromEntries(
      MEASURES.map((measure) => [
        measure,
        read.find((unit) => unit && unitsOf(measure).includes(unit)) ?? unitIn(measure, own),
      ]),
    ) as Record<(typeof MEASURES)[number], Unit>;
  }
  if (rows.some(({ cells }) => cells.use !== undefined)) {
    const got =
      signs.length > 0
        ? `names the unit "${signs.join(', ')}"`
        : 'has no unit, and the headers beside it use inch-pound and metric ones';
    problems.push({
      sheet,
      cell: cellName(header, at ?? 0),
      message: `${got}; takes (in², in, lb) or (mm², mm, kg). Its numbers are left out`,
    });
  }
  return undefined;
}
