/** The project's lists of parts as one, in inch-pound units: the sheet Parts, and the sheets whose columns are matched. */
import { sameName } from '../../core/names';
import { PARTS, type PartKey } from '../forms';
import { joined, readForm, readHead, withoutSums, type FormHead, type FormRow, type FormSheet } from '../rows';
import { kept, type Problem, type SheetValues } from '../reading';
import { cellName, isBlank, textIn, type Cell } from '../../sheet';
import { piecesIn, readAsOfTotal } from './guess';
import {
  COUNTING,
  dimensionOf,
  GAUGE,
  headersAt,
  saidReadAs,
  type Cells,
  type ColumnMatch,
  type Means,
  type SheetMatch,
} from './meanings';
import { readMatches } from './matches-sheet';
import { isSumName } from '../../core/mass';
import { readUnit, unitIn, type Decimals, type Unit } from '../../core/quantity';
import { systemOf, THICK } from '../units';
import { decimalsOf, measuredCell, moneyCell, piecesCell, sizeCell, thicknessCell } from './cells';

/** The header by which the list is in a system of units: of the sheet Parts, else of the first matched sheet. */
export const partsHead = kept((values: SheetValues): FormHead<PartKey> | undefined => {
  const { matches } = readMatches(values);
  return ownHead(values, matches) ?? (matches[0] && matchedHead(matches[0]));
});

/** A sheet Parts whose columns are matched is read by that, whatever its labels are. */
function ownHead(values: SheetValues, matches: readonly { readonly sheet: string }[]): FormHead<PartKey> | undefined {
  const cells = values(PARTS.sheet);
  return cells && !matches.some(({ sheet }) => sameName(sheet, PARTS.sheet)) ? readPartsHead(cells) : undefined;
}

/**
 * The header of a sheet in the parts list's own form. Weight is of all pieces there: where the label says each piece, or
 * a total adds up for each piece alone, the sheet is a list of another form, and nothing of it is summed in silence.
 */
export function readPartsHead(cells: Cells): FormHead<PartKey> | undefined {
  const head = readHead(PARTS, cells);
  return head && !isOfEachPiece(cells, head) ? head : undefined;
}

/** A long list is asked about many times as it stands. */
const known = new WeakMap<Cells, boolean>();

function isOfEachPiece(cells: Cells, head: FormHead<PartKey>): boolean {
  let is = known.get(cells);
  if (is === undefined) known.set(cells, (is = ofEachPiece(cells, head)));
  return is;
}

function ofEachPiece(cells: Cells, { header, columns }: FormHead<PartKey>): boolean {
  const { weight, each, quantity } = columns;
  if (weight === undefined || each !== undefined) return false;
  if (saidReadAs(textIn(cells[header]![weight])) === 'each piece') return true;
  if (quantity === undefined) return false;
  const named = [columns.component, columns.part].filter((column) => column !== undefined);
  return readAsOfTotal(cells.slice(header + 1), weight, piecesIn(quantity), named) === 'each piece';
}

/** All rows of parts; undefined where there is neither the sheet nor a match. */
export const readPartsLists = kept((values: SheetValues): FormSheet<PartKey> | undefined => {
  const { matches, problems } = readMatches(values);
  const own = ownHead(values, matches) && readForm(PARTS, values(PARTS.sheet)!);
  const matched = matches.map((match) => readMatched(match, values(match.sheet)!));
  const [first, ...others] = [...(own ? [own] : []), ...matched];
  return first && joined<PartKey>(first, others, problems, matched.length > 0);
});

type PartCells = Partial<Record<PartKey, Cell>>;

export interface MatchedList extends FormHead<PartKey> {
  readonly rows: readonly FormRow<PartKey>[];
}

/** The header of a match alone: its columns and their units. */
function matchedHead({ sheet, place, columns }: SheetMatch): FormHead<PartKey> {
  const units: Partial<Record<PartKey, Unit>> = {};
  for (const { means, unit } of columns) {
    const dimension = dimensionOf(means);
    if (dimension) units[means] = readUnit(unit, dimension) ?? unitIn(dimension, 'in-lb');
  }
  const named = systemOf(columns.flatMap(({ means, unit }) => (unit === '' || unit === GAUGE ? [] : units[means])));
  return {
    sheet,
    header: place.row + place.height - 1,
    columns: Object.fromEntries(columns.map(({ means, column }) => [means, column])),
    units,
    named,
    // Where a list measures in both, its weights say in which it is shown.
    system: (named === 'both' ? units.weight?.system : named) ?? 'in-lb',
    refused: [],
    problems: [],
  };
}

/** A row of the list, or a heading between them. */
interface Line {
  readonly row: number;
  readonly cells: PartCells;
  /** What the cell of the weight says, lb: of one piece, where the column is of one piece. */
  readonly stated: number | undefined;
  readonly heading: string | undefined;
}

export function readMatched(match: SheetMatch, values: Cells): MatchedList {
  const head = matchedHead(match);
  const problems: Problem[] = [];
  const lines = linesOf(match, values, head, problems);
  const early = rowAbove(match, values);
  if (early !== undefined)
    problems.push({
      sheet: match.sheet,
      cell: cellName(early, head.columns.weight!),
      message: `is above header row ${match.place.row + 1}, the one on the sheet Matches: the rows above that are left out`,
    });
  const parts = withComponents(match, lines);
  const stated = new Map(lines.map((line) => [line.row, line.stated]));
  const { rows, problems: sums } = withoutSums(
    PARTS,
    head,
    lines.filter(({ heading }) => heading === undefined),
    {
      components: [match.sheet, ...parts.map(({ cells }) => textIn(cells.component))],
      // In a column of one piece each the sum of a subtotal stands as it is, and is multiplied by nothing.
      stated: ({ row }) => stated.get(row),
    },
  );
  const kept = new Set(rows.map(({ row }) => row));
  return { ...head, rows: parts.filter(({ row }) => kept.has(row)), problems: [...problems, ...sums] };
}

/** The first row above the header that has a weight: the header at the top was renamed, and one further down was found. */
function rowAbove({ place, columns }: SheetMatch, values: Cells): number | undefined {
  const weight = columns.find(({ means }) => means === 'weight')?.column;
  const row = values.slice(0, place.row).findIndex((line) => weight !== undefined && typeof line[weight] === 'number');
  return row < 0 ? undefined : row;
}

function linesOf(match: SheetMatch, values: Cells, head: FormHead<PartKey>, problems: Problem[]): Line[] {
  const { sheet, header, units } = head;
  const { columns } = match;
  const labels = columns.map(({ column }) => headersAt(values, match.place)[column]?.labels ?? []);
  const decimals = decimalsIn(columns, values.slice(header + 1));
  return values.slice(header + 1).flatMap((line, index): Line[] => {
    const row = header + 1 + index;
    if (columns.filter(({ column }, at) => labels[at]!.includes(textIn(line[column]))).length > 1) {
      const message = 'repeats the header: the row is left out';
      problems.push({ sheet, cell: cellName(row, columns[0]!.column), message });
      return [];
    }
    const cells: PartCells = {};
    for (const one of columns) {
      const cell = readCell(line[one.column] ?? null, one, units[one.means], decimals);
      if (!isBlank(cell)) cells[one.means] = cell;
    }
    takeSides(cells, units.cutLength, decimals);
    if (!COUNTING.some((means) => cells[means] !== undefined)) {
      const heading = match.component === 'headings' ? headingIn(line) : undefined;
      return heading === undefined ? [] : [{ row, cells, stated: undefined, heading }];
    }
    const stated = typeof cells.weight === 'number' ? cells.weight : undefined;
    // "Total" may stand in any column of its row.
    const total = cells.part ?? cells.component ?? line.find((cell) => typeof cell === 'string' && isSumName(cell));
    if (cells.part === undefined && cells.component === undefined && total) cells.part = total;
    return [{ row, cells: counted(cells, columns), stated, heading: undefined }];
  });
}

/**
 * Length and width of a size that is one text; of three sides the thinnest is the thickness. The longer side is taken for
 * the length, which lies along the grain: common practice, no source. Legs of an angle, or a block, are no sheet: they
 * stay the text that they are.
 */
function takeSides(cells: PartCells, unit: Unit | undefined, decimals: Decimals): void {
  const sides = sizeCell(cells.cutLength ?? null, unit, decimals);
  if (!sides) return;
  const [cutLength, cutWidth, thickness = cells.thickness] = sides.sort((a, b) => b - a);
  const isSheet = sides.length === 2 || (sides[2]! < THICK && (cells.thickness ?? thickness) === thickness);
  if (!isSheet) return;
  cells.cutLength = cutLength!;
  cells.cutWidth ??= cutWidth!;
  if (thickness !== undefined) cells.thickness = thickness;
}

const decimalsIn = (columns: readonly ColumnMatch[], body: Cells): Decimals =>
  decimalsOf(
    columns.flatMap(({ column, means }) => (COUNTING.includes(means) ? body.map((line) => line[column] ?? null) : [])),
  );

/** The one text of a row that has nothing else. */
function headingIn(line: readonly Cell[]): string | undefined {
  const filled = line.filter((cell) => !isBlank(cell) && textIn(cell) !== '');
  const [only] = filled;
  return filled.length === 1 && typeof only === 'string' && !isSumName(only) ? textIn(only) : undefined;
}

function readCell(cell: Cell, { means, unit }: ColumnMatch, own: Unit | undefined, decimals: Decimals): Cell {
  const dimension = dimensionOf(means);
  if (means === 'thickness') return thicknessCell(cell, unit, decimals);
  if (means === 'quantity') return piecesCell(cell, decimals);
  if (means === 'cost') return moneyCell(cell, decimals);
  if (dimension) return measuredCell(cell, dimension, own, decimals);
  return typeof cell === 'string' ? textIn(cell) : cell;
}

/** Pieces of a row; 1 where it does not say how many. */
export const piecesOf = ({ quantity }: PartCells): number =>
  typeof quantity === 'number' && quantity >= 0 ? quantity : 1;

/** Weight and cost of all pieces, where a column is of one piece each; what is on the scale comes before what is computed. */
function counted(cells: PartCells, columns: readonly ColumnMatch[]): PartCells {
  const pieces = piecesOf(cells);
  const isEach = (key: Means): boolean => columns.some(({ means, readAs }) => means === key && readAs === 'each piece');
  const all = { ...cells };
  if (typeof cells.weight === 'number')
    [all.each, all.weight] = isEach('weight')
      ? [cells.weight, cells.weight * pieces]
      : [pieces > 0 ? cells.weight / pieces : cells.weight, cells.weight];
  if (typeof cells.cost === 'number' && isEach('cost')) all.cost = cells.cost * pieces;
  if (typeof cells.weighed === 'number') all.weight = cells.weighed;
  return all;
}

/** The parts, each with its component: of its own cell, of the cell or the heading above, or the sheet's name. */
function withComponents({ sheet, component, columns }: SheetMatch, lines: readonly Line[]): FormRow<PartKey>[] {
  const fills = columns.some(({ means, readAs }) => means === 'component' && readAs === 'as above');
  let above = '';
  return lines.flatMap(({ row, cells, heading }) => {
    const own = heading ?? textIn(cells.component);
    if (own !== '' && !isSumName(own)) above = own;
    if (heading !== undefined) return [];
    const name = component === 'sheet' ? sheet : component === 'headings' || (fills && own === '') ? above : own;
    return [{ row, cells: name === '' ? cells : { ...cells, component: name } }];
  });
}
