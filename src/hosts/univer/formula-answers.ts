/** What formulas that stand in no cell give, asked of the calculator and remembered until the next calculation. */
import type { Result } from '../../sheet';
import { unpackResult, type Answer, type Asked, type PackedResult } from '../../calculation/service';

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
    let formula = this.formulas.get(key);
    if (!formula)
      this.formulas.set(key, (formula = { written, results: new Map(), wanted: new Map(), asked: new Set() }));
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
