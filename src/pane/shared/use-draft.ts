/** What is typed into a field before it counts: Enter or leaving the field puts it, Escape lets it go. */
import { useState, type KeyboardEvent } from 'react';

/** Takes a text: gives why it is refused, undefined where it is taken, or what is waited for until it is. */
export type Put = (text: string) => string | undefined | Promise<unknown>;

export interface FieldDraft {
  /** Undefined while nothing is being typed. */
  readonly draft: string | undefined;
  /** Why what was typed does not count. */
  readonly refused: string | undefined;
  type(text: string): void;
  put(text: string): void;
  /** Puts what is typed, if there is something. */
  leave(): void;
  onKeyDown(event: KeyboardEvent): void;
}

/** @param onWrong is told the reason of a refusal, and when it is gone */
export function useDraft(put: Put, onWrong?: (wrong: string | undefined) => void): FieldDraft {
  const [draft, setDraft] = useState<string>();
  const [refused, setRefused] = useState<string>();
  const refuse = (reason: string | undefined): void => {
    setRefused(reason);
    onWrong?.(reason);
  };
  const letGo = (): void => {
    setDraft(undefined);
    refuse(undefined);
  };
  const take = (text: string): void => {
    const answer = put(text);
    if (typeof answer === 'string') refuse(answer);
    else if (answer === undefined) letGo();
    else void answer.then(letGo);
  };
  const leave = (): void => {
    if (draft !== undefined) take(draft);
  };
  return {
    draft,
    refused,
    leave,
    put: take,
    type(text) {
      setDraft(text);
      if (refused !== undefined) refuse(undefined);
    },
    onKeyDown(event) {
      if (event.key === 'Enter') leave();
      if (event.key !== 'Escape' || draft === undefined) return;
      event.stopPropagation();
      letGo();
    },
  };
}
