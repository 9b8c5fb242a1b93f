/** Formulas that stand in no cell: those of drop-downs, of conditions on what may be typed and of looks; asked of the calculator. */
import { ICommandService, type ICellData, type IDisposable, type Injector, type IRange } from '@univerjs/core';
import {
  RemoveOtherFormulaMutation,
  SetOtherFormulaMutation,
  type IRemoveOtherFormulaMutationParams,
  type ISetOtherFormulaMutationParams,
} from '@univerjs/engine-formula';
import { unpackResult, type Answer, type Asked, type PackedResult, type PackedValue } from '../../calculation/service';
import { entryOf } from '../../core/memoized';
import type { Result } from '../../sheet';
import { resultData, type OtherResults } from './updates';

/** A formula by the calculator's index of its sheet, written for the cell at `row`, `column`. */
type Written = Omit<Asked, 'cells'>;

interface Known {
  readonly written: Written;
  readonly results: Map<string, Result>;
  /** Cells that are to be asked for, and those that have been asked for. */
  readonly wanted: Map<string, readonly [row: number, column: number]>;
  readonly asked: Set<string>;
}

type Taken = (results: readonly (readonly PackedResult[])[]) => void;

/** What formulas give, remembered until the next calculation. */
export class FormulaAnswers {
  private readonly formulas = new Map<string, Known>();
  private readonly questions = new Map<number, Taken>();
  private readonly listeners = new Set<() => void>();
  private count = 0;
  private isGathering = false;

  /** @param isHere true where what is asked is answered at once */
  constructor(
    private readonly post: (question: number, asked: readonly Asked[]) => void,
    private readonly isHere: boolean,
  ) {}

  /** Asks for formulas in cells; answers to what is asked before `clear` are passed over. */
  ask(asked: readonly Asked[], taken: Taken): void {
    const question = (this.count += 1);
    this.questions.set(question, taken);
    this.post(question, asked);
  }

  take({ question, results }: Answer & { readonly kind: 'evaluated' }): void {
    const taken = this.questions.get(question);
    this.questions.delete(question);
    taken?.(results);
  }

  /** What is known of a formula in a cell. Where that is nothing it is asked, with others of the same turn, and `known` called once it is answered. */
  given(written: Written, cell: readonly [row: number, column: number], known: () => void): Result | undefined {
    const key = `${written.sheet} ${written.row} ${written.column} ${written.formula}`;
    const formula = entryOf(this.formulas, key, (): Known => ({
      written,
      results: new Map(),
      wanted: new Map(),
      asked: new Set(),
    }));
    const place = cell.join(' ');
    const result = formula.results.get(place);
    if (result !== undefined) return result;
    if (!formula.asked.has(place)) formula.wanted.set(place, cell);
    if (this.isHere) {
      this.askWanted();
      return formula.results.get(place);
    }
    this.listeners.add(known);
    if (!this.isGathering) {
      this.isGathering = true;
      queueMicrotask(() => this.askWanted());
    }
    return undefined;
  }

  /** Values are others now. */
  clear(): void {
    this.formulas.clear();
    this.questions.clear();
    this.listeners.clear();
  }

  private askWanted(): void {
    this.isGathering = false;
    const wanted = [...this.formulas.values()].filter((formula) => formula.wanted.size > 0);
    if (wanted.length === 0) return;
    const listeners = [...this.listeners];
    this.listeners.clear();
    const places = wanted.map((formula) => [...formula.wanted]);
    for (const formula of wanted) {
      for (const place of formula.wanted.keys()) formula.asked.add(place);
      formula.wanted.clear();
    }
    this.ask(
      wanted.map(({ written }, index) => ({ ...written, cells: places[index]!.map(([, cell]) => cell) })),
      (results) => {
        results.forEach((own, index) =>
          own.forEach((result, at) => wanted[index]!.results.set(places[index]![at]![0], unpackResult(result))),
        );
        for (const listener of listeners) listener();
      },
    );
  }
}

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
