/** The view's state and everything it asks of the workbook, in order, one thing at a time. */
import { HEADER_WITHIN } from '../../../core/table';
import {
  balanceModels,
  BUYING_SHEET,
  formulaIn,
  JOINTS,
  sheetsNamed,
  NO_SHEETS,
  PARTS,
  projectSheetNames,
  readParts,
  readSurfaces,
  restingOn,
  SURFACES,
  type BalanceModel,
  type PartsList,
  type ProjectSheets,
  type SurfacesSheet,
  type WantedSheets,
} from '../../../project';
import type { UnitSystem } from '../../../core/quantity';
import { cellName, type Cell, type CellPlace, type Edit, type MarkedPlace } from '../../../sheet';
import { mark, writeNumber } from '../../locale';
import { writeCell } from '../../shared/edits';
import { TabStore, type TabState } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';

export const SECTIONS = [
  { id: 'balance-weighing', label: mark('Weighing') },
  { id: 'balance-loading', label: mark('Loading') },
  { id: 'balance-cases', label: mark('Cases') },
  { id: 'balance-envelope', label: mark('Envelope') },
  { id: 'balance-surfaces', label: mark('Surfaces') },
] as const;
export type SectionId = (typeof SECTIONS)[number]['id'];

export interface BalanceState extends TabState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly sheets: ProjectSheets;
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
  /** What was just added to the workbook; shown until it is put away. */
  readonly added?: string | undefined;
}

const SECTION_SETTING = 'balance.section';

/** Sheets of the project that are not shown here. */
const ELSEWHERE: ReadonlySet<string> = new Set([
  'budget',
  'log',
  'allowances',
  'hardware',
  'rivets',
  'parts',
  'matches',
]);

/**
 * The airplanes' sheets and the control surfaces, with their formulas, since cells can be typed in; the parts lists,
 * which may be long, without. Of the joints and Buying the labels count: they have a say in the units.
 * @internal
 */
export const balanceSheets: WantedSheets = (there) => [
  ...projectSheetNames([...there.names])
    .filter((name) => !ELSEWHERE.has(name.toLowerCase()) && name.toLowerCase() !== JOINTS.sheet.toLowerCase())
    .concat(sheetsNamed(there, SURFACES.sheet))
    .map((sheet) => ({ sheet, formulas: true })),
  ...[...sheetsNamed(there, PARTS.sheet), ...there.matched].map((sheet) => ({ sheet })),
  ...sheetsNamed(there, JOINTS.sheet, BUYING_SHEET).map((sheet) => ({ sheet, rows: HEADER_WITHIN })),
];

export class BalanceStore extends TabStore<BalanceState> {
  protected readonly wanted = balanceSheets;

  constructor(pane: PaneContext) {
    super(pane, {
      status: 'reading',
      sheets: NO_SHEETS,
      units: 'in-lb',
      models: [],
      marked: [],
      airplane: 0,
      section: SECTIONS.find(({ id }) => id === pane.settings.get(SECTION_SETTING))?.id ?? 'balance-weighing',
    });
  }

  protected override async readOnce(): Promise<void> {
    await super.readOnce();
    const { sheets } = this.state;
    const resting = restingOn(sheets.values, await this.workbook.notRecalculated(), sheets.names);
    this.set({ marked: resting.marked.filter(({ sheet }) => resting.sheets.has(sheet)) });
  }

  protected show(sheets: ProjectSheets): void {
    const { values, names, units } = sheets;
    const models = balanceModels(values, names, writeNumber);
    const parts = readParts(values, units);
    this.set({
      status: 'ready',
      mend: undefined,
      sheets,
      units,
      models,
      parts,
      surfaces: readSurfaces(values, parts, SURFACES.sheet, units),
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
  async change(label: string, edits: readonly Edit[], said?: string): Promise<string | undefined> {
    if (edits.length === 0) return undefined;
    return this.make({ label, edits, shown: this.project.lay(edits), said });
  }

  writeCell(
    label: string,
    { sheet, row, column }: CellPlace,
    cell: Cell,
    more: readonly Edit[] = [],
  ): Promise<string | undefined> {
    return this.change(label, [writeCell(sheet, row, column, cell), ...more]);
  }

  // What a cell holds

  cell(sheet: string, row: number, column: number): Cell {
    return this.state.sheets.values(sheet)?.[row]?.[column] ?? null;
  }

  hasFormula(sheet: string, row: number, column: number): boolean {
    return formulaIn(this.state.sheets, sheet, row, column) !== undefined;
  }

  /** What is wrong with a cell of the airplane's sheets or of the control surfaces. */
  problemAt(sheet: string, row: number, column: number): string | undefined {
    const cell = cellName(row, column);
    return [...(this.model?.problems ?? []), ...(this.state.surfaces?.problems ?? [])].find(
      (problem) => problem.cell === cell && problem.sheet === sheet,
    )?.message;
  }

  // The view

  open(section: SectionId): void {
    this.pane.settings.set(SECTION_SETTING, section);
    this.set({ section, message: undefined });
  }

  choose(airplane: number): void {
    this.set({ airplane, message: undefined });
  }

  sayAdded(added: string | undefined): void {
    this.set({ added, message: undefined });
  }
}
