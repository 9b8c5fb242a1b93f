/** Where references are, and references made from numbers and texts. Source: Microsoft, the pages on OFFSET, INDIRECT, ADDRESS, CELL. */
import { CellError, columnName, quoteSheet, type Cell } from '../../sheet';
import {
  LAST_COLUMN,
  LAST_ROW,
  partRange,
  tablePart,
  tryFormula,
  type FormulaNode,
  type ReferenceNode,
} from '../../sheet/formula';
import type { Grid } from '../grid';
import { Areas, failure, firstCell, offSheet, Reference, toMatrix, type Value } from '../values';
import { flagOf, fn, made, numberOf, textOf, unlessError, type Family, type FunctionSpec, type Place } from './define';

const REF = (): CellError => failure('#REF!');

/** What stands for an argument that has to be a reference and is none. */
const noReference = (value: Value): CellError => (value instanceof CellError ? value : failure('#VALUE!'));

const within = (grid: Grid, row: number, column: number, rows: number, columns: number): Reference | CellError =>
  row < 0 || column < 0 || rows < 1 || columns < 1 || row + rows - 1 > LAST_ROW || column + columns - 1 > LAST_COLUMN
    ? offSheet()
    : new Reference(grid, row, column, rows, columns);

function offset([from, down, across, height, width]: Value[]): Value {
  if (!(from instanceof Reference)) return noReference(from);
  return unlessError(
    [numberOf(down), numberOf(across), numberOf(height, from.rows), numberOf(width, from.columns)],
    (...given) => {
      const [rows, columns, tall, wide] = given.map(Math.trunc) as [number, number, number, number];
      // A height below 0 goes up from the first row.
      const top = from.row + rows + (tall < 0 ? tall + 1 : 0);
      const left = from.column + columns + (wide < 0 ? wide + 1 : 0);
      return within(from.grid, top, left, Math.abs(tall), Math.abs(wide));
    },
  );
}

/** A text as the reference that it names. */
function indirect(text: string, isA1: boolean, place: Place): Value {
  const bare = text.trim().replace(/^=/, '');
  if (!isA1) return r1c1(bare, place);
  const node = tryFormula(bare);
  return (node && referred(node, place, 0)) ?? new CellError('#REF!', `INDIRECT: "${text}" is not a reference`);
}

const DEEPEST_NAMES = 20;

/** The reference that a node is by itself; undefined for one that has to be computed. */
function referred(node: FormulaNode, place: Place, depth: number): Reference | CellError | undefined {
  const { book } = place.grid;
  switch (node.kind) {
    case 'reference':
      return located(node, place);
    case 'name': {
      const found = book.name(node.name, node.sheet ?? place.grid.sheet.name);
      const inner = found && depth < DEEPEST_NAMES ? tryFormula(found.refersTo.replace(/^=/, '')) : undefined;
      if (inner) return referred(inner, place, depth + 1);
      return node.sheet === undefined ? tableRange(node.name, '', place) : undefined;
    }
    case 'table':
      return tableRange(node.table, node.part, place);
    default:
      return undefined;
  }
}

function located({ sheet, top, left, bottom, right }: ReferenceNode, place: Place): Reference | CellError {
  const grid = sheet === undefined ? place.grid : place.grid.book.grid(sheet);
  return grid ? within(grid, top.at, left.at, bottom.at - top.at + 1, right.at - left.at + 1) : REF();
}

function tableRange(name: string, part: string, place: Place): Reference | CellError | undefined {
  const { book } = place.grid;
  const table = book.table(name);
  const known = table && tablePart(table, part);
  const range = known && partRange(table, known, place.row);
  if (!range) return undefined;
  const grid = book.grid(range.sheet);
  return grid ? within(grid, range.row, range.column, range.rows, range.columns) : REF();
}

/** R2C3, R[-1]C, R1C1:R3C2, with a sheet before it. */
function r1c1(text: string, place: Place): Value {
  const split = /^(?:(?:'((?:[^']|'')+)'|([^'!]+))!)?(.+)$/.exec(text);
  const sheet = split?.[1]?.replaceAll("''", "'") ?? split?.[2];
  const grid = sheet === undefined ? place.grid : place.grid.book.grid(sheet);
  const corners = split?.[3]?.split(':').map((corner) => /^R(\d+|\[-?\d+\])?C(\d+|\[-?\d+\])?$/i.exec(corner));
  if (!grid || !corners || corners.length > 2 || corners.includes(null)) return REF();
  const at = (part: string | undefined, own: number): number =>
    part === undefined ? own : part.startsWith('[') ? own + Number(part.slice(1, -1)) : Number(part) - 1;
  const rows = corners.map((corner) => at(corner![1], place.row));
  const columns = corners.map((corner) => at(corner![2], place.column));
  const [top, left] = [Math.min(...rows), Math.min(...columns)];
  return within(grid, top, left, Math.max(...rows) - top + 1, Math.max(...columns) - left + 1);
}

/** Kinds of ADDRESS: whether row and column are fixed. */
const LOCKS: readonly (readonly [row: boolean, column: boolean])[] = [
  [true, true],
  [true, false],
  [false, true],
  [false, false],
];

const relative = (at: number): string => (at === 0 ? '' : `[${at}]`);

/** undefined where there is no such cell or kind. */
function addressText(r: number, c: number, kind: number, isA1: boolean): string | undefined {
  if (!LOCKS[kind - 1] || r > LAST_ROW + 1 || c > LAST_COLUMN + 1) return undefined;
  const [fixedRow, fixedColumn] = LOCKS[kind - 1]!;
  if (((isA1 || fixedRow) && r < 1) || ((isA1 || fixedColumn) && c < 1)) return undefined;
  if (isA1) return `${fixedColumn ? '$' : ''}${columnName(c - 1)}${fixedRow ? '$' : ''}${r}`;
  return `R${fixedRow ? r : relative(r)}C${fixedColumn ? c : relative(c)}`;
}

/** ADDRESS: kind 1 fixes both, 2 the row, 3 the column, 4 neither. */
const address = ([rowGiven, columnGiven, kindGiven, a1, sheet]: Value[]): Value =>
  unlessError(
    [numberOf(rowGiven), numberOf(columnGiven), numberOf(kindGiven, 1), flagOf(a1, true)],
    (row, column, kind, isA1) => {
      const text = addressText(Math.trunc(row), Math.trunc(column), Math.trunc(kind), isA1);
      if (text === undefined) return failure('#VALUE!');
      if (sheet === undefined) return text;
      const name = textOf(firstCell(sheet));
      return `${name === '' ? '' : quoteSheet(name)}!${text}`;
    },
  );

const valueAt = ({ grid, row, column }: Reference): Cell => grid.get(row, column);

/** The kinds of CELL that are known here. Those that ask for looks of a cell are not. */
const CELL_INFO = new Map<string, (at: Reference, place: Place) => Cell>([
  [
    'address',
    ({ grid, row, column }, place) => {
      const name = `$${columnName(column)}$${row + 1}`;
      return grid === place.grid ? name : `${quoteSheet(grid.sheet.name)}!${name}`;
    },
  ],
  ['col', ({ column }) => column + 1],
  ['row', ({ row }) => row + 1],
  ['contents', (at) => valueAt(at) ?? 0],
  ['type', (at) => (valueAt(at) === null ? 'b' : typeof valueAt(at) === 'string' ? 'l' : 'v')],
]);

function cellInfo([kind, given]: Value[], place: Place): Value {
  const at = given === undefined ? new Reference(place.grid, place.row, place.column, 1, 1) : given;
  if (!(at instanceof Reference)) return noReference(at);
  return CELL_INFO.get(textOf(firstCell(kind)).toLowerCase())?.(at, place) ?? failure('#VALUE!');
}

/** True where CELL is asked for what is told here. */
const knowsCellInfo = ([kind]: readonly (FormulaNode | undefined)[]): boolean =>
  kind?.kind === 'value' && CELL_INFO.has(String(kind.value).toLowerCase());

/** ROW and COLUMN: of the formula's own cell without an argument, a list for several rows or columns. */
const position = (own: (place: Place) => number, of: (reference: Reference) => Value): FunctionSpec =>
  fn(
    'v',
    0,
    ([reference], place) => {
      if (reference === undefined) return own(place) + 1;
      return reference instanceof Reference ? of(reference) : noReference(reference);
    },
    { place: true },
  );

const list = (first: number, length: number): number[] => Array.from({ length }, (_item, at) => first + at + 1);

const formulaAt = ({ grid, row, column }: Reference): string | undefined => grid.sheet.cells[row]?.[column]?.formula;

/** The formulas of a reference's cells, or what stands for a cell without one. */
const overFormulas = (of: (formula: string | undefined) => Cell): FunctionSpec =>
  fn('v', 1, ([reference]) => {
    if (!(reference instanceof Reference)) return noReference(reference);
    if (reference.isCell) return of(formulaAt(reference));
    const { grid, row, column, rows, columns } = reference.used();
    return made(rows, columns, (r, c) => of(formulaAt(new Reference(grid, row + r, column + c, 1, 1))));
  });

function sheetNumber([value]: Value[], place: Place): Value {
  if (value === undefined) return place.grid.index + 1;
  if (value instanceof Reference) return value.grid.index + 1;
  const grid = place.grid.book.grid(textOf(firstCell(value)));
  return grid ? grid.index + 1 : failure('#N/A');
}

const sizes = (of: (value: Reference) => number, ofBlock: (block: Cell[][]) => number): FunctionSpec =>
  fn(
    'v',
    1,
    ([value]) => {
      // Several ranges have no one size: from memory, verify.
      if (value instanceof Areas) return failure('#REF!');
      return value instanceof Reference ? of(value) : value instanceof CellError ? value : ofBlock(toMatrix(value));
    },
    {
      place: true,
    },
  );

export const referenceFunctions: Family = {
  OFFSET: fn('vcccc', 3, offset, { place: true, reaches: true }),
  INDIRECT: fn(
    'cc',
    1,
    ([text, a1], place) => unlessError([flagOf(a1, true)], (isA1) => indirect(textOf(firstCell(text)), isA1, place)),
    { reaches: true },
  ),
  ADDRESS: fn('ccccc', 2, address),
  CELL: fn('cv', 1, cellInfo, { knows: knowsCellInfo, reaches: true }),
  ROW: position(
    ({ row }) => row,
    (reference) => (reference.rows === 1 ? reference.row + 1 : list(reference.row, reference.rows).map((row) => [row])),
  ),
  COLUMN: position(
    ({ column }) => column,
    (reference) => (reference.columns === 1 ? reference.column + 1 : [list(reference.column, reference.columns)]),
  ),
  ROWS: sizes(
    ({ rows }) => rows,
    (block) => block.length,
  ),
  COLUMNS: sizes(
    ({ columns }) => columns,
    (block) => block[0]?.length ?? 0,
  ),
  AREAS: fn(
    'v',
    1,
    ([value]) => {
      if (value instanceof Areas) return value.parts.length;
      return value instanceof Reference ? 1 : noReference(value);
    },
    {
      place: true,
    },
  ),
  ISREF: fn('v', 1, ([value]) => value instanceof Reference || value instanceof Areas, { place: true }),
  ISFORMULA: overFormulas((formula) => formula !== undefined),
  FORMULATEXT: overFormulas((formula) => (formula === undefined ? failure('#N/A') : `=${formula}`)),
  SHEET: fn('v', 0, sheetNumber, { place: true }),
  SHEETS: fn(
    'v',
    0,
    ([value], place) => (value === undefined ? place.grid.book.grids.length : value instanceof CellError ? value : 1),
    {
      place: true,
    },
  ),
  HYPERLINK: fn('cc', 1, ([link, name]) => (name === undefined ? (link ?? null) : name)),
};
