/** The view's state and everything it asks of the workbook, in order, one thing at a time. */
import { PRICE_COLUMNS, type PriceColumnKey } from '../../../core/price';
import { type CellInput, type Edit } from '../../../sheet';
import { readProjectUnits } from '../../../project';
import { mark, t } from '../../locale';
import { refusal } from '../../shared/refusal';
import type { PaneContext } from '../../shared/view';
import type { Arrangement } from './arrange';
import { writeCsv } from './csv';
import { changedKeys, checkDraft, draftCells, lineTexts, plainCell, type Draft, type Texts } from './draft';
import { DraftStore, type DraftId } from './draft-store';
import { addRows, removeRow, reorderRows, tableRow, writeFields } from './edits';
import { makeList, makeTableOf } from './first-list';
import { checkLines, keepLines, type PriceLine, type Problems } from './lines';
import { ListReader, type Reading } from './list-reader';
import { OLD_AFTER_DEFAULT } from './quote-age';
import { NOTHING_READ, type Message, type PricesState } from './state';

export type Ready = Extract<Reading, { status: 'ready' }>;
const EXPORTED = 'prices.csv';
const OLD_AFTER_SETTING = 'prices.old-after-months';
const GONE = mark('That row is no longer in the sheet, so nothing was written. Add it again, or drop the change.');
/** Fields that stay filled for the next item of the same order. */
const CARRIED: readonly PriceColumnKey[] = ['kind', 'soldBy', 'currency', 'supplier', 'quotedOn'];

export class PricesStore extends DraftStore {
  private readonly reader: ListReader;
  /** True where other sheets, which say the workbook's units, may have changed. */
  private unitsDue = true;
  protected override readonly unread = mark('The price list could not be read.');

  constructor(pane: PaneContext) {
    super(pane, { ...NOTHING_READ, oldAfter: storedAge(pane) });
    this.reader = new ListReader(pane.workbook);
  }

  protected concerns(sheets: readonly string[]): boolean {
    const { table } = this.state;
    if (sheets.some((sheet) => sheet !== table?.range.sheet)) this.unitsDue = true;
    return !table || sheets.includes(table.range.sheet);
  }

  protected async readOnce(): Promise<void> {
    const read = await this.reader.read();
    if (this.unitsDue) await this.readUnits();
    if (!this.changing) this.show(read);
  }

  /** The other sheets are not read for every change in them: with the next reading of the list is soon enough. */
  private async readUnits(): Promise<void> {
    this.unitsDue = false;
    const units = await readProjectUnits(this.workbook);
    if (units !== this.state.units) this.set({ units });
  }

  private show(read: Reading): void {
    if (read.status === 'ready')
      this.set({
        status: 'ready',
        mend: undefined,
        candidate: undefined,
        table: read.table,
        places: read.places,
        lines: read.lines,
      });
    else if (read.status === 'lacking') this.set({ status: 'lacking', mend: read.mend, table: read.table, lines: [] });
    else this.set({ status: 'absent', mend: undefined, table: undefined, lines: [], candidate: read.candidate });
  }

  tell(tone: Message['tone'], text: string): void {
    this.set({ message: { tone, text } });
  }

  /**
   * One change of the list: reads it as it is at that moment, builds the edits from that, and makes
   * them as one step of undo. Gives undefined where it is done, else what went wrong.
   */
  change(label: string, build: (list: Ready) => readonly Edit[]): Promise<string | undefined> {
    return this.inTurn(async () => {
      const list = await this.reader.read();
      if (list.status !== 'ready')
        throw new Error(t('The price list is no longer in the workbook, so nothing was written.'));
      const edits = build(list);
      if (edits.length > 0) await this.workbook.apply(label, edits);
    });
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
    const { lines, own } = this.with(id, fields);
    if (draft.form && own.size > 0) return this.keep(id, { ...draft, clash: own, shown: ALL_SHOWN });
    if (fields.size === 0) {
      this.cancel(id);
      return true;
    }
    if (id === 'new') return this.add(draft, fields);
    const name = draft.texts.item ?? lineTexts(line!, places).item;
    this.put(id, undefined);
    // Shown at once; the reading that follows brings what the sheet made of it.
    this.set({ lines, message: undefined });
    const wrong = await this.change(t('Change {item}', { item: name }), (list) =>
      writeFields(list.table, list.places, placeOf(list, id), fields),
    );
    if (wrong !== undefined) return this.keep(id, { ...draft, refused: wrong });
    return true;
  }

  private keep(id: DraftId, draft: Draft): false {
    this.put(id, draft);
    return false;
  }

  private async add(draft: Draft, fields: ReadonlyMap<PriceColumnKey, CellInput>): Promise<boolean> {
    const name = (draft.texts.item ?? '').trim();
    const wrong = await this.change(
      t('Add {item}', { item: name }),
      (list) => addRows(list.table, list.places, list.lines, [tableRow(list.table, list.places, fields)]).edits,
    );
    if (wrong !== undefined) return this.keep('new', { ...draft, refused: wrong });
    const carried: Texts = Object.fromEntries(CARRIED.map((key) => [key, draft.texts[key] ?? '']));
    this.set({ adding: { form: true, texts: carried, base: {}, shown: new Set() } });
    this.tell('done', t('Added {item}.', { item: name }));
    return true;
  }

  /** The list as it would be with some fields of a row, and the problems of that row. */
  private with(
    id: DraftId,
    fields: ReadonlyMap<PriceColumnKey, CellInput>,
  ): { readonly lines: PriceLine[]; readonly own: Problems } {
    const { places, lines } = this.state;
    const width = Math.max(...places.values()) + 1;
    const changed = (cells: PriceLine['cells']): PriceLine['cells'] => {
      const next = Array.from({ length: Math.max(width, cells.length) }, (_, place) => cells[place] ?? null);
      for (const [key, input] of fields) if (places.has(key)) next[places.get(key)!] = plainCell(input);
      return next;
    };
    const next =
      id === 'new'
        ? [...lines, { id: -1, cells: changed([]), formulas: [] }]
        : lines.map((line) => (line.id === id ? { ...line, cells: changed(line.cells) } : line));
    const checked = keepLines(lines, checkLines(places, next));
    return { lines: checked, own: checked.find((line) => line.id === (id === 'new' ? -1 : id))?.problems ?? new Map() };
  }

  // The list

  async remove(id: number): Promise<void> {
    const line = this.line(id);
    if (!line) return;
    const name = lineTexts(line, this.state.places).item.trim() || t('a row');
    const draft = this.state.drafts.get(id);
    this.put(id, undefined);
    this.set({ lines: this.state.lines.filter((other) => other.id !== id) });
    const wrong = await this.change(t('Remove {item}', { item: name }), (list) =>
      removeRow(list.table, list.lines.length, placeOf(list, id)),
    );
    if (wrong !== undefined && draft) this.put(id, draft);
    this.tell(
      wrong === undefined ? 'done' : 'failed',
      wrong ?? t('Removed {item}. Undo brings it back.', { item: name }),
    );
  }

  async undo(): Promise<void> {
    await this.step('undo', t('Undone.'), t('Nothing to undo.'));
  }

  async redo(): Promise<void> {
    await this.step('redo', t('Done again.'), t('Nothing to redo.'));
  }

  private async step(which: 'undo' | 'redo', done: string, none: string): Promise<void> {
    let made = false;
    const wrong = await this.inTurn(async () => {
      made = await this.workbook[which]();
    });
    this.tell(wrong === undefined ? 'done' : 'failed', wrong ?? (made ? done : none));
  }

  /** Puts the rows of the sheet into the order of the view. `order`: ids as they are shown; the others follow. */
  async sortSheet(order: readonly number[]): Promise<void> {
    const wrong = await this.change(t('Sort the price list'), (list) => {
      if (list.lines.some(({ formulas }) => formulas.some((formula) => formula !== null))) {
        throw new Error(
          t(
            'The list holds formulas, which would point to other rows after sorting. Sort it in the sheet, or replace them with values.',
          ),
        );
      }
      const rank = new Map(order.map((id, index) => [id, index]));
      const last = order.length;
      return reorderRows(
        list.table,
        [...list.lines].sort((a, b) => (rank.get(a.id) ?? last) - (rank.get(b.id) ?? last)),
      );
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
    if (!table || row < 0) return;
    try {
      await this.workbook.select({ ...table.range, row: table.range.row + 1 + row, rows: 1 });
    } catch (error) {
      this.tell('failed', refusal(error));
    }
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
    if (!table) return;
    if (this.pane.saveFile(EXPORTED, writeCsv(table.columns, places, lines)) === false) return;
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
export function placeOf(list: Ready, id: number): number {
  const place = list.lines.findIndex((line) => line.id === id);
  if (place < 0) throw new Error(t(GONE));
  return place;
}
