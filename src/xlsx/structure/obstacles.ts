/**
 * What an edit of a sheet's structure cannot cut through: what the standard lets stand in one piece only. Such an
 * edit is refused before it is made; everything else follows its cells.
 */
import { columnName, overlap, rangeName, type RangeAddress } from '../../sheet';
import { areaAfter, isSheet, isWithin, targetOf, type Area } from './areas';
import type { CellOperation } from './operation';

export interface Obstacle {
  readonly sheet: string;
  readonly area: Area;
  readonly kind: 'array' | 'whatif' | 'pivot' | 'source' | 'table' | 'merge';
  /** Name of a table or a pivot table. */
  readonly name?: string;
  /** A table's rows of headers and of totals. */
  readonly headers?: number;
  readonly totals?: number;
}

type LineEdit = Exclude<CellOperation, { kind: 'move' }>;

/** - torn: only some of its columns (or rows) would shift. - cut: lines come or go inside it. */
type Effect = 'none' | 'cut' | 'torn' | 'gone';

/**
 * Why an edit cannot be made, in a sentence; undefined where it can. `isMade` says that it was made already, so that
 * what can be put right is not refused: a table keeps one blank row.
 */
export function refusalOf(edit: CellOperation, obstacles: readonly Obstacle[], isMade = false): string | undefined {
  for (const obstacle of obstacles) {
    const reason = edit.kind === 'move' ? reasonOfMove(edit, obstacle) : reasonOfLines(edit, obstacle, isMade);
    if (reason) return reason;
  }
  return undefined;
}

/** Where obstacles stand after an edit. */
export const obstaclesAfter = (obstacles: readonly Obstacle[], edit: CellOperation): Obstacle[] =>
  obstacles.flatMap((obstacle) => {
    const area = areaAfter(obstacle.area, obstacle.sheet, edit);
    return area ? [{ ...obstacle, area }] : [];
  });

const placeOf = ({ area, sheet }: Obstacle): string => `${rangeName(area)} on ${sheet}`;

const WHOLE = 'Choose whole rows or columns, or edit beside it.';

function reasonOfLines(edit: LineEdit, obstacle: Obstacle, isMade: boolean): string | undefined {
  if (!isSheet(obstacle.sheet, edit.sheet)) return undefined;
  const effect = effectOf(edit, obstacle.area);
  if (effect === 'none') return undefined;
  if (obstacle.kind === 'table')
    return reasonOfTable(edit, obstacle, effect) ?? (isMade ? undefined : reasonOfRows(edit, obstacle));
  const { when, words } = REASONS[obstacle.kind];
  return when.includes(effect) ? words(obstacle) : undefined;
}

interface Reason {
  /** Which edits of it are refused. */
  readonly when: readonly Effect[];
  readonly words: (obstacle: Obstacle) => string;
}

const REASONS: Readonly<Record<Exclude<Obstacle['kind'], 'table'>, Reason>> = {
  array: {
    when: ['cut', 'torn'],
    words: (one) => `One formula fills ${placeOf(one)}. Cells cannot come or go inside it.`,
  },
  whatif: {
    when: ['cut', 'torn'],
    words: (one) => `${placeOf(one)} is a what-if table. Cells cannot come or go inside it.`,
  },
  pivot: {
    when: ['cut', 'torn', 'gone'],
    words: (one) => `${placeOf(one)} is the pivot table ${one.name ?? ''}. Move or remove it in its own program first.`,
  },
  source: {
    when: ['gone'],
    words: (one) => `A pivot table takes its data from ${placeOf(one)}. Remove it in its own program first.`,
  },
  merge: { when: ['torn'], words: (one) => `${placeOf(one)} is one merged cell. Unmerge it first.` },
};

function reasonOfTable(edit: LineEdit, { area, name, headers = 1 }: Obstacle, effect: Effect): string | undefined {
  if (effect === 'torn') return `Only a part of the table ${name} would move. ${WHOLE}`;
  if (effect === 'gone' || edit.kind === 'insert' || edit.axis === 'columns') return undefined;
  return headers > 0 && deleted(edit, area.row, headers) > 0
    ? `Row ${area.row + 1} has the headers of the table ${name}. Keep it, or delete the whole table.`
    : undefined;
}

/** A table needs one row of data. */
function reasonOfRows(edit: LineEdit, { area, name, headers = 1, totals = 0 }: Obstacle): string | undefined {
  const data = area.rows - headers - totals;
  const isLeft = edit.kind === 'insert' || edit.axis === 'columns' || deleted(edit, area.row, area.rows) === area.rows;
  return !isLeft && data > 0 && deleted(edit, area.row + headers, data) === data
    ? `The table ${name} needs one row. Clear the last one instead of deleting it.`
    : undefined;
}

/** How many of the lines from one to another an edit deletes. */
const deleted = ({ at, count }: LineEdit, from: number, lines: number): number =>
  Math.max(0, Math.min(from + lines, at + count) - Math.max(from, at));

function effectOf(edit: LineEdit, area: Area): Effect {
  const isRows = edit.axis === 'rows';
  const [first, count] = isRows ? [area.row, area.rows] : [area.column, area.columns];
  const [from, across] = isRows ? [area.column, area.columns] : [area.row, area.rows];
  const last = first + count - 1;
  if (last < edit.at) return 'none';
  const { within } = edit;
  if (within && (within.to < from || within.from > from + across - 1)) return 'none';
  if (within && (within.from > from || within.to < from + across - 1)) return 'torn';
  if (edit.kind === 'insert') return edit.at > first ? 'cut' : 'none';
  const end = edit.at + edit.count - 1;
  if (edit.at <= first && end >= last) return 'gone';
  return end < first ? 'none' : 'cut';
}

function reasonOfMove(edit: Extract<CellOperation, { kind: 'move' }>, obstacle: Obstacle): string | undefined {
  if (obstacle.kind === 'table' || obstacle.kind === 'source') return undefined;
  const place: RangeAddress = { ...obstacle.area, sheet: obstacle.sheet };
  const { from } = edit;
  if (isWithin(place, from) && obstacle.kind !== 'pivot') return undefined;
  if (!overlap(place, from) && (obstacle.kind === 'merge' || !overlap(place, targetOf(edit)))) return undefined;
  const what = {
    array: 'filled by one formula',
    whatif: 'a what-if table',
    pivot: 'a pivot table',
    merge: 'one merged cell',
  }[obstacle.kind];
  return `${placeOf(obstacle)} is ${what}. Cells cannot be moved out of it or onto it.`;
}

/** "rows 3 to 5 on Parts" */
export function linesText({ axis, at, count, sheet }: LineEdit): string {
  const name = (line: number): string => (axis === 'rows' ? String(line + 1) : columnName(line));
  const one = axis === 'rows' ? 'row' : 'column';
  return count === 1 ? `${one} ${name(at)} on ${sheet}` : `${one}s ${name(at)} to ${name(at + count - 1)} on ${sheet}`;
}
