/** Shows what a file has beside its cells, over the grid and in the status line; fetched when a workbook is shown. */
import { IUniverInstanceService, UniverInstanceType, type Workbook as EngineWorkbook } from '@univerjs/core';
import { IRenderManagerService } from '@univerjs/engine-render';
import { SheetSkeletonManagerService } from '@univerjs/sheets-ui';
import { cellName, type RangeAddress } from '../../../sheet';
import { XlsxError } from '../../../xlsx';
import { injectorOf, type Engine, type UniverWorkbook } from '../../univer';
import { FileExtras } from '../../univer/extras/file-extras';
import type { ExtrasState } from './extras';
import { hoverNotes } from './hover-notes';
import { markNotes } from './mark-notes';
import { NotesByCell } from './notes-by-cell';

export interface ShownPlace {
  readonly engine: Engine;
  readonly workbook: UniverWorkbook;
  /** The file that the workbook came from. */
  readonly bytes: Uint8Array;
  /** The element that the engine draws into. */
  readonly grid: HTMLElement;
}

export interface Shown {
  dispose(): void;
}

/** Nothing is shown of a file that cannot be read: saving says what is wrong with it. */
export function showExtras(place: ShownPlace, tell: (change: Partial<ExtrasState>) => void): Shown | undefined {
  const { engine, workbook, bytes, grid } = place;
  const injector = injectorOf(engine.univer);
  const book = injector
    .get(IUniverInstanceService)
    .getUnit<EngineWorkbook>(workbook.id, UniverInstanceType.UNIVER_SHEET)!;
  const notes = new NotesByCell();
  const redraw = (): void => {
    const render = injector.get(IRenderManagerService).getRenderById(workbook.id);
    render?.with(SheetSkeletonManagerService).getCurrentSkeleton()?.resetCache();
    render?.mainComponent?.makeForceDirty();
  };
  const tellCell = (range: RangeAddress | undefined): void => {
    const sheet = range && book.getSheetBySheetName(range.sheet)?.getSheetId();
    const note = sheet === undefined ? undefined : notes.at(sheet, range!.row, range!.column);
    tell({ cell: note === undefined ? undefined : { name: cellName(range!.row, range!.column), note } });
  };
  const tellSelected = (): void => void workbook.selection().then(tellCell, () => tellCell(undefined));
  const take = (extras: FileExtras): void => {
    notes.take(book.getSheets().map((sheet) => [sheet.getSheetId(), extras.on(sheet.getSheetId())?.notes ?? []]));
    tellSelected();
    redraw();
  };
  let extras: FileExtras;
  try {
    extras = new FileExtras(engine, book, bytes, () => take(extras));
  } catch (error) {
    if (error instanceof XlsxError) return undefined;
    throw error;
  }
  const stops = [
    workbook.onSelection(tellCell),
    markNotes(injector, workbook.id, notes),
    hoverNotes(injector, workbook.id, grid, notes, (hovered) => tell({ hovered })),
    () => extras.dispose(),
  ];
  take(extras);
  return { dispose: () => stops.forEach((stop) => stop()) };
}
