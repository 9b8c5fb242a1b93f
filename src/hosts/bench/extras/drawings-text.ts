/** In words what lies over a sheet, for those who do not see it, and what becomes of it. */
import type { Drawing } from '../../../xlsx/extras/read';

const MANY = { picture: 'pictures', chart: 'charts', shape: 'shapes' } as const;

/** "2 charts and 1 picture on this sheet. …"; undefined for none. */
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
