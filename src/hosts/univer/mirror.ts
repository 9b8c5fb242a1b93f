/** One workbook of the engine as the calculator has it: sent once, then kept in step with the edits. */
import {
  ObjectMatrix,
  type ICellData,
  type ICommandInfo,
  type IExecutionOptions,
  type Injector,
  type Nullable,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  AddWorksheetMergeMutation,
  RemoveWorksheetMergeMutation,
  SetRangeValuesMutation,
  SheetsSelectionsService,
  type ISetRangeValuesMutationParams,
} from '@univerjs/sheets';
import {
  CellError,
  isInRange,
  revived,
  showsDate,
  type Cell,
  type CellModel,
  type Matrix,
  type RangeAddress,
  type Result,
  type WorkbookModel,
} from '../../sheet';
import { reasonOf, type SheetCell } from '../../calculation';
import {
  packCell,
  packedSpill,
  packValue,
  rowPieces,
  type Answer,
  type PackedCell,
  type Request,
  type Results,
  type UnknownInBook,
} from '../../calculation/service';
import { isEditedIn, namesOf, placeKey, toAddress, type CellPlace } from './places';
import { bringsBlock, formulaTexts, fromCellData, isPlain, keep, keptBlock, keptData, toValueData } from './cells';
import { rowsLeftOut } from './filters';
import {
  FormulaAnswers,
  otherResults,
  Updates,
  type ErrorMessages,
  type OtherResults,
  type RuleAsked,
} from './answers';
import { CELLS_CHANGE, type MutationPlace } from './structure';
import { countsFrom1904 } from './snapshot';
import { tablesOf } from './tables';
import type { Turns } from './turns';
import { formatOf } from './typed-cells';

/** A formula that was put into a cell since the last calculation. */
interface TypedFormula extends CellPlace {
  readonly text: string;
  readonly cell: CellModel;
}

/** A cell whose value is the one that the file came with, or rests on such a value. */
export interface NotRecalculated extends CellPlace {
  /** The formula that cannot be calculated here: the cell itself, or one that it rests on. */
  readonly because: CellPlace;
  /** "EDATE is not known here" */
  readonly reason: string;
}

/** A formula that stands in no cell, written for the one at `row`, `column`; its sheet by the engine's id. */
export interface WrittenFormula extends CellPlace {
  readonly formula: string;
}

/** Styles of a workbook that counts from 1904: what matters is which cells show dates. */
const STYLES_1904 = [{}, { numberFormat: 'yyyy-mm-dd' }];
const DATED = 1;

/** With more edits at once than this, sending all anew is no slower. */
const MOST_EDITS = 20_000;

/** More formulas than this are no one's typing: they are filled down or pasted, with looks of their own. */
const MOST_TYPED = 100;

const RESHAPES: ReadonlySet<string> = new Set(
  [...CELLS_CHANGE, AddWorksheetMergeMutation.id, RemoveWorksheetMergeMutation.id].filter(
    (id) => id !== SetRangeValuesMutation.id,
  ),
);

/** A formula that keeps a result of several cells. */
interface KeptBlock {
  readonly area: RangeAddress;
  readonly cell: CellModel;
  readonly values: Matrix;
}

/** What a mirror has of the calculation that it is part of. */
export interface MirrorPlace {
  readonly injector: Injector;
  readonly messages: ErrorMessages;
  readonly turns: Turns;
  post(request: Request): void;
  /** True where requests are answered at once. */
  readonly isHere: boolean;
  /** Rules whose formulas stand in no cell, asked after each calculation. */
  rulesOf(unit: string): readonly RuleAsked[];
  /** Told of sheets whose cells were given results without a command. */
  written(sheets: readonly string[]): void;
  /** Called when all results stand in the cells, and when a calculation failed. */
  done(fault?: unknown): void;
}

export class Mirror {
  /** The engine's ids of the sheets, in the calculator's order. */
  sheetIds: readonly string[] = [];
  /** True where the calculator has just read it itself. */
  isFresh = false;
  /** Where it was read from a file, until its first calculation: formulas that cannot be calculated keep their values. */
  file: WorkbookModel | undefined;
  /** unsent: the calculator knows nothing of it, or nothing that still holds. */
  private phase: 'unsent' | 'sending' | 'calculating' | 'asking' | 'calculated' = 'unsent';
  /** Edited while the calculator was at work: it goes on when that is done. */
  private goesOn = false;
  /** The calculator's name for it: another one each time that it is sent. */
  private key = '';
  private sent = 0;
  private stopSending: (() => void) | undefined;
  /** Cells that the engine emptied when they moved, with the value that they keep. */
  private emptied: (SheetCell & { readonly values: Matrix })[] = [];
  private typed: readonly TypedFormula[] = [];
  /** Cells that keep the file's value, and those that rest on one, as they now stand. */
  notRecalculated: readonly NotRecalculated[] = [];
  private edited = new Map<string, ObjectMatrix<true>>();
  private edits = 0;
  private leftOut = '';
  /** True where the file counts days from 1904: cells that show dates then hold other numbers than formulas see. */
  readonly countsFrom1904: boolean;
  /** Where formulas keep results of several cells. */
  private blocks: RangeAddress[] = [];
  private readonly answers: FormulaAnswers;

  constructor(
    private readonly place: MirrorPlace,
    private readonly book: EngineWorkbook,
  ) {
    this.countsFrom1904 = countsFrom1904(book);
    this.answers = new FormulaAnswers(
      (question, asked) => this.place.post({ kind: 'evaluate', book: this.key, question, asked }),
      place.isHere,
    );
  }

  /** True while the calculator has it. */
  get isBusy(): boolean {
    return this.phase === 'sending' || this.phase === 'calculating' || this.phase === 'asking';
  }

  /** True while the calculator has it as it was before the last edits, and nothing to do. */
  get isCalculated(): boolean {
    return this.phase === 'calculated';
  }

  /** It was read from a file by the calculator itself, which knows it by this name. */
  adopt(book: string | undefined, unknown: readonly UnknownInBook[]): void {
    this.sheetIds = this.book.getSheets().map((sheet) => sheet.getSheetId());
    // What such a formula spilled is not in the cells here: the calculator is sent it with them.
    if (this.markUnknown(unknown) || book === undefined) return;
    this.key = book;
    this.phase = 'calculated';
    this.isFresh = true;
  }

  /** Notes what a command does to cells; one that does more than give cells other contents has all sent anew. */
  note({ id, params }: ICommandInfo, options: IExecutionOptions | undefined): void {
    const place: Partial<MutationPlace> | undefined = params;
    if (this.phase === 'unsent' || place?.unitId !== this.book.getUnitId()) return;
    if (RESHAPES.has(id)) this.forget();
    if (id !== SetRangeValuesMutation.id || options?.['applyFormulaCalculationResult']) return;
    const { subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
    const cells = this.edited.get(subUnitId) ?? new ObjectMatrix<true>();
    this.edited.set(subUnitId, cells);
    let isOnBlock = false;
    new ObjectMatrix(cellValue).forValue((row, column, data) => {
      cells.setValue(row, column, true);
      this.edits += 1;
      isOnBlock ||=
        bringsBlock(data) || this.blocks.some((area) => area.sheet === subUnitId && isInRange(area, row, column));
    });
    if (isOnBlock || this.edits > MOST_EDITS) this.forget();
  }

  /** Has the next calculation send the whole workbook again; what is under way counts no more. */
  forget(): void {
    if (this.phase !== 'unsent') this.place.post({ kind: 'end', book: this.key });
    this.lost();
  }

  /** The same where the calculator itself has gone. */
  lost(): void {
    this.stopSending?.();
    this.stopSending = undefined;
    this.phase = 'unsent';
    this.isFresh = false;
    this.goesOn = false;
    this.answers.clear();
    this.edited.clear();
    this.edits = 0;
  }

  /** Has everything calculated that the edits since the last time bear on. */
  calculate(): void {
    if (this.isBusy) {
      this.goesOn = true;
      return;
    }
    this.emptied = [];
    this.isFresh = false;
    if (this.phase === 'unsent') this.send();
    else this.calculateEdits();
  }

  /** Takes an answer of the calculator; one to what is not asked any more is passed over. */
  hear(answer: Answer): void {
    if (answer.book !== this.key || this.phase === 'unsent') return;
    switch (answer.kind) {
      case 'results':
        return this.show(answer.results);
      case 'done':
        return this.finish(answer);
      case 'evaluated':
        return this.answers.take(answer);
      case 'fault':
        // The cells keep their values; the next edit sends the whole workbook again.
        return this.fail(Object.assign(new Error(answer.message), { stack: answer.stack }));
      case 'progress':
        return;
    }
  }

  fail(fault: unknown): void {
    this.forget();
    this.place.done(fault);
  }

  /**
   * What a formula that stands in no cell gives for a cell, when it is written for the one at `row`, `column`;
   * undefined while that is being found out: `known` is called then.
   */
  given(written: WrittenFormula, cell: readonly [row: number, column: number], known: () => void): Result | undefined {
    const sheet = this.sheetIds.indexOf(written.sheet);
    if (sheet < 0 || this.phase !== 'calculated') return undefined;
    return this.answers.given({ ...written, sheet, formula: written.formula.replace(/^=/, '') }, cell, known);
  }

  private get isSending(): boolean {
    return this.phase === 'sending';
  }

  /** Sends everything, in turns. */
  private send(): void {
    this.phase = 'sending';
    this.sent += 1;
    this.key = `${this.book.getUnitId()} ${this.sent}`;
    this.typed = [];
    const stop = this.place.turns(this.sending(), (error) => this.fail(error));
    if (this.isSending) this.stopSending = stop;
  }

  private *sending(): Generator<void> {
    this.sheetIds = this.book.getSheets().map((sheet) => sheet.getSheetId());
    const tables = tablesOf(this.place.injector, this.book);
    this.blocks = [];
    this.leftOut = '';
    this.place.post({
      kind: 'begin',
      book: this.key,
      names: namesOf(this.place.injector, this.book),
      dates1904: this.countsFrom1904,
      styles: this.countsFrom1904 ? STYLES_1904 : [],
      sheets: this.book.getSheets().map((worksheet) => {
        const name = worksheet.getName();
        return {
          name,
          tables: tables.filter(({ range }) => range.sheet === name),
          merges: worksheet.getMergeData().map((range) => toAddress(name, range)),
        };
      }),
    });
    for (const [index, worksheet] of this.book.getSheets().entries()) yield* this.sendingSheet(index, worksheet);
    this.stopSending = undefined;
    // What was edited meanwhile may have been sent as it was, or as it is.
    if (this.isSending) this.calculateEdits();
  }

  private calculateEdits(): void {
    this.phase = 'calculating';
    this.typed = this.takeEdits();
    this.askForResults();
  }

  private *sendingSheet(sheet: number, worksheet: Worksheet): Generator<void> {
    const cells = worksheet.getCellMatrix();
    const textAt = formulaTexts(worksheet);
    const keptBlocks: KeptBlock[] = [];
    const id = worksheet.getSheetId();
    const lineAt = (row: number): PackedCell[] => {
      const line: PackedCell[] = [];
      for (const [key, data] of Object.entries((cells.getRow(row) ?? {}) as Record<string, Nullable<ICellData>>)) {
        const column = Number(key);
        const cell = this.cell({ sheet, row, column }, data, textAt(row, column, data));
        if (!cell) continue;
        line[column] = packCell(cell);
        const block = cell.formula === undefined ? undefined : keptBlock(data, cell.formula);
        if (!block) continue;
        const area = { sheet: id, row, column, rows: block.length, columns: block[0]!.length };
        keptBlocks.push({ area, cell, values: block.map((one) => one.map(fromCellData)) });
      }
      return line;
    };
    for (const piece of rowPieces(cells.getLength(), lineAt)) {
      this.place.post({ kind: 'rows', book: this.key, sheet, ...piece });
      yield;
    }
    for (const block of keptBlocks) {
      const { row, column } = block.area;
      this.blocks.push(block.area);
      // The engine is shown the whole of it, or where something stands in the way its first cell.
      const values = this.sendBlock(sheet, block, cells) ? block.values : [[block.cell.value]];
      this.emptied.push({ sheet, row, column, values });
    }
  }

  /** Sends a kept result with the cells around its formula; false, and nothing, where one of them holds something else. */
  private sendBlock(
    sheet: number,
    { area, cell, values }: KeptBlock,
    cells: ObjectMatrix<Nullable<ICellData>>,
  ): boolean {
    const { row: top, column: left, rows, columns } = area;
    const around = values.flatMap((line, r) =>
      line.flatMap((value, c) => (r + c === 0 ? [] : [{ row: top + r, column: left + c, value }])),
    );
    const isTaken = around.some(({ row, column }) => {
      const data = cells.getValue(row, column);
      return fromCellData(data) !== null || data?.f || data?.si;
    });
    if (isTaken) return false;
    const first = [sheet, top, left, packCell({ ...cell, spill: { rows, columns } })] as const;
    const others = around.map(
      ({ row, column, value }) => [sheet, row, column, packCell({ value, spilled: true })] as const,
    );
    this.place.post({ kind: 'edit', book: this.key, cells: [first, ...others] });
    return true;
  }

  private askForResults(): void {
    const leftOut = this.book.getSheets().map((worksheet) => rowsLeftOut(this.place.injector, worksheet));
    const text = JSON.stringify(leftOut);
    const isNew = text !== this.leftOut;
    this.leftOut = text;
    const selected = this.place.injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range.startRow;
    this.place.post({
      kind: 'calculate',
      book: this.key,
      leftOut: isNew ? leftOut : undefined,
      inView: { sheet: this.sheetIds.indexOf(this.book.getActiveSheet().getSheetId()), row: selected ?? 0 },
    });
  }

  private takeEdits(): TypedFormula[] {
    const typed: TypedFormula[] = [];
    const sent: (readonly [number, number, number, PackedCell])[] = [];
    for (const [sheet, cells] of this.edited) {
      const index = this.sheetIds.indexOf(sheet);
      const worksheet = this.book.getSheetBySheetId(sheet);
      if (index < 0 || !worksheet) continue;
      const textAt = formulaTexts(worksheet);
      cells.forValue((row, column) => {
        const data = this.dataAt(sheet, row, column);
        const cell = this.cell({ sheet: index, row, column }, data, textAt(row, column, data));
        sent.push([index, row, column, packCell(cell)]);
        if (cell?.formula !== undefined) typed.push({ sheet, row, column, text: `=${cell.formula}`, cell });
      });
    }
    this.edited.clear();
    this.edits = 0;
    if (sent.length > 0) this.place.post({ kind: 'edit', book: this.key, cells: sent });
    return typed;
  }

  /** Results come in as many answers as the page takes turns; cells that were edited since keep what was typed. */
  private show(results: readonly Results[]): void {
    const updates = new Updates(this.place.injector, this.book);
    for (const one of results) {
      const sheet = this.sheetIds[one.sheet]!;
      const edited = this.edited.get(sheet);
      if (edited && one.spill && isEditedIn(edited, one.spill)) continue;
      const isLeft = edited ? (row: number, column: number) => edited.getValue(row, column) === true : NONE;
      updates.add(sheet, one, isLeft);
      this.place.messages.record(this.book.getUnitId(), sheet, one, isLeft);
    }
    const written = updates.show();
    if (written.length > 0) this.place.written(written);
  }

  private finish({ results, unknown, notRecalculated }: Answer & { readonly kind: 'done' }): void {
    this.show(results);
    const { file } = this;
    this.file = undefined;
    const ofFile = file ? unknown.filter((one) => !this.isEdited(one)) : [];
    const spilled = ofFile.map((one) => ({
      ...one,
      block: packedSpill(file!.sheets[one.sheet]!, one.row, one.column),
    }));
    if (this.markUnknown(spilled)) {
      // What they spilled in the file is known now.
      this.forget();
      return this.calculate();
    }
    this.notRecalculated = this.namedCells(unknown, notRecalculated);
    if (this.showDates()) return;
    const rules = this.place.rulesOf(this.book.getUnitId());
    this.phase = 'asking';
    this.answers.clear();
    if (rules.length === 0) return this.end({});
    const asked = rules.map((rule) => ({ ...rule, sheet: this.sheetIds.indexOf(rule.sheet) }));
    this.answers.ask(asked, (results) => this.end(otherResults(rules, results)));
  }

  /** Cells without a number format take that of what their typed formulas hand on; true where that has some calculated anew. */
  private showDates(): boolean {
    const typed = this.typed.length <= MOST_TYPED ? this.typed : [];
    this.typed = [];
    const formats = this.formatsOf(typed);
    if (formats.length > 0) {
      const updates = new Updates(this.place.injector, this.book);
      for (const { sheet, row, column, pattern } of formats) updates.format(sheet, row, column, pattern);
      updates.show();
    }
    const dated = this.countsFrom1904 ? formats.filter(({ pattern }) => showsDate(pattern)) : [];
    if (dated.length === 0) return false;
    const cells = dated.map(
      ({ sheet, row, column, cell }) =>
        [this.sheetIds.indexOf(sheet), row, column, packCell({ ...cell, style: DATED })] as const,
    );
    this.place.post({ kind: 'edit', book: this.key, cells });
    this.askForResults();
    return true;
  }

  private end(other: OtherResults): void {
    const updates = new Updates(this.place.injector, this.book);
    for (const { sheet, row, column, values } of this.emptied) {
      const columns = values[0]!.length;
      const results = {
        sheet,
        row,
        column,
        columns,
        values: values.flat().map(packValue),
        ...(values.length * columns > 1 ? { spill: { row, column, rows: values.length, columns } } : {}),
      };
      updates.add(this.sheetIds[sheet]!, results, NONE);
    }
    this.emptied = [];
    updates.show(other);
    this.phase = 'calculated';
    const goesOn = this.goesOn;
    this.goesOn = false;
    if (goesOn) this.calculate();
    else this.place.done();
  }

  /** From now on the marks tell these formulas from those that are typed; true where one of them filled several cells. */
  private markUnknown(unknown: readonly UnknownInBook[]): boolean {
    for (const { sheet, row, column, formula, block } of unknown) {
      const data = this.dataAt(this.sheetIds[sheet]!, row, column);
      const spilled = block?.map((line) => line.map((value) => toValueData(revived(value))));
      if (data) keep(data, formula, spilled);
    }
    return unknown.some(({ block }) => block !== undefined);
  }

  private namedCells(
    unknown: readonly UnknownInBook[],
    notRecalculated: (Answer & { readonly kind: 'done' })['notRecalculated'],
  ): readonly NotRecalculated[] {
    if (notRecalculated.length === 0) return [];
    const reasons = new Map(unknown.map((one) => [placeKey(one), reasonOf(one)]));
    const placeOf = ({ sheet, row, column }: SheetCell): CellPlace => ({ sheet: this.sheetIds[sheet]!, row, column });
    return notRecalculated.map((one) => ({
      ...placeOf(one),
      because: placeOf(one.because),
      reason: reasons.get(placeKey(one.because)) ?? '',
    }));
  }

  private formatsOf(typed: readonly TypedFormula[]): (TypedFormula & { readonly pattern: string })[] {
    const { book } = this;
    const styleOf = (sheet: string, row: number, column: number): string | undefined =>
      book.getStyles().getStyleByCell(this.dataAt(sheet, row, column))?.n?.pattern;
    return typed.flatMap((one) => {
      const { sheet, row, column, text } = one;
      const isError = fromCellData(this.dataAt(sheet, row, column)) instanceof CellError;
      if (isError || styleOf(sheet, row, column) || this.edited.get(sheet)?.getValue(row, column)) return [];
      const pattern = formatOf(text, (name, at) => {
        const named = name === undefined ? sheet : book.getSheetBySheetName(name)?.getSheetId();
        return named && styleOf(named, at.row, at.column);
      });
      return pattern ? [{ ...one, pattern }] : [];
    });
  }

  private isEdited({ sheet, row, column }: SheetCell): boolean {
    return this.edited.get(this.sheetIds[sheet]!)?.getValue(row, column) === true;
  }

  private dataAt(sheet: string, row: number, column: number): Nullable<ICellData> {
    return this.book.getSheetBySheetId(sheet)?.getCellMatrix().getValue(row, column);
  }

  private cell(place: SheetCell, data: Nullable<ICellData>, text: string | undefined): CellModel | undefined {
    const look = this.look(data);
    if (text === undefined) {
      const value = fromCellData(data);
      return value === null && !look ? undefined : { value, ...look };
    }
    const formula = text.replace(/^=/, '');
    const value = this.valueBehind(place, data, formula);
    return isPlain(data, formula) ? { value, formula, plain: true, ...look } : { value, formula, ...look };
  }

  /** How a cell's number is to be taken, where that hangs on whether it shows a date. */
  private look(data: Nullable<ICellData>): { readonly style: number } | undefined {
    if (!this.countsFrom1904 || !data?.s) return undefined;
    return showsDate(this.book.getStyles().getStyleByCell(data)?.n?.pattern ?? '') ? { style: DATED } : undefined;
  }

  /** The value that a formula keeps where it cannot be calculated; null for one that was typed, which then is an error. */
  private valueBehind(place: SheetCell, data: Nullable<ICellData>, formula: string): Cell {
    const value = fromCellData(data);
    // A file's empty text is a value, too.
    if (this.file && !this.isEdited(place)) return value ?? '';
    const kept = data && keptData(data, formula);
    if (!kept) return value instanceof CellError ? null : value;
    const own = fromCellData(kept) ?? '';
    if (value === null && own !== '') this.emptied.push({ ...place, values: [[own]] });
    return own;
  }
}

const NONE = (): boolean => false;
