/** Notes and links of an open workbook's cells, and the marks of cells that have one. A link is the file's, or a formula is one. */
import {
  BooleanNumber,
  type ICellData,
  type Injector,
  type Nullable,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { FormulaDataModel } from '@univerjs/engine-formula';
import type { Link, Note } from '../../../xlsx/extras/read';
import { isInRange } from '../../../sheet';
import { printFormula, tryFormula } from '../../../sheet/formula';
import type { Engine } from '../../univer';
import { styleCells } from './painting';

/** Notes of a workbook by the engine's id of a sheet, and by cell. */
export class NotesByCell {
  private sheets = new Map<string, ReadonlyMap<string, string>>();

  take(sheets: readonly (readonly [id: string, notes: readonly Note[]])[]): void {
    this.sheets = new Map(
      sheets.map(([id, notes]) => [id, new Map(notes.map(({ row, column, text }) => [`${row} ${column}`, text]))]),
    );
  }

  at(sheet: string, row: number, column: number): string | undefined {
    return this.sheets.get(sheet)?.get(`${row} ${column}`);
  }
}

const CORNER = { size: 8, color: '#107284' };

export const markNotes = (injector: Injector, unit: string, notes: NotesByCell): (() => void) =>
  styleCells(injector, unit, (cell, { subUnitId, row, col }) => {
    if (notes.at(subUnitId, row, col) === undefined) return cell;
    // A cell that is not recalculated has its mark at the right.
    const corner = cell?.markers?.tr ? 'tl' : 'tr';
    return { ...cell, markers: { ...cell?.markers, [corner]: CORNER } };
  });

interface SheetLinks {
  readonly cells: ReadonlyMap<string, string>;
  /** Links of several cells. */
  readonly areas: readonly Link[];
}

const IS_LINK = /^=\s*HYPERLINK\s*\(/i;

export class LinksByCell {
  private sheets = new Map<string, SheetLinks>();
  constructor(
    private readonly engine: Engine,
    private readonly book: EngineWorkbook,
    /** Is called when it is known where a formula leads. */
    private readonly known: () => void,
  ) {}

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
    const written = { sheet, row, column, formula: printFormula(address) };
    const given = this.engine.calculation.given(this.book.getUnitId(), written, [row, column], this.known);
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
    const formulas = this.engine.injector.get(FormulaDataModel);
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

export const markLinks = (injector: Injector, unit: string, links: LinksByCell): (() => void) =>
  styleCells(injector, unit, (cell, { subUnitId, row, col, rawData, workbook }) => {
    if (!links.has(subUnitId, row, col, rawData)) return cell;
    const own = workbook.getStyles().getStyleByCell(rawData)?.cl;
    return { ...cell, interceptorStyle: { ...LOOK, ...(own ? { cl: own } : {}), ...cell?.interceptorStyle } };
  });
