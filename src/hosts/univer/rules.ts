/** Formulas that stand in no cell: those of drop-downs and of conditions on what may be typed. */
import { ICommandService, type ICellData, type IDisposable, type Injector, type IRange } from '@univerjs/core';
import {
  RemoveOtherFormulaMutation,
  SetOtherFormulaMutation,
  type IRemoveOtherFormulaMutationParams,
  type ISetOtherFormulaMutationParams,
} from '@univerjs/engine-formula';
import type { PackedResult, PackedValue } from '../../calculation/service';
import { resultData, type OtherResults } from './updates';

interface Rule {
  readonly unit: string;
  readonly sheet: string;
  readonly formula: string;
  /** The first cell of the first is the one that the formula is written for. */
  readonly ranges: readonly IRange[];
}

/** A rule's formula with the cells for which it is asked: it is written for the one at `row`, `column`. */
export interface RuleAsked {
  readonly id: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  readonly cells: readonly (readonly [row: number, column: number])[];
}

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

  /** The rules of a workbook. */
  of(unit: string): RuleAsked[] {
    return [...this.rules].flatMap(([id, rule]) => (rule.unit === unit ? askedFor(id, rule) : []));
  }

  dispose(): void {
    this.subscription.dispose();
  }

  private add({ unitId, subUnitId, formulaMap }: ISetOtherFormulaMutationParams): void {
    for (const [id, { f, ranges }] of Object.entries(formulaMap))
      this.rules.set(id, { unit: unitId, sheet: subUnitId, formula: f, ranges });
  }
}

function askedFor(id: string, { sheet, formula, ranges }: Rule): RuleAsked {
  const { startRow: row = 0, startColumn: column = 0 } = ranges[0] ?? {};
  const cells: (readonly [number, number])[] = [];
  for (const range of ranges)
    for (let r = range.startRow; r <= range.endRow && cells.length < MOST_CELLS; r++)
      for (let c = range.startColumn; c <= range.endColumn && cells.length < MOST_CELLS; c++) cells.push([r, c]);
  return { id, sheet, row, column, formula: formula.replace(/^=/, ''), cells };
}

/** What the rules give, as the engine takes it: by the place of a cell from the rule's first one. */
export function otherResults(rules: readonly RuleAsked[], results: readonly (readonly PackedResult[])[]): OtherResults {
  const other: OtherResults = {};
  rules.forEach(({ id, sheet, row, column, cells }, index) => {
    const own: Record<number, Record<number, ICellData[][]>> = {};
    cells.forEach(([r, c], at) => {
      const result = results[index]![at]!;
      const block = Array.isArray(result) ? (result as readonly (readonly PackedValue[])[]) : [[result as PackedValue]];
      (own[r - row] ??= {})[c - column] = block.map((line) => line.map(resultData));
    });
    (other[sheet] ??= {})[id] = own;
  });
  return other;
}
