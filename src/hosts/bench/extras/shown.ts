/** Shows what a file has beside its cells, over the grid and in the status line; fetched when a workbook is shown. */
import type { Injector } from '@univerjs/core';
import { IRenderManagerService } from '@univerjs/engine-render';
import { HoverManagerService, SheetSkeletonManagerService } from '@univerjs/sheets-ui';
import { cellName, type RangeAddress } from '../../../sheet';
import type { Drawing } from '../../../xlsx/extras/read';
import type { Engine, UniverWorkbook } from '../../univer';
import { ConditionalLooks, valuesOf } from '../../univer/extras/conditional-looks';
import { FileExtras } from '../../univer/extras/file-extras';
import { bookOf, namesOf } from '../../univer/places';
import { linkTarget } from './link-target';
import { LinksByCell, markLinks, markNotes, NotesByCell } from './notes-and-links';
import { paintConditions, paintDrawings } from './painting';
import { drawingsText, type ExtrasState, type HoveredNote } from './state';

/**
 * Gives what takes it away again.
 * @param bare the file that the workbook came from, without its cells
 * @param grid the element that the engine draws into
 */
export function showExtras(
  engine: Engine,
  workbook: UniverWorkbook,
  bare: Uint8Array,
  grid: HTMLElement,
  tell: (change: Partial<ExtrasState>) => void,
): () => void {
  const { injector } = engine;
  const book = bookOf(injector, workbook.id)!;
  const extras = new FileExtras(engine, book, bare, () => take());
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
    if (!range || sheet === undefined) return tell({ cell: undefined });
    const { row, column } = range;
    const note = notes.at(sheet, row, column);
    const written = links.at(sheet, row, column);
    const sheets = book.getSheets().map((one) => one.getName());
    const link =
      written === undefined
        ? undefined
        : linkTarget(written, { sheets, names: namesOf(injector, book), sheet: range.sheet });
    tell({ cell: note === undefined && !link ? undefined : { name: cellName(row, column), note, link } });
  };
  const tellSelected = (): void => void workbook.selection().then(tellCell, () => tellCell(undefined));
  const textAt = (sheet: string, row: number, column: number): string | undefined => {
    const texts = [notes.at(sheet, row, column), links.at(sheet, row, column)].filter((text) => text !== undefined);
    return texts.length ? texts.join('\n') : undefined;
  };
  const drawingsOn = (sheet: string): readonly Drawing[] => extras.on(sheet)?.drawings ?? [];
  const tellDrawings = (): void => tell({ drawings: drawingsText(drawingsOn(book.getActiveSheet().getSheetId())) });
  const take = (): void => {
    const sheets = book.getSheets().map((sheet) => sheet.getSheetId());
    notes.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.notes ?? []]));
    links.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.links ?? []]));
    looks.take(sheets.map((sheet) => [sheet, extras.on(sheet)?.conditions ?? []]));
    tellSelected();
    tellDrawings();
    redraw();
  };
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
  take();
  return () => stops.forEach((stop) => stop());
}

/** The note of the cell under the pointer, and where it leads, shown beside the pointer; Escape takes it away. */
function hoverNotes(
  injector: Injector,
  unit: string,
  grid: HTMLElement,
  textAt: (sheet: string, row: number, column: number) => string | undefined,
  show: (note: HoveredNote | undefined) => void,
): () => void {
  let pointer = { x: 0, y: 0 };
  let isShown = false;
  const tell = (note: HoveredNote | undefined): void => {
    if (note || isShown) show(note);
    isShown = note !== undefined;
  };
  const hide = (): void => tell(undefined);
  const hovering = injector.get(HoverManagerService).currentCell$.subscribe((cell) => {
    const { unitId, subUnitId, row, col } = cell?.location ?? {};
    const text = unitId === unit ? textAt(subUnitId!, row!, col!) : undefined;
    tell(text === undefined ? undefined : { text, ...pointer });
  });
  // Before the engine, which looks for the cell when it hears of the same event.
  const listening = new AbortController();
  const { signal } = listening;
  const how = { capture: true, signal };
  grid.addEventListener('pointermove', ({ clientX, clientY }) => (pointer = { x: clientX, y: clientY }), how);
  grid.addEventListener('pointerleave', hide, { signal });
  grid.addEventListener('pointerdown', hide, how);
  grid.addEventListener('wheel', hide, how);
  window.addEventListener(
    'keydown',
    ({ key }) => {
      if (key === 'Escape') hide();
    },
    how,
  );
  return () => {
    hovering.unsubscribe();
    listening.abort();
    hide();
  };
}
