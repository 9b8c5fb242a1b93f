/**
 * What the project's sheets say of its weights: components against the budget, the heaviest parts, the
 * scale against the list, and the log. Nothing is computed here that src/core/mass does not compute;
 * what is in error is named among the problems and left out.
 */
import {
  applyBias,
  isBiasCertain,
  isWeighed,
  weighingBias,
  weightBands,
  type Bias,
  type BudgetLine,
  type Corrected,
  type WeightBand,
} from '../core/mass';
import { ByName, nameKey } from '../core/names';
import type { UnitSystem } from '../core/quantity';
import { readComponents, type Components, type ProjectAllowances, type WeighingRow } from './components';
import { readLog, type WeightLog } from './log';
import { partsHead, readPartsLists } from './match/parts-lists';
import { readParts, type PartRow, type PartsList } from './parts';
import type { Problem, SheetValues } from './reading';
import { keptInUnits } from './project-units';
import type { MissingRows } from './rivet-rows';

export interface ComponentWeights extends Omit<BudgetLine, 'group'> {
  readonly name: string;
  /** Rows on the parts list, from 0: what a picture's bar selects, and a swap of all changes. Also those of which no weight is known. */
  readonly rows: readonly number[];
  /** ± by the tolerances of its rows, lb: root-sum-square, and all the same way. 0 where no row has one. */
  readonly rootSum: number;
  readonly worst: number;
}

export interface HeavyPart {
  readonly row: number;
  readonly component: string;
  readonly part: string;
  readonly weight: number;
  /** Share of the weight of all parts, per cent; undefined where nothing has a weight. */
  readonly percent: number | undefined;
  /** Of this and all heavier parts together, per cent. */
  readonly together: number | undefined;
}

export interface WeighedDifference {
  readonly row: number;
  readonly component: string;
  readonly part: string;
  readonly computed: number;
  readonly weighed: number;
  /** Weighed less computed, lb. */
  readonly difference: number;
  readonly differencePercent: number;
}

export interface WeightsModel {
  /** Name of the parts list's sheet. */
  readonly sheet: string;
  /** The system that the weights are shown in: the workbook's. All weights here are in lb, arms in in. */
  readonly units: UnitSystem;
  readonly parts: PartsList;
  readonly components: readonly ComponentWeights[];
  readonly total: ComponentWeights;
  /** Every part with a weight, heaviest first. */
  readonly heaviest: readonly HeavyPart[];
  readonly differences: readonly WeighedDifference[];
  readonly bias: Bias | undefined;
  /** True where the bias is larger than its own uncertainty. */
  readonly biasCertain: boolean;
  /** Of the weight now, the share of rows that state a tolerance, per cent. */
  readonly tolerancedPercent: number | undefined;
  readonly allowances: ProjectAllowances;
  readonly log: WeightLog | undefined;
  /** Components whose rivets or hardware no row of the parts list brings in. */
  readonly missing: readonly MissingRows[];
  readonly problems: readonly Problem[];
}

/** Undefined where there is no sheet with the parts list's header. */
export const weightsModel = keptInUnits((values: SheetValues, units: UnitSystem): WeightsModel | undefined => {
  const read = readComponents(values, units);
  if (!read) return undefined;
  const { parts, known, allowances } = read;
  const log = readLog(values, units);
  const [components, total] = withBands(read);
  const differences = differencesOf(parts.rows);
  const bias = weighingBias(differences);
  const toleranced = known.reduce((sum, { weight, tolerance }) => sum + (tolerance === undefined ? 0 : weight), 0);
  return {
    sheet: parts.form.sheet,
    units,
    parts,
    components,
    total,
    heaviest: heaviestFirst(known),
    differences,
    bias,
    biasCertain: bias !== undefined && isBiasCertain(bias),
    tolerancedPercent: total.current > 0 ? (100 * toleranced) / total.current : undefined,
    allowances,
    log,
    missing: read.missing,
    problems: [...read.problems, ...(log?.problems ?? [])],
  };
});

/**
 * What the model rests on, each kept once it was made: of a long list each takes a while, and whoever goes through them
 * before asking for the model can have the page answer between.
 */
export const WEIGHTS_STEPS: readonly ((values: SheetValues, units: UnitSystem) => unknown)[] = [
  partsHead,
  readPartsLists,
  readParts,
  readComponents,
];

function withBands({ parts, known, lines, total }: Components): [ComponentWeights[], ComponentWeights] {
  // Rows of one material and thickness are cut from like sheets: their errors are taken to go the same way, which gives the wider band.
  const bands = weightBands(
    known.map(({ component, weight, tolerance = 0, material, thickness }) => ({
      group: component,
      weight,
      tolerance: { fraction: tolerance },
      lot: thickness === undefined ? '' : `${material} ${thickness}`,
    })),
  );
  const bandOf = new Map(bands.slice(0, -1).map((band) => [nameKey(band.group), band]));
  const rowsOf = new ByName((): number[] => []);
  for (const { component, row } of parts.rows) rowsOf.get(component).push(row);
  const component = (
    { group, ...line }: BudgetLine,
    rows: readonly number[],
    band: WeightBand | undefined,
  ): ComponentWeights => ({ name: group, ...line, rows, rootSum: band?.rootSum ?? 0, worst: band?.worst ?? 0 });
  return [
    lines.map((line) => component(line, rowsOf.known(line.group) ?? [], bandOf.get(nameKey(line.group)))),
    component(
      total,
      parts.rows.map(({ row }) => row),
      bands.at(-1),
    ),
  ];
}

function heaviestFirst(parts: readonly WeighingRow[]): HeavyPart[] {
  const all = parts.reduce((sum, { weight }) => sum + weight, 0);
  const percent = (weight: number): number | undefined => (all > 0 ? (100 * weight) / all : undefined);
  let together = 0;
  return parts
    .filter(({ weight }) => weight !== 0)
    .sort((a, b) => b.weight - a.weight)
    .map(({ row, component, part, weight }) => {
      together += weight;
      return { row, component, part, weight, percent: percent(weight), together: percent(together) };
    });
}

const differencesOf = (rows: readonly PartRow[]): WeighedDifference[] =>
  rows.flatMap(({ row, component, part, computed, weighed }): WeighedDifference[] => {
    if (computed === undefined || computed <= 0 || weighed === undefined) return [];
    const difference = weighed - computed;
    return [{ row, component, part, computed, weighed, difference, differencePercent: (100 * difference) / computed }];
  });

export interface BiasedWeight {
  readonly name: string;
  /** lb, of rows that have not been on the scale, as listed. */
  readonly rest: number;
  /** The rest as the bias would have it. */
  readonly corrected: Corrected;
  /** What has been weighed, and the rest corrected. */
  readonly weight: number;
}

/** Each component and last the total with the bias of the weighed parts applied to the rest; empty where no part tells of a bias. */
export function withBias({ bias, components, total, parts }: WeightsModel): BiasedWeight[] {
  if (!bias) return [];
  const onScale = (part: PartRow): boolean => part.weighed !== undefined || isWeighed(part.status);
  const weightIn = (parts: readonly PartRow[], weighed: boolean): number =>
    parts.reduce((sum, part) => sum + (onScale(part) === weighed ? (part.weight ?? 0) : 0), 0);
  return [...components, total].map(({ name, rows }) => {
    const own = new Set(rows);
    const list = parts.rows.filter(({ row }) => own.has(row));
    const rest = weightIn(list, false);
    const corrected = applyBias(bias, rest);
    return { name, rest, corrected, weight: weightIn(list, true) + corrected.weight };
  });
}
