/** Files where a pane cannot save any: rows become a new sheet, other files a text to copy; and it is said. */
import { decimalNumber } from '../../core/quantity';
import { ownRecords, unguard } from '../../project';
import { freeSheetName, type CellInput, type Workbook } from '../../sheet';
import { t } from '../locale';
import { refusal } from '../shared/refusal';
import { Store } from '../shared/store';

export type Handed =
  | { readonly kind: 'sheet'; readonly name: string; readonly sheet: string }
  | { readonly kind: 'text'; readonly name: string; readonly text: string }
  | { readonly kind: 'refused'; readonly name: string; readonly why: string };

export interface HandOverState {
  readonly handed?: Handed | undefined;
}

export class HandOverStore extends Store<HandOverState> {
  constructor(private readonly workbook: Workbook) {
    super({});
  }

  /** Takes a file that would be saved elsewhere. */
  async take(name: string, text: string): Promise<void> {
    if (!name.endsWith('.csv')) return this.set({ handed: { kind: 'text', name, text } });
    try {
      const sheet = await this.addSheet(name, text);
      this.set({ handed: { kind: 'sheet', name, sheet } });
    } catch (error) {
      this.set({ handed: { kind: 'refused', name, why: refusal(error) } });
    }
  }

  close(): void {
    this.set({ handed: undefined });
  }

  private async addSheet(name: string, text: string): Promise<string> {
    const data = ownRecords(text).filter((fields) => fields.some((field) => field !== ''));
    const columns = Math.max(1, ...data.map((row) => row.length));
    const cells = data.map((row) => Array.from({ length: columns }, (_none, at) => cellOf(row[at] ?? '')));
    const taken = new Set((await this.workbook.sheets()).map((one) => one.name.toLowerCase()));
    const sheet = freeSheetName(name.replace(/\.[^.]*$/, ''), taken);
    await this.workbook.apply(t('New sheet {sheet}', { sheet }), [
      { kind: 'addSheet', name: sheet },
      ...(cells.length > 0
        ? [
            { kind: 'write', range: { sheet, row: 0, column: 0, rows: cells.length, columns }, cells } as const,
            { kind: 'format', range: { sheet, row: 0, column: 0, rows: 1, columns }, bold: true } as const,
          ]
        : []),
    ]);
    await this.workbook.select({ sheet, row: 0, column: 0, rows: 1, columns: 1 });
    return sheet;
  }
}

const cellOf = (text: string): CellInput => (text === '' ? null : (decimalNumber(text) ?? unguard(text)));
