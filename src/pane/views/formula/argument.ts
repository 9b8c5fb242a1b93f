/** An argument: what was typed into its field, what stands for it in the formula, and what its cells hold. */
import { unitIn } from '../../../core/quantity';
import type { Parameter, UnitSystem } from '../../../functions';
import type { Argument, Cell, CellModel, Matrix, RangeAddress, Workbook } from '../../../sheet';
import {
  FormulaError,
  numberLiteral,
  parseFormula,
  textLiteral,
  tryFormula,
  type FormulaNode,
} from '../../../sheet/formula';
import { readNumber, t } from '../../locale';
import type { PaneContext } from '../../shared/view';
import { isWhole, placeOf, placesIn, within, type Facts, type Place, type Standpoint } from './places';

export type TypedArgument =
  | { readonly kind: 'blank' }
  /** A number or a text of the field itself. */
  | { readonly kind: 'value'; readonly text: string; readonly cell: Exclude<Cell, null> }
  /** A reference, or an expression. */
  | { readonly kind: 'formula'; readonly text: string; readonly node: FormulaNode }
  | { readonly kind: 'wrong'; readonly message: string };

const LONGEST_TEXT = 255;

/**
 * Reads a field.
 * @param isName whether a word is a name of the workbook, which stands for cells
 */
// eslint-disable-next-line complexity -- one way of typing after the other
export function readTypedArgument(
  parameter: Parameter,
  typed: string,
  units: UnitSystem,
  isName: (word: string) => boolean = () => false,
): TypedArgument {
  const text = typed.trim();
  if (text === '') return { kind: 'blank' };
  if (parameter.choices?.includes(text)) return value(text);
  if (text.startsWith('=')) return expression(text.slice(1).trim());
  if (text.startsWith('{')) return expression(text);
  const own = /^"((?:[^"]|"")*)"$/.exec(text)?.[1];
  if (own !== undefined) return value(own.replaceAll('""', '"'));
  const node = tryFormula(text);
  if (node && isReference(node, isName)) return { kind: 'formula', text, node };
  if (parameter.kind === 'flag') return flag(parameter, text);
  const bare = parameter.dimension ? text : text.replace(/\s*°$/, '');
  if (
    parameter.kind === 'number' ||
    parameter.kind === 'integer' ||
    (mayBeNumber(parameter) && /^[-+−.,\d\s’']*\d$/.test(text))
  ) {
    const { dimension } = parameter;
    const read =
      dimension && parameter.kind !== 'text'
        ? readNumber(bare, { dimension, unit: unitIn(dimension, units) })
        : readNumber(bare);
    return 'wrong' in read
      ? { kind: 'wrong', message: read.wrong }
      : { kind: 'value', text: numberLiteral(read.value), cell: read.value };
  }
  return value(text);
}

/** A density, or a block of cells of which there is one; what is a text by nature keeps its noughts: "0012". */
const mayBeNumber = ({ kind, shape, dimension }: Parameter): boolean =>
  shape === 'block' || (kind === 'text' && dimension !== undefined);

const value = (text: string): TypedArgument =>
  text.length > LONGEST_TEXT
    ? {
        kind: 'wrong',
        message: t('A text in a formula has up to {most} characters: put it into a cell', { most: LONGEST_TEXT }),
      }
    : { kind: 'value', text: textLiteral(text), cell: text };

function flag(parameter: Parameter, text: string): TypedArgument {
  try {
    const yes = parameter.read(text, 'in-lb') as boolean;
    return { kind: 'value', text: yes ? 'TRUE' : 'FALSE', cell: yes };
  } catch (error) {
    return { kind: 'wrong', message: error instanceof Error ? error.message : String(error) };
  }
}

function expression(text: string): TypedArgument {
  try {
    return { kind: 'formula', text, node: parseFormula(text) };
  } catch (error) {
    if (error instanceof FormulaError) return { kind: 'wrong', message: error.message };
    throw error;
  }
}

const isReference = (node: FormulaNode, isName: (word: string) => boolean): boolean =>
  ['reference', 'table', 'spill'].includes(node.kind) ||
  (node.kind === 'name' && (node.sheet !== undefined || isName(node.name)));

/** What a field's cells are read through. */
export interface Source {
  readonly workbook: Workbook;
  readonly facts: Facts;
  readonly from: Standpoint;
  /** Whether a word is a name of the workbook, which stands for cells. */
  readonly isName: (word: string) => boolean;
  readonly loadRecalculate: PaneContext['loadRecalculate'];
}

/** A1#: how far it spills is known to the sheet alone. */
const OF_SPILL = /\d#/;

/**
 * What an argument's cells hold, and their place; an expression, which has none, is computed in a small copy of the cells
 * that it reads. Undefined where it cannot be computed here; the workbook itself may still do it.
 */
export async function readArgument(
  node: FormulaNode,
  text: string,
  source: Source,
): Promise<{ readonly argument: Argument; readonly place?: Place } | undefined> {
  const { workbook, facts, from } = source;
  const place = placeOf(node, facts, from);
  if (place) {
    const range = await clipped(workbook, place.range);
    const cells = await workbook.read(range);
    return {
      place: { ...place, range },
      argument: range.rows === 1 && range.columns === 1 ? (cells[0]?.[0] ?? null) : cells,
    };
  }
  if (OF_SPILL.test(text)) return undefined;
  const argument = await compute(
    text,
    await Promise.all(placesIn(node, facts, from).map(({ range }) => clipped(workbook, range))),
    source,
  );
  return argument === undefined ? undefined : { argument };
}

/** Whole columns and rows as far as their sheet is used. */
const clipped = async (workbook: Workbook, range: RangeAddress): Promise<RangeAddress> =>
  isWhole(range) ? within(range, await workbook.usedRange(range.sheet)) : range;

async function compute(
  formula: string,
  ranges: readonly RangeAddress[],
  { workbook, facts, from, loadRecalculate }: Source,
): Promise<Argument | undefined> {
  if (!loadRecalculate) return undefined;
  const sheets = facts.sheets.map(({ name }) => ({
    name,
    cells: [] as (CellModel | undefined)[][],
    tables: facts.tables.filter(({ range }) => range.sheet.toLowerCase() === name.toLowerCase()),
  }));
  const indexOf = (sheet: string): number => sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  for (const range of ranges) put(sheets[indexOf(range.sheet)]?.cells, range, await workbook.read(range));
  // In the formula's own row, for "this row" of a table; beyond all else that is there, so that it can spill.
  const column = Math.max(
    0,
    ...ranges.map((range) => range.column + range.columns),
    ...facts.tables.map(({ range }) => range.column + range.columns),
  );
  const own = indexOf(from.sheet);
  if (own < 0) return undefined;
  (sheets[own]!.cells[from.row] ??= [])[column] = { value: null, formula };
  const { model, kept } = (await loadRecalculate())({ sheets, names: facts.names, styles: [] });
  if (kept.length > 0) return undefined;
  const after = model.sheets[own]!.cells;
  const { value = null, spill } = after[from.row]?.[column] ?? {};
  if (!spill || spill.rows * spill.columns === 1) return value;
  return Array.from({ length: spill.rows }, (_row, r) =>
    Array.from({ length: spill.columns }, (_column, c) => after[from.row + r]?.[column + c]?.value ?? null),
  );
}

function put(cells: (CellModel | undefined)[][] | undefined, { row, column }: RangeAddress, values: Matrix): void {
  if (!cells) return;
  values.forEach((line, r) =>
    line.forEach(
      (value: Cell, c) => value !== null && value !== '' && ((cells[row + r] ??= [])[column + c] = { value }),
    ),
  );
}
