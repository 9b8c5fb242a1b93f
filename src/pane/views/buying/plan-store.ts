/** The cutting plan in the making: which material, how far, the plan and what may be done with it. */
import { isPriced, planDxf, type CuttingPlan, type Progress } from '../../../core/stock';
import { planCsv } from '../../../project';
import type { Workbook } from '../../../sheet';
import { t } from '../../locale';
import { refusal } from '../../shared/refusal';
import { Store } from '../../shared/store';
import type { PaneContext } from '../../shared/view';
import { askWorker, NoWorker, WorkerDied } from '../../shared/worker-asks';
import type { BuyingSheets } from './buying-sheets';
import { cuttingStock, planRequest, type CuttingGroup, type PlanRequest } from './cutting-needs';
import { standingOf, type MadePlan, type MadePlans, type Standing } from './made-plans';
import type { PlanAnswers } from './plan-worker';

// Making a plan: in a worker where one can be had, else beside the pane

interface PlanJob {
  readonly done: Promise<CuttingPlan>;
  /** Ends the search: `done` gives the best plan so far. */
  cancel(): void;
  /** Ends it without a result. */
  drop(): void;
}

export type Planner = (request: PlanRequest, onProgress: (progress: Progress) => void) => PlanJob;

/** The worker fell silent; the message is the pane's own. */
class PlanningStopped extends Error {
  constructor() {
    super(t('The planning stopped, perhaps because memory ran out. Make the plan again with less time or fewer parts'));
  }
}

/** How long past its time a worker is waited for, and after it was asked to end, ms. One that the system ended may say nothing. */
const PATIENCE = { late: 60_000, ending: 10_000 };

const startPlan: Planner = (request, onProgress) => {
  const signal = { aborted: false };
  const worker = askWorker<PlanAnswers>(() => new Worker(new URL('./plan-worker.ts', import.meta.url)));
  const giveUp = (): void => worker.end(new PlanningStopped());
  let watch = setTimeout(giveUp, request.seconds * 1000 + PATIENCE.late);
  const here = async (): Promise<CuttingPlan> => {
    clearTimeout(watch);
    const { planHere } = await import('./plan-run');
    return planHere(request, { signal, progress: onProgress });
  };
  const done = worker
    .ask('plan', request, onProgress)
    .catch((error: unknown) => {
      if (error instanceof NoWorker) return here();
      throw error instanceof WorkerDied ? new PlanningStopped() : error;
    })
    .finally(() => {
      clearTimeout(watch);
      worker.end();
    });
  return {
    done,
    cancel() {
      signal.aborted = true;
      worker.ask('cancel', undefined).catch(() => undefined);
      clearTimeout(watch);
      watch = setTimeout(giveUp, PATIENCE.ending);
    },
    drop() {
      signal.aborted = true;
      clearTimeout(watch);
      worker.end();
    },
  };
};

// The plans of the view

export interface PlanState {
  /** Name of the group; '' for the first. */
  readonly group: string;
  readonly seconds: number;
  readonly phase: 'idle' | 'running' | 'cancelling' | 'done' | 'failed';
  readonly progress: Progress | undefined;
  readonly plan: CuttingPlan | undefined;
  /** What the plan is of. */
  readonly planned: string;
  /** Every plan of the workbook since the pane was opened. */
  readonly made: MadePlans;
  readonly wrong: string | undefined;
  /** Language of `wrong`, where a part below the pane said it. */
  readonly wrongLanguage: 'en' | undefined;
}

export const LONGEST_SECONDS = 600;
const USUAL_SECONDS = 10;

/** What of a workbook's plans outlasts the view, which is taken down when another is shown. */
const remembered = new WeakMap<Workbook, Pick<PlanState, 'group' | 'made'>>();

export class PlanStore extends Store<PlanState> {
  private job: PlanJob | undefined;
  private asked: PlanRequest | undefined;

  constructor(
    readonly pane: PaneContext,
    private readonly planner: Planner = startPlan,
  ) {
    const { group, made } = remembered.get(pane.workbook) ?? { group: '', made: new Map() };
    super({
      group,
      seconds: USUAL_SECONDS,
      phase: 'idle',
      progress: undefined,
      plan: undefined,
      planned: '',
      made,
      wrong: undefined,
      wrongLanguage: undefined,
    });
    this.choose(group);
  }

  stop(): void {
    this.job?.drop();
    this.job = undefined;
  }

  groupOf({ groups }: BuyingSheets): CuttingGroup | undefined {
    return groups.find(({ name }) => name === this.state.group) ?? groups[0];
  }

  /** True where the stock of the plan has prices; else it is for least material. */
  get priced(): boolean {
    return (this.asked?.stock ?? []).some(isPriced);
  }

  choose(group: string): void {
    this.stop();
    const made = this.state.made.get(group);
    this.asked = made?.request;
    this.set({
      group,
      phase: 'idle',
      progress: undefined,
      plan: made?.plan,
      planned: made ? group : '',
      wrong: undefined,
      wrongLanguage: undefined,
    });
    remembered.set(this.pane.workbook, { group, made: this.state.made });
  }

  allow(seconds: number): void {
    this.set({ seconds });
  }

  /** How the plan that is shown stands to the sheets: fresh, cut (its leftovers are on the shelf), or stale. */
  standing(sheets: BuyingSheets): Standing {
    const group = this.groupOf(sheets);
    const made = group && this.state.made.get(group.name);
    return made ? standingOf(made, group, sheets) : 'stale';
  }

  async make(sheets: BuyingSheets): Promise<void> {
    const group = this.groupOf(sheets);
    if (!group || this.job) return;
    const request = planRequest(group, sheets, this.state.seconds);
    this.keep(group.name, undefined);
    if (request.stock.length === 0)
      return this.set({ phase: 'failed', plan: undefined, wrong: noStockWords(group), wrongLanguage: undefined });
    this.asked = request;
    this.set({
      group: group.name,
      phase: 'running',
      progress: undefined,
      plan: undefined,
      wrong: undefined,
      wrongLanguage: undefined,
      planned: group.name,
    });
    const job = this.planner(request, (progress) => this.job === job && this.set({ progress }));
    this.job = job;
    try {
      const plan = await job.done;
      if (this.job !== job) return;
      this.set({ phase: 'done', plan });
      this.keep(group.name, { plan, request, sources: cuttingStock(group, sheets), cut: false });
    } catch (error) {
      if (this.job === job)
        this.set({
          phase: 'failed',
          wrong: refusal(error),
          wrongLanguage: error instanceof PlanningStopped ? undefined : 'en',
        });
    } finally {
      if (this.job === job) this.job = undefined;
    }
  }

  /** The leftovers of the plan are on the sheet Stock. */
  markCut(name: string): void {
    const made = this.state.made.get(name);
    if (made) this.keep(name, { ...made, cut: true });
  }

  private keep(name: string, plan: MadePlan | undefined): void {
    const made = new Map(this.state.made);
    if (plan) made.set(name, plan);
    else made.delete(name);
    this.set({ made });
    remembered.set(this.pane.workbook, { group: this.state.group, made });
  }

  /** Ends the search; the best plan so far is shown. */
  cancel(): void {
    if (!this.job) return;
    this.set({ phase: 'cancelling' });
    this.job.cancel();
  }

  save(format: 'csv' | 'dxf'): void {
    const { plan, planned } = this.state;
    if (!plan) return;
    const name = `cutting-plan-${planned
      .toLowerCase()
      .replace(/(?<=\d),(?=\d)/g, '.')
      .replace(/[^a-z0-9.]+/g, '-')
      .replace(/^-|-$/g, '')}.${format}`;
    this.pane.saveFile(name, format === 'csv' ? planCsv(plan) : planDxf(plan));
  }
}

const noStockWords = ({ name, kind }: CuttingGroup): string =>
  kind === 'sheets'
    ? t(
        'No stock of {material} to cut from. Add a row to the sheet Stock with its material, thickness, length and width, or price the parts’ item by the whole sheet.',
        { material: name },
      )
    : t(
        'No stock of {material} to cut from. Add a row to the sheet Stock with its name (the parts’ price item) and its length, or price that item by the whole bar (each, with its length as Contents).',
        { material: name },
      );
