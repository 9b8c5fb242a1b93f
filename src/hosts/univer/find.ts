/**
 * Finding texts in cells and replacing them. The engine's own plug-in puts the new text into a cell past the reading of
 * what is typed, and over results of formulas: here a cell gets its new text as if a person typed it.
 */
import {
  CellValueType,
  ICommandService,
  type ICellData,
  type Injector,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import { SetRangeValuesCommand, SheetInterceptorService } from '@univerjs/sheets';
import { numberText } from '../../calculation';
import { cellName, isInRange, type Cell, type CellPlace } from '../../sheet';
import { choicesOf } from './choices';
import { isProtected, targetOf } from './places';
import { cellReader, formulaTexts, shownReader, shownText, spilledCells, spillOver } from './cells';

export interface FindQuery {
  readonly text: string;
  readonly matchCase: boolean;
  /** True: the text is all that the cell has. */
  readonly wholeCell: boolean;
  /** Names of the sheets to look on, in order. */
  readonly sheets: readonly string[];
}

/** Why a cell that was found was not changed. */
export type NotReplaced =
  /** It shows a part of what the formula in `formula` fills. */
  | { readonly why: 'spill'; readonly formula: string }
  /** The text is in what its formula gives, and not in the formula. */
  | { readonly why: 'result' }
  | { readonly why: 'protected' }
  /** The new text is none of the choices that the cell takes. */
  | { readonly why: 'choices'; readonly text: string };

export interface Replaced {
  readonly count: number;
  readonly left: readonly (CellPlace & NotReplaced)[];
}

export class Finder {
  constructor(
    private readonly injector: Injector,
    private readonly book: EngineWorkbook,
  ) {}

  /** Cells that have the text in what they show or in what was typed, row by row; those that are not shown are left out. */
  find(query: FindQuery): CellPlace[] {
    const pattern = patternOf(query);
    return pattern ? query.sheets.flatMap((name) => this.findOn(name, pattern)) : [];
  }

  /** Replaces the text in cells; to be called inside a step of undo. */
  replace(query: FindQuery, replacement: string, cells: readonly CellPlace[]): Replaced {
    const pattern = patternOf(query);
    const left: (CellPlace & NotReplaced)[] = [];
    let count = 0;
    for (const name of new Set(cells.map(({ sheet }) => sheet))) {
      const sheet = this.book.getSheetBySheetName(name);
      if (!sheet || !pattern) continue;
      const value: Record<number, Record<number, ICellData>> = {};
      const replaceIn = this.replacer(sheet, (text) => text.replace(pattern, () => replacement));
      for (const cell of cells.filter((one) => one.sheet === name)) {
        const made = replaceIn(cell);
        if ('why' in made) left.push({ ...cell, ...made });
        else {
          (value[cell.row] ??= {})[cell.column] = made;
          count += 1;
        }
      }
      if (Object.keys(value).length > 0) this.type(sheet, value);
    }
    return { count, left };
  }

  private findOn(name: string, pattern: RegExp): CellPlace[] {
    const sheet = this.book.getSheetBySheetName(name);
    if (!sheet) return [];
    const found: CellPlace[] = [];
    const textsOf = this.textReader(sheet);
    const look = (row: number, column: number): void => {
      if (!sheet.getRowVisible(row) || !sheet.getColVisible(column)) return;
      const { typed, shown } = textsOf(row, column);
      if ([typed, shown].some((text) => text !== '' && text.search(pattern) >= 0))
        found.push({ sheet: name, row, column });
    };
    const cells = sheet.getCellMatrix();
    cells.forValue((row, column, data) => {
      if (data) look(row, column);
    });
    for (const [row, line] of Object.entries(spilledCells(this.injector, sheet) ?? {}))
      for (const column of Object.keys(line ?? {}))
        if (!cells.getValue(Number(row), Number(column))) look(Number(row), Number(column));
    return found.sort((a, b) => a.row - b.row || a.column - b.column);
  }

  /** Gives what was typed into a cell of the sheet, '' for a part of a formula's result, and what it shows. */
  private textReader(
    sheet: Worksheet,
  ): (row: number, column: number) => { readonly typed: string; readonly shown: string } {
    const [read, shownAt, formulaAt] = [
      cellReader(this.injector, sheet),
      shownReader(this.injector, this.book, sheet),
      formulaTexts(sheet),
    ];
    const spilled = spilledCells(this.injector, sheet);
    return (row, column) => {
      const typed = (): string => (spilled?.[row]?.[column] === undefined ? typedText(read(row, column)) : '');
      return { typed: formulaAt(row, column) ?? typed(), shown: shownAt(row, column) };
    };
  }

  /** Gives what a cell of the sheet gets for its old text, or why it gets nothing. */
  private replacer(sheet: Worksheet, replaced: (text: string) => string): (cell: CellPlace) => ICellData | NotReplaced {
    if (isProtected(this.injector, sheet)) return () => ({ why: 'protected' });
    const textsOf = this.textReader(sheet);
    const lists = choicesOf(this.injector, sheet);
    return ({ row, column }) => {
      const { typed, shown } = textsOf(row, column);
      if (typed === '') {
        const spill = spillOver(this.injector, sheet, row, column);
        return { why: 'spill', formula: spill ? cellName(spill.startRow, spill.startColumn) : '' };
      }
      // A length of 0.02 that shows as 0.020 is found by either.
      const before = replaced(typed) !== typed || typed.startsWith('=') ? typed : shown;
      const after = replaced(before);
      if (after === before && typed.startsWith('=')) return { why: 'result' };
      const isChoice = lists.every(
        ({ range, choices, open }) => open || after === '' || !isInRange(range, row, column) || choices.includes(after),
      );
      return isChoice ? this.typedCell(sheet, row, column, after) : { why: 'choices', text: after };
    };
  }

  /** What a cell gets when this is typed into it. */
  private typedCell(sheet: Worksheet, row: number, column: number, text: string): ICellData {
    const raw = sheet.getCellMatrix().getValue(row, column) ?? {};
    const cleared = { ...raw, t: undefined, f: null, si: null, p: null };
    const isText = /^@/.test(this.book.getStyles().getStyleByCell(raw)?.n?.pattern ?? '') || isNumberAsText(raw);
    const data: ICellData = isText
      ? { ...cleared, v: text, t: CellValueType.STRING }
      : text.startsWith('=') && text.length > 1
        ? { ...cleared, v: null, f: text }
        : text.startsWith("'")
          ? { ...cleared, v: text.slice(1), t: CellValueType.FORCE_STRING }
          : { ...cleared, v: text };
    return this.injector.get(SheetInterceptorService).onWriteCell(this.book, sheet, row, column, data) ?? data;
  }

  private type(sheet: Worksheet, value: Record<number, Record<number, ICellData>>): void {
    const [row] = Object.keys(value).map(Number);
    const column = Number(Object.keys(value[row!]!)[0]);
    this.injector.get(ICommandService).syncExecuteCommand(SetRangeValuesCommand.id, {
      ...targetOf(sheet),
      // Takes the place of the selection, which the command asks for.
      range: { startRow: row, endRow: row, startColumn: column, endColumn: column },
      value,
    });
  }
}

function patternOf({ text, matchCase, wholeCell }: FindQuery): RegExp | undefined {
  if (text === '') return undefined;
  const literal = text.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');
  return new RegExp(wholeCell ? `^\\s*${literal}\\s*$` : literal, matchCase ? 'gu' : 'giu');
}

/** As it stands in the editor; a text that reads as something else would. */
const typedText = (value: Cell): string =>
  value === null ? '' : typeof value === 'number' ? numberText(value) : shownText(value);

/** A part number of digits was put in as a text, and stays one. */
const isNumberAsText = ({ v, t }: ICellData): boolean =>
  (t === CellValueType.STRING || t === CellValueType.FORCE_STRING) && typeof v === 'string' && v.trim() !== '' && !Number.isNaN(Number(v)); // prettier-ignore
