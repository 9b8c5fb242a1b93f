/**
 * The message behind an error cell. Excel shows it on the cell's error card and gives it to no script, so
 * the function is called again on the cells that its formula names.
 */
import { call } from '../../functions';
import { CellError, type Argument, type RangeAddress } from '../../sheet';
import { callTerm, type Reference, type Term } from './call-term';
import { formulaOf, fromExcel } from './cells';
import { supports } from './requirements';
import { rangeOf } from './shape';

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
  const term = formula ? callTerm(formula, place.sheet) : undefined;
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
  range.load('values,valueTypes');
  return () => {
    const cells = range.values.map((line: unknown[], r) =>
      line.map((value, c) => fromExcel(value, range.valueTypes[r]?.[c])),
    );
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
