/** Cutting plans for sheets: strips across the sheet, then pieces from the strip; several sizes with their prices, offcuts first, least cost. */
import { InputError } from '../input-error';
import { Control } from './control';
import { availableOf, checkedStock, Dealer, gather, patternsOf, planCosts, planHead, type CutFrom } from './plan-input';
import type {
  Piece,
  Rectangle,
  SheetPart,
  SheetPatternUse,
  SheetPlan,
  SheetPlanOptions,
  SheetStock,
  StripUse,
} from './plan';
import { spendSheetOffcuts } from './sheet-fill';
import {
  FIT,
  stripClasses,
  type CutSheet,
  type SheetProblem,
  type SheetSource,
  type StripClass,
  type Way,
} from './sheet-problem';
import { searchSheets } from './sheet-search';

/**
 * The plan that costs least, or the best found in the time allowed, with a proven lower bound for plans of
 * two stages with trimming. Where no stock has a cost the plan is for least area, and its cost and bound are areas.
 * @throws InputError for a part that fits no sheet in the way it must lie, and for what cannot be a part or a sheet
 */
export async function planSheets(
  parts: readonly SheetPart[],
  stock: readonly SheetStock[],
  options: SheetPlanOptions,
): Promise<SheetPlan> {
  const { solver, kerf = 0, seed = 1, scrapBelow = 0, keepFrom = 0, strips = 'along' } = options;
  const sheets = checkedStock(parts, stock, kerf, 'sheet');
  const isScrap = ({ length, width }: SheetPart): boolean => Math.max(length, width) <= scrapBelow;
  const scrap = parts.filter(isScrap);
  const cut = parts.filter((part) => part.quantity > 0 && !isScrap(part));
  cut.forEach((part) => checkFits(part, sheets));

  const control = new Control(options);
  const kinds = gather(cut, ({ length, width, lie = 'along' }) => `${length} ${width} ${length === width ? '' : lie}`);
  const size = (index: number): number => sheets[index]!.length * sheets[index]!.width;
  const costs = planCosts(sheets, size);
  const problem: SheetProblem = {
    kinds: kinds.map(({ part, demand }) => ({ demand, ways: [waysOf(part, 0, kerf), waysOf(part, 1, kerf)] })),
    stocks: sheets.map((sheet, index) => ({ cost: costs[index]!, available: availableOf(sheet) })),
    sources: sheets.flatMap(({ length, width }, index): SheetSource[] => [
      ...(strips === 'across' ? [] : [{ stock: index, direction: 0, length: length + kerf, width: width + kerf }]),
      ...(strips === 'along' ? [] : [{ stock: index, direction: 1, length: width + kerf, width: length + kerf }]),
    ]),
  };
  const classes = stripClasses(problem);
  const found =
    kinds.length === 0
      ? { solution: { sheets: [], cost: 0 }, bound: 0 }
      : await searchSheets(problem, { solver, control, seed });
  const solution = spendSheetOffcuts(
    problem,
    classes,
    found.solution,
    sheets.flatMap(({ offcut }, index) => (offcut ? [index] : [])),
  );
  const dealer = new Dealer(kinds, kerf);
  const cutSheets = solution.sheets
    .flatMap(({ sheet, times }) =>
      Array.from({ length: times }, () => sheetUse(sheet, { problem, classes, sheets, kinds, keepFrom, dealer })),
    )
    .filter((sheet) => sheet !== undefined);
  return {
    kind: 'sheets',
    ...planHead(
      {
        stock: sheets,
        cut: cutSheets,
        costs,
        size,
        cutSize: cutSheets.reduce(
          (sum, { use }) =>
            sum +
            use.strips.reduce(
              (all, { pieces }) => all + pieces.reduce((area, { length, width }) => area + length * width, 0),
              0,
            ),
          0,
        ),
        bound: found.bound,
        missing: dealer.rest(),
        scrap,
      },
      kerf,
      control,
    ),
    patterns: patternsOf(cutSheets, ({ stock: from, use }) => [
      from,
      use.direction,
      use.strips.map(({ pieces: list }) => list.map(({ part, turned }) => [part, turned])),
    ]),
  };
}

/** The ways in which a part may lie in strips of a direction (0 along the sheet, 1 across it). */
function waysOf({ length, width, lie = 'along' }: SheetPart, direction: number, kerf: number): Way[] {
  const straight: Way = { along: length + kerf, across: width + kerf, turned: false };
  const turned: Way = { along: width + kerf, across: length + kerf, turned: true };
  if (length === width) return [straight];
  if (lie === 'any') return [straight, turned];
  // A part that lies along the sheet lies along a strip that runs along it, and across one that runs across.
  return (lie === 'along') === (direction === 0) ? [straight] : [turned];
}

function checkFits({ name, length, width, lie = 'along' }: SheetPart, sheets: readonly SheetStock[]): void {
  const fits = (sheet: SheetStock): boolean =>
    (lie !== 'across' && length <= sheet.length + FIT && width <= sheet.width + FIT) ||
    (lie !== 'along' && width <= sheet.length + FIT && length <= sheet.width + FIT);
  if (sheets.some(fits)) return;
  const largest = sheets.reduce((best, sheet) =>
    sheet.length * sheet.width > best.length * best.width ? sheet : best,
  );
  const turnable =
    lie !== 'any' &&
    sheets.some(
      (sheet) =>
        Math.max(length, width) <= Math.max(sheet.length, sheet.width) + FIT &&
        Math.min(length, width) <= Math.min(sheet.length, sheet.width) + FIT,
    );
  throw new InputError(
    `part "${name}"`,
    `${length} × ${width}`,
    `a part that fits a sheet of the stock, the largest being ${largest.length} × ${largest.width}`,
    turnable ? `It lies ${lie} the sheet: turned it would fit` : undefined,
  );
}

interface SheetCutting {
  readonly problem: SheetProblem;
  readonly classes: readonly StripClass[];
  readonly sheets: readonly SheetStock[];
  readonly kinds: readonly { readonly part: SheetPart }[];
  readonly keepFrom: number;
  readonly dealer: Dealer;
}

/** One sheet with the names of its pieces; undefined where all of them were over and above. */
function sheetUse(
  sheet: CutSheet,
  { problem, classes, sheets, kinds, keepFrom, dealer }: SheetCutting,
): CutFrom<SheetPatternUse> | undefined {
  const { stock, direction } = problem.sources[sheet.source]!;
  const { name, length, width, offcut = false } = sheets[stock]!;
  const [along, across] = direction === 0 ? [length, width] : [width, length];
  const filled = sheet.strips
    .map(({ group, counts }) => pieces(counts, classes[group]!, kinds, dealer))
    .filter((list) => list.length > 0)
    .map((list) => ({ width: Math.max(...list.map((piece) => piece.width)), pieces: list }))
    .sort((a, b) => b.width - a.width);
  if (filled.length === 0) return undefined;
  let from = 0;
  const strips = filled.map((strip): StripUse => {
    const placed = { from, ...strip };
    from += strip.width + dealer.kerf;
    return placed;
  });
  const behind = strips.map(({ from: start, width: high, pieces: list }): Rectangle => {
    const last = list.at(-1)!;
    const end = last.from + last.length + dealer.kerf;
    return { x: end, y: start, length: along - end, width: high };
  });
  const leftovers = [...behind, { x: 0, y: from, length: along, width: across - from }]
    .filter((rest) => Math.min(rest.length, rest.width) > FIT && Math.min(rest.length, rest.width) >= keepFrom)
    .map((rest) => (direction === 0 ? rest : { x: rest.y, y: rest.x, length: rest.width, width: rest.length }));
  return {
    stock,
    use: {
      stock: name,
      length,
      width,
      offcut,
      times: 1,
      direction: direction === 0 ? 'along' : 'across',
      strips,
      leftovers,
    },
  };
}

/** The pieces of a strip, the widest first, so that what is trimmed lies together. */
function pieces(
  counts: readonly number[],
  { entries }: StripClass,
  kinds: readonly { readonly part: SheetPart }[],
  dealer: Dealer,
): Piece[] {
  const order = counts
    .flatMap((count, entry) => new Array<number>(count).fill(entry))
    .sort((a, b) => entries[b]!.across - entries[a]!.across || entries[b]!.along - entries[a]!.along || a - b);
  return dealer.row(
    order.map((entry) => {
      const { kind, turned } = entries[entry]!;
      const { length, width } = kinds[kind]!.part;
      return { kind, piece: turned ? { length: width, width: length, turned } : { length, width, turned } };
    }),
  );
}
