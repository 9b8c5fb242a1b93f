/** What the file says of the selected cell beside its value, in the status line, and the note under the pointer. */
import { useLayoutEffect, useRef } from 'react';
import { useStore } from '../store';
import type { Extras } from './extras';
import type { CellExtras } from './state';

export function CellExtrasLine({ extras }: { readonly extras: Extras }) {
  const { cell, drawings } = useStore(extras);
  return (
    <>
      <span role="status" aria-label="Note" className="status-note">
        {cell && [cell.note, cell.link?.address].some((one) => one !== undefined) ? words(cell) : ''}
      </span>
      <span role="status" aria-label="On this sheet" className="status-note">
        {drawings}
      </span>
      {cell?.link && (
        <button type="button" onClick={() => void extras.openLink()}>
          {cell.link.kind === 'place' ? 'Go to link' : 'Open link'}
        </button>
      )}
      {cell?.note !== undefined && (
        <>
          <button type="button" popoverTarget="cell-note">
            Show note
          </button>
          <div id="cell-note" popover="auto" role="dialog" aria-label={`Note of ${cell.name}`} className="note">
            {cell.note}
          </div>
        </>
      )}
    </>
  );
}

const words = ({ name, note, link }: CellExtras): string =>
  [note === undefined ? '' : `${name} note: ${note}`, link ? `${name} link: ${link.address}` : '']
    .filter((part) => part !== '')
    .join(' · ');

/** Pixels between the pointer and the note. */
const BESIDE = 14;

export function HoveredNoteCard({ extras }: { readonly extras: Extras }) {
  const { hovered } = useStore(extras);
  const card = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const { current } = card;
    if (!current || !hovered) return;
    const { width, height } = current.getBoundingClientRect();
    const place = (at: number, size: number, room: number): number =>
      Math.max(0, at + BESIDE + size > room ? at - BESIDE - size : at + BESIDE);
    current.style.left = `${place(hovered.x, width, window.innerWidth)}px`;
    current.style.top = `${place(hovered.y, height, window.innerHeight)}px`;
  }, [hovered]);
  return hovered ? (
    <div ref={card} role="tooltip" className="note note-hovered">
      {hovered.text}
    </div>
  ) : null;
}
