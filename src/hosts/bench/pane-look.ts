/** How the pane stands beside the grid, remembered by the browser. */
export interface PaneLook {
  readonly width: number;
  readonly shown: boolean;
}

export const NARROWEST = 320;
export const WIDEST = 900;
const KEY = 'tarebook.bench.pane';

export function readPaneLook(): PaneLook {
  const usual = { width: 420, shown: window.innerWidth >= 900 };
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return usual;
    const { width, shown } = kept as Partial<PaneLook>;
    return {
      width: typeof width === 'number' ? within(width) : usual.width,
      shown: typeof shown === 'boolean' ? shown : usual.shown,
    };
  } catch {
    // Refused or unreadable storage: the usual look.
    return usual;
  }
}

export function writePaneLook(look: PaneLook): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(look));
  } catch {
    // Where storage is refused the look lasts as long as the page.
  }
}

export const within = (width: number): number => Math.round(Math.min(WIDEST, Math.max(NARROWEST, width)));
