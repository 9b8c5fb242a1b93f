/** The view's state and everything it asks of the workbook, in order, one thing at a time. */
import { PRICE_COLUMNS, type PriceColumnKey } from '../../../core/price';
import type { UnitSystem } from '../../../core/quantity';
import type { ProjectSheets } from '../../../project';
import type { Cell, CellInput, Edit, TableModel } from '../../../sheet';
import { mark, t } from '../../locale';
import type { CsvFile, Mapping } from '../../shared/csv-import';
import { TabStore, type TabState } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { AS_IN_SHEET, OLD_AFTER_DEFAULT, type Arrangement } from './arrange';
import { writeCsv, type Refused } from './csv';
import {
  checkLines,
  ListReader,
  priceSheet,
  type ListCandidate,
  type Places,
  type PriceLine,
  type RowProblems,
  type Rows,
} from './lines';
import { changedKeys, checkDraft, draftCells, lineTexts, plainCell, type PriceDraft, type Texts } from './price-draft';
import { addRows, inColumns, makeList, makeTableOf, removeRow, reorderRows, writeCells } from './price-edits';

const EXPORTED = 'prices.csv';
const OLD_AFTER_SETTING = 'prices.old-after-months';
const GONE = mark('That row is no longer in the sheet, so nothing was written. Add it again, or drop the change.');
/** Fields that stay filled for the next item of the same order. */
const CARRIED: readonly PriceColumnKey[] = ['kind', 'soldBy', 'currency', 'supplier', 'quotedOn'];

/** A row of the list, or the one that is being added. */
export type DraftId = number | 'new';

export interface ImportReport {
  readonly fileName: string;
  readonly headers: readonly string[];
  readonly added: number;
  readonly updated: number;
  readonly kept: number;
  readonly same: number;
  readonly refused: readonly Refused[];
  readonly leftOut: readonly string[];
}

export interface PricesState extends TabState {
  /** 'absent': no table; 'lacking': a table without a column that is needed; 'failed': it could not be read. */
  readonly status: 'reading' | 'absent' | 'lacking' | 'failed' | 'ready';
  readonly candidate?: ListCandidate;
  readonly table?: TableModel;
  /** System in which the workbook counts what is used; unit prices are shown in it. */
  readonly units: UnitSystem;
  readonly places: Places;
  readonly lines: readonly PriceLine[];
  readonly drafts: ReadonlyMap<number, PriceDraft>;
  /** The row that is being added. */
  readonly adding?: PriceDraft;
  readonly arrangement: Arrangement;
  readonly oldAfter: number;
  /** What the list was just made with; shown until it is put away. */
  readonly added?: string;
  readonly importing?: {
    readonly fileName: string;
    readonly file: CsvFile;
    readonly mapping: Mapping;
    readonly update: boolean;
  };
  readonly report?: ImportReport;
}

export class PricesStore extends TabStore<PricesState> {
  private readonly reader = new ListReader();
  protected readonly wanted = priceSheet;
  protected override readonly unread = mark('The price list could not be read.');

  constructor(pane: PaneContext) {
    super(pane, {
      status: 'reading',
      units: 'in-lb',
      places: new Map(),
      lines: [],
      drafts: new Map(),
      arrangement: AS_IN_SHEET,
      oldAfter: storedAge(pane),
    });
  }

  protected show(sheets: ProjectSheets): void {
    const { units } = sheets;
    const read = this.reader.read(sheets);
    if (read.status === 'ready') {
      const { status, table, places } = read;
      const lines = this.reader.check(read, sheets);
      this.reader.keep(lines);
      this.set({ status, mend: undefined, candidate: undefined, units, table, places, lines });
    } else this.set({ mend: undefined, candidate: undefined, table: undefined, ...read, units, lines: [] });
  }

  /**
   * One change of the list: looks at it as it is at that moment, builds the edits from that, and makes
   * them as one step of undo. Gives undefined where it is done, else what went wrong.
   * @param shown what is shown at once
   */
  change(
    label: string,
    build: (list: Rows, lines: () => PriceLine[]) => readonly Edit[],
    shown?: ProjectSheets,
  ): Promise<string | undefined> {
    const sheet = this.state.table?.range.sheet;
    return this.transact({
      label,
      anew: sheet === undefined ? [] : [sheet],
      ...(shown ? { shown } : {}),
      edits: (now) => {
        const list = this.reader.read(now);
        if (list.status !== 'ready')
          throw new Error(t('The price list is no longer in the workbook, so nothing was written.'));
        return build(list, () => this.reader.check(list, now));
      },
    });
  }

  // What is being typed. Nothing here touches the workbook

  draft(id: DraftId): PriceDraft | undefined {
    return id === 'new' ? this.state.adding : this.state.drafts.get(id);
  }

  line(id: DraftId): PriceLine | undefined {
    return id === 'new' ? undefined : this.state.lines.find((line) => line.id === id);
  }

  private put(id: DraftId, draft: PriceDraft | undefined): void {
    if (id === 'new') return this.set({ adding: draft });
    const drafts = new Map(this.state.drafts);
    if (draft) drafts.set(id, draft);
    else drafts.delete(id);
    this.set({ drafts });
  }

  /** Opens one cell for typing; `text` in place of what it holds. */
  editCell(id: number, key: PriceColumnKey, text?: string): void {
    const line = this.line(id);
    if (!line || this.state.drafts.has(id) || !this.state.places.has(key)) return;
    const base = lineTexts(line, this.state.places)[key];
    this.put(id, { form: false, texts: { [key]: text ?? base }, base: { [key]: base }, shown: new Set() });
  }

  /** Opens a row as a form; what was being typed in its cell is carried along. */
  openRow(id: number): void {
    const line = this.line(id);
    if (!line) return;
    const base = lineTexts(line, this.state.places);
    const typed = this.state.drafts.get(id);
    this.put(id, {
      form: true,
      texts: { ...base, ...typed?.texts },
      base: { ...base, ...typed?.base },
      shown: new Set(line.problems.keys()),
    });
  }

  /** Opens the form for a new row, or for another price break of a row. */
  openNew(from?: PriceLine): void {
    const lastCurrency = this.state.lines.findLast((line) => line.row?.currency)?.row?.currency;
    const texts = from
      ? { ...lineTexts(from, this.state.places), price: '', from: '', note: '', quotedOn: this.pane.today() }
      : { quotedOn: this.pane.today(), currency: lastCurrency ?? '' };
    this.set({ adding: { form: true, texts, base: {}, shown: new Set() }, message: undefined, added: undefined });
  }

  type(id: DraftId, key: PriceColumnKey, text: string): void {
    const draft = this.draft(id);
    if (draft) this.put(id, { ...draft, texts: { ...draft.texts, [key]: text }, refused: undefined, clash: undefined });
  }

  /** A field was left: its problem, if it has one, is shown from now on. */
  leave(id: DraftId, key: PriceColumnKey): void {
    const draft = this.draft(id);
    if (draft && !draft.shown.has(key)) this.put(id, { ...draft, shown: new Set([...draft.shown, key]) });
  }

  cancel(id: DraftId): void {
    this.put(id, undefined);
  }

  // Saving

  /** Writes a draft to the sheet; false where it has a problem or is refused, and the draft stays. */
  async save(id: DraftId): Promise<boolean> {
    const draft = this.draft(id);
    if (!draft) return false;
    const { places } = this.state;
    const line = this.line(id);
    if (id !== 'new' && !line) return this.keep(id, { ...draft, refused: t(GONE) });
    if (checkDraft(draft, line, places).problems.size > 0) return this.keep(id, { ...draft, shown: ALL_SHOWN });
    const all = draftCells(draft, line, places);
    const fields = new Map(id === 'new' ? all : changedKeys(draft).map((key) => [key, all.get(key) ?? null] as const));
    const shown = id === 'new' ? undefined : this.shownWith(id, fields);
    const own = shown ? this.problemsIn(shown, id) : this.problemsOf(fields);
    if (draft.form && own.size > 0) return this.keep(id, { ...draft, clash: own, shown: ALL_SHOWN });
    if (fields.size === 0) {
      this.cancel(id);
      return true;
    }
    if (id === 'new') return this.add(draft, fields);
    const name = draft.texts.item ?? lineTexts(line!, places).item;
    this.put(id, undefined);
    this.say(undefined);
    // Shown at once; the reading that follows brings what the sheet made of it.
    const wrong = await this.change(
      t('Change {item}', { item: name }),
      (list) => writeCells(list, placeOf(list, id), inColumns(list, fields)),
      shown,
    );
    return wrong === undefined ? true : this.keep(id, { ...draft, refused: wrong });
  }

  private keep(id: DraftId, draft: PriceDraft): false {
    this.put(id, draft);
    return false;
  }

  private async add(draft: PriceDraft, fields: ReadonlyMap<PriceColumnKey, CellInput>): Promise<boolean> {
    const name = (draft.texts.item ?? '').trim();
    const wrong = await this.change(t('Add {item}', { item: name }), (list) =>
      addRows(list, [inColumns(list, fields)]),
    );
    if (wrong !== undefined) return this.keep('new', { ...draft, refused: wrong });
    const carried: Texts = Object.fromEntries(CARRIED.map((key) => [key, draft.texts[key] ?? '']));
    this.set({ adding: { form: true, texts: carried, base: {}, shown: new Set() } });
    this.tell('done', t('Added {item}.', { item: name }));
    return true;
  }

  /** The sheets with fields of a row as they are to be; what a formula gives is not known yet. */
  private shownWith(id: number, fields: ReadonlyMap<PriceColumnKey, CellInput>): ProjectSheets {
    const list = this.reader.read(this.project.now);
    const place = list.status === 'ready' ? list.rows.findIndex((row) => row.id === id) : -1;
    if (list.status !== 'ready' || place < 0) return this.project.now;
    return this.project.lay(writeCells(list, place, inColumns(list, fields).map(plainCell)));
  }

  private problemsIn(sheets: ProjectSheets, id: DraftId): RowProblems {
    const list = this.reader.read(sheets);
    const lines = list.status === 'ready' ? this.reader.check(list, sheets) : [];
    return lines.find((line) => line.id === id)?.problems ?? new Map();
  }

  /** The problems of a row that is added. */
  private problemsOf(fields: ReadonlyMap<PriceColumnKey, CellInput>): RowProblems {
    const { places, lines, table } = this.state;
    const cells = inColumns({ table: table!, places }, fields).map((input): Cell => plainCell(input) ?? null);
    return checkLines(places, [...lines, { id: -1, cells, formulas: [] }]).at(-1)!.problems;
  }

  // The list

  async remove(id: number): Promise<void> {
    const line = this.line(id);
    if (!line) return;
    const name = lineTexts(line, this.state.places).item.trim() || t('a row');
    const draft = this.state.drafts.get(id);
    this.put(id, undefined);
    const removed = this.change(
      t('Remove {item}', { item: name }),
      (list) => removeRow(list, placeOf(list, id)),
      this.project.now,
    );
    this.set({ lines: this.state.lines.filter((other) => other.id !== id) });
    const wrong = await removed;
    if (wrong !== undefined && draft) this.put(id, draft);
    this.tell(
      wrong === undefined ? 'done' : 'failed',
      wrong ?? t('Removed {item}. Undo brings it back.', { item: name }),
    );
  }

  /** Puts the rows of the sheet into the order of the view. `order`: ids as they are shown; the others follow. */
  async sortSheet(order: readonly number[]): Promise<void> {
    const wrong = await this.change(t('Sort the price list'), (list) => {
      if (list.rows.some(({ formulas }) => formulas.some((formula) => formula !== null))) {
        throw new Error(
          t(
            'The list holds formulas, which would point to other rows after sorting. Sort it in the sheet, or replace them with values.',
          ),
        );
      }
      const rank = new Map(order.map((id, index) => [id, index]));
      const last = order.length;
      return [
        reorderRows(
          list.table,
          [...list.rows].sort((a, b) => (rank.get(a.id) ?? last) - (rank.get(b.id) ?? last)),
        ),
      ];
    });
    if (wrong === undefined) this.arrange({ sort: 'sheet', descending: false });
    this.tell(
      wrong === undefined ? 'done' : 'failed',
      wrong ?? t('The rows of the sheet are in this order now. Undo puts them back.'),
    );
  }

  /** Makes the price list: of the rows that are there already, or with invented examples. */
  async makeList(): Promise<void> {
    const { candidate } = this.state;
    let added = '';
    const wrong = await this.inTurn(async () => {
      added = await (candidate ? makeTableOf(this.workbook, candidate) : makeList(this.workbook, this.pane.today()));
    });
    if (wrong !== undefined) this.tell('failed', wrong);
    else this.set({ added, message: undefined });
  }

  async showInSheet(id: number): Promise<void> {
    const { table, lines } = this.state;
    const row = lines.findIndex((line) => line.id === id);
    if (table && row >= 0) await this.select({ ...table.range, row: table.range.row + 1 + row, rows: 1 });
  }

  // The view

  arrange(change: Partial<Arrangement>): void {
    this.set({ arrangement: { ...this.state.arrangement, ...change } });
  }

  setOldAfter(months: number): void {
    this.pane.settings.set(OLD_AFTER_SETTING, String(months));
    this.set({ oldAfter: months });
  }

  putAwayAdded(): void {
    this.set({ added: undefined });
  }

  exportCsv(): void {
    const { table, places, lines } = this.state;
    if (table && this.pane.saveFile(EXPORTED, writeCsv(table.columns, places, lines)) !== false)
      this.tell(
        'done',
        t('Exported {count, plural, one {# row} other {# rows}} as {file}.', {
          count: lines.filter(({ blank }) => !blank).length,
          file: EXPORTED,
        }),
      );
  }

  update(change: Pick<Partial<PricesState>, 'importing' | 'report' | 'message'>): void {
    this.set(change);
  }
}

const ALL_SHOWN: ReadonlySet<PriceColumnKey> = new Set(PRICE_COLUMNS.map(({ key }) => key));

function storedAge(pane: PaneContext): number {
  const stored = pane.settings.get(OLD_AFTER_SETTING);
  return stored !== undefined && /^\d+$/.test(stored) ? Number(stored) : OLD_AFTER_DEFAULT;
}

/** Where a row is now; throws where it is gone. */
export function placeOf(list: Rows, id: number): number {
  const place = list.rows.findIndex((line) => line.id === id);
  if (place < 0) throw new Error(t(GONE));
  return place;
}
