/** Cells that lead somewhere are underlined, in the colour of links where they have none of their own. */
import { BooleanNumber, InterceptorEffectEnum, type Injector } from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { LinksByCell } from './links-by-cell';

const LOOK = { ul: { s: BooleanNumber.TRUE }, cl: { rgb: '#0b5cad' } };

export function markLinks(injector: Injector, unit: string, links: LinksByCell): () => void {
  const marking = injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    effect: InterceptorEffectEnum.Style,
    handler: (cell, { unitId, subUnitId, row, col, rawData, workbook }, next) => {
      if (unitId !== unit || !links.has(subUnitId, row, col, rawData)) return next(cell);
      const own = workbook.getStyles().getStyleByCell(rawData)?.cl;
      const look = own ? { ...LOOK, cl: own } : LOOK;
      return next({ ...cell, interceptorStyle: { ...look, ...cell?.interceptorStyle } });
    },
  });
  return () => marking.dispose();
}
