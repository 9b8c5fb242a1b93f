/** Keys of the whole page: F6 walks between bar, sheet, panel, pane and what the status line offers (the grid keeps Tab for itself), Ctrl+S saves, Ctrl+F finds. */
const AREAS = ['.bar', '.sheet', '.tool', '.pane:not([hidden]) .pane-frame', '.status'] as const;
const FOCUSABLE =
  'button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), a[href], [tabindex="0"]';

export interface KeyActions {
  focusGrid(): void;
  save(): void;
  find(replacing: boolean): void;
  filter(): void;
}

export function listenToKeys(actions: KeyActions): void {
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'F6') {
        walk(event.shiftKey ? -1 : 1, actions);
      } else if (!takeLetter(event, actions)) {
        return;
      }
      event.preventDefault();
      event.stopPropagation();
    },
    // Before the grid, which would take them.
    true,
  );
}

/** Ctrl with a letter; false where it means nothing here. In the pane the browser's own search finds. */
function takeLetter(event: KeyboardEvent, actions: KeyActions): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return false;
  const letter = event.key.toLowerCase();
  const isInPane = document.activeElement?.closest('.pane') !== null;
  if (letter === 's' && !event.shiftKey) actions.save();
  else if ((letter === 'f' || letter === 'h') && !event.shiftKey && !isInPane) actions.find(letter === 'h');
  else if (letter === 'l' && event.shiftKey && !isInPane) actions.filter();
  else return false;
  return true;
}

function walk(step: 1 | -1, { focusGrid }: KeyActions): void {
  const areas = AREAS.flatMap((selector) => document.querySelector<HTMLElement>(selector) ?? []).filter(
    // The status line mostly has nothing to stop at.
    (area) => !area.matches('.status') || area.querySelector(FOCUSABLE),
  );
  const here = areas.findIndex((area) => area.contains(document.activeElement));
  const next = areas[(here + step + areas.length) % areas.length];
  if (next?.classList.contains('sheet')) focusGrid();
  else
    [...(next?.querySelectorAll<HTMLElement>(FOCUSABLE) ?? [])].find((element) => element.checkVisibility())?.focus();
}
