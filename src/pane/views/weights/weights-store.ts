/** The view's state, and everything that it asks of the workbook. */
import { unitSign } from '../../../core/quantity';
import {
  askedInFormulas,
  askingSteps,
  BUDGET,
  cellsIn,
  JOINTS,
  LOG,
  logEdits,
  logLines,
  missingRowEdits,
  newLogSheet,
  nextPartRow,
  NOTHING_RESTS,
  PARTS,
  placeOfRow,
  readMatches,
  readSheet,
  restingOn,
  sheetsNamed,
  summarise,
  WEIGHTS_STEPS,
  weightsModel,
  wholeProject,
  type PartsList,
  type Problem,
  type ProjectSheets,
  type ProjectSummary,
  type Resting,
  type WantedSheets,
  type WeightsModel,
} from '../../../project';
import type { RangeAddress } from '../../../sheet';
import { t } from '../../locale';
import { pageTurn } from '../../shared/page-turn';
import { refusal } from '../../shared/refusal';
import { TabStore, type TabState, type Transaction } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { budgetRange, filledBudget, newBudget } from './new-budget';
import { hasDied, RunningTrial, trialInWorker, type TrialStarter } from './what-if/running-trial';
import type { ShownOutcome } from './what-if/trial-answers';
import { NO_DRAFT, readWish, thicknessUnit, type SwapCandidate, type SwapDraft } from './what-if/wish';

export interface WeightsState extends TabState {
  readonly status: 'reading' | 'no-parts' | 'failed' | 'ready';
  readonly sheets: readonly string[];
  readonly model?: WeightsModel;
  /** Numbers in formulas that are likely in another unit than they are taken in. */
  readonly asked: readonly Problem[];
  readonly summary?: ProjectSummary;
  /** What rests on formulas that were not calculated. */
  readonly resting: Resting;
  /** The one currency of the price list; '' where there is none or several. */
  readonly currency: string;
  /** Component that the log is drawn of. */
  readonly logOf: string;
  /** Day since which changes are listed; undefined: the log's first. */
  readonly since?: string;
  /** The bias of the weighed parts is shown applied to the rest. */
  readonly applyBias: boolean;
  readonly partsShown: number;
  readonly draft: SwapDraft;
  /** Made of a copy of the workbook; undefined until something is tried out. */
  readonly trial?: RunningTrial | undefined;
  /** The workbook is being copied for a trial. */
  readonly copying: boolean;
  /** What the trial gave last, and of what; until there is one of what is typed now, it stays. */
  readonly outcome?: ShownOutcome | undefined;
  readonly tried?: SwapDraft | undefined;
  /** Cells that the picked rows have what is typed from, by name. */
  readonly sources: readonly string[];
}

const NOTHING_READ: WeightsState = {
  status: 'reading',
  sheets: [],
  resting: NOTHING_RESTS,
  asked: [],
  currency: '',
  logOf: 'Total',
  applyBias: false,
  partsShown: 10,
  draft: NO_DRAFT,
  copying: false,
  sources: [],
};

/** What a panel of the view is shown with. */
export interface PanelProps {
  readonly store: WeightsStore;
  readonly state: WeightsState;
  /** The state's own, where there is a part to show. */
  readonly model: WeightsModel;
}

export class WeightsStore extends TabStore<WeightsState> {
  /** Which stretch of rows a bar selected last, so that the next press takes the next one. */
  private lastRun = { key: '', index: -1 };
  /** The trial for which the workbook is being copied. */
  private coming: RunningTrial | undefined;

  constructor(
    pane: PaneContext,
    private readonly startTrial: TrialStarter = trialInWorker,
  ) {
    super(pane, NOTHING_READ);
  }

  override stop(): void {
    super.stop();
    this.endTrial();
  }

  /** The formulas of the parts list and the joints are read, too, since numbers in them may be meant in another unit. */
  protected readonly wanted: WantedSheets = (there) => [
    ...wholeProject(there),
    ...sheetsNamed(there, PARTS.sheet, JOINTS.sheet).map((sheet) => ({ sheet, formulas: true })),
  ];

  /** A trial recalculates the whole workbook. */
  protected override concerns(sheets: readonly string[]): boolean {
    return this.state.draft.rows.length > 0 || this.state.trial !== undefined || super.concerns(sheets);
  }

  protected async show(sheets: ProjectSheets): Promise<void> {
    const { names, values, prices, units } = sheets;
    // A long list takes a while to go through, each time.
    for (const step of WEIGHTS_STEPS) {
      await pageTurn();
      step(values, units);
    }
    await pageTurn();
    const model = weightsModel(values, units);
    const marked = await this.workbook.notRecalculated();
    await pageTurn();
    if (model) for (const _step of askingSteps(sheets)) await pageTurn();
    const asked = model ? askedInFormulas(sheets) : readMatches(values).problems;
    await pageTurn();
    const summary = summarise(values, units, prices?.book);
    if (this.outdated) return;
    this.set({
      status: model ? 'ready' : 'no-parts',
      mend: undefined,
      sheets: names,
      currency: prices?.currency ?? '',
      model,
      asked,
      summary,
      resting: restingOn(values, marked, names),
      draft: model ? kept(this.state.draft, model.parts.rows) : this.state.draft,
    });
    if (this.state.trial || this.coming) void this.renewTrial();
  }

  view(change: Pick<Partial<WeightsState>, 'logOf' | 'since' | 'applyBias' | 'partsShown'>): void {
    this.set(change);
  }

  // In the sheet

  /** Selects a component's rows; where they stand apart, one stretch after the other at each press. */
  async selectRows(rows: readonly number[]): Promise<void> {
    const { model } = this.state;
    const runs = model ? rowRuns(model.parts, rows) : [];
    const key = rows.join(' ');
    const index = this.lastRun.key === key ? (this.lastRun.index + 1) % runs.length : 0;
    const run = runs[index];
    if (!run) return;
    this.lastRun = { key, index };
    const where = { sheet: run.sheet, from: run.row + 1, to: run.row + run.rows };
    const said =
      run.rows === 1
        ? t('Row {from} of {sheet} selected.', where)
        : t('Rows {from} to {to} of {sheet} selected.', where);
    await this.select(
      run,
      runs.length > 1
        ? `${said} ${t('That is {place} of {places} places; press again for the next.', { place: index + 1, places: runs.length })}`
        : said,
    );
  }

  private async write(transaction: Transaction): Promise<boolean> {
    const wrong = await this.transact(transaction);
    if (wrong !== undefined) this.tell('failed', `${t('Nothing was written.')} ${wrong}`);
    return wrong === undefined;
  }

  /** Hands out the printable report of the whole project. */
  async saveReport(): Promise<void> {
    try {
      const { workbookReport } = await import('../../shared/report-page');
      const html = await workbookReport(this.workbook, this.pane.today());
      if (html === undefined) return this.tell('failed', t('There is no parts list to report on.'));
      const name = t('{workbook} report.html', { workbook: this.workbook.title || t('project') });
      if (this.pane.saveFile(name, html) !== false)
        this.tell('done', t('The report is in your downloads: open it in a browser and print it.'));
    } catch (error) {
      this.tell('failed', `${t('The report could not be made.')} ${refusal(error)}`);
    }
  }

  async addBudget(model: WeightsModel): Promise<void> {
    const { values, names } = await this.project.read(this.wanted, [BUDGET.sheet]);
    const form = readSheet(values, BUDGET);
    const [there] = sheetsNamed({ names }, BUDGET.sheet);
    const cells = there === undefined ? undefined : values(there);
    if (!form && cells)
      return this.tell('failed', t('The sheet {sheet} already holds something else', { sheet: there! }));
    await this.write({
      label: t('Add the sheet Budget'),
      edits: form
        ? filledBudget(model, form, cellsIn(cells!, budgetRange(form)))
        : newBudget(model, there !== undefined),
      said: t('Added the sheet Budget, with the forecasts to start from. Put your design weights in their place.'),
    });
  }

  /** A message is of the tab on which it came: it goes with it. */
  leaveTab(): void {
    if (this.state.message) this.set({ message: undefined });
  }

  /** Adds a row Rivets or Hardware for each component that has them and no such row, in one step. */
  async addMissingRows(model: WeightsModel): Promise<void> {
    const { values } = await this.project.read(this.wanted);
    const edits = missingRowEdits(values, model.parts, model.missing, await this.withoutFormulas(model.parts));
    if (!edits)
      return this.tell('failed', t('Parts uses other units than Joints or Hardware. Write the rows by hand.'));
    await this.write({
      label: t('Add the rows of rivets and hardware'),
      edits,
      said: t(
        'Added {count, plural, one {# row} other {# rows}} below the parts; the weight comes from Joints and Hardware.',
        { count: model.missing.length },
      ),
    });
  }

  /** Columns whose cells have formulas of their own in the rows of the list, and none in the next one. */
  private async withoutFormulas(parts: WeightsModel['parts']): Promise<('weight' | 'moment')[]> {
    const { sheet, header, columns } = parts.form;
    const row = header + 1;
    const rows = nextPartRow(parts) - row + 1;
    const lacking = (['weight', 'moment'] as const).map(async (key) => {
      const column = columns[key];
      if (column === undefined) return [];
      const formulas = (await this.workbook.readFormulas({ sheet, row, column, rows, columns: 1 })).flat();
      // A single one may be for the whole column, and fill the next cell.
      const own = formulas.filter((formula) => formula !== null).length;
      return own > 1 && formulas.at(-1) === null ? [key] : [];
    });
    return (await Promise.all(lacking)).flat();
  }

  async logToday(model: WeightsModel): Promise<void> {
    const date = this.pane.today();
    const [there] = sheetsNamed({ names: this.state.sheets }, LOG.sheet);
    if (!model.log && there !== undefined && (await this.workbook.usedRange(there)))
      return this.tell(
        'failed',
        t('The sheet Log has no header row with Date, Component and Weight ({unit}): add one, or rename the sheet.', {
          unit: unitSign('weight', model.units),
        }),
      );
    await this.write({
      label: t('Log the weights'),
      edits: [
        ...(model.log ? [] : newLogSheet(there === undefined, model.units)),
        ...logEdits(model.log, date, logLines([...model.components, model.total]), model.units),
      ],
      said: t('Logged {count, plural, one {# component} other {# components}} and the total on {date}.', {
        count: model.components.length,
        date,
      }),
    });
  }

  // What if

  change(change: Partial<SwapDraft>): Promise<void> {
    this.set({ draft: { ...this.state.draft, ...change }, message: undefined });
    return this.resumeTrial();
  }

  async pick(rows: readonly number[]): Promise<void> {
    const picked = new Set(rows);
    await this.change({
      rows: (this.state.model?.parts.rows ?? [])
        .filter(({ row }) => picked.has(row))
        .map(({ row, component, part }) => ({ row, name: nameOf(component, part), on: true })),
    });
  }

  /** Tries out what is typed, in a new copy of the workbook where there is none. */
  async resumeTrial(): Promise<void> {
    if (this.state.draft.rows.length === 0) this.endTrial();
    else if (this.state.trial) await this.tryOut(this.state.trial);
    else if (!this.coming) await this.renewTrial();
  }

  /** Copies the workbook as it is now; the trial that there is stays until then. Again: for one whose worker died. */
  private async renewTrial(again = false): Promise<void> {
    this.coming?.end();
    const coming = new RunningTrial(this.startTrial);
    this.coming = coming;
    this.set({ copying: true });
    try {
      const hasParts = await coming.copy(this.workbook);
      if (coming.ended) return;
      this.coming = undefined;
      this.endTrial();
      if (!hasParts) return coming.end();
      this.set({ trial: coming });
      await this.tryOut(coming, again);
    } catch (error) {
      this.fail(coming, `${t('The workbook could not be copied for a trial.')} ${refusal(error)}`);
    }
  }

  private async tryOut(trial: RunningTrial, again = false): Promise<void> {
    const { draft, model } = this.state;
    if (!model) return;
    const { wish } = readWish(draft, thicknessUnit(model));
    if (!wish) this.set({ outcome: undefined });
    const rows = draft.rows.filter(({ on }) => on).map(({ row }) => row);
    const typed = (['thickness', 'material'] as const).filter((key) => draft[key].trim() !== '');
    try {
      const tried = await trial.tryOut({ rows, typed, wish });
      if (tried && !trial.ended) this.set({ ...tried, tried: draft });
    } catch (error) {
      if (again || trial.ended || !hasDied(error)) return this.fail(trial, refusal(error));
      // The system takes the memory of a worker that has waited long: another one works it out.
      this.endTrial();
      await this.renewTrial(true);
    }
  }

  /** What is tried next is tried in a new worker. */
  private fail(trial: RunningTrial, why: string): void {
    if (trial.ended) return;
    this.endTrial();
    this.set({ outcome: undefined });
    this.tell('failed', why);
  }

  /** Ends the trial with its worker, and one that is coming; what was given last is shown until there is another. */
  endTrial(): void {
    this.coming?.end();
    this.coming = undefined;
    this.state.trial?.end();
    if (this.state.trial || this.state.copying) this.set({ trial: undefined, copying: false, tried: undefined });
  }

  private leaveTrial(change: Partial<WeightsState>): void {
    this.endTrial();
    this.set({ draft: NO_DRAFT, outcome: undefined, sources: [], ...change });
  }

  /** The rows to be swapped, among those that are offered. */
  choose(rows: readonly number[]): void {
    const on = new Set(rows);
    void this.change({ rows: this.state.draft.rows.map((one) => ({ ...one, on: on.has(one.row) })) });
  }

  /** Swaps one of the rows that are offered, or leaves it. */
  swapRow(row: number, on: boolean): void {
    void this.change({ rows: this.state.draft.rows.map((one) => (one.row === row ? { ...one, on } : one)) });
  }

  /** Takes the rows that are selected in the sheet. */
  async pickSelected(model: WeightsModel): Promise<void> {
    try {
      const range = await this.workbook.selection();
      const rows =
        range === undefined
          ? []
          : model.parts.rows.flatMap(({ row }) => {
              const { head, row: line } = placeOfRow(model.parts.form, row);
              return head.sheet === range.sheet && line >= range.row && line < range.row + range.rows ? [row] : [];
            });
      if (rows.length > 0) return await this.pick(rows);
      this.tell(
        'failed',
        t('No row of the parts list is selected: select some on the sheet {sheet}.', { sheet: model.sheet }),
      );
    } catch (error) {
      this.tell('failed', refusal(error));
    }
  }

  /** Writes what was tried out, as one step. */
  async apply(): Promise<boolean> {
    const { trial, outcome } = this.state;
    if (!trial || !outcome) return false;
    const edits = await trial.edits().catch((error: unknown) => this.fail(trial, refusal(error)));
    if (!edits) {
      // It is worked out anew, to be applied when it stands there again.
      void this.resumeTrial();
      return false;
    }
    const done = await this.write({
      label: t('Change material or thickness'),
      edits,
      said: t('Wrote {count, plural, one {# cell} other {# cells}} as one step.', { count: outcome.changes.count }),
    });
    if (done) this.leaveTrial({});
    return done;
  }

  cancel(): void {
    this.leaveTrial({ message: { tone: 'done', text: t('Dropped. Nothing was written.') } });
  }
}

const nameOf = (component: string, part: string): string => `${component} / ${part}`;

/** The picked rows where they are now; those that are gone are let go. */
function kept(
  draft: SwapDraft,
  parts: readonly { readonly row: number; readonly component: string; readonly part: string }[],
): SwapDraft {
  if (draft.rows.length === 0) return draft;
  const rows = draft.rows.flatMap(({ row, name, on }): SwapCandidate[] => {
    const same = parts.filter((part) => nameOf(part.component, part.part) === name);
    const found = same.find((part) => part.row === row) ?? (same.length === 1 ? same[0] : undefined);
    return found ? [{ row: found.row, name, on }] : [];
  });
  return { ...draft, rows };
}

/** Rows that belong together, as stretches that can be selected in the sheet one at a time. @internal */
export function rowRuns({ form }: PartsList, rows: readonly number[]): RangeAddress[] {
  const runs: { row: number; rows: number }[] = [];
  for (const row of [...new Set(rows)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row === last.row + last.rows) last.rows += 1;
    else runs.push({ row, rows: 1 });
  }
  return runs.map(({ row, rows: height }) => {
    const place = placeOfRow(form, row);
    const columns = Object.values(place.head.columns);
    const column = Math.min(...columns);
    return {
      sheet: place.head.sheet,
      column,
      columns: Math.max(...columns) - column + 1,
      row: place.row,
      rows: height,
    };
  });
}
