/** Where cells and ranges of a sheet stand after an edit of its structure: by the one mover of references. */
import { overlap, parseRange, rangeName, type RangeAddress } from '../../sheet';
import { LAST_COLUMN, LAST_ROW, moveReferences } from '../../sheet/formula';
import type { CellOperation } from './operation';

/** A rectangle of cells on a sheet that is known. */
export type Area = Omit<RangeAddress, 'sheet'>;

/** Names of sheets compare without regard to case. */
export const isSheet = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** The sheets on which cells get other places. */
export const sheetsOf = (edit: CellOperation): string[] =>
  edit.kind === 'move' ? [edit.from.sheet, edit.to.sheet] : [edit.sheet];

/** True where rows or columns as a whole get other places. */
export function isOfWholeLines(edit: CellOperation, axis: 'rows' | 'columns'): boolean {
  if (edit.kind !== 'move') return edit.axis === axis && !edit.within;
  if (!isSheet(edit.from.sheet, edit.to.sheet)) return false;
  return axis === 'rows' ? edit.from.columns > LAST_COLUMN : edit.from.rows > LAST_ROW;
}

/** A reference text of a sheet ("A1:B2", "A:C") after an edit; undefined where its cells are gone. */
export function refAfter(ref: string, sheet: string, edit: CellOperation): string | undefined {
  if (edit.kind === 'move') {
    const area = parseRange(ref, sheet);
    // Cells that are put somewhere replace what was there.
    if (area && !isWithin(area, edit.from) && overlap(area, targetOf(edit))) return undefined;
    // The element stays where its cells go to another sheet, because it cannot name cells of another sheet.
    if (!isSheet(edit.from.sheet, edit.to.sheet)) return ref;
  }
  const text = moveReferences(ref, sheet, edit);
  return text.includes('#REF!') ? undefined : text;
}

export function areaAfter(area: Area, sheet: string, edit: CellOperation): Area | undefined {
  const text = refAfter(rangeName(area), sheet, edit);
  return text === undefined ? undefined : parseRange(text, sheet);
}

/** Where the cells stand that are moved. */
export const targetOf = ({ from, to }: Extract<CellOperation, { kind: 'move' }>): RangeAddress => ({
  ...from,
  ...to,
});

export const isWithin = (area: RangeAddress, { sheet, ...other }: RangeAddress): boolean =>
  isSheet(area.sheet, sheet) &&
  area.row >= other.row &&
  area.column >= other.column &&
  area.row + area.rows <= other.row + other.rows &&
  area.column + area.columns <= other.column + other.columns;

/** The smallest area that holds both. */
export function around(a: Area, b: Area): Area {
  const row = Math.min(a.row, b.row);
  const column = Math.min(a.column, b.column);
  return {
    row,
    column,
    rows: Math.max(a.row + a.rows, b.row + b.rows) - row,
    columns: Math.max(a.column + a.columns, b.column + b.columns) - column,
  };
}

/** The part of an area in another; undefined where they share no cell. */
export function common(a: Area, b: Area): Area | undefined {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return rows > 0 && columns > 0 ? { row, column, rows, columns } : undefined;
}

/** What is left of an area without another, in at most four pieces. */
function without(area: Area, other: Area): Area[] {
  const cut = common(area, other);
  if (!cut) return [area];
  const bottom = cut.row + cut.rows;
  const right = cut.column + cut.columns;
  return [
    { ...area, rows: cut.row - area.row },
    { ...cut, column: area.column, columns: cut.column - area.column },
    { ...cut, column: right, columns: area.column + area.columns - right },
    { ...area, row: bottom, rows: area.row + area.rows - bottom },
  ].filter(({ rows, columns }) => rows > 0 && columns > 0);
}

/** Several areas after an edit: one of which a part shifts is cut, so that every cell keeps what it had. */
export function areasAfter(areas: readonly Area[], sheet: string, edit: CellOperation): Area[] {
  if (edit.kind === 'move') return areas.flatMap((area) => carriedParts(area, sheet, edit));
  const { within, axis } = edit;
  const band: Area | undefined =
    within &&
    (axis === 'rows'
      ? { row: 0, rows: LAST_ROW + 1, column: within.from, columns: within.to - within.from + 1 }
      : { column: 0, columns: LAST_COLUMN + 1, row: within.from, rows: within.to - within.from + 1 });
  const parts = band && isSheet(sheet, edit.sheet) ? areas.flatMap((area) => cutAt(area, band)) : areas;
  return parts.flatMap((area) => areaAfter(area, sheet, edit) ?? []);
}

const cutAt = (area: Area, band: Area): Area[] => [...without(area, band), common(area, band)].filter((one) => !!one);

function carriedParts(area: Area, sheet: string, edit: Extract<CellOperation, { kind: 'move' }>): Area[] {
  const { from, to } = edit;
  const target = targetOf(edit);
  const moved = isSheet(from.sheet, sheet) && isSheet(to.sheet, sheet) ? common(area, from) : undefined;
  const rest = moved ? without(area, from) : [area];
  const left = isSheet(to.sheet, sheet) ? rest.flatMap((one) => without(one, target)) : rest;
  return moved
    ? [...left, { ...moved, row: moved.row + to.row - from.row, column: moved.column + to.column - from.column }]
    : left;
}

/** "A1:B2 D4" */
export const areasText = (areas: readonly Area[]): string => areas.map(rangeName).join(' ');

/** undefined where one of them is no range. */
export function parseAreas(text: string, sheet: string): RangeAddress[] | undefined {
  const found = text
    .trim()
    .split(/\s+/)
    .map((ref) => parseRange(ref, sheet));
  return found.every((one) => one !== undefined) ? found : undefined;
}

/** The top left cell of the rectangle around areas: what relative references of their formulas are counted from. */
export const baseOf = (areas: readonly Area[]): { row: number; column: number } => ({
  row: Math.min(...areas.map(({ row }) => row)),
  column: Math.min(...areas.map(({ column }) => column)),
});

/** A cell of areas that is still there after an edit, the base itself where it can be, and where it then stands. */
export function survivorOf(
  areas: readonly Area[],
  sheet: string,
  edit: CellOperation,
): { readonly before: { row: number; column: number }; readonly after: { row: number; column: number } } | undefined {
  for (const before of [baseOf(areas), ...areas.flatMap((area) => corners(area, edit))]) {
    const after = areaAfter({ ...before, rows: 1, columns: 1 }, sheet, edit);
    if (after) return { before, after };
  }
  return undefined;
}

function corners({ row, column, rows, columns }: Area, edit: CellOperation): { row: number; column: number }[] {
  const lines = [row, row + rows - 1];
  const across = [column, column + columns - 1];
  if (edit.kind === 'delete') {
    const list = edit.axis === 'rows' ? lines : across;
    const [first, last] = list as [number, number];
    for (const place of [edit.at + edit.count, edit.at - 1]) if (place >= first && place <= last) list.unshift(place);
  }
  return lines.flatMap((line) => across.map((place) => ({ row: line, column: place })));
}

/** The place of a cell after an edit; undefined where the cell is gone. */
export const cellAfter = (row: number, column: number, sheet: string, edit: CellOperation): Area | undefined =>
  areaAfter({ row, column, rows: 1, columns: 1 }, sheet, edit);
