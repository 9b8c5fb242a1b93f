/** Asks before a link of the file is followed, with its whole address, or says why it is not. */
import { useEffect, useRef } from 'react';
import { useStore } from '../store';
import type { Extras } from './extras';

export function LinkQuestion({ extras }: { readonly extras: Extras }) {
  const { asks } = useStore(extras);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (asks) dialog.current?.showModal();
    else dialog.current?.close();
  }, [asks]);
  const close = (): void => extras.set({ asks: undefined });
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
