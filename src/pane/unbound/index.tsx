/** Formulas of ours that show #NAME?: they are looked for, and a line above the view says how many and offers to write them again. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { excelName, findDefinition, NAMESPACE } from '../../functions';
import { CellError, type CellPlace, type Edit, type RangeAddress, type Workbook } from '../../sheet';
import { FormulaScanner } from '../../sheet/formula';
import { t } from '../locale';
import { BAR } from '../shared/looks';
import { blocksOf } from '../shared/page-turn';
import { refusal } from '../shared/refusal';
import { OnceMore, Store, useStore } from '../shared/store';
import type { PaneContext } from '../shared/view';

/** How Excel names a function that it could not find when it read the file; behind it dots are underscores. */
const UNFOUND = /^(?:_xldudf_|_xll\.)/i;
const OURS = new RegExp(`(?:^|[^A-Z0-9.])(?:_xldudf_|_xll\\.)?${NAMESPACE}[._]`, 'i');

/** Cells that are read at once, between which whoever types is let in. */
const CELLS_AT_ONCE = 20_000;

/** A cell that shows #NAME?, and its formula as it is typed. */
export interface Unbound extends CellPlace {
  /** "=…" */
  readonly formula: string;
}

/**
 * The formula ("=…") with our functions by the names under which the host knows them: neither of another workbook
 * nor of the file's spelling. undefined where it calls none of ours. @internal
 */
export function asTypedHere(formula: string, host: Workbook['host']): string | undefined {
  if (!OURS.test(formula)) return undefined;
  const text = formula.slice(1);
  const scanner = new FormulaScanner(text);
  let typed = '=';
  let from = 0;
  /** Start of the token that says from which other workbook or sheet the next name is taken; -1 where none does. */
  let elsewhere = -1;
  while (scanner.next()) {
    const { kind, start, end } = scanner;
    if (kind === 'sheet') {
      elsewhere = start;
      continue;
    }
    const name = kind === 'call' ? ownName(text.slice(start, end), host) : undefined;
    if (name !== undefined) {
      typed += text.slice(from, elsewhere < 0 ? start : elsewhere) + name;
      from = end;
    }
    elsewhere = -1;
  }
  return from > 0 ? typed + text.slice(from) : undefined;
}

function ownName(text: string, host: Workbook['host']): string | undefined {
  const plain = UNFOUND.test(text) ? text.replace(UNFOUND, '').replaceAll('_', '.') : text;
  if (!plain.toUpperCase().startsWith(`${NAMESPACE}.`)) return undefined;
  const definition = findDefinition(plain);
  return definition && `${NAMESPACE}.${host === 'excel' ? excelName(definition.name) : definition.name}`;
}

/** Every formula of ours that shows #NAME?, sheet by sheet. `pause` lets others in before each block of cells. @internal */
export async function findUnbound(workbook: Workbook, pause?: () => Promise<void>): Promise<Unbound[]> {
  const found: Unbound[] = [];
  const sheets = (await workbook.sheets()).map(({ name }) => name);
  for await (const block of blocksOf(workbook, sheets, CELLS_AT_ONCE, pause))
    found.push(...(await unboundOf(workbook, block)));
  return found;
}

async function unboundOf(workbook: Workbook, block: RangeAddress): Promise<Unbound[]> {
  const typed = (await workbook.readFormulas(block)).map((line) =>
    line.map((formula) => (formula === null ? undefined : asTypedHere(formula, workbook.host))),
  );
  if (!typed.some((line) => line.some((formula) => formula !== undefined))) return [];
  const values = await workbook.read(block);
  return typed.flatMap((line, r) =>
    line.flatMap((formula, c): Unbound[] => {
      const value = values[r]?.[c];
      const isUnknown = value instanceof CellError && value.code === '#NAME?';
      return formula !== undefined && isUnknown
        ? [{ sheet: block.sheet, row: block.row + r, column: block.column + c, formula }]
        : [];
    }),
  );
}

/** The edits that write the formulas, those below one another in one. @internal */
export function writingAgain(found: readonly Unbound[]): Edit[] {
  const runs: Unbound[][] = [];
  const byColumn = [...found].sort(
    (a, b) => (a.sheet < b.sheet ? -1 : a.sheet > b.sheet ? 1 : 0) || a.column - b.column || a.row - b.row,
  );
  for (const cell of byColumn) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.sheet === cell.sheet && last.column === cell.column && last.row + 1 === cell.row)
      runs.at(-1)!.push(cell);
    else runs.push([cell]);
  }
  return runs.map((run) => {
    const { sheet, row, column } = run[0]!;
    return {
      kind: 'write',
      range: { sheet, row, column, rows: run.length, columns: 1 },
      cells: run.map(({ formula }) => [{ formula }]),
    };
  });
}

interface UnboundState {
  /** Formulas that show #NAME? and were not written again yet. */
  readonly found: readonly Unbound[];
  /** Those that were, and show it still. */
  readonly still: readonly Unbound[];
  /** How many were written again; 0: none, or taken back. */
  readonly written: number;
  readonly busy: boolean;
  readonly wrong?: string | undefined;
}

/** The pane is shown and its first view read before the whole workbook is looked through. */
const AFTER = 400;

const keyOf = ({ sheet, row, column, formula }: Unbound): string => JSON.stringify([sheet, row, column, formula]);

/** Looks for formulas of ours that show #NAME?, once when the pane is opened and then as long as there are some. @internal */
export class UnboundStore extends Store<UnboundState> {
  private readonly looking = new OnceMore(() => this.lookOnce());
  private readonly tried = new Set<string>();

  constructor(private readonly pane: PaneContext) {
    super({ found: [], still: [], written: 0, busy: false });
  }

  /** Looks as soon as the pane stands; gives what ends that. */
  start(): () => void {
    const unsubscribe = this.pane.workbook.onChange(() => {
      // A large workbook is not read again with every cell that changes.
      const { found, still, written } = this.state;
      if (found.length + still.length + written > 0) void this.look();
    });
    const timer = setTimeout(() => void this.look(), AFTER);
    return () => {
      clearTimeout(timer);
      unsubscribe();
    };
  }

  /** Reads the workbook; calls that come meanwhile are met by one more reading. */
  look(): Promise<void> {
    return this.looking.run();
  }

  private async lookOnce(): Promise<void> {
    // A workbook that cannot be read has nothing that could be written again.
    const all = await findUnbound(this.pane.workbook).catch(() => []);
    this.set({
      found: all.filter((cell) => !this.tried.has(keyOf(cell))),
      still: all.filter((cell) => this.tried.has(keyOf(cell))),
    });
  }

  /** Writes every one of them again, as one step. */
  async writeAgain(): Promise<void> {
    const { found, busy } = this.state;
    if (busy || found.length === 0) return;
    await this.undisturbed(async () => {
      await this.pane.workbook.apply(t('Formulas written again'), writingAgain(found));
      for (const cell of found) this.tried.add(keyOf(cell));
      this.set({ written: found.length, found: [] });
    });
  }

  async undo(): Promise<void> {
    await this.undisturbed(async () => {
      if (await this.pane.workbook.undo()) this.tried.clear();
      this.set({ written: 0 });
    });
  }

  async select({ sheet, row, column }: Unbound): Promise<void> {
    await this.undisturbed(() => this.pane.workbook.select({ sheet, row, column, rows: 1, columns: 1 }));
  }

  private async undisturbed(work: () => Promise<void>): Promise<void> {
    this.set({ busy: true, wrong: undefined });
    this.set({ wrong: await work().then(() => undefined, refusal), busy: false });
    await this.look();
  }
}

const useStyles = makeStyles({
  bar: BAR,
  grow: { flex: '1 1 140px', minWidth: 0 },
  wrong: { flexBasis: '100%', color: tokens.colorStatusDangerForeground3 },
});

const ERROR = '#NAME?';

export function UnboundFormulas({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new UnboundStore(pane));
  useEffect(() => store.start(), [store]);
  const { found, still, written, busy, wrong } = useStore(store);
  const styles = useStyles();
  if (found.length + still.length + written === 0 && wrong === undefined) return null;
  return (
    <section className={styles.bar} aria-label={t('Formulas without a result')}>
      <span role="status" className={styles.grow}>
        {found.length > 0
          ? t(
              '{count, plural, one {# formula shows {error}: it was made where Tarebook was not on, or with another add-in.} other {# formulas show {error}: they were made where Tarebook was not on, or with another add-in.}}',
              { count: found.length, error: ERROR },
            )
          : still.length > 0
            ? t(
                '{count, plural, one {# formula was written again and still shows {error}. Is another name in it spelled wrong?} other {# formulas were written again and still show {error}. Is another name in them spelled wrong?}}',
                { count: still.length, error: ERROR },
              )
            : written > 0 &&
              t('{count, plural, one {# formula was written again.} other {# formulas were written again.}}', {
                count: written,
              })}
      </span>
      {found.length > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.writeAgain()}>
          {t('{count, plural, one {Write it again} other {Write them again}}', { count: found.length })}
        </Button>
      )}
      {found.length === 0 && still.length > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.select(still[0]!)}>
          {t('Show the first')}
        </Button>
      )}
      {found.length === 0 && written > 0 && (
        <Button size="small" disabled={busy} onClick={() => void store.undo()}>
          {t('Undo')}
        </Button>
      )}
      {wrong !== undefined && (
        <span role="alert" className={styles.wrong}>
          {wrong}
        </span>
      )}
    </section>
  );
}
