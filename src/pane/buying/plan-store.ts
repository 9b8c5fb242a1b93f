/** The cutting plan in the making: which material, how far, the plan and what may be done with it. */
import { planCsv, planDxf, type CuttingPlan, type Progress } from '../../core/stock';
import { t } from '../locale';
import { refusal } from '../refusal';
import { Store } from '../store';
import type { PaneContext } from '../view';
import { planRequest, type CuttingGroup, type PlanRequest } from './cutting-needs';
import { isPriced } from './plan-words';
import { PlanningStopped, startPlan, type Planner, type PlanJob } from './planner';
import type { BuyingSheets } from './sheets';

export interface PlanState {
  /** Name of the group; '' for the first. */
  readonly group: string;
  readonly seconds: number;
  readonly phase: 'idle' | 'running' | 'cancelling' | 'done' | 'failed';
  readonly progress: Progress | undefined;
  readonly plan: CuttingPlan | undefined;
  /** What the plan is of. */
  readonly planned: string;
  readonly wrong: string | undefined;
  /** Of `wrong`, where it was said below the pane. */
  readonly wrongLanguage: 'en' | undefined;
}

export const LONGEST_SECONDS = 600;
const USUAL_SECONDS = 10;

export class PlanStore extends Store<PlanState> {
  private job: PlanJob | undefined;
  private asked: PlanRequest | undefined;

  constructor(
    private readonly pane: PaneContext,
    private readonly planner: Planner = startPlan,
  ) {
    super({ group: '', seconds: USUAL_SECONDS, phase: 'idle', progress: undefined, plan: undefined, planned: '', wrong: undefined, wrongLanguage: undefined });
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
    return isPriced(this.asked?.stock ?? []);
  }

  choose(group: string): void {
    this.stop();
    this.set({ group, phase: 'idle', progress: undefined, plan: undefined, wrong: undefined, wrongLanguage: undefined });
  }

  allow(seconds: number): void {
    this.set({ seconds });
  }

  private requestOf(group: CuttingGroup, { stock, book, terms, cutting }: BuyingSheets): PlanRequest {
    return planRequest(group, stock?.pieces ?? [], book, terms, cutting, this.state.seconds);
  }

  /** True where the sheets say something else than when the plan was made. */
  isStale(sheets: BuyingSheets): boolean {
    const group = this.groupOf(sheets);
    return !group || JSON.stringify({ ...this.requestOf(group, sheets), seconds: 0 }) !== JSON.stringify({ ...this.asked, seconds: 0 });
  }

  async make(sheets: BuyingSheets): Promise<void> {
    const group = this.groupOf(sheets);
    if (!group || this.job) return;
    const request = this.requestOf(group, sheets);
    if (request.stock.length === 0) {
      this.set({ phase: 'failed', plan: undefined, wrong: noStockWords(group), wrongLanguage: undefined });
      return;
    }
    this.asked = request;
    this.set({ phase: 'running', progress: undefined, plan: undefined, wrong: undefined, wrongLanguage: undefined, planned: group.name });
    const job = this.planner(request, (progress) => this.job === job && this.set({ progress }));
    this.job = job;
    try {
      const plan = await job.done;
      if (this.job === job) this.set({ phase: 'done', plan });
    } catch (error) {
      if (this.job === job) this.set({ phase: 'failed', wrong: refusal(error), wrongLanguage: error instanceof PlanningStopped ? undefined : 'en' });
    } finally {
      if (this.job === job) this.job = undefined;
    }
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
    const name = `cutting-plan-${planned.toLowerCase().replace(/(?<=\d),(?=\d)/g, '.').replace(/[^a-z0-9.]+/g, '-').replace(/^-|-$/g, '')}.${format}`;
    this.pane.saveFile(name, format === 'csv' ? planCsv(plan) : planDxf(plan));
  }
}

function noStockWords({ name, sheets }: CuttingGroup): string {
  return sheets
    ? t('There is no stock of {material} to cut from: a row of the sheet Stock with its material, thickness, length and width, or the parts’ price item sold in whole sheets in the price list.', { material: name })
    : t('There is no stock of {material} to cut from: a row of the sheet Stock with its name, the parts’ price item, and its length, or the parts’ price item sold in whole bars (each, with their length as Contents) in the price list.', { material: name });
}
