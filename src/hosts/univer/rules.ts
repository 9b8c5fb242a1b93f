/** Formulas that stand in no cell: those of drop-downs and of conditions on what may be typed. */
import { ICommandService, type ICellData, type IDisposable, type Injector, type IRange } from '@univerjs/core';
import {
  RemoveOtherFormulaMutation,
  SetOtherFormulaMutation,
  type IRemoveOtherFormulaMutationParams,
  type ISetOtherFormulaMutationParams,
} from '@univerjs/engine-formula';
import { toResultData } from './cells';
import type { Mirror } from './mirror';

interface Rule {
  readonly unit: string;
  readonly sheet: string;
  readonly formula: string;
  /** The first cell of the first is the one that the formula is written for. */
  readonly ranges: readonly IRange[];
}

/** By workbook, sheet, rule, and the place of a cell from the rule's first one: what the rule gives there. */
export type RuleResults = Record<string, Record<string, Record<string, Record<number, Record<number, ICellData[][]>>>>>;

/** Cells that one rule is asked about: below a list's end nobody types. */
const MOST_CELLS = 20_000;

export class CellRules {
  private readonly rules = new Map<string, Rule>();
  private readonly subscription: IDisposable;

  constructor(injector: Injector) {
    this.subscription = injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
      if (id === SetOtherFormulaMutation.id) this.add(params as ISetOtherFormulaMutationParams);
      if (id === RemoveOtherFormulaMutation.id)
        for (const rule of (params as IRemoveOtherFormulaMutationParams).formulaIdList) this.rules.delete(rule);
    });
  }

  /** The results of all rules, over the workbooks as they are now calculated. */
  results(mirror: (unit: string) => Mirror | undefined): RuleResults {
    const results: RuleResults = {};
    for (const [id, rule] of this.rules) {
      const found = mirror(rule.unit);
      if (found) ((results[rule.unit] ??= {})[rule.sheet] ??= {})[id] = resultsOf(rule, found);
    }
    return results;
  }

  dispose(): void {
    this.subscription.dispose();
  }

  private add({ unitId, subUnitId, formulaMap }: ISetOtherFormulaMutationParams): void {
    for (const [id, { f, ranges }] of Object.entries(formulaMap))
      this.rules.set(id, { unit: unitId, sheet: subUnitId, formula: f, ranges });
  }
}

function resultsOf({ sheet, formula, ranges }: Rule, mirror: Mirror): Record<number, Record<number, ICellData[][]>> {
  const results: Record<number, Record<number, ICellData[][]>> = {};
  const { startRow: top = 0, startColumn: left = 0 } = ranges[0] ?? {};
  const evaluate = mirror.evaluator(sheet, top, left, formula);
  let rest = MOST_CELLS;
  for (const range of ranges)
    for (let row = range.startRow; row <= range.endRow && rest > 0; row++)
      for (let column = range.startColumn; column <= range.endColumn && rest > 0; column++, rest--) {
        const result = evaluate(row, column);
        const block = Array.isArray(result) ? result : [[result]];
        (results[row - top] ??= {})[column - left] = block.map((line) => line.map(toResultData));
      }
  return results;
}
