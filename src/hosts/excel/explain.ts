/**
 * The message behind an error cell. Excel shows it on the cell's error card and gives it to no script, so
 * the function is called again on the cells that its formula names.
 */
import { call, findDefinition, NAMESPACE, type Definition } from '../../functions';
import { CellError, type Argument, type Cell, type RangeAddress } from '../../sheet';
import { cellsOf, LAST_COLUMN, LAST_ROW, partItems, tryFormula, type FormulaNode } from '../../sheet/formula';
import { formulaOf, fromExcel, rangeOf, supports, VALUES, valuesOf } from './requests';

/** The message for one cell; undefined where it is no error, or not one of a plain call of our functions. */
// eslint-disable-next-line complexity -- each step may find that there is nothing to explain
export async function explainCell(context: Excel.RequestContext, place: RangeAddress): Promise<string | undefined> {
  const cell = rangeOf(context, place);
  cell.load('formulas,values,valueTypes');
  const parent = supports('1.12') ? cell.getSpillParentOrNullObject() : undefined;
  parent?.load('formulas,values,rowIndex,columnIndex');
  await context.sync();
  const shown = fromExcel(cell.values[0]?.[0], cell.valueTypes[0]?.[0]);
  if (!(shown instanceof CellError)) return undefined;
  const spilled = parent !== undefined && !parent.isNullObject;
  const anchor = spilled ? parent : cell;
  const formula = formulaOf(anchor.formulas[0]?.[0], anchor.values[0]?.[0]);
  const term = formula ? termOf(tryFormula(formula.slice(1)), place.sheet) : undefined;
  if (term?.kind !== 'call') return undefined;

  const answer = ask(context, term, spilled ? parent.rowIndex : place.row);
  await context.sync();
  const result = answer();
  const [row, column] = spilled ? [place.row - parent.rowIndex, place.column - parent.columnIndex] : [0, 0];
  const found = Array.isArray(result) ? result[row]?.[column] : result;
  // Another error than the one that is shown: the cells have changed since, or a part of the formula is not ours.
  return found instanceof CellError && found.code === shown.code && found.message ? found.message : undefined;
}

/** Asks for the cells that a term needs; call the result, after the sync, for its value. */
function ask(context: Excel.RequestContext, term: Term, row: number): () => Argument {
  if (term.kind === 'value') return () => term.value;
  if (term.kind === 'call') {
    const args = term.args.map((argument) => ask(context, argument, row));
    return () =>
      call(
        term.definition,
        args.map((argument) => argument()),
      );
  }
  const range = referenced(context, term, row);
  range.load(VALUES);
  return () => {
    const cells = valuesOf(range);
    return cells.length === 1 && cells[0]!.length === 1 ? cells[0]![0]! : cells;
  };
}

function referenced(context: Excel.RequestContext, reference: Reference, row: number): Excel.Range {
  const { workbook } = context;
  if (reference.kind === 'range') return rangeOf(context, reference.range);
  if (reference.kind === 'name') return workbook.names.getItem(reference.name).getRange();
  const table = workbook.tables.getItem(reference.table);
  if (reference.kind === 'table') return reference.whole ? table.getRange() : table.getDataBodyRange();
  const body = table.columns.getItem(reference.column).getDataBodyRange();
  return reference.ofRow ? body.getIntersection(body.getEntireColumn().getRow(row)) : body;
}

/** A reference to cells: an address, a table's part, or a defined name. */
type Reference =
  | { readonly kind: 'range'; readonly range: RangeAddress }
  | { readonly kind: 'column'; readonly table: string; readonly column: string; readonly ofRow: boolean }
  | { readonly kind: 'table'; readonly table: string; readonly whole: boolean }
  | { readonly kind: 'name'; readonly name: string };

type Term =
  | { readonly kind: 'value'; readonly value: Cell }
  | Reference
  | { readonly kind: 'call'; readonly definition: Definition; readonly args: readonly Term[] };

/** The term that a node of a sheet's formula is; undefined where it holds more than calls, values and references. */
function termOf(node: FormulaNode | undefined, sheet: string): Term | undefined {
  switch (node?.kind) {
    case undefined:
      return { kind: 'value', value: null };
    case 'value':
      return node;
    case 'sign':
      return signed(node.negative, termOf(node.of, sheet));
    case 'reference': {
      const range = cellsOf(node, sheet);
      // A whole column is a million cells to ask for.
      return range.rows > LAST_ROW || range.columns > LAST_COLUMN ? undefined : { kind: 'range', range };
    }
    case 'table':
      return tableTerm(node.table, node.part);
    case 'name':
      return node.sheet === undefined ? { kind: 'name', name: node.name } : undefined;
    case 'call':
      return callOf(node.name, node.args, sheet);
    default:
      return undefined;
  }
}

const signed = (isNegative: boolean, term: Term | undefined): Term | undefined =>
  term?.kind === 'value' && typeof term.value === 'number'
    ? { kind: 'value', value: isNegative ? -term.value : term.value }
    : undefined;

function callOf(name: string, nodes: readonly (FormulaNode | undefined)[], sheet: string): Term | undefined {
  const definition = name.startsWith(`${NAMESPACE}.`) ? findDefinition(name) : undefined;
  if (!definition) return undefined;
  const args = nodes.map((node) => termOf(node, sheet));
  return args.every((term) => term !== undefined) ? { kind: 'call', definition, args } : undefined;
}

function tableTerm(table: string, part: string): Term | undefined {
  if (table === '') return undefined;
  const { isRow, items } = partItems(part);
  const areas = items.filter(({ isArea }) => isArea).map(({ name }) => name);
  const columns = items.filter(({ isArea }) => !isArea).map(({ name }) => name);
  const area = areas[0] ?? (isRow ? '#this row' : '#data');
  if (areas.length > 1 || columns.length > 1) return undefined;
  const [column] = columns;
  if (column === undefined)
    return area === '#all' || area === '#data' ? { kind: 'table', table, whole: area === '#all' } : undefined;
  return area === '#this row' || area === '#data'
    ? { kind: 'column', table, column, ofRow: area === '#this row' }
    : undefined;
}
