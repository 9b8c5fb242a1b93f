/** Why a cell shows an error: the message of the function that gave it, in this cell or in one that it depends on. */
import {
  deserializeRangeWithSheet,
  FormulaDataModel,
  IDefinedNamesService,
  ISuperTableService,
  LexerTreeBuilder,
  sequenceNodeType,
  splitTableStructuredRef,
} from '@univerjs/engine-formula';
import type { Injector, IRange, Workbook as EngineWorkbook } from '@univerjs/core';
import { CellError, cellName, quoteSheet, type ErrorCode } from '../../sheet';
import { fromCellData } from './cells';
import type { Engine } from './engine';
import { injectorOf } from './internals';
import { spilledCells, spillRanges } from './spills';

/** How many cells away, and in how large ranges, the origin of an error is looked for. */
const FARTHEST = 12;
const MOST_CELLS = 50_000;

interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export class Explainer {
  private readonly injector: Injector;

  constructor(
    private readonly engine: Engine,
    private readonly book: EngineWorkbook,
  ) {
    this.injector = injectorOf(engine.univer);
  }

  /** The words for the error in a cell (the sheet by its id); undefined where it shows none, or nobody knows why. */
  explain(place: Place): string | undefined {
    const code = this.errorAt(place);
    return this.notRecalculated(place) ?? (code && this.follow(place, code, place, new Set()));
  }

  /** Why a cell shows a value that was not calculated here; undefined where it was. */
  private notRecalculated(place: Place): string | undefined {
    const { sheet, row, column } = place;
    const found = this.engine.calculation
      .notRecalculated(this.book.getUnitId())
      .find((one) => one.sheet === sheet && one.row === row && one.column === column);
    if (!found) return undefined;
    const { because, reason } = found;
    const why = `${reason}: ${nameOf(this.book, because, place)} keeps the file’s value.`;
    return because.sheet === sheet && because.row === row && because.column === column
      ? `Not recalculated. ${why}`
      : `Not recalculated, because it depends on ${nameOf(this.book, because, place)}. ${why}`;
  }

  private follow(place: Place, code: ErrorCode, asked: Place, seen: Set<string>): string | undefined {
    const { sheet, row, column } = place;
    const own = this.engine.messages.explain(this.book.getUnitId(), sheet, row, column, code);
    if (own !== undefined) return place === asked ? own : `${nameOf(this.book, place, asked)}: ${own}`;
    seen.add(`${place.sheet} ${place.row} ${place.column}`);
    if (seen.size > FARTHEST) return undefined;
    for (const next of this.sources(place, code)) {
      if (seen.has(`${next.sheet} ${next.row} ${next.column}`)) continue;
      const found = this.follow(next, code, asked, seen);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  private errorAt({ sheet, row, column }: Place): ErrorCode | undefined {
    const worksheet = this.book.getSheetBySheetId(sheet);
    const spilled = spilledCells(this.injector, this.book.getUnitId(), sheet);
    const cell = fromCellData(spilled?.[row]?.[column] ?? worksheet?.getCellMatrix().getValue(row, column));
    return cell instanceof CellError ? cell.code : undefined;
  }

  /** The formula in a cell, or the one whose spill reaches it. */
  private formulaOver({ sheet, row, column }: Place): { text: string; row: number; column: number } | undefined {
    const unit = this.book.getUnitId();
    const formulas = this.injector.get(FormulaDataModel);
    const at = (r: number, c: number) => {
      const text = formulas.getFormulaStringByCell(r, c, sheet, unit);
      return text ? { text, row: r, column: c } : undefined;
    };
    const own = at(row, column);
    if (own) return own;
    for (const [r, line] of Object.entries(spillRanges(this.injector, unit, sheet) ?? {})) {
      for (const [c, range] of Object.entries(line ?? {})) {
        if (
          range &&
          row >= range.startRow &&
          row <= range.endRow &&
          column >= range.startColumn &&
          column <= range.endColumn
        )
          return at(Number(r), Number(c));
      }
    }
    return undefined;
  }

  /** Cells with the same error among those that the formula names: the ones in its own row first. */
  private sources(place: Place, code: ErrorCode): Place[] {
    const formula = this.formulaOver(place);
    if (!formula) return [];
    const found: Place[] = [];
    let looked = 0;
    for (const { sheet, range } of this.references(formula.text, place.sheet)) {
      for (let row = range.startRow; row <= range.endRow && looked < MOST_CELLS; row++) {
        for (let column = range.startColumn; column <= range.endColumn; column++, looked++) {
          if (this.errorAt({ sheet, row, column }) === code) found.push({ sheet, row, column });
        }
      }
    }
    const beside = found.filter(({ row }) => row === place.row);
    return beside.length > 0 ? beside : found;
  }

  private references(formula: string, sheet: string): { sheet: string; range: IRange }[] {
    const unit = this.book.getUnitId();
    const nodes = this.injector.get(LexerTreeBuilder).sequenceNodesBuilder(formula) ?? [];
    return nodes.flatMap((node) => {
      if (typeof node === 'string') return [];
      if (node.nodeType === sequenceNodeType.REFERENCE) return this.reference(node.token, sheet);
      if (node.nodeType === sequenceNodeType.TABLE) {
        const table = this.injector
          .get(ISuperTableService)
          .getTable(unit, splitTableStructuredRef(node.token).tableName);
        return table ? [{ sheet: table.sheetId, range: table.range }] : [];
      }
      if (node.nodeType !== sequenceNodeType.FUNCTION) return [];
      const name = this.injector.get(IDefinedNamesService).getValueByName(unit, node.token);
      return name ? this.reference(name.formulaOrRefString.replace(/^=/, ''), sheet) : [];
    });
  }

  private reference(token: string, sheet: string): { sheet: string; range: IRange }[] {
    const { sheetName, range } = deserializeRangeWithSheet(token);
    const worksheet = sheetName ? this.book.getSheetBySheetName(sheetName) : this.book.getSheetBySheetId(sheet);
    if (!worksheet || [range.startRow, range.startColumn].some((edge) => Number.isNaN(edge) || edge < 0)) return [];
    return [
      {
        sheet: worksheet.getSheetId(),
        range: {
          ...range,
          endRow: Math.min(range.endRow, worksheet.getRowCount() - 1),
          endColumn: Math.min(range.endColumn, worksheet.getColumnCount() - 1),
        },
      },
    ];
  }
}

function nameOf(book: EngineWorkbook, { sheet, row, column }: Place, asked: Place): string {
  const name = cellName(row, column);
  return sheet === asked.sheet ? name : `${quoteSheet(book.getSheetBySheetId(sheet)?.getName() ?? '')}!${name}`;
}
