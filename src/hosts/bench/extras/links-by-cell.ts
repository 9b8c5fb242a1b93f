/** Links of an open workbook's cells: those that the file has, and those that formulas are. */
import {
  BooleanNumber,
  InterceptorEffectEnum,
  type ICellData,
  type Injector,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { FormulaDataModel } from '@univerjs/engine-formula';
import type { Link } from '../../../xlsx/extras/read';
import { isInRange } from '../../../sheet';
import { printFormula, tryFormula } from '../../../sheet/formula';
import { injectorOf, type Engine } from '../../univer';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';

interface SheetLinks {
  readonly cells: ReadonlyMap<string, string>;
  /** Links of several cells. */
  readonly areas: readonly Link[];
}

const IS_LINK = /^=\s*HYPERLINK\s*\(/i;

export class LinksByCell {
  private sheets = new Map<string, SheetLinks>();
  private readonly injector: Injector;

  constructor(
    private readonly engine: Engine,
    private readonly book: EngineWorkbook,
    /** Is called when it is known where a formula leads. */
    private readonly known: () => void,
  ) {
    this.injector = injectorOf(engine.univer);
  }

  take(sheets: readonly (readonly [id: string, links: readonly Link[]])[]): void {
    this.sheets = new Map(sheets.filter(([, links]) => links.length > 0).map(([id, links]) => [id, indexed(links)]));
  }

  /** True for a cell that leads somewhere. `data` is the cell. */
  has(sheet: string, row: number, column: number, data: Nullable<ICellData>): boolean {
    if (this.inFile(sheet, row, column) !== undefined) return true;
    if (!data?.f && !data?.si) return false;
    return IS_LINK.test(data.f ?? this.formulaAt(sheet, row, column));
  }

  /** Where a cell leads, as it is written; undefined where it leads nowhere. */
  at(sheet: string, row: number, column: number): string | undefined {
    const formula = this.formulaAt(sheet, row, column);
    if (!IS_LINK.test(formula)) return this.inFile(sheet, row, column);
    const node = tryFormula(formula.replace(/^=/, ''));
    const [address] = node?.kind === 'call' ? node.args : [];
    if (!address) return undefined;
    const unit = this.book.getUnitId();
    const written = { sheet, row, column, formula: printFormula(address) };
    const given = this.engine.calculation.given(unit, written, [row, column], this.known);
    const first = Array.isArray(given) ? given[0]?.[0] : given;
    return typeof first === 'string' && first !== '' ? first : undefined;
  }

  private inFile(sheet: string, row: number, column: number): string | undefined {
    const links = this.sheets.get(sheet);
    return (
      links?.cells.get(`${row} ${column}`) ?? links?.areas.find(({ area }) => isInRange(area, row, column))?.target
    );
  }

  private formulaAt(sheet: string, row: number, column: number): string {
    const formulas = this.injector.get(FormulaDataModel);
    return formulas.getFormulaStringByCell(row, column, sheet, this.book.getUnitId()) ?? '';
  }
}

function indexed(links: readonly Link[]): SheetLinks {
  const isCell = ({ area }: Link): boolean => area.rows === 1 && area.columns === 1;
  return {
    cells: new Map(links.filter(isCell).map(({ area, target }) => [`${area.row} ${area.column}`, target])),
    areas: links.filter((one) => !isCell(one)),
  };
}

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
