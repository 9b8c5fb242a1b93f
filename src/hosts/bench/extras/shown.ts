/** Shows what a file has beside its cells, over the grid and in the status line; fetched when a workbook is shown. */
import {
  IUniverInstanceService,
  UniverInstanceType,
  type Injector,
  type Workbook as EngineWorkbook,
} from '@univerjs/core';
import { IRenderManagerService } from '@univerjs/engine-render';
import { SheetSkeletonManagerService } from '@univerjs/sheets-ui';
import { cellName, type RangeAddress } from '../../../sheet';
import type { Drawing } from '../../../xlsx/extras/read';
import { XlsxError } from '../../../xlsx';
import { injectorOf, type Engine, type UniverWorkbook } from '../../univer';
import { ConditionalLooks } from '../../univer/extras/conditional-looks';
import { FileExtras } from '../../univer/extras/file-extras';
import { namesOf } from '../../univer/names';
import { valuesOf } from '../../univer/extras/values';
import { paintConditions } from './conditional-paint';
import { drawingsText } from './drawings-text';
import type { ExtrasState } from './state';
import { hoverNotes } from './hover-notes';
import { markNotes, NotesByCell } from './notes-by-cell';
import { linkTarget, type LinkBook } from './link-target';
import { LinksByCell, markLinks } from './links-by-cell';
import { paintDrawings } from './paint-drawings';

export interface ShownPlace {
  readonly engine: Engine;
  readonly workbook: UniverWorkbook;
  /** The file that the workbook came from, without its cells. */
  readonly bare: Uint8Array;
  /** The element that the engine draws into. */
  readonly grid: HTMLElement;
}

export interface Shown {
  dispose(): void;
}

/** Nothing is shown of a file that cannot be read: saving says what is wrong with it. */
export function showExtras(place: ShownPlace, tell: (change: Partial<ExtrasState>) => void): Shown | undefined {
  const { engine, workbook, bare, grid } = place;
  const injector = injectorOf(engine.univer);
  const book = injector
    .get(IUniverInstanceService)
    .getUnit<EngineWorkbook>(workbook.id, UniverInstanceType.UNIVER_SHEET)!;
  const notes = new NotesByCell();
  const links = new LinksByCell(engine, book, () => tellSelected());
  const redraw = (): void => {
    const render = injector.get(IRenderManagerService).getRenderById(workbook.id);
    render?.with(SheetSkeletonManagerService).getCurrentSkeleton()?.resetCache();
    render?.mainComponent?.makeForceDirty();
  };
  const looks = new ConditionalLooks(valuesOf(engine, book), redraw);
  const tellCell = (range: RangeAddress | undefined): void => {
    const sheet = range && book.getSheetBySheetName(range.sheet)?.getSheetId();
    if (sheet === undefined) return tell({ cell: undefined });
    const { row, column } = range!;
    const note = notes.at(sheet, row, column);
    const written = links.at(sheet, row, column);
    const link = written === undefined ? undefined : linkTarget(written, linkBook(book, injector, range!.sheet));
    tell({ cell: note === undefined && !link ? undefined : { name: cellName(row, column), note, link } });
  };
  const tellSelected = (): void => void workbook.selection().then(tellCell, () => tellCell(undefined));
  const textAt = (sheet: string, row: number, column: number): string | undefined => {
    const texts = [notes.at(sheet, row, column), links.at(sheet, row, column)].filter((text) => text !== undefined);
    return texts.length ? texts.join('\n') : undefined;
  };
  const drawingsOn = (sheet: string): readonly Drawing[] => extras.on(sheet)?.drawings ?? [];
  const tellDrawings = (): void => tell({ drawings: drawingsText(drawingsOn(book.getActiveSheet().getSheetId())) });
  const take = (extras: FileExtras): void => {
    const sheets = book.getSheets().map((sheet) => sheet.getSheetId());
    notes.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.notes ?? []]));
    links.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.links ?? []]));
    looks.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.conditions ?? []]));
    tellSelected();
    tellDrawings();
    redraw();
  };
  let extras: FileExtras;
  try {
    extras = new FileExtras(engine, book, bare, () => take(extras));
  } catch (error) {
    if (error instanceof XlsxError) return undefined;
    throw error;
  }
  const sheetInView = book.activeSheet$.subscribe(tellDrawings);
  const stops = [
    workbook.onSelection(tellCell),
    paintConditions(injector, workbook.id, looks),
    engine.calculation.onDone(() => {
      // Where a formula leads may be another place now.
      tellSelected();
      if (looks.isEmpty) return;
      looks.recalculated();
      redraw();
    }),
    paintDrawings(injector, workbook.id, { on: drawingsOn, bytes: (part) => extras.part(part) }, redraw),
    () => sheetInView.unsubscribe(),
    markNotes(injector, workbook.id, notes),
    markLinks(injector, workbook.id, links),
    hoverNotes(injector, workbook.id, grid, textAt, (hovered) => tell({ hovered })),
    () => extras.dispose(),
  ];
  take(extras);
  return { dispose: () => stops.forEach((stop) => stop()) };
}

const linkBook = (book: EngineWorkbook, injector: Injector, sheet: string): LinkBook => ({
  sheets: book.getSheets().map((one) => one.getName()),
  names: namesOf(injector, book),
  sheet,
});
