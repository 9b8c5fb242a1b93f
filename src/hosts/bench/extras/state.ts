/** What the page tells of the open file beside its cells. */
import type { LinkTarget } from './link-target';

export interface CellExtras {
  /** "B4" */
  readonly name: string;
  readonly note?: string | undefined;
  readonly link?: LinkTarget | undefined;
}

/** A note that is shown beside the pointer, in pixels of the window. */
export interface HoveredNote {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

export interface ExtrasState {
  /** The selected cell, where there is something to say of it. */
  readonly cell?: CellExtras | undefined;
  readonly hovered?: HoveredNote | undefined;
  /** What lies over the sheet in view. */
  readonly drawings?: string | undefined;
  /** The link that the person is asked about. */
  readonly asks?: Exclude<LinkTarget, { kind: 'place' }> | undefined;
}
