/** Offcuts first: what a plan left unused of them takes pieces from the emptiest of the other sheets. */
import { SheetFiller } from './sheet-fill';
import { solutionOf, type CutSheet, type SheetProblem, type SheetSolution, type StripClass } from './sheet-problem';

/** Moves pieces to the offcuts that are left, the smallest first; the cost never rises. */
export function spendSheetOffcuts(
  problem: SheetProblem,
  classes: readonly StripClass[],
  solution: SheetSolution,
  offcuts: readonly number[],
): SheetSolution {
  if (offcuts.length === 0 || solution.sheets.length === 0) return solution;
  const filler = new SheetFiller(problem, classes);
  const areas = problem.kinds.map(({ ways }) =>
    ways.flat().reduce((most, { along, across }) => Math.max(most, along * across), 0),
  );
  const sizeOf = (stock: number): number =>
    Math.max(...problem.sources.filter((source) => source.stock === stock).map(({ length, width }) => length * width));
  const stockOf = ({ source }: CutSheet): number => problem.sources[source]!.stock;
  const worth = (sheet: CutSheet): number =>
    filler.made(sheet).reduce((sum, count, kind) => sum + count * areas[kind]!, 0);
  const isOffcut = new Set(offcuts);
  let sheets = solution.sheets.flatMap(({ sheet, times }) => new Array<CutSheet>(times).fill(sheet));

  spending: for (const stock of [...offcuts].sort((a, b) => sizeOf(a) - sizeOf(b) || a - b)) {
    for (
      let left = problem.stocks[stock]!.available - sheets.filter((sheet) => stockOf(sheet) === stock).length;
      left > 0;
      left--
    ) {
      const emptiest = sheets
        .filter((sheet) => !isOffcut.has(stockOf(sheet)))
        .sort((a, b) => worth(a) / sizeOf(stockOf(a)) - worth(b) / sizeOf(stockOf(b)))[0];
      if (!emptiest) break spending;
      const demands = filler.made(emptiest);
      const moved = filler.bestSheet(
        areas,
        demands,
        problem.stocks.map((_, index) => (index === stock ? 1 : 0)),
        () => 1,
      );
      if (!moved) break;
      filler.made(moved).forEach((count, kind) => (demands[kind] = demands[kind]! - count));
      const rest = without(emptiest, filler.made(moved), classes);
      sheets = [
        ...sheets.filter((sheet) => sheet !== emptiest),
        ...sheets.filter((sheet) => sheet === emptiest).slice(1),
        moved,
        ...(rest ? [rest] : []),
      ];
    }
  }
  return solutionOf(
    problem,
    sheets.map((sheet) => ({ sheet, times: 1 })),
  );
}

/** The sheet without so many pieces of each kind; undefined where none is left. */
function without(sheet: CutSheet, taken: readonly number[], classes: readonly StripClass[]): CutSheet | undefined {
  const left = taken.slice();
  const strips = sheet.strips
    .map((strip) => {
      const { entries } = classes[strip.group]!;
      const counts = strip.counts.map((count, entry) => {
        const { kind } = entries[entry]!;
        const some = Math.min(count, left[kind]!);
        left[kind] = left[kind]! - some;
        return count - some;
      });
      return { ...strip, counts };
    })
    .filter(({ counts }) => counts.some((count) => count > 0));
  return strips.length > 0 ? { source: sheet.source, strips } : undefined;
}
