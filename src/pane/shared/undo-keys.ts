import type { KeyboardEvent } from 'react';

/** Ctrl+Z, Ctrl+Y and Ctrl+Shift+Z (⌘ on a Mac) for a view, except where a text is being typed: there they are the field's own. */
export function undoKeys(store: {
  undo(): Promise<unknown>;
  redo(): Promise<unknown>;
}): (event: KeyboardEvent) => void {
  return (event) => {
    if (
      !(event.ctrlKey || event.metaKey) ||
      event.altKey ||
      (event.target as HTMLElement).matches('input, textarea, select')
    )
      return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) void store.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) void store.redo();
    else return;
    event.preventDefault();
  };
}
