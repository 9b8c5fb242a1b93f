/** Notes of an open workbook, and the corners that mark the cells that have one. */
import type { Note } from '../../../xlsx/extras/read';
import { InterceptorEffectEnum, type Injector } from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';

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

const CORNER = { size: 8, color: '#107284' };

export function markNotes(injector: Injector, unit: string, notes: NotesByCell): () => void {
  const marking = injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    id: 'tarebook-notes',
    effect: InterceptorEffectEnum.Style,
    handler: (cell, { unitId, subUnitId, row, col }, next) => {
      if (unitId !== unit || notes.at(subUnitId, row, col) === undefined) return next(cell);
      // A cell that is not recalculated has its mark at the right.
      const corner = cell?.markers?.tr ? 'tl' : 'tr';
      return next({ ...cell, markers: { ...cell?.markers, [corner]: CORNER } });
    },
  });
  return () => marking.dispose();
}
