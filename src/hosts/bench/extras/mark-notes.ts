/** Cells with a note have a corner marked. */
import { InterceptorEffectEnum, type Injector } from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { NotesByCell } from './notes-by-cell';

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
