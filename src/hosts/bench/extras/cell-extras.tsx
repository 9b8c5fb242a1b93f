/** What the file says of the selected cell beside its value, in the status line, the note under the pointer, and the question before a link is followed. */
import { useEffect, useLayoutEffect, useRef } from 'react';
import { useStore } from '../../../pane/shared/store';
import type { Extras } from './extras';
import type { CellExtras } from './state';

export function CellExtrasLine({ extras }: { readonly extras: Extras }) {
  const { cell, drawings } = useStore(extras);
  return (
    <>
      <span role="status" aria-label="Note" className="status-note">
        {cell ? words(cell) : ''}
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

/** Asks before a link of the file is followed, with its whole address, or says why it is not. */
export function LinkQuestion({ extras }: { readonly extras: Extras }) {
  const { asks } = useStore(extras);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (asks) dialog.current?.showModal();
    else dialog.current?.close();
  }, [asks]);
  const close = (): void => extras.endQuestion();
  return (
    <dialog ref={dialog} className="question" aria-labelledby="link-question" onClose={close}>
      <p id="link-question">
        {asks?.kind === 'page'
          ? 'Open this address, which the workbook names, in a new tab?'
          : 'This link is not opened.'}
      </p>
      <p className="question-address">{asks?.address}</p>
      {asks?.kind === 'refused' && <p>{asks.reason}</p>}
      <p className="question-answers">
        {asks?.kind === 'page' && (
          <a href={asks.address} target="_blank" rel="noopener noreferrer" onClick={close}>
            Open in a new tab
          </a>
        )}
        <button type="button" onClick={close}>
          {asks?.kind === 'page' ? 'Cancel' : 'Close'}
        </button>
      </p>
    </dialog>
  );
}
