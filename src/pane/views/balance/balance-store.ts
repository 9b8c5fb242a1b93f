/** The view's state and everything it asks of the workbook, in order, one thing at a time. */
import type { Cell, MarkedPlace } from '../../../sheet';
import {
  balanceModels,
  readParts,
  readSurfaces,
  restingOn,
  SURFACES,
  unitsOfProject,
  type BalanceModel,
  type PartsList,
  type Problem,
  type SurfacesSheet,
} from '../../../project';
import type { UnitSystem } from '../../../core/quantity';
import { cellName, type Edit, type RangeAddress } from '../../../sheet';
import { mark, t, writeNumber } from '../../locale';
import { refusal } from '../../shared/refusal';
import type { Message } from '../../shared/step-store';
import { TurnStore } from '../../shared/turn-store';
import type { PaneContext } from '../../shared/view';
import { NO_SHEETS, SheetCache, type Sheets } from './sheet-cache';

export const SECTIONS = [
  { id: 'balance-weighing', label: mark('Weighing') },
  { id: 'balance-loading', label: mark('Loading') },
  { id: 'balance-cases', label: mark('Cases') },
  { id: 'balance-envelope', label: mark('Envelope') },
  { id: 'balance-surfaces', label: mark('Surfaces') },
] as const;
export type SectionId = (typeof SECTIONS)[number]['id'];

export interface BalanceState {
  readonly status: 'reading' | 'failed' | 'ready';
  /** Why the sheets could not be read. */
  readonly mend?: string | undefined;
  readonly sheets: Sheets;
  /** What the workbook is shown in, and new sheets are made in. */
  readonly units: UnitSystem;
  /** One an airplane. */
  readonly models: readonly BalanceModel[];
  readonly surfaces?: SurfacesSheet | undefined;
  readonly parts?: PartsList | undefined;
  /** Cells of the airplanes' sheets that were not recalculated. */
  readonly marked: readonly MarkedPlace[];
  /** Place of the airplane that is shown among the models. */
  readonly airplane: number;
  readonly section: SectionId;
  readonly message?: Message | undefined;
  /** What was just added to the workbook; shown until it is put away. */
  readonly added?: string | undefined;
}

const SECTION_SETTING = 'balance.section';

export class BalanceStore extends TurnStore<BalanceState> {
  private readonly cache: SheetCache;

  constructor(pane: PaneContext) {
    const kept = pane.settings.get(SECTION_SETTING);
    super(pane, {
      status: 'reading',
      sheets: NO_SHEETS,
      units: 'in-lb',
      models: [],
      marked: [],
      airplane: 0,
      section: SECTIONS.find(({ id }) => id === kept)?.id ?? 'balance-weighing',
    });
    this.cache = new SheetCache(pane.workbook);
  }

  protected concerns(sheets: readonly string[]): boolean {
    this.cache.touch(sheets);
    return this.cache.concerns(sheets);
  }

  protected async readOnce(): Promise<void> {
    const sheets = await this.cache.read();
    const resting = restingOn(sheets.values, await this.workbook.notRecalculated(), sheets.names);
    if (this.changing) return;
    this.show(sheets);
    this.set({ marked: resting.marked.filter(({ sheet }) => resting.sheets.has(sheet)) });
  }

  private show(sheets: Sheets): void {
    const units = unitsOfProject(sheets.values, sheets.names);
    const models = balanceModels(sheets.values, sheets.names, writeNumber);
    const parts = readParts(sheets.values);
    this.set({
      status: 'ready',
      mend: undefined,
      sheets,
      units,
      models,
      parts,
      surfaces: readSurfaces(sheets.values, parts, SURFACES.sheet, units),
      airplane: Math.min(this.state.airplane, Math.max(0, models.length - 1)),
    });
  }

  /** The airplane that is shown. */
  get model(): BalanceModel | undefined {
    return this.state.models[this.state.airplane];
  }

  /**
   * Makes a change as one step of undo. What it writes is judged and shown at once; where the workbook
   * refuses it, the sheets are shown as they are, and the reason is given back.
   */
  async change(label: string, edits: readonly Edit[], done?: string): Promise<string | undefined> {
    if (edits.length === 0) return undefined;
    this.show(this.cache.show(edits));
    this.set({ message: undefined });
    const touched = edits.flatMap((edit) => ('range' in edit ? [edit.range.sheet] : []));
    const wrong = await this.inTurn(async () => {
      try {
        await this.workbook.apply(label, edits);
      } finally {
        this.cache.touch(touched);
      }
    });
    if (wrong !== undefined) this.tell('failed', wrong);
    else if (done !== undefined) this.tell('done', done);
    return wrong;
  }

  writeCell(
    label: string,
    { sheet, row, column }: { readonly sheet: string; readonly row: number; readonly column: number },
    cell: Cell,
    more: readonly Edit[] = [],
  ): Promise<string | undefined> {
    return this.change(label, [
      { kind: 'write', range: { sheet, row, column, rows: 1, columns: 1 }, cells: [[cell]] },
      ...more,
    ]);
  }

  undo(): Promise<void> {
    return this.step('undo', t('Undone.'), t('Nothing to undo.'));
  }

  redo(): Promise<void> {
    return this.step('redo', t('Done again.'), t('Nothing to redo.'));
  }

  private async step(which: 'undo' | 'redo', done: string, none: string): Promise<void> {
    let made = false;
    const wrong = await this.inTurn(async () => {
      made = await this.workbook[which]();
      this.cache.touch(this.state.sheets.names);
    });
    this.tell(wrong === undefined ? 'done' : 'failed', wrong ?? (made ? done : none));
  }

  async select(range: RangeAddress): Promise<void> {
    try {
      await this.workbook.select(range);
    } catch (error) {
      this.tell('failed', refusal(error));
    }
  }

  // What a cell holds

  cell(sheet: string, row: number, column: number): Cell {
    return this.state.sheets.values(sheet)?.[row]?.[column] ?? null;
  }

  hasFormula(sheet: string, row: number, column: number): boolean {
    return this.state.sheets.formula(sheet, row, column) !== undefined;
  }

  /** What is wrong with a cell of the airplane's sheets or of the control surfaces. */
  problemAt(sheet: string, row: number, column: number): string | undefined {
    return problemAt([...(this.model?.problems ?? []), ...(this.state.surfaces?.problems ?? [])], sheet, row, column);
  }

  // The view

  open(section: SectionId): void {
    this.pane.settings.set(SECTION_SETTING, section);
    this.set({ section, message: undefined });
  }

  choose(airplane: number): void {
    this.set({ airplane, message: undefined });
  }

  tell(tone: Message['tone'], text: string): void {
    this.set({ message: { tone, text } });
  }

  sayAdded(added: string | undefined): void {
    this.set({ added, message: undefined });
  }
}

const problemAt = (problems: readonly Problem[], sheet: string, row: number, column: number): string | undefined => {
  const cell = cellName(row, column);
  return problems.find((problem) => problem.cell === cell && problem.sheet === sheet)?.message;
};
