/** The note of the cell under the pointer, and where it leads, shown beside the pointer; Escape takes it away. */
import type { Injector } from '@univerjs/core';
import { HoverManagerService } from '@univerjs/sheets-ui';
import type { HoveredNote } from './state';

export function hoverNotes(
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
  const move = ({ clientX, clientY }: PointerEvent): void => void (pointer = { x: clientX, y: clientY });
  const key = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') hide();
  };
  const hovering = injector.get(HoverManagerService).currentCell$.subscribe((cell) => {
    const { unitId, subUnitId, row, col } = cell?.location ?? {};
    const text = unitId === unit ? textAt(subUnitId!, row!, col!) : undefined;
    tell(text === undefined ? undefined : { text, ...pointer });
  });
  // Before the engine, which looks for the cell when it hears of the same event.
  grid.addEventListener('pointermove', move, true);
  grid.addEventListener('pointerleave', hide);
  grid.addEventListener('pointerdown', hide, true);
  grid.addEventListener('wheel', hide, true);
  window.addEventListener('keydown', key, true);
  return () => {
    hovering.unsubscribe();
    grid.removeEventListener('pointermove', move, true);
    grid.removeEventListener('pointerleave', hide);
    grid.removeEventListener('pointerdown', hide, true);
    grid.removeEventListener('wheel', hide, true);
    window.removeEventListener('keydown', key, true);
    hide();
  };
}
