/** What the page tells of the open file beside its cells, and in which words. */
import type { Drawing } from '../../../xlsx/extras/read';
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

const MANY = { picture: 'pictures', chart: 'charts', shape: 'shapes' } as const;

/** What lies over a sheet, for those who do not see it, and what becomes of it: "2 charts and 1 picture on this sheet. …"; undefined for none. */
export function drawingsText(drawings: readonly Drawing[]): string | undefined {
  const counts = (['chart', 'picture', 'shape'] as const).flatMap((kind) => {
    const count = drawings.filter((one) => one.kind === kind).length;
    return count === 0 ? [] : [`${count} ${count === 1 ? kind : MANY[kind]}`];
  });
  if (counts.length === 0) return undefined;
  const list = counts.length === 1 ? counts[0]! : `${counts.slice(0, -1).join(', ')} and ${counts.at(-1)!}`;
  const framed = drawings.some(({ kind }) => kind !== 'picture');
  return `${list} on this sheet. The file keeps ${drawings.length === 1 ? 'it' : 'them'}${framed ? '; charts and shapes show as frames' : ''}.`;
}
