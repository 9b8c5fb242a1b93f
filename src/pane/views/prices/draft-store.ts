/** What is being typed for the rows of the list. Nothing here touches the workbook. */
import type { PriceColumnKey } from '../../../core/price';
import { TabStore } from '../../shared/tab-store';
import { lineTexts, type PriceDraft } from './price-draft';
import type { PriceLine } from './lines';
import type { PricesState } from './prices-state';

/** A row of the list, or the one that is being added. */
export type DraftId = number | 'new';

export abstract class DraftStore extends TabStore<PricesState> {
  draft(id: DraftId): PriceDraft | undefined {
    return id === 'new' ? this.state.adding : this.state.drafts.get(id);
  }

  line(id: DraftId): PriceLine | undefined {
    return id === 'new' ? undefined : this.state.lines.find((line) => line.id === id);
  }

  protected put(id: DraftId, draft: PriceDraft | undefined): void {
    if (id === 'new') {
      this.set({ adding: draft });
      return;
    }
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
    const texts = from
      ? { ...lineTexts(from, this.state.places), price: '', from: '', note: '', quotedOn: this.pane.today() }
      : { quotedOn: this.pane.today(), currency: this.usualCurrency() };
    this.set({ adding: { form: true, texts, base: {}, shown: new Set() }, message: undefined, added: undefined });
  }

  /** The currency of the last row that names one. */
  private usualCurrency(): string {
    return this.state.lines.findLast((line) => line.row?.currency)?.row?.currency ?? '';
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
}
