/** Why a cell shows an error: the message of the function that gave it, in this cell or in one that it depends on. */
import type { IRange, Workbook as EngineWorkbook } from '@univerjs/core';
import { IDefinedNamesService, ISuperTableService } from '@univerjs/engine-formula';
import { CellError, cellName, quoteSheet, type ErrorCode } from '../../sheet';
import { references } from '../../sheet/formula';
import { cellReader, formulaTexts, spillOver } from './cells';
import type { Engine } from './engine';
import { placeKey, type CellPlace } from './places';

/** How many cells away, and in how large ranges, the origin of an error is looked for. */
const FARTHEST = 12;
const MOST_CELLS = 50_000;

interface Area {
  readonly sheet: string;
  readonly range: IRange;
}

export class Explainer {
  constructor(
    private readonly engine: Engine,
    private readonly book: EngineWorkbook,
  ) {}

  /** The words for the error in a cell (the sheet by its id); undefined where it shows none, or nobody knows why. */
  explain(place: CellPlace): string | undefined {
    const code = this.errorsOn(place.sheet)(place.row, place.column);
    return this.notRecalculated(place) ?? (code && this.follow(place, code, place, new Set()));
  }

  /** Why a cell shows a value that was not calculated here; undefined where it was. */
  private notRecalculated(place: CellPlace): string | undefined {
    const found = this.engine.calculation
      .notRecalculated(this.book.getUnitId())
      .find((one) => placeKey(one) === placeKey(place));
    if (!found) return undefined;
    const { because, reason } = found;
    const name = nameOf(this.book, because, place);
    const why = `${reason}: ${name} keeps the file’s value.`;
    return placeKey(because) === placeKey(place)
      ? `Not recalculated. ${why}`
      : `Not recalculated, because it depends on ${name}. ${why}`;
  }

  private follow(place: CellPlace, code: ErrorCode, asked: CellPlace, seen: Set<string>): string | undefined {
    const { sheet, row, column } = place;
    const own = this.engine.messages.explain(this.book.getUnitId(), sheet, row, column, code);
    if (own !== undefined) return place === asked ? own : `${nameOf(this.book, place, asked)}: ${own}`;
    seen.add(placeKey(place));
    if (seen.size > FARTHEST) return undefined;
    for (const next of this.sources(place, code)) {
      const found = seen.has(placeKey(next)) ? undefined : this.follow(next, code, asked, seen);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  private errorsOn(sheet: string): (row: number, column: number) => ErrorCode | undefined {
    const worksheet = this.book.getSheetBySheetId(sheet);
    const read = worksheet && cellReader(this.engine.injector, worksheet);
    return (row, column) => {
      const cell = read?.(row, column);
      return cell instanceof CellError ? cell.code : undefined;
    };
  }

  /** The formula in a cell, or the one whose spill reaches it. */
  private formulaOver({ sheet, row, column }: CellPlace): string | undefined {
    const worksheet = this.book.getSheetBySheetId(sheet);
    if (!worksheet) return undefined;
    const textAt = formulaTexts(worksheet);
    const spill = spillOver(this.engine.injector, worksheet, row, column);
    return textAt(row, column) ?? (spill && textAt(spill.startRow, spill.startColumn));
  }

  /** Cells with the same error among those that the formula names: the ones in its own row first. */
  private sources(place: CellPlace, code: ErrorCode): CellPlace[] {
    const found: CellPlace[] = [];
    let looked = 0;
    for (const { sheet, range } of this.areasIn(this.formulaOver(place) ?? '', place.sheet)) {
      const errorAt = this.errorsOn(sheet);
      for (let row = range.startRow; row <= range.endRow && looked < MOST_CELLS; row++)
        for (let column = range.startColumn; column <= range.endColumn; column++, looked++)
          if (errorAt(row, column) === code) found.push({ sheet, row, column });
    }
    const beside = found.filter(({ row }) => row === place.row);
    return beside.length > 0 ? beside : found;
  }

  /** The cells that a formula on a sheet names, by address, as a table or by a defined name. */
  private areasIn(formula: string, sheet: string): Area[] {
    const unit = this.book.getUnitId();
    return references(formula).flatMap((one): Area[] => {
      if (one.kind === 'table') {
        const table = this.engine.injector.get(ISuperTableService).getTable(unit, one.table);
        return table ? [{ sheet: table.sheetId, range: table.range }] : [];
      }
      if (one.kind === 'name') {
        const text =
          this.engine.injector.get(IDefinedNamesService).getValueByName(unit, one.name)?.formulaOrRefString ?? '';
        // A name that stands for a formula of names is not followed.
        return references(text).some(({ kind }) => kind === 'name') ? [] : this.areasIn(text, sheet);
      }
      const worksheet = one.sheet ? this.book.getSheetBySheetName(one.sheet) : this.book.getSheetBySheetId(sheet);
      if (!worksheet || one.isElsewhere) return [];
      const { top, left, bottom, right } = one.node;
      const range = {
        startRow: top.at,
        startColumn: left.at,
        endRow: Math.min(bottom.at, worksheet.getRowCount() - 1),
        endColumn: Math.min(right.at, worksheet.getColumnCount() - 1),
      };
      return [{ sheet: worksheet.getSheetId(), range }];
    });
  }
}

function nameOf(book: EngineWorkbook, { sheet, row, column }: CellPlace, asked: CellPlace): string {
  const name = cellName(row, column);
  return sheet === asked.sheet ? name : `${quoteSheet(book.getSheetBySheetId(sheet)?.getName() ?? '')}!${name}`;
}
