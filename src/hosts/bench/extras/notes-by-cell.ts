import type { Note } from '../../../xlsx/extras/notes';

/** Notes of a workbook by the engine's id of a sheet, and by cell. */
export class NotesByCell {
  private sheets = new Map<string, ReadonlyMap<string, string>>();

  take(sheets: readonly (readonly [id: string, notes: readonly Note[]])[]): void {
    this.sheets = new Map(
      sheets.flatMap(([id, notes]) =>
        notes.length ? [[id, new Map(notes.map(({ row, column, text }) => [`${row} ${column}`, text]))]] : [],
      ),
    );
  }

  at(sheet: string, row: number, column: number): string | undefined {
    return this.sheets.get(sheet)?.get(`${row} ${column}`);
  }
}
