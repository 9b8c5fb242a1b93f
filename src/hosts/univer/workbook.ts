/** The Workbook port over the embedded engine, with a face (the bench) or without one. */
import {
  BooleanNumber,
  ICommandService,
  IUndoRedoService,
  type Injector,
  type Workbook as EngineWorkbook,
  type Worksheet,
} from '@univerjs/core';
import {
  getPrimaryForRange,
  RemoveSheetMutation,
  ScrollToCellOperation,
  SetSelectionsOperation,
  SetWorksheetActivateCommand,
  SheetsSelectionsService,
} from '@univerjs/sheets';
import { unless } from '../../core/unless';
import {
  checkEdits,
  inTurn,
  askOneByOne,
  readOneByOne,
  WorkbookError,
  showsDate,
  type Cell,
  type Dates1904,
  type Edit,
  type NameModel,
  type WorkbookOutline,
  type RangeAddress,
  type SheetContent,
  type SheetInfo,
  type SheetRequest,
  type TableModel,
  type Unsubscribe,
  type Workbook,
  type WorkbookChange,
  type WorkbookModel,
} from '../../sheet';
import { withBudgetChart } from '../../project';
import {
  XlsxError,
  difference,
  fixedObstacles,
  patchWorkbook,
  readWorkbook,
  shiftWorkbook,
  type Obstacle,
} from '../../xlsx';
import { Changes } from './changes';
import { bookOf, currentBook, isProtected, namesOf, sheetNamed, toAddress, toRange } from './places';
import { Editor } from './edits';
import type { Engine } from './engine';
import { formulaReader, lines, linesInTurns, usedExtent, valueReader } from './cells';
import { Explainer } from './explain';
import type { UndoSteps } from './history';
import { Lists } from './lists';
import { countsFrom1904, currentModel, holdsMore, type CurrentModel } from './snapshot';
import type { NotRecalculated } from './mirror';
import { Refusals } from './structure';
import { Tables } from './tables';

/** A person who edits without a pause is shown what the sheets hold all the same. */
const MOST_READINGS = 4;

export class UniverWorkbook implements Workbook {
  private readonly injector: Injector;
  private readonly book: EngineWorkbook;
  private readonly tablesOfBook: Tables;
  private readonly changes: Changes;
  private readonly editor: Editor;
  /** Sorting and filtering. */
  readonly lists: Lists;
  /** Edits are made one after the other. */
  private readonly inTurn = inTurn();
  private refusals: Refusals | undefined;
  private readonly disposables: { dispose(): void }[];

  /** Over a workbook that `loadWorkbook` has put into the engine under this id. */
  constructor(
    private readonly engine: Engine,
    readonly id: string,
    readonly host: 'bench' | 'headless',
    readonly title: string,
  ) {
    this.injector = engine.injector;
    const book = bookOf(this.injector, id);
    if (!book) throw new WorkbookError('host', `The engine holds no workbook "${id}"`);
    this.book = book;
    this.tablesOfBook = new Tables(this.injector, book);
    this.changes = new Changes(this.injector, book, engine.calculation, () => engine.messages.clear());
    this.editor = new Editor(this.injector, book, this.tablesOfBook, this.history);
    this.lists = new Lists({
      injector: this.injector,
      book,
      history: this.history,
      inTurn: this.inTurn,
      settled: () => this.settled(),
      obstacles: () => this.refusals?.obstacles() ?? [],
    });
    // An undo can take away the sheet that is shown.
    const showAnother = this.injector.get(ICommandService).onCommandExecuted((command) => {
      if (command.id !== RemoveSheetMutation.id || book.getSheetBySheetId(book.getActiveSheet().getSheetId())) return;
      book.setActiveSheet(book.getSheets().find((sheet) => !sheet.isSheetHidden()) ?? book.getSheets()[0]!);
    });
    this.disposables = [this.tablesOfBook, this.changes, this.lists, showAnother];
  }

  /** True once anything was edited, also where it was taken back. */
  get edited(): boolean {
    return this.changes.edited;
  }

  dispose(): void {
    for (const one of this.disposables) one.dispose();
  }

  async sheets(): Promise<readonly SheetInfo[]> {
    return this.sheetInfos();
  }

  outline(small: readonly string[] = []): Promise<WorkbookOutline> {
    return askOneByOne(this, small);
  }

  /**
   * Long sheets are read in turns, all of one moment: where a cell changes meanwhile they are read once more when the
   * results of the change are there, and after a few attempts in one go.
   */
  async readSheets(requests: readonly SheetRequest[]): Promise<readonly (SheetContent | undefined)[]> {
    for (let attempt = 1; attempt <= MOST_READINGS; attempt++) {
      const read = await this.readAtOneMoment(requests);
      if (read) return read;
      await this.settled();
    }
    return readOneByOne(this, requests);
  }

  /** Undefined where a cell has changed meanwhile. */
  private async readAtOneMoment(
    requests: readonly SheetRequest[],
  ): Promise<readonly (SheetContent | undefined)[] | undefined> {
    const before = this.changes.count;
    const holds = (): boolean => this.changes.count === before;
    const inTurns = <T>(range: RangeAddress, lineAt: (row: number) => T): Promise<T[]> =>
      linesInTurns(this.engine.turns, range, lineAt, holds);
    const read = await readOneByOne(
      {
        usedRange: (sheet) => this.usedRange(sheet),
        read: (range) => inTurns(range, this.valuesIn(range)),
        readFormulas: (range) => inTurns(range, this.formulasIn(range)),
      },
      requests,
    );
    return holds() ? read : undefined;
  }

  async usedRange(sheet: string): Promise<RangeAddress | undefined> {
    return this.usedOf(this.sheet(sheet));
  }

  private usedOf(worksheet: Worksheet): RangeAddress | undefined {
    const extent = usedExtent(this.injector, worksheet);
    return extent && { sheet: worksheet.getName(), row: 0, column: 0, ...extent };
  }

  /** Nothing in any cell, no merged cells and no table: a sheet as a new one is. */
  private isEmpty(worksheet: Worksheet): boolean {
    return (
      this.usedOf(worksheet) === undefined &&
      worksheet.getMergeData().length === 0 &&
      !holdsMore(worksheet) &&
      !this.tablesOfBook.list().some(({ range }) => range.sheet === worksheet.getName())
    );
  }

  async read(range: RangeAddress): Promise<Cell[][]> {
    return lines(range, this.valuesIn(range));
  }

  async readFormulas(range: RangeAddress): Promise<(string | null)[][]> {
    return lines(range, this.formulasIn(range));
  }

  private valuesIn(range: RangeAddress): (row: number) => Cell[] {
    return valueReader(this.injector, this.sheet(range.sheet), range);
  }

  private formulasIn(range: RangeAddress): (row: number) => (string | null)[] {
    return formulaReader(this.sheet(range.sheet), range);
  }

  async tables(): Promise<readonly TableModel[]> {
    return this.tablesOfBook.list();
  }

  async names(): Promise<readonly NameModel[]> {
    return namesOf(this.injector, this.book).filter(({ scope }) => scope === undefined);
  }

  apply(label: string, edits: readonly Edit[]): Promise<void> {
    return this.inTurn(async () => {
      const checked = checkEdits(this.shape(), edits);
      await this.changes.asPane(() =>
        this.history.asOneStep(this.book.getUnitId(), label, async () => {
          for (const edit of checked) await this.editor.make(edit);
        }),
      );
    });
  }

  /** The history is the sheet's own: a person's later edit in the grid is taken back first. */
  undo(): Promise<boolean> {
    return this.inTurn(() => this.changes.asPane(() => this.history.undo(this.book.getUnitId())));
  }

  redo(): Promise<boolean> {
    return this.inTurn(() => this.changes.asPane(() => this.history.redo(this.book.getUnitId())));
  }

  async selection(): Promise<RangeAddress | undefined> {
    // What is selected is so in the workbook that is shown, which may be another: the first rows of one that is opened.
    if (currentBook(this.injector) !== this.book) return undefined;
    const selected = this.injector.get(SheetsSelectionsService).getCurrentLastSelection();
    return selected ? toAddress(this.book.getActiveSheet().getName(), selected.range) : undefined;
  }

  async select(range: RangeAddress): Promise<void> {
    const worksheet = this.sheet(range.sheet);
    const target = { unitId: this.book.getUnitId(), subUnitId: worksheet.getSheetId() };
    const commands = this.injector.get(ICommandService);
    if (this.book.getActiveSheet() !== worksheet) await commands.executeCommand(SetWorksheetActivateCommand.id, target);
    const selection = { range: toRange(range), primary: getPrimaryForRange(toRange(range), worksheet), style: null };
    await commands.executeCommand(SetSelectionsOperation.id, { ...target, selections: [selection] });
    if (commands.hasCommand(ScrollToCellOperation.id))
      await commands.executeCommand(ScrollToCellOperation.id, { ...target, range: toRange(range) });
  }

  async explain(sheet: string, row: number, column: number): Promise<string | undefined> {
    // The words come with the result.
    await this.settled();
    return new Explainer(this.engine, this.book).explain({ sheet: this.sheet(sheet).getSheetId(), row, column });
  }

  async dates1904(): Promise<Dates1904 | undefined> {
    if (!countsFrom1904(this.book)) return undefined;
    const styles = this.book.getStyles();
    const shown: Dates1904['shown'][number][] = [];
    for (const worksheet of this.book.getSheets())
      worksheet.getCellMatrix().forValue((row, column, data) => {
        if (data?.s && showsDate(styles.getStyleByCell(data)?.n?.pattern ?? ''))
          shown.push({ sheet: worksheet.getName(), row, column });
      });
    return { shown };
  }

  /** Cells that keep the file's value because their formula cannot be calculated here, and those that rest on one; their sheets by name. */
  uncalculated(): readonly NotRecalculated[] {
    const nameOf = (sheet: string): string => this.book.getSheetBySheetId(sheet)?.getName() ?? '';
    return this.engine.calculation.notRecalculated(this.id).map(({ sheet, row, column, because, reason }) => ({
      sheet: nameOf(sheet),
      row,
      column,
      because: { ...because, sheet: nameOf(because.sheet) },
      reason,
    }));
  }

  async notRecalculated(): Promise<readonly NotRecalculated[]> {
    await this.settled();
    return this.uncalculated();
  }

  /** Resolves when the results of all edits stand in the cells. */
  settled(): Promise<void> {
    return this.engine.calculation.whenDone();
  }

  /** Name of the sheet that is shown. */
  get sheetInView(): string {
    return this.book.getActiveSheet().getName();
  }

  /** The whole workbook as it now stands, to be written into a file; `loaded` is the model that it was loaded from. */
  toModel(loaded?: WorkbookModel): CurrentModel {
    const beside = { tables: this.tablesOfBook.list(), filters: this.lists.filtersOfBook };
    return withBudgetChart(currentModel(this.engine, this.book, beside, loaded));
  }

  /**
   * The file that the workbook came from, with all that was done since: its structure first, then what differs in
   * cells, looks and sheets. Throws XlsxError, and then nothing was changed. `model` is the file's, where it was read.
   */
  saved(bytes: Uint8Array, model?: WorkbookModel): Uint8Array {
    const shifted = shiftWorkbook(bytes, this.engine.structure.of(this.id));
    const loaded = model && shifted === bytes ? model : readWorkbook(shifted);
    return patchWorkbook(shifted, difference(loaded, this.toModel(loaded)));
  }

  /**
   * From now on refuses edits of the structure that the file cannot take.
   * @param bytes the file that the workbook came from
   * @param tell is told why an edit is not made
   */
  guard(bytes: Uint8Array, tell: (reason: string) => void): void {
    let fixed: readonly Obstacle[] | undefined;
    this.refusals = new Refusals(
      this.injector,
      this.book,
      // A file that cannot be read keeps nobody from editing: saving says what is wrong with it.
      () => (fixed ??= unless(XlsxError, () => fixedObstacles(bytes)) ?? []),
      () => this.engine.structure.of(this.id),
      tell,
    );
    this.disposables.push(this.refusals);
  }

  onChange(listener: (change: WorkbookChange) => void): Unsubscribe {
    return this.changes.listen(listener);
  }

  onSelection(listener: (range: RangeAddress) => void): Unsubscribe {
    const service = this.injector.get(SheetsSelectionsService);
    const tell = (): void => void this.selection().then((range) => range && listener(range));
    const subscriptions = [service.selectionMoveEnd$.subscribe(tell), service.selectionSet$.subscribe(tell)];
    return () => subscriptions.forEach((one) => one.unsubscribe());
  }

  private get history(): UndoSteps {
    return this.injector.get(IUndoRedoService) as UndoSteps;
  }

  private shape(): Parameters<typeof checkEdits>[0] {
    const names = namesOf(this.injector, this.book);
    return {
      sheets: this.sheetInfos(),
      isEmpty: (sheet) => this.isEmpty(this.sheet(sheet)),
      tables: this.tablesOfBook.list(),
      names: names.map(({ name }) => name),
      refersTo: names.map(({ refersTo }) => refersTo),
    };
  }

  private sheetInfos(): SheetInfo[] {
    return this.book.getSheets().map((sheet) => ({
      name: sheet.getName(),
      visible: sheet.isSheetHidden() !== BooleanNumber.TRUE,
      protected: isProtected(this.injector, sheet),
    }));
  }

  private sheet(name: string): Worksheet {
    return sheetNamed(this.book, name);
  }
}
