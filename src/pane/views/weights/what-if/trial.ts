/**
 * A swap tried out in a copy of the workbook, with the sheet's own formulas.
 *
 * It is not tried in the workbook itself: Excel saves, shares and recalculates every write as it is made,
 * its own undo would hold the trial, and a pane that is closed half way would leave it in the sheet. Nor is
 * it enough to compute the picked rows anew: a gauge cell that several rows follow, a flat pattern that depends
 * on the thickness and the rivets of a thicker joint all move with it. The copy holds all of that.
 */
import {
  projectSheetsOf,
  summarise,
  weightsModel,
  type ComponentSummary,
  type ProjectSummary,
  type WeightsModel,
} from '../../../../project';
import { CellError, type CellPlace, type WorkbookModel } from '../../../../sheet';
import { t } from '../../../locale';
import type { Recalculate } from '../../../shared/view';
import { cellIn, withWrites } from './book-copy';
import { cellsOfRow, placeIn, placeName, planSwap, type Swap, type Wish } from './swap';

/** What the sheets say at one state. */
export interface Standing {
  readonly weights: WeightsModel;
  readonly summary: ProjectSummary;
}

export interface Sum {
  /** lb */
  readonly weight: number;
  /** in; undefined where nothing weighs */
  readonly arm: number | undefined;
  /** lb·in */
  readonly moment: number;
  /** Undefined where a row's cost is not known: that would not be the cost of all. */
  readonly cost: number | undefined;
}

export interface BeforeAfter<T> {
  readonly before: T;
  readonly after: T;
}

export interface RowMove extends BeforeAfter<number | undefined> {
  readonly row: number;
  readonly name: string;
  readonly picked: boolean;
  /** Its thickness or material changes, and what was weighed stays. */
  readonly weighedStays: boolean;
}

export interface Outcome {
  readonly swap: Swap;
  readonly picked: BeforeAfter<Sum>;
  readonly standing: BeforeAfter<Standing>;
  /** Components whose weight or cost changes, by name. */
  readonly components: readonly string[];
  /** Rows whose weight changes, and those that follow the change without being picked. */
  readonly rows: readonly RowMove[];
  /** Costs that are not known any more, in words. */
  readonly unpriced: readonly string[];
}

export class Trial {
  private constructor(
    private readonly recalculate: Recalculate,
    readonly model: WorkbookModel,
    /** The workbook with the formulas that cannot be calculated, so that planning does not take them for typed values. */
    readonly planned: WorkbookModel,
    readonly standing: Standing,
    /** What the copy cannot follow, in words: figures that rest on it stay as they are. */
    readonly doubts: readonly string[],
  ) {}

  /** Undefined where there is no parts list. */
  static of(copy: WorkbookModel, recalculate: Recalculate): Trial | undefined {
    const { model, kept } = recalculate(copy);
    const standing = standingOf(model);
    if (!standing) return undefined;
    const unknown = kept.map(({ functionName, ...place }) =>
      functionName
        ? t('{cell} uses {name}, which the trial does not know: its value is kept as it is.', {
            cell: placeName(place),
            name: functionName,
          })
        : t('{cell} holds a formula that the trial does not know: its value is kept as it is.', {
            cell: placeName(place),
          }),
    );
    return new Trial(recalculate, model, withFormulas(model, copy, kept), standing, [
      ...unknown,
      ...differences(copy, model, standing.weights).map((cell) =>
        t('{cell} does not come out as the sheet shows it.', { cell }),
      ),
    ]);
  }

  outcome(wish: Wish): Outcome {
    const swap = planSwap(this.planned, this.standing.weights.parts, wish);
    const before = this.standing;
    const after = standingOf(this.recalculate(withWrites(this.model, swap.edits)).model) ?? before;
    const picked = new Set(wish.rows);
    const unpriced = new Set(unpricedIn(before));
    const names = [...new Set([...before.summary.components, ...after.summary.components].map(({ name }) => name))];
    return {
      swap,
      picked: { before: sumOf(before, picked), after: sumOf(after, picked) },
      standing: { before, after },
      components: names.filter((name) => moves(componentOf(before, name), componentOf(after, name))),
      rows: rowMoves(before, after, picked),
      unpriced: unpricedIn(after).filter((words) => !unpriced.has(words)),
    };
  }
}

function withFormulas(model: WorkbookModel, copy: WorkbookModel, places: readonly CellPlace[]): WorkbookModel {
  if (places.length === 0) return model;
  const sheets = model.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map((line) => line && [...line]) }));
  for (const { sheet, row, column } of places) {
    const line = sheets.find(({ name }) => name === sheet)?.cells[row];
    if (line?.[column]) line[column] = { ...line[column], formula: cellIn(copy, { sheet, row, column })!.formula! };
  }
  return { ...model, sheets };
}

function standingOf(model: WorkbookModel): Standing | undefined {
  const { values, units, prices } = projectSheetsOf(model);
  const weights = weightsModel(values, units);
  const summary = summarise(values, units, prices?.book);
  return weights && summary && { weights, summary };
}

const componentOf = ({ summary }: Standing, name: string): Pick<ComponentSummary, 'weight' | 'cost'> | undefined =>
  summary.components.find((one) => one.name === name);

/** Differences up to this are rounding. */
const SAME = 1e-9;
const differ = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined ? a !== b : Math.abs(a - b) > SAME * Math.max(1, Math.abs(a));
const moves = (
  a: Pick<ComponentSummary, 'weight' | 'cost'> | undefined,
  b: Pick<ComponentSummary, 'weight' | 'cost'> | undefined,
): boolean => differ(a?.weight, b?.weight) || differ(a?.cost, b?.cost);

function sumOf({ weights }: Standing, picked: ReadonlySet<number>): Sum {
  const parts = weights.parts.rows.filter(({ row }) => picked.has(row));
  const weight = parts.reduce((sum, part) => sum + (part.weight ?? 0), 0);
  const moment = parts.reduce((sum, part) => sum + (part.weight ?? 0) * (part.arm ?? 0), 0);
  return {
    weight,
    moment,
    arm: weight === 0 ? undefined : moment / weight,
    cost: parts.some(({ row }) => costError(weights, row))
      ? undefined
      : parts.reduce((sum, part) => sum + (part.cost ?? 0), 0),
  };
}

function costError({ parts }: WeightsModel, row: number): CellError | undefined {
  const { cost } = cellsOfRow(parts, row);
  return cost instanceof CellError ? cost : undefined;
}

const unpricedIn = ({ weights }: Standing): string[] =>
  weights.parts.rows.flatMap(({ row, part }) => {
    const error = costError(weights, row);
    return error ? [t('{part} has no cost then: {why}', { part, why: error.message || error.code })] : [];
  });

function rowMoves(before: Standing, after: Standing, all: ReadonlySet<number>): RowMove[] {
  const later = new Map(after.weights.parts.rows.map((part) => [part.row, part]));
  return before.weights.parts.rows.flatMap((part): RowMove[] => {
    const then = later.get(part.row);
    const picked = all.has(part.row);
    const follows = then !== undefined && (then.thickness !== part.thickness || then.material !== part.material);
    const weighedStays = follows && then.weighed !== undefined;
    return differ(part.weight, then?.weight) || weighedStays || (picked && follows)
      ? [{ row: part.row, name: part.part, picked, weighedStays, before: part.weight, after: then?.weight }]
      : [];
  });
}

/** Cells of the parts list that the copy, recalculated without a change, gives otherwise than the sheet. */
function differences(copy: WorkbookModel, recalculated: WorkbookModel, { parts }: WeightsModel): string[] {
  const places = parts.rows.flatMap(({ row }) =>
    (['weight', 'cost', 'thickness'] as const).flatMap((key) => placeIn(parts, row, key) ?? []),
  );
  const differing = places.filter((place) => {
    const [was, is] = [cellIn(copy, place)?.value, cellIn(recalculated, place)?.value];
    return typeof was === 'number' && typeof is === 'number'
      ? Math.abs(was - is) > 1e-6 * Math.max(1, Math.abs(was))
      : typeof was !== typeof is && Boolean(was || is);
  });
  return differing.map(placeName);
}
