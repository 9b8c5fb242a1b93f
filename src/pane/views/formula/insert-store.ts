/** The state of the view 'Formula': the chosen function, what stands in its form, what that gives, and where it goes. */
import type { Definition, Family, UnitSystem } from '../../../functions';
import { fullName, rangeName, type CellInput, type Edit, type RangeAddress, type Unsubscribe } from '../../../sheet';
import type { WantedSheets } from '../../../project';
import { moved, relocked } from '../../../sheet/formula';
import { mark, t } from '../../locale';
import { refusal } from '../../shared/refusal';
import { TabStore, type TabState } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { copyText } from './copy-text';
import { fieldsOf } from './definitions';
import { isWhole, within, type Facts } from './places';
import { NOTHING_READ, nameTest, readEntries, textOn, type Entries, type FormReading } from './reading';
import { Preferences } from './preferences';
import { along, inspect, rowsBelow, strays, type Target } from './target';

export interface InsertState extends TabState {
  readonly status: 'reading' | 'ready' | 'failed';
  readonly query: string;
  readonly family: Family | '';
  readonly recent: readonly Definition[];
  readonly definition?: Definition | undefined;
  /** The function that was open last: back in the list it has the focus. */
  readonly last?: string | undefined;
  readonly units: UnitSystem;
  readonly entries: Entries;
  /** The field that takes the sheet's selection. */
  readonly current?: string | undefined;
  readonly selection?: RangeAddress | undefined;
  readonly form?: FormReading | undefined;
  readonly target?: Target | undefined;
  /** Whether the formula can be filled down, and to which row (from 1) the list goes. */
  readonly fill: {
    readonly possible: boolean;
    readonly wanted: boolean;
    readonly listEnd?: number | undefined;
    readonly typedEnd?: number | undefined;
    readonly strays: readonly string[];
  };
  /** Cells that would be written over, where that is asked. */
  readonly question?: number | undefined;
}

const NO_FILL: InsertState['fill'] = { possible: false, wanted: false, strays: [] };

export class InsertStore extends TabStore<InsertState> {
  protected override readonly unread = mark('The cells could not be read.');
  private facts: Promise<Facts> | undefined;
  private names: (word: string) => boolean = () => false;
  private readonly kept = new Map<string, Entries>();
  private readonly preferences: Preferences;
  /** The sheet that references without one mean, where no cell is selected. */
  private shown: string | undefined;
  private unitsChosen = false;
  private offSelection: Unsubscribe | undefined;
  private asked = false;

  constructor(pane: PaneContext) {
    const preferences = new Preferences(pane.settings);
    super(pane, {
      status: 'reading',
      query: '',
      family: '',
      recent: preferences.recent,
      units: preferences.units,
      entries: {},
      fill: NO_FILL,
    });
    this.preferences = preferences;
  }

  override start(): void {
    super.start();
    this.offSelection = this.workbook.onSelection((selection) => this.moveTo(selection));
    void this.followUnits();
  }

  /** What is selected when a form is opened for the first time; from then on the workbook tells. */
  private async askSelection(): Promise<void> {
    if (this.asked) return;
    this.asked = true;
    const selection = await this.workbook.selection().catch(() => undefined);
    if (!this.state.selection) this.moveTo(selection);
  }

  override stop(): void {
    super.stop();
    this.offSelection?.();
  }

  look(query: string, family: Family | ''): void {
    this.set({ query, family });
  }

  open(definition: Definition): void {
    const entries = this.kept.get(definition.name) ?? {};
    this.set({
      definition,
      last: definition.name,
      entries,
      current: fieldsOf(definition)[0]?.name,
      form: NOTHING_READ(definition, this.state.units),
      target: undefined,
      fill: NO_FILL,
      question: undefined,
      message: undefined,
    });
    void this.askSelection();
    void this.refresh();
  }

  close(): void {
    this.set({ definition: undefined, form: undefined, target: undefined, question: undefined, message: undefined });
  }

  setUnits(units: UnitSystem): void {
    this.unitsChosen = true;
    this.preferences.units = units;
    this.set({ units });
    void this.refresh();
  }

  focus(parameter: string): void {
    if (parameter !== this.state.current) this.set({ current: parameter });
  }

  type(parameter: string, text: string): void {
    const { definition } = this.state;
    if (!definition) return;
    const entries = { ...this.state.entries, [parameter]: { text, sheet: this.here } };
    this.kept.set(definition.name, entries);
    this.set({ entries, question: undefined });
    void this.refresh();
  }

  /** What a field shows, seen from the sheet that is shown. */
  textOf(parameter: string): string {
    const entry = this.state.entries[parameter];
    return entry ? textOn(entry, this.here, this.names) : '';
  }

  /** Puts the reference of the sheet's selection into the current field. */
  async useSelection(): Promise<void> {
    const { definition, selection, current } = this.state;
    const parameter = definition && fieldsOf(definition).find(({ name }) => name === current);
    if (!selection || !parameter) return;
    const range = isWhole(selection) ? within(selection, await this.workbook.usedRange(selection.sheet)) : selection;
    const name = rangeName(range);
    // A list that is given beside single cells applies to all rows down which the formula is filled.
    const stays = definition.rowWise && parameter.shape === 'block' && name.includes(':');
    this.type(parameter.name, stays ? relocked(name) : name);
  }

  /** A1, $A$1, A$1, $A1, and again. */
  relock(parameter: string): void {
    const text = this.textOf(parameter);
    if (this.state.form?.fields[parameter]?.typed.kind === 'formula') this.type(parameter, relocked(text));
  }

  fillDown(wanted: boolean): void {
    this.set({ fill: { ...this.state.fill, wanted }, question: undefined });
    void this.refresh();
  }

  /** To this row, counted from 1; undefined: as far as the list goes. */
  fillTo(row: number | undefined): void {
    this.set({ fill: { ...this.state.fill, wanted: true, typedEnd: row }, question: undefined });
    void this.refresh();
  }

  /** Writes the formula; cells that are not empty are asked about first, unless it was said to write over them. */
  async insert(over = false): Promise<void> {
    const { definition } = this.state;
    if (!definition) return;
    let said: string | undefined;
    await this.make({
      label: t('Insert {name}', { name: definition.name }),
      edits: async () => {
        await this.refresh();
        const { form, target } = this.state;
        if (!form?.formula || !target) return [];
        if (target.problem !== undefined) throw new Error(target.problem);
        if (target.filled > 0 && !over) {
          this.set({ question: target.filled });
          return [];
        }
        said = writtenWords(form.formula, target);
        return formulaEdits(form.formula, target);
      },
      written: () => {
        if (said === undefined) return;
        this.preferences.use(definition);
        this.set({ question: undefined, recent: this.preferences.recent });
      },
      said: () => said,
    });
  }

  /** Hands the formula to the clipboard. */
  async copy(): Promise<void> {
    const { formula } = this.state.form ?? {};
    if (formula === undefined) return;
    try {
      await copyText(formula);
      this.tell('done', t('Copied: {formula}', { formula }));
    } catch (error) {
      this.tell('failed', refusal(error));
    }
  }

  /** Leaves the cells as they are. */
  keep(): void {
    this.set({ question: undefined });
  }

  /** Only the units of the sheets are wanted; cells are read where the form names them. */
  protected readonly wanted: WantedSheets = () => [];
  protected show(): void {}

  protected override concerns(): boolean {
    this.facts = undefined;
    return this.state.definition !== undefined;
  }

  protected override async readOnce(): Promise<void> {
    const { definition, selection, entries, units } = this.state;
    if (!definition) return this.set({ status: 'ready' });
    const facts = await (this.facts ??= this.readFacts());
    this.shown ??= facts.sheets.find(({ visible }) => visible)?.name;
    const sheet = selection?.sheet ?? this.shown ?? '';
    const source = {
      workbook: this.workbook,
      facts,
      from: { sheet, row: selection?.row ?? 0 },
      loadRecalculate: this.pane.loadRecalculate,
    };
    this.names = nameTest(source);
    const form = await readEntries(definition, entries, units, source);
    const found = await this.findTarget(form, facts, selection);
    // What was asked for meanwhile stays, and is met by the next reading.
    if (this.state.definition === definition)
      this.set({ status: 'ready', form, target: found.target, fill: { ...this.state.fill, ...found.fill } });
  }

  // eslint-disable-next-line complexity -- one question of the target after the other
  private async findTarget(
    form: FormReading,
    facts: Facts,
    selection: RangeAddress | undefined,
  ): Promise<{
    readonly target: Target | undefined;
    readonly fill: Pick<InsertState['fill'], 'possible' | 'strays' | 'listEnd'>;
  }> {
    const { outcome, places } = form;
    const listed = along(places);
    const possible = outcome.kind !== 'cells' && listed.length > 0;
    const { wanted, typedEnd } = this.state.fill;
    const fill = {
      possible,
      strays: possible ? strays(places).map(({ range }) => rangeName(range)) : [],
      listEnd: undefined as number | undefined,
    };
    if (!selection) return { target: undefined, fill };
    if (possible) fill.listEnd = selection.row + Math.max(1, await rowsBelow(this.workbook, facts, listed));
    if (form.formula === undefined) return { target: undefined, fill };
    const end = typedEnd ?? fill.listEnd ?? 0;
    const rows = possible && wanted ? Math.max(1, end - selection.row) : 1;
    const cells = outcome.kind === 'cells' ? outcome.cells : undefined;
    const range = { ...selection, rows: cells?.length ?? rows, columns: cells?.[0]?.length ?? 1 };
    const kind = range.rows * range.columns === 1 ? 'one' : cells ? 'spill' : 'fill';
    return { fill, target: await inspect(this.workbook, facts, { kind, range, places }) };
  }

  private get here(): string | undefined {
    return this.state.selection?.sheet ?? this.shown;
  }

  /** A workbook in metric units gets metric formulas, until the person chooses otherwise. */
  private async followUnits(): Promise<void> {
    try {
      const { units } = await this.project.read(this.wanted);
      if (units === 'in-lb' || this.unitsChosen) return;
      this.set({ units });
      void this.refresh();
    } catch {
      // What cannot be read is said by the form's own reading.
    }
  }

  private async readFacts(): Promise<Facts> {
    const [sheets, tables, names] = await Promise.all([
      this.workbook.sheets(),
      this.workbook.tables(),
      this.workbook.names(),
    ]);
    return { sheets, tables, names };
  }

  private moveTo(selection: RangeAddress | undefined): void {
    const last = this.state.selection;
    if (last && selection && fullName(last) === fullName(selection)) return;
    this.set({ selection, question: undefined, fill: { ...this.state.fill, typedEnd: undefined } });
    if (this.state.definition) void this.refresh();
  }
}

const rowsOf = ({ kind, range }: Target): number => (kind === 'fill' ? range.rows : 1);

/** A formula that spills is written into its first cell; one that is filled down, into each row. */
function formulaEdits(formula: string, target: Target): Edit[] {
  const rows = rowsOf(target);
  const cells = Array.from({ length: rows }, (_row, down): CellInput[] => [{ formula: moved(formula, down, 0) }]);
  return [{ kind: 'write', range: { ...target.range, rows, columns: 1 }, cells }];
}

function writtenWords(formula: string, target: Target): string {
  const rows = rowsOf(target);
  const range = { ...target.range, rows, columns: 1 };
  return target.kind === 'spill'
    ? t('Wrote {formula} into {cell}; its results take {range}.', {
        formula,
        cell: fullName(range),
        range: rangeName(target.range),
      })
    : t('Wrote {formula} into {range}{rows, plural, =1 {} other {, one row after the other}}.', {
        formula,
        range: fullName(range),
        rows,
      });
}
