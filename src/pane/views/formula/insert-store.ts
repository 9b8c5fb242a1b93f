/** The state of the view 'Formula': the chosen function, what stands in its form, what that gives, and where it goes. */
import { findDefinition, type Definition, type Family, type UnitSystem } from '../../../functions';
import type { WantedSheets } from '../../../project';
import { fullName, rangeName, type CellInput, type Edit, type RangeAddress, type Unsubscribe } from '../../../sheet';
import { moved, relocked } from '../../../sheet/formula';
import { mark, t } from '../../locale';
import { refusal } from '../../shared/refusal';
import type { Settings, PaneContext } from '../../shared/view';
import { TabStore, type TabState } from '../../shared/tab-store';
import { fieldsOf } from './definitions';
import { isWhole, within, type Facts, along, inspect, rowsBelow, strays, type Target } from './places';
import { NOTHING_READ, readEntries, textOn, type Entries, type FormReading } from './reading';

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

/** What is remembered of a person: the functions used last, and the units. */
const RECENT = 'insert.recent';
const UNITS = 'insert.units';
const MOST_RECENT = 5;

const NO_FILL: InsertState['fill'] = { possible: false, wanted: false, strays: [] };

export class InsertStore extends TabStore<InsertState> {
  protected override readonly unread = mark('The cells could not be read.');
  private facts: Promise<Facts> | undefined;
  private isName: (word: string) => boolean = () => false;
  private readonly kept = new Map<string, Entries>();
  /** The sheet that references without one mean, where no cell is selected. */
  private shown: string | undefined;
  private unitsChosen = false;
  private offSelection: Unsubscribe | undefined;
  private asked = false;

  constructor(pane: PaneContext) {
    super(pane, {
      status: 'reading',
      query: '',
      family: '',
      recent: usedLast(pane.settings),
      units: pane.settings.get(UNITS) === 'mm-kg' ? 'mm-kg' : 'in-lb',
      entries: {},
      fill: NO_FILL,
    });
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
    this.set({
      definition,
      last: definition.name,
      entries: this.kept.get(definition.name) ?? {},
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
    this.pane.settings.set(UNITS, units);
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
    return entry ? textOn(entry, this.here, this.isName) : '';
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
    if (this.state.form?.fields[parameter]?.typed.kind === 'formula')
      this.type(parameter, relocked(this.textOf(parameter)));
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
        const { edits, words } = writing(form.formula, target);
        said = words;
        return edits;
      },
      written: () => {
        if (said === undefined) return;
        this.remember(definition);
        this.set({ question: undefined });
      },
      said: () => said,
    });
  }

  /** Puts a function first among those that were used last. */
  private remember(definition: Definition): void {
    const recent = [...new Set([definition, ...usedLast(this.pane.settings)])].slice(0, MOST_RECENT);
    this.pane.settings.set(RECENT, recent.map(({ name }) => name).join(' '));
    this.set({ recent });
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
    const names = new Set(facts.names.map(({ name }) => name.toLowerCase()));
    this.isName = (word) => names.has(word.toLowerCase());
    const source = {
      workbook: this.workbook,
      facts,
      from: { sheet: selection?.sheet ?? this.shown ?? '', row: selection?.row ?? 0 },
      isName: this.isName,
      loadRecalculate: this.pane.loadRecalculate,
    };
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
      listEnd:
        possible && selection ? selection.row + Math.max(1, await rowsBelow(this.workbook, facts, listed)) : undefined,
    };
    if (!selection || form.formula === undefined) return { target: undefined, fill };
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

/** The edits, and what is said of them. A formula that spills is written into its first cell; one that is filled down, into each row. */
function writing(formula: string, target: Target): { readonly edits: readonly Edit[]; readonly words: string } {
  const rows = target.kind === 'fill' ? target.range.rows : 1;
  const range = { ...target.range, rows, columns: 1 };
  const cells = Array.from({ length: rows }, (_row, down): CellInput[] => [{ formula: moved(formula, down, 0) }]);
  const words =
    target.kind === 'spill'
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
  return { edits: [{ kind: 'write', range, cells }], words };
}

/** Puts a text on the clipboard; where a host keeps its guests from the clipboard, by the older way. */
async function copyText(text: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(text);
  } catch {
    const before = document.activeElement;
    const area = document.createElement('textarea');
    area.value = text;
    area.setAttribute('aria-hidden', 'true');
    area.style.position = 'fixed';
    area.style.opacity = '0';
    document.body.append(area);
    area.select();
    document.execCommand('copy');
    area.remove();
    if (before instanceof HTMLElement) before.focus();
  }
}

/** The functions that the person used last, the last one first. */
const usedLast = (settings: Settings): readonly Definition[] =>
  (settings.get(RECENT) ?? '')
    .split(' ')
    .flatMap((name) => findDefinition(name) ?? [])
    .slice(0, MOST_RECENT);
