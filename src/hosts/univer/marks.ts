/** Cells that were not recalculated have a corner marked in the sheet; what there is to say stands in the status line. */
import { InterceptorEffectEnum, type Injector } from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { Calculation } from './calculation';

const CORNER = { size: 8, color: '#b45309' };

export function markUncalculated(injector: Injector, calculation: Calculation): void {
  const units = new Map<string, Set<string>>();
  calculation.onDone(() => units.clear());
  const markedOf = (unit: string): Set<string> => {
    const found = units.get(unit);
    if (found) return found;
    const marked = new Set(calculation.notRecalculated(unit).map((one) => keyOf(one.sheet, one.row, one.column)));
    units.set(unit, marked);
    return marked;
  };
  injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    effect: InterceptorEffectEnum.Style,
    handler: (cell, { unitId, subUnitId, row, col }, next) => {
      const own = markedOf(unitId);
      return next(own.size > 0 && own.has(keyOf(subUnitId, row, col)) ? withCorner(cell) : cell);
    },
  });
}

const withCorner = <T>(cell: T): T => ({ ...cell, markers: { ...(cell as { markers?: object }).markers, tr: CORNER } });
const keyOf = (sheet: string, row: number, column: number): string => `${sheet} ${row} ${column}`;
